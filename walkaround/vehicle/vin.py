"""The vehicle identification number: its check digit and the model years it can mean.

Sources: 49 CFR 565.15(c), Tables III to V, and (d)(1), Table VII (codes of 2005 to 2039);
565.25(d)(1), Table XIII (codes of 1980 to 2013). Checked against vininfo.
"""

from __future__ import annotations

from walkaround.base.message import Message, message

# 565.15(c) Tables III and IV: value of each character (I, O and Q are not used), weight of each
# place.
VIN_VALUES = dict(zip("ABCDEFGHJKLMNPRSTUVWXYZ", map(int, "12345678123457923456789"), strict=True))
VIN_VALUES |= {digit: int(digit) for digit in "0123456789"}
VIN_WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
# What stands on the plate where one of the letters was read that no VIN uses.
_MISREAD = {"I": "1", "O": "0", "Q": "0"}
_CHECK_PLACE = 8
# Tables XIII and VII: year codes in order, from 1980 on and again from 2010 on.
_YEAR_CODES = "ABCDEFGHJKLMNPRSTVWXY123456789"
_YEAR_PLACE = 9
_FIRST_YEAR = 1980


def vin_problem(vin: str) -> str | None:
    """Say in one sentence why this cannot be a VIN, or None when its check digit fits.

    Small letters are read as capitals. The sentence is in the language of logs and the terminal;
    screens show what `vin_fault` says in their own.
    """
    fault = vin_fault(vin)
    return str(message("vin-problem", what=fault[0], mend=fault[1])) if fault else None


def vin_years(vin: str) -> tuple[int, ...]:
    """List the model years that a VIN can mean, earlier one first; empty when it names none.

    The code comes again after 30 years. What tells the two apart, position 7, does so only on
    cars and light trucks (565.15(d)(1), note to Table VII): a trailer or heavy truck stays open, so
    both are given.
    """
    if len(vin) != len(VIN_WEIGHTS) or vin[_YEAR_PLACE].upper() not in _YEAR_CODES:
        return ()
    first = _FIRST_YEAR + _YEAR_CODES.index(vin[_YEAR_PLACE].upper())
    return first, first + len(_YEAR_CODES)


def vin_fault(vin: str) -> tuple[Message, Message] | None:
    """Say what is wrong with a VIN and how to mend it; None when its check digit fits."""
    vin = vin.upper()
    if len(vin) != len(VIN_WEIGHTS):
        return message("trouble-vin-wrong-length", count=len(vin)), message("vin-may-be-left-out")
    for place, character in enumerate(vin, start=1):
        if character not in VIN_VALUES:
            what = message("trouble-vin-unused-character", place=place, character=repr(character))
            return what, _replacement_for(vin, character)
    fitting = _fitting_check(vin)
    if vin[_CHECK_PLACE] == fitting:
        return None
    check = message("trouble-vin-check-digit", read=vin[_CHECK_PLACE], fitting=fitting)
    return check, message("vin-compare-each-character")


def _fitting_check(vin: str) -> str:
    total = sum(VIN_VALUES[c] * weight for c, weight in zip(vin, VIN_WEIGHTS, strict=True))
    return "0123456789X"[total % 11]


def _replacement_for(vin: str, character: str) -> Message:
    """Say what to write for a character that no VIN uses."""
    if character not in _MISREAD:
        return message("vin-characters")
    likely_digit = _MISREAD[character]
    read = "".join(_MISREAD.get(c, c) for c in vin)
    fits = all(c in VIN_VALUES for c in read) and read[_CHECK_PLACE] == _fitting_check(read)
    return message("vin-digit-fits" if fits else "vin-digit-is-like-it", digit=likely_digit)
