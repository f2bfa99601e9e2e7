"""How numbers, units and short forms are said in US trade English: tables, then the rules.

"110 psi" is "one hundred ten P S I", "1/4 in" is "one quarter inch". `RULES` are tried from top to
bottom, each on what the ones above it left. Unit names follow NIST SP 811 with US spelling; how the
trade says numbers of standards, years and fractions is common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from functools import lru_cache

from num2words import num2words

Rule = tuple[str, str | Callable[[re.Match[str]], str]]

_UNITS: dict[str, tuple[str, str]] = {  # on screen: said of one, said of more
    "psi": ("P S I", "P S I"),
    "PSI": ("P S I", "P S I"),
    "kPa": ("kilopascal", "kilopascals"),
    "bar": ("bar", "bar"),
    "V": ("volt", "volts"),
    "A": ("amp", "amps"),
    "W": ("watt", "watts"),
    "Ω": ("ohm", "ohms"),
    "mm": ("millimeter", "millimeters"),
    "m": ("meter", "meters"),
    "km/h": ("kilometer per hour", "kilometers per hour"),
    "in": ("inch", "inches"),
    "ft": ("foot", "feet"),
    "mph": ("mile per hour", "miles per hour"),
    "rpm": ("R P M", "R P M"),
    "s": ("second", "seconds"),
    "min": ("minute", "minutes"),
    "h": ("hour", "hours"),
    "L": ("liter", "liters"),
    "cu in": ("cubic inch", "cubic inches"),
    "scfm": ("standard cubic foot per minute", "standard cubic feet per minute"),
    "kg": ("kilogram", "kilograms"),
    "lb": ("pound", "pounds"),
    "lb-ft": ("pound foot", "pound feet"),
    "Nm": ("newton meter", "newton meters"),
    "°C": ("degree Celsius", "degrees Celsius"),
    "°F": ("degree Fahrenheit", "degrees Fahrenheit"),
    "°": ("degree", "degrees"),
    "%": ("percent", "percent"),
}
_PER = {"min": "minute", "s": "second", "h": "hour"}

# Units that are no word or letter of their own: said as such without a number before them too.
_BARE_UNITS = ("psi", "PSI", "kPa", "mm", "rpm", "mph", "scfm")

_FRACTIONS = {  # denominator: one of it, several of it
    2: ("half", "halves"),
    3: ("third", "thirds"),
    4: ("quarter", "quarters"),
    8: ("eighth", "eighths"),
    16: ("sixteenth", "sixteenths"),
    32: ("thirty-second", "thirty-seconds"),
    64: ("sixty-fourth", "sixty-fourths"),
}

# Said letter by letter.
_SPELLED = "ABS AC AWG CFR CSV DC DOT EBS FMVSS GAWR GVWR ID ISO LED PDF QR SAE TMC UK US USB"

_WORDS = (  # other short forms
    (r"[Oo][Kk]", "okay"),
    (r"LH", "left hand"),
    (r"RH", "right hand"),
    (r"approx\.?", "about"),
    (r"vs\.?", "versus"),
    (r"w/o", "without"),
    (r"w/", "with"),
)

_SYMBOLS = {
    "+": "plus",
    "±": "plus or minus",
    "&": "and",
    "#": "number",
    "§": "section",
    "=": "equals",
    "<": "less than",
    ">": "more than",
    "≤": "at most",
    "≥": "at least",
    "×": "by",
    "≈": "about",
    "~": "about",
    "→": "to",
    "@": "at",
    "%": "percent",
    "°": "degrees",
    "(": ", ",
    ")": ", ",
    "•": ", ",
    "·": ", ",
}

# After these a number is a name, so that "pin 6 in the plug" is not six inches.
_LABELS = "axle bay chamber pin position round row spot step type"
# After these a number is the name of a standard, said as its readers say it: "five sixty".
_STANDARDS = "CFR FMVSS ISO SAE STD RP J part Part section Section §"
# "in" before one of these is no inch.
_PLACES = "a all an any both each either every its one order place that the these this turn your"
# A quantity before one of these is said in the singular: "a twenty-four volt trailer".
_THINGS = (
    "battery box bulb bus cable charger circuit connector drop fuse hold hose lamp line outlet "
    "plug socket source supply system tape test trailer truck vehicle wire wiring"
)

_MONTHS = "January February March April May June July August September October November December"
_SAFE_CARDINAL_DIGITS = 15  # longer rows of digits are serial numbers, said digit by digit


# Numbers


@lru_cache(maxsize=4096)
def _cardinal(digits: str) -> str:
    """Say a whole number as US English does, without "and"; `digits` holds nothing but digits."""
    if len(digits) > _SAFE_CARDINAL_DIGITS or (digits[0] == "0" and len(digits) > 1):
        return _one_by_one(digits)
    return _words(int(digits))


def _words(number: int, kind: str = "cardinal") -> str:
    return str(num2words(number, to=kind)).replace(" and ", " ").replace(",", "")


def _one_by_one(digits: str) -> str:
    return " ".join(_cardinal(digit) for digit in digits)


def _number(digits: str) -> str:
    whole, _, decimals = digits.replace(",", "").partition(".")
    text = _cardinal(whole or "0")
    return f"{text} point {_one_by_one(decimals)}" if decimals else text


def _as_a_name(digits: str) -> str:
    """Say the number of a standard: 560 "five sixty", 108 "one oh eight", 4007 "forty oh seven".

    Longer ones go digit by digit; whole hundreds and thousands are said as such.
    """
    if len(digits) not in (3, 4) or digits[0] == "0" or digits.endswith("00"):
        return _cardinal(digits) if len(digits) <= 4 else _one_by_one(digits)
    head, tail = digits[:-2], digits[-2:]
    return f"{_cardinal(head)} {'oh ' if tail[0] == '0' else ''}{_cardinal(tail.lstrip('0'))}"


def _fraction(whole: str | None, over: str, under: str) -> str:
    one, several = _FRACTIONS[int(under)]
    if over == "1":
        part = f"{'a' if whole and int(under) <= 4 else 'one'} {one}"
    else:
        part = f"{_cardinal(over)} {several}"
    return f"{_cardinal(whole)} and {part}" if whole else part


# Replacements for the rules


def _say_amount(match: re.Match[str]) -> str:
    """Say a number, plain or with a fraction, and the unit that may follow it."""
    over, plain, unit = match["over"], match["number"], match["unit"]
    amount = _fraction(match["whole"], over, match["under"]) if over else _number(plain)
    if unit is None:
        return f" {amount} "
    is_one = plain == "1" or (over is not None and match["whole"] is None)
    describes = match["joined"] == "-" or match["thing"] is not None
    unit_said = _UNITS[unit][0 if is_one or describes else 1]
    per = f" per {_PER[match['per']]}" if match["per"] else ""
    return f" {amount} {unit_said}{per} "


def _say_standard(match: re.Match[str]) -> str:
    section = f" point {_as_a_name(match['section'])}" if match["section"] else ""
    part = f" dash {_as_a_name(match['part'])}" if match["part"] else ""
    pause = "," if match["next"] is not None else ""
    return f"{match['name'].rstrip(' -')} {_as_a_name(match['digits'])}{section}{part}{pause} "


def _say_date(match: re.Match[str]) -> str:
    try:
        day = date(*(int(group) for group in match.groups()))
    except ValueError:
        return match[0]
    month = _MONTHS.split()[day.month - 1]
    return f" {month} {_words(day.day, 'ordinal')}, {_words(day.year, 'year')}, "


def _say_time(match: re.Match[str]) -> str:
    hour, minute = _cardinal(str(int(match[1]))), match[2]
    if minute == "00":
        return f" {hour} o'clock "
    return f" {hour} {'oh ' if minute[0] == '0' else ''}{_cardinal(minute.lstrip('0'))} "


def _any_of(words: str) -> str:
    return "|".join(words.split())


_LABELLED = rf"\b(?<!\d-)((?i:{_any_of(_LABELS)})s?) (\d+)(?![.,/]?\d)"
_UNIT = "|".join(re.escape(unit) for unit in sorted(_UNITS, key=len, reverse=True))
_STANDARD = (
    rf"(?P<name>\b(?:{_any_of(_STANDARDS)})[ -]?"
    rf"|\b(?=(?:39|57)\d\.\d{{1,3}}(?!\d| ?(?!in\b)(?:{_UNIT})(?!\w))))"
    r"(?P<digits>\d+)(?:\.(?P<section>\d+))?(?:-(?P<part>\d+))?(?P<next>(?= \d))?"
)
_NUMBER = r"\d{1,3}(?:,\d{3})+(?:\.\d+)?|\d+(?:\.\d+)?|\.\d+"
_UNDER = "|".join(map(str, _FRACTIONS))
_AMOUNT = rf"""(?x)
    (?: (?:(?P<whole>\d+)\ )? (?<![\d/.])(?P<over>[1-9]\d?)/(?P<under>{_UNDER})(?![\d/])
      | (?P<number>{_NUMBER}) )
    (?: (?P<joined>[\ -]?) (?P<unit>{_UNIT}) (?!-?\w)
        (?! (?<=in)\ (?:{_any_of(_PLACES)})\b )
        (?: /(?P<per>{"|".join(_PER)})\b )?
        (?: \.(?=\ [a-z]) )?
        (?P<thing> (?=\ (?:{_any_of(_THINGS)})(?:s|es)?\b) )?
      | -(?=[A-Za-z]) )?
