"""How numbers, units and short forms are said in Spanish, as mechanics of the Americas say them.

"110 psi" is "ciento diez libras", "2 1/2 in" is "dos pulgadas y media". `RULES` are tried from top
to bottom, each on what the ones above it left. Unit names are those of NOM-008-SCFI-2002 and CLDR;
that pounds per square inch are called "libras" and how fractions of an inch are said is common
practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from functools import lru_cache

from num2words import num2words

Rule = tuple[str, str | Callable[[re.Match[str]], str]]

_UNITS: dict[str, tuple[str, str]] = {  # on screen: said of one, said of more
    "psi": ("libra", "libras"),
    "PSI": ("libra", "libras"),
    "kPa": ("kilopascal", "kilopascales"),
    "bar": ("bar", "bares"),
    "V": ("voltio", "voltios"),
    "A": ("amperio", "amperios"),
    "W": ("vatio", "vatios"),
    "Ω": ("ohmio", "ohmios"),
    "mm": ("milímetro", "milímetros"),
    "m": ("metro", "metros"),
    "km/h": ("kilómetro por hora", "kilómetros por hora"),
    "in": ("pulgada", "pulgadas"),
    "ft": ("pie", "pies"),
    "mph": ("milla por hora", "millas por hora"),
    "rpm": ("revolución por minuto", "revoluciones por minuto"),
    "s": ("segundo", "segundos"),
    "min": ("minuto", "minutos"),
    "h": ("hora", "horas"),
    "L": ("litro", "litros"),
    "cu in": ("pulgada cúbica", "pulgadas cúbicas"),
    "scfm": ("pie cúbico estándar por minuto", "pies cúbicos estándar por minuto"),
    "kg": ("kilogramo", "kilogramos"),
    "lb": ("libra", "libras"),
    "lb-ft": ("libra pie", "libras pie"),
    "Nm": ("newton metro", "newton metros"),
    "°C": ("grado Celsius", "grados Celsius"),
    "°F": ("grado Fahrenheit", "grados Fahrenheit"),
    "°": ("grado", "grados"),
    "%": ("por ciento", "por ciento"),
}
_FEMININE = frozenset({"psi", "PSI", "in", "cu in", "mph", "rpm", "h", "lb", "lb-ft"})
_PER = {"min": "minuto", "s": "segundo", "h": "hora"}

# Units that are no word of their own: said as such without a number before them too.
_BARE_UNITS = ("psi", "PSI", "kPa", "mm", "rpm", "mph", "scfm")

_FRACTIONS = {  # denominator: one of it, several of it
    2: ("medio", "medios"),
    3: ("un tercio", "tercios"),
    4: ("un cuarto", "cuartos"),
    8: ("un octavo", "octavos"),
    16: ("un dieciseisavo", "dieciseisavos"),
    32: ("un treintaidosavo", "treintaidosavos"),
    64: ("un sesentaicuatroavo", "sesentaicuatroavos"),
}

# Said letter by letter.
_SPELLED = "ABS AC AWG CFR CSV DC DOT EBS FMVSS GAWR GVWR ISO NC PDF QR SAE TMC UN USB"

_WORDS = (  # other short forms
    (r"[Oo][Kk]", "okey"),
    (r"n\.º|[Nn]úm\.|[Nn]\.°", "número"),
    (r"aprox\.?", "aproximadamente"),
    (r"EE\. ?UU\.", "Estados Unidos"),
)

_SYMBOLS = {
    "+": "más",
    "±": "más o menos",
    "&": "y",
    "#": "número",
    "§": "sección",
    "=": "igual a",
    "<": "menos de",
    ">": "más de",
    "≤": "como máximo",
    "≥": "como mínimo",
    "×": "por",
    "≈": "unos",
    "~": "unos",
    "→": "a",
    "@": "arroba",
    "%": "por ciento",
    "°": "grados",
    "(": ", ",
    ")": ", ",
    "•": ", ",
    "·": ", ",
}

_MONTHS = "enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre"
_SAFE_CARDINAL_DIGITS = 15  # longer rows of digits are serial numbers, said digit by digit


# Numbers


@lru_cache(maxsize=4096)
def _cardinal(digits: str) -> str:
    """Say a whole number; `digits` holds nothing but digits."""
    if len(digits) > _SAFE_CARDINAL_DIGITS or (digits[0] == "0" and len(digits) > 1):
        return _one_by_one(digits)
    return str(num2words(int(digits), lang="es"))


def _one_by_one(digits: str) -> str:
    return " ".join(_cardinal(digit) for digit in digits)


def _before(number: str, *, feminine: bool) -> str:
    """A number as it stands before what it counts: "un metro", "veintiuna pulgadas"."""
    if not number.endswith("uno"):
        return number
    if feminine:
        return f"{number[:-1]}a"
    return f"{number[:-9]}veintiún" if number.endswith("veintiuno") else number[:-1]


def _number(digits: str) -> str:
    whole, _, decimals = digits.replace(",", "").partition(".")
    text = _cardinal(whole or "0")
    return f"{text} punto {_one_by_one(decimals)}" if decimals else text


# Replacements for the rules


def _part(over: str, under: int, *, feminine: bool) -> str:
    """A fraction: "media", "tres cuartos"."""
    one, several = _FRACTIONS[under]
    if over != "1":
        return f"{_before(_cardinal(over), feminine=False)} {several}"
    return "media" if under == 2 and feminine else one


def _say_amount(match: re.Match[str]) -> str:
    """Say a number, plain or with a fraction, and the unit that may follow it."""
    whole, over, plain, unit = match["whole"], match["over"], match["number"], match["unit"]
    feminine = unit in _FEMININE
    one, several = _UNITS[unit] if unit else ("", "")
    per = f" por {_PER[match['per']]}" if match["per"] else ""
    if over is None:
        spoken = _number(plain)
        if unit:
            spoken = spoken if "punto" in spoken else _before(spoken, feminine=feminine)
            spoken = f"{spoken} {one if plain == '1' else several}"
        return f" {spoken}{per} "
    part = _part(over, int(match["under"]), feminine=feminine)
    if whole is None:
        # "media pulgada", but "tres cuartos de pulgada".
        link = " " if part in ("media", "medio") else " de "
        return f" {part}{link}{one}{per} " if unit else f" {part} "
    spoken = _cardinal(whole)
    if unit:
        spoken = f"{_before(spoken, feminine=feminine)} {one if whole == '1' else several}"
    return f" {spoken}{per} y {part} "


def _say_date(match: re.Match[str]) -> str:
    try:
        day = date(*(int(group) for group in match.groups()))
    except ValueError:
        return match[0]
    month = _MONTHS.split()[day.month - 1]
    number = "primero" if day.day == 1 else _cardinal(str(day.day))
    return f" {number} de {month} de {_cardinal(str(day.year))}, "


def _say_time(match: re.Match[str]) -> str:
    hour, minute = int(match[1]), int(match[2])
    hour_text = f"{_before(_cardinal(str(hour)), feminine=True)} {'hora' if hour == 1 else 'horas'}"
    return f" {hour_text} {_cardinal(str(minute))} " if minute else f" {hour_text} "


def _any_of(words: str) -> str:
    return "|".join(words.split())


_UNIT = "|".join(re.escape(unit) for unit in sorted(_UNITS, key=len, reverse=True))
_NUMBER = r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|\.\d+"
_UNDER = "|".join(map(str, _FRACTIONS))
_AMOUNT = rf"""(?x)
    (?: (?:(?P<whole>\d+)\ )? (?<![\d/.])(?P<over>[1-9]\d?)/(?P<under>{_UNDER})(?![\d/])
      | (?P<number>{_NUMBER}) )
    (?: [\ -]? (?P<unit>{_UNIT}) (?!-?\w) (?: /(?P<per>{"|".join(_PER)})\b )?
      | -(?=[A-Za-z]) )?
