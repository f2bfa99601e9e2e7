"""Numbers that are spelled: digit by digit, with a point or as a fraction.

Nothing is made of a number but what was said: it is not moved to a mark of the gauge, nor toward
what was to be expected. What is no number, or none that can be entered, is not understood.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from walkaround.walk.keypad import PadUnit

_DIGITS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")
_MORE: Mapping[PadUnit, tuple[str, ...]] = {"bar": ("point",), "in": ("and", "over")}
"""What else a number is spelled with: "two point five", "one and three over four"."""
_LAST: Mapping[PadUnit, str] = {"psi": "pounds", "in": "inches"}
"""What may be said last. Two digits alone are too short to be heard well: with a word after them
twice as many are understood."""
_EXAMPLES: Mapping[PadUnit, str] = {
    "psi": "one one eight pounds",
    "kPa": "six two zero",
    "bar": "eight point one",
    "in": "one and three over four",
    "mm": "four four",
}
LONGEST_S = 4.0
"""How long a number takes to say."""
_DENOMINATORS = (2, 4, 8, 16)
"""Fractions of an inch that a rule shows."""

LEAST_LEAD = 2.0
"""How much likelier than the next number: less than a phrase needs, since a yes is asked for."""

_PLAIN = re.compile(r"\d{1,4}(\.\d{1,4})?")
_INCHES = re.compile(r"(?:(\d)&)?(\d{1,2})/(\d{1,2})")
_MARKS = {word: str(at) for at, word in enumerate(_DIGITS)}
_MARKS |= {"point": ".", "and": "&", "over": "/"}


def number_words(unit: PadUnit) -> tuple[str, ...]:
    """Tell what a number in this unit is spelled with: "one one eight pounds"."""
    last = [_LAST[unit]] if unit in _LAST else []
    return (*_DIGITS, *_MORE.get(unit, ()), *last)


def number_example(unit: PadUnit) -> str:
    """Write a number in this unit, as it is best said."""
    return _EXAMPLES.get(unit, _EXAMPLES["mm"])


def number_said(text: str, unit: PadUnit) -> float | None:
    """Read a number that was spelled, in the unit that is entered; None if it is none."""
    words = text.split()
    if words and words[-1] == _LAST.get(unit):
        words.pop()
    written = "".join(_MARKS.get(word, "?") for word in words)
    if _PLAIN.fullmatch(written):
        return float(written)
    if unit != "in" or (parts := _INCHES.fullmatch(written)) is None:
        return None
    whole, over, under = (int(part or 0) for part in parts.groups())
    return whole + over / under if under in _DENOMINATORS and over < under else None
