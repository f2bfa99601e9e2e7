"""Spoken numbers, spelled digit by digit, with a point or as a fraction.

A number is taken exactly as it was said: it is not rounded to a mark of the gauge, nor moved toward
an expected value. What is no number, or cannot be entered, is not understood.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from walkaround.walk.keypad import PadUnit

_DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_OTHER_WORDS: Mapping[PadUnit, tuple[str, ...]] = {"bar": ("point",), "in": ("and", "over")}
"""Other words of a spelled number: "two point five", "one and three over four"."""
_UNIT_WORDS: Mapping[PadUnit, str] = {"psi": "pounds", "in": "inches"}
"""The word that may be said last. Two digits alone are too short to be recognized well: with a word
after them twice as many are understood."""
_EXAMPLES: Mapping[PadUnit, str] = {
    "psi": "one one eight pounds",
    "kPa": "six two zero",
    "bar": "eight point one",
    "in": "one and three over four",
    "mm": "four four",
}
LONGEST_S = 4.0
"""The longest time a number takes to say, seconds."""
_DENOMINATORS = (2, 4, 8, 16)
"""The fractions of an inch on a ruler."""

LEAST_LEAD = 2.0
"""The lead over the next number, see `heard_text`: less than for a phrase, since the app asks for a
yes."""

_PLAIN = re.compile(r"\d{1,4}(\.\d{1,4})?")
_INCHES = re.compile(r"(?:(\d)&)?(\d{1,2})/(\d{1,2})")
_SYMBOLS = {word: str(at) for at, word in enumerate(_DIGITS)}
_SYMBOLS |= {"point": ".", "and": "&", "over": "/"}


def number_words(unit: PadUnit) -> tuple[str, ...]:
    """Return the words a number in this unit is spelled with: "one one eight pounds"."""
    unit_word = [_UNIT_WORDS[unit]] if unit in _UNIT_WORDS else []
    return (*_DIGITS, *_OTHER_WORDS.get(unit, ()), *unit_word)


def number_example(unit: PadUnit) -> str:
    """Return an example of a number in this unit, as it is best said."""
    return _EXAMPLES.get(unit, _EXAMPLES["mm"])


def parse_number(text: str, unit: PadUnit) -> float | None:
    """Parse a spelled number in this unit; return None if it is not a number."""
    words = text.split()
    if words and words[-1] == _UNIT_WORDS.get(unit):
        words.pop()
    written = "".join(_SYMBOLS.get(word, "?") for word in words)
    if _PLAIN.fullmatch(written):
        return float(written)
    if unit != "in" or (parts := _INCHES.fullmatch(written)) is None:
        return None
    whole, numerator, denominator = (int(part or 0) for part in parts.groups())
    return (
        whole + numerator / denominator
        if denominator in _DENOMINATORS and numerator < denominator
        else None
    )
