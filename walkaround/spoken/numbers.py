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
    """What a number in this unit is spelled with: "one one eight"."""
    return (*_DIGITS, *_MORE.get(unit, ()))


def number_said(text: str, unit: PadUnit) -> float | None:
    """Read a number that was spelled, in the unit that is entered; None if it is none."""
    written = "".join(_MARKS.get(word, "?") for word in text.split())
    if _PLAIN.fullmatch(written):
        return float(written)
    if unit != "in" or (parts := _INCHES.fullmatch(written)) is None:
        return None
    whole, over, under = (int(part or 0) for part in parts.groups())
    return whole + over / under if under in _DENOMINATORS and over < under else None
