"""What settings show about circuits, as bits, so that many settings are added up fast.

Each circuit has a row: a bit for every other circuit that had another look while this one was on,
and a bit for each look that it had itself. What several settings show is their bitwise or.
"""

from __future__ import annotations

from collections.abc import Sequence

from walkaround.rounds.power_source import Lit
from walkaround.rounds.switch_settings import Choice

LIT: tuple[Lit, Lit] = ("steady", "flashing")


def shown(choice: Choice, count: int) -> int:
    """What one setting shows about `count` circuits."""
    everyone = (1 << count) - 1
    alike = {0: choice.steady, 1: choice.flashing}
    bits = 0
    for place in range(count):
        for look, same in alike.items():
            if same >> place & 1:
                row = everyone & ~same | 1 << count + look
                bits |= row << place * (count + len(LIT))
    return bits


def asked(everything: int, wanted: Sequence[Sequence[Lit]]) -> int:
    """What must be shown, of all that the settings of a source can show together.

    Args:
        wanted: for each circuit the looks that it must have; where the source has none of them,
            the looks that it has are asked instead.
    """
    count = len(wanted)
    bits = 0
    for place, looks in enumerate(wanted):
        row = _row(everything, place, count)
        told, had = row & (1 << count) - 1, row >> count
        want = sum(1 << LIT.index(look) for look in looks)
        bits |= (told | ((had & want) or had) << count) << place * (count + len(LIT))
    return bits


def looks_had(bits: int, place: int, count: int) -> tuple[Lit, ...]:
    """The looks that a circuit had; none when it was always dark."""
    had = _row(bits, place, count) >> count
    return tuple(look for at, look in enumerate(LIT) if had >> at & 1)


def told_apart(bits: int, first: int, second: int, count: int) -> bool:
    """Whether one of the two was on while the other had another look."""
    return bool(_row(bits, first, count) >> second & 1 or _row(bits, second, count) >> first & 1)


def _row(bits: int, place: int, count: int) -> int:
    width = count + len(LIT)
    return bits >> place * width & (1 << width) - 1
