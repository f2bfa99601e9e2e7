"""What is said in Spanish for numbers, units and fractions.

Units are checked against CLDR's names (Babel), whole numbers against num2words. Numbers that end in
one, before a thing of either gender, are after the Real Academia Española's Ortografía, from
memory; that a psi is called a pound, and how fractions of an inch are said, is common practice.
"""

import re

import pytest
from babel.units import format_unit
from hypothesis import given
from hypothesis import strategies as st
from num2words import num2words

from walkaround.words.pronunciation import pronounced

CLDR = {
    "in": "length-inch",
    "ft": "length-foot",
    "mm": "length-millimeter",
    "m": "length-meter",
    "kg": "mass-kilogram",
    "L": "volume-liter",
    "s": "duration-second",
    "min": "duration-minute",
    "h": "duration-hour",
    "kPa": "pressure-kilopascal",
    "V": "electric-volt",
    "A": "electric-ampere",
    "W": "power-watt",
    "Ω": "electric-ohm",
    "km/h": "speed-kilometer-per-hour",
    "mph": "speed-mile-per-hour",
}


def es(text: str) -> str:
    return pronounced(text, "es")


@pytest.mark.parametrize("unit", CLDR)
@pytest.mark.parametrize("number", [1, 2, 60])
def test_units_are_named_as_cldr_names_them(unit: str, number: int) -> None:
    named = format_unit(number, CLDR[unit], length="long", locale="es_US").partition(" ")[2]
    said = es(f"{number} {unit}").partition(" ")[2]
    assert said == named


@pytest.mark.parametrize(
    ("screen", "said"),
    [
        ("110 psi", "ciento diez libras"),
        ("1 psi", "una libra"),
        ("21 psi", "veintiuna libras"),
        ("31 psi", "treinta y una libras"),
        ("101 mm", "ciento un milímetros"),
        ("21 min", "veintiún minutos"),
        ("31 kPa", "treinta y un kilopascales"),
        ("2 psi/min", "dos libras por minuto"),
        ("0.5 psi", "cero punto cinco libras"),
        ("1.0 in", "uno punto cero pulgadas"),
        ("80 a 90 psi", "ochenta a noventa libras"),
        ("80-90 psi", "ochenta a noventa libras"),
        ("7.58 bar", "siete punto cinco ocho bares"),
        ("2,591 mm", "dos mil quinientos noventa y un milímetros"),
        ("-40 °C", "menos cuarenta grados Celsius"),
        ("5 %", "cinco por ciento"),
        ("24 V", "veinticuatro voltios"),
        ("12 mm²", "doce milímetros cuadrados"),
        ("pin 7", "pin siete"),
        ("eje 1, lado izquierdo", "eje uno, lado izquierdo"),
        ("tipo 30/30", "tipo treinta treinta"),
        ("a las 14:05", "a las catorce horas cinco"),
        ("01:00", "una hora"),
        ("2026-11-25", "veinticinco de noviembre de dos mil veintiséis"),
        ("2026-05-01", "primero de mayo de dos mil veintiséis"),
        ("1FUJGLDR9CLBP8834", "uno F U J G L D R nueve C L B P ocho ocho tres cuatro"),
        (
            "49 CFR 393.47",
            "cuarenta y nueve C F R trescientos noventa y tres punto cuarenta y siete",
        ),
        ("ABS", "A B S"),
        ("¿Está roto? ¡No entre!", "Está roto? No entre!"),
    ],
)
def test_quantities_and_names_are_said_as_in_the_trade(screen: str, said: str) -> None:
    assert es(screen) == said


@pytest.mark.parametrize(
    ("screen", "said"),
    [
        ("1/2 in", "media pulgada"),
        ("1/4 in", "un cuarto de pulgada"),
        ("3/4 in", "tres cuartos de pulgada"),
        ("1/16 in", "un dieciseisavo de pulgada"),
        ("15/16 in", "quince dieciseisavos de pulgada"),
        ("2 1/2 in", "dos pulgadas y media"),
        ("2½ in", "dos pulgadas y media"),
        ("1 3/4 in", "una pulgada y tres cuartos"),
        ("1 7/8 in", "una pulgada y siete octavos"),
        ("1/2 h", "media hora"),
        ("1 1/2 h", "una hora y media"),
        ("1/2", "medio"),
    ],
)
def test_fractions_are_said_as_on_a_ruler(screen: str, said: str) -> None:
    assert es(screen) == said


@given(st.integers(2, 10**9).filter(lambda n: n % 10 != 1))
def test_a_whole_number_before_a_unit_is_that_of_num2words(number: int) -> None:
    assert es(f"{number} mm") == f"{num2words(number, lang='es')} milímetros"


@given(st.text(alphabet="0123456789 /.,-:psimnkPahb°%()½²áñ¿¡ABS", max_size=60))
def test_whatever_is_written_no_digit_is_left_and_saying_it_again_changes_nothing(
    text: str,
) -> None:
    said = es(text)
    assert not re.search(r"\d", said)
    assert es(said) == said
