"""What is said for a text of the screen.

Number words are checked against themselves read back: an independent little reader of English
number words, written from the definition of the decimal system, must give the number again. Unit
names: NIST SP 811 (2008), tables 1 to 8, with US spelling. The rest is common practice, no source.
"""

import re
import unicodedata
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.words.pronunciation import pronounced


@pytest.mark.parametrize(
    ("screen", "said"),
    [
        ("110 psi", "one hundred ten P S I"),
        ("2 psi/min", "two P S I per minute"),
        ("0.5 psi", "zero point five P S I"),
        (".5 psi", "zero point five P S I"),
        ("1 psi", "one P S I"),
        ("80-90 psi", "eighty to ninety P S I"),
        ("80 – 90 psi", "eighty to ninety P S I"),
        ("100 kPa", "one hundred kilopascals"),
        ("6 bar", "six bar"),
        ("24 V", "twenty-four volts"),
        ("24V", "twenty-four volts"),
        ("1 V", "one volt"),
        ("12-V lamp", "twelve volt lamp"),
        ("a 24 V trailer", "a twenty-four volt trailer"),
        ("15 A fuse", "fifteen amp fuse"),
        ("a 60 s hold", "a sixty second hold"),
        ("60 s", "sixty seconds"),
        ("Hold 5 min.", "Hold five minutes."),
        ("2591 mm", "two thousand five hundred ninety-one millimeters"),
        ("1,234 mm", "one thousand two hundred thirty-four millimeters"),
        ("80 in", "eighty inches"),
        ("1 in", "one inch"),
        ("1.0 in", "one point zero inches"),
        ("2 in. of stroke", "two inches of stroke"),
        ("30 ft", "thirty feet"),
        ("1 ft", "one foot"),
        ("20 °C", "twenty degrees Celsius"),
        ("-40 °F", "minus forty degrees Fahrenheit"),
        ("5%", "five percent"),
        ("7.58 bar", "seven point five eight bar"),
        ("0.14 bar/min", "zero point one four bar per minute"),
        ("14 kPa/min", "fourteen kilopascals per minute"),
        ("12 L/min", "twelve liters per minute"),
        ("0.4 scfm", "zero point four standard cubic feet per minute"),
        ("1 scfm", "one standard cubic foot per minute"),
        ("0.51 mm", "zero point five one millimeters"),
    ],
)
def test_quantities_are_said_with_their_unit_in_the_right_number(screen: str, said: str) -> None:
    assert pronounced(screen) == said


@pytest.mark.parametrize(
    ("screen", "said"),
    [
        ("1/4 in", "one quarter inch"),
        ("1/4-in hose", "one quarter inch hose"),
        ("1/2 in", "one half inch"),
        ("3/8 in", "three eighths inch"),
        ("2 1/2 in", "two and a half inches"),
        ("2½ in", "two and a half inches"),
        ("1 1/8 in", "one and one eighth inches"),
        ("1 7/8 in", "one and seven eighths inches"),
        ("15/16 in", "fifteen sixteenths inch"),
        ("2/3 psi/min", "two thirds P S I per minute"),
        ("type 30/30", "type thirty thirty"),
    ],
)
def test_fractions_are_said_as_on_a_ruler(screen: str, said: str) -> None:
    assert pronounced(screen) == said


@pytest.mark.parametrize(
    ("screen", "said"),
    [
        ("12-pin", "twelve pin"),
        ("7-pin", "seven pin"),
        ("7-pin 24 V plug", "seven pin twenty-four volt plug"),
        ("pin B", "pin B"),
        ("pin 6", "pin six"),
        ("Pin 6 in the plug", "Pin six in the plug"),
        ("Pin 2 in position", "Pin two in position"),
        ("the 2 in this row", "the two in this row"),
        ("Type 24L", "Type twenty-four L"),
        ("axles 1-3", "axles one to three"),
        ("trailer_7", "trailer seven"),
        ("#7", "number seven"),
        ("No. 7", "number seven"),
        ("1st axle", "first axle"),
        ("007", "zero zero seven"),
        ("1FUJGLDR9CLBP8834", "one F U J G L D R nine C L B P eight eight three four"),
    ],
)
def test_a_number_that_names_a_thing_takes_no_unit(screen: str, said: str) -> None:
    assert pronounced(screen) == said


@pytest.mark.parametrize(
    ("screen", "said"),
    [
        ("49 CFR 393.11", "forty-nine C F R three ninety-three point eleven"),
        ("393.11 in Table 1", "three ninety-three point eleven in Table one"),
        ("390.5 mm", "three hundred ninety point five millimeters"),
        ("see 570.57", "see five seventy point fifty-seven"),
        ("571.108", "five seventy-one point one oh eight"),
        ("S5.8.3", "S five point eight point three"),
        ("part 393", "part three ninety-three"),
        ("SAE J560 7-pin", "S A E J five sixty, seven pin"),
        ("ISO 1185", "I S O eleven eighty-five"),
        ("ISO 7638-1", "I S O seventy-six thirty-eight dash one"),
        ("ISO 12098", "I S O one two zero nine eight"),
        ("FMVSS 121", "F M V S S one twenty-one"),
        ("101.3 kPa", "one hundred one point three kilopascals"),
    ],
)
def test_standards_are_said_as_their_readers_say_them(screen: str, said: str) -> None:
    assert pronounced(screen) == said