"""

RULES: tuple[Rule, ...] = (
    (r"(?<=[^\s.,:;!?]) *\n", ". "),
    # Names made of digits
    (r"\b(?=\w*\d)[A-HJ-NPR-Z0-9]{17}\b", lambda vin: " ".join(vin[0])),
    (r"\b(\d{4})-(\d\d)-(\d\d)(?:T(?=\d)|\b)", _say_date),
    (r"\b([01]?\d|2[0-3]):([0-5]\d)\b", _say_time),
    (r"\b[Nn]o\. ?(?=\d)", "number "),
    (_STANDARD, _say_standard),
    (r"\d+(?:\.\d+){2,}", lambda v: f" {' point '.join(map(_cardinal, v[0].split('.')))} "),
    # Between, before and after numbers
    (r"(?<=\d)(?:[-–]| [-–] )(?=\d)", " to "),
    (r"(?<=\d) ?[x×] ?(?=\d)", " by "),
    (r"(?<![\w)])-(?=\.?\d)", " minus "),
    (r"\b(\d{1,15})(?:st|nd|rd|th)\b", lambda nth: _words(int(nth[1]), "ordinal")),
    # Numbers
    (_LABELLED, lambda name: f"{name[1]} {_cardinal(name[2])} "),
    (rf"\b(?:19|20)\d\d\b(?![.,]\d| ?(?:{_UNIT})\b)", lambda y: _words(int(y[0]), "year")),
    (_AMOUNT, _say_amount),
    # What is left without a number
    *((rf"\b{unit}\b", _UNITS[unit][1]) for unit in _BARE_UNITS),
    (rf"(?<=\w)/({'|'.join(_PER)})\b", lambda rate: f" per {_PER[rate[1]]}"),
    *((rf"(?<!\w){word}(?!\w)", said) for word, said in _WORDS),
    *((re.escape(symbol), f" {said} ") for symbol, said in _SYMBOLS.items()),
    (rf"\b({_any_of(_SPELLED)})(s?)\b", lambda a: " ".join(a[1]) + ("'s" if a[2] else "")),
)
"""What is looked for, as a regular expression, and what is said for it."""