"""

RULES: tuple[Rule, ...] = (
    (r"(?<=[^\s.,:;!?]) *\n", ". "),
    # Names made of digits
    (r"\b(?=\w*\d)[A-HJ-NPR-Z0-9]{17}\b", lambda vin: " ".join(vin[0])),
    (r"\b(\d{4})-(\d\d)-(\d\d)(?:T(?=\d)|\b)", _say_date),
    (r"\b([01]?\d|2[0-3]):([0-5]\d)\b", _say_time),
    (r"\d+(?:\.\d+){2,}", lambda v: f" {' punto '.join(map(_cardinal, v[0].split('.')))} "),
    # Sections of rules: "393.11" is "trescientos noventa y tres punto once".
    (
        rf"\b((?:39|57)\d)\.(\d{{1,3}})(?!\d| ?(?:{_UNIT})(?!\w))",
        lambda s: f" {_cardinal(s[1])} punto {_cardinal(s[2])} ",
    ),
    # Between, before and after numbers
    (r"(?<=\d)(?:[-–]| [-–] )(?=\d)", " a "),
    (r"(?<=\d) ?[x×] ?(?=\d)", " por "),
    (r"(?<![\w)])-(?=\.?\d)", " menos "),
    (_AMOUNT, _say_amount),
    # What is left without a number
    *((rf"\b{unit}\b", _UNITS[unit][1]) for unit in _BARE_UNITS),
    (rf"(?<=\w)/({'|'.join(_PER)})\b", lambda rate: f" por {_PER[rate[1]]}"),
    *((rf"(?<!\w){word}(?!\w)", said) for word, said in _WORDS),
    *((re.escape(symbol), f" {said} ") for symbol, said in _SYMBOLS.items()),
    (rf"\b({_any_of(_SPELLED)})\b", lambda a: " ".join(a[1])),
)
"""What is looked for, as a regular expression, and what is said for it."""