@pytest.mark.parametrize(
    ("screen", "said"),
    [
        ("made 2011", "made twenty eleven"),
        ("2005-04-01", "April first, two thousand five"),
        ("2011-13-45", "twenty eleven to thirteen to forty-five"),
        ("at 10:05", "at ten oh five"),
        ("at 10:30", "at ten thirty"),
        ("at 6:00", "at six o'clock"),
        ("2011 mm", "two thousand eleven millimeters"),
    ],
)
def test_dates_and_times_are_said_as_such(screen: str, said: str) -> None:
    assert pronounced(screen) == said


@pytest.mark.parametrize(
    ("screen", "said"),
    [
        ("ABS", "A B S"),
        ("LED", "L E D"),
        ("LEDs on", "L E D's on"),
        ("As it is", "As it is"),
        ("OK", "okay"),
        ("+", "plus"),
        ("-1", "minus one"),
        ("±0.5 psi", "plus or minus zero point five P S I"),
        ("stop/turn", "stop turn"),
        ("psi/min", "P S I per minute"),
        ("in scfm", "in standard cubic feet per minute"),
        ("w/o power", "without power"),
        ("Supply (red) line", "Supply, red, line"),
        ("Charge to 110 psi\nWait 60 s.", "Charge to one hundred ten P S I. Wait sixty seconds."),
        ("SHUT the valve", "SHUT the valve"),
        ("", ""),
        ("...", "..."),
        ("[[slnc 5000]] <b", "slnc five thousand less than b"),
    ],
)
def test_short_forms_and_symbols_are_said_in_words(screen: str, said: str) -> None:
    assert pronounced(screen) == said


_ONES = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen "
    "sixteen seventeen eighteen nineteen"
)
_TENS = "twenty thirty forty fifty sixty seventy eighty ninety"


def _read_back(words: str) -> int:
    """Read English number words below a million: units add, hundred and thousand multiply."""
    ones, tens = _ONES.split(), _TENS.split()
    thousands = total = 0
    for word in words.replace("-", " ").split():
        if word == "thousand":
            thousands, total = total * 1000, 0
        elif word == "hundred":
            total *= 100
        else:
            total += ones.index(word) if word in ones else 20 + 10 * tens.index(word)
    return thousands + total


@given(st.integers(0, 999_999))
def test_number_words_read_back_give_the_number_again(number: int) -> None:
    assert _read_back(pronounced(f"{number} psi").removesuffix(" P S I")) == number


@given(st.integers(0, 999), st.integers(0, 999))
def test_decimals_are_said_digit_by_digit(whole: int, thousandths: int) -> None:
    said = pronounced(f"{whole}.{thousandths:03} psi").removesuffix(" P S I")
    before, after = said.split(" point ")
    assert _read_back(before) == whole
    assert [_read_back(word) for word in after.split()] == [int(d) for d in f"{thousandths:03}"]


@given(st.dates(min_value=date(1900, 1, 1), max_value=date(2099, 12, 31)))
def test_every_date_is_said_with_the_name_of_its_month(day: date) -> None:
    assert pronounced(day.isoformat()).split()[0] == day.strftime("%B")


_SCREEN_WORDS = (
    "110 2.5 1/4 12-pin psi psi/min in in. V A ABS LEDs OK approx. w/ # - CFR 393.11 J560 "
    "2011-04-01 10:05 pin axle 0 1 x ( ) , . the 3rd ISO 24V"
)
_SCREEN_TEXT = st.one_of(
    st.text(max_size=60),
    st.text(st.characters(), max_size=60),  # lone surrogates too
    st.text("0123456789 .,-/:+#%°()_\nABSLEDVinpsmf½²'x", max_size=60),
    st.lists(st.sampled_from(_SCREEN_WORDS.split()), max_size=12).map(" ".join),
)


@given(_SCREEN_TEXT)
def test_no_text_raises_or_leaves_a_digit_behind(text: str) -> None:
    assert not [c for c in pronounced(text) if c.isdigit()]


@given(_SCREEN_TEXT)
def test_saying_what_is_spoken_changes_nothing(text: str) -> None:
    once = pronounced(text)
    assert pronounced(once) == once


@given(_SCREEN_TEXT)
def test_a_text_with_a_word_or_number_is_never_silent(text: str) -> None:
    has_word = any(c.isdigit() or unicodedata.category(c).startswith("L") for c in text)
    assert not has_word or re.search(r"\w", pronounced(text))


@given(_SCREEN_TEXT)
def test_what_is_spoken_is_one_line_that_utf8_can_hold(text: str) -> None:
    said = pronounced(text)
    said.encode()
    assert said == " ".join(said.split())
