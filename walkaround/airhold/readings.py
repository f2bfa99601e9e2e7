"""What can be wrong with the numbers of an air hold, each told in a sentence with its mend."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from walkaround.base.errors import Problem
from walkaround.rules.limits import MOST_HOLD_S, MOST_PSI

Reading = tuple[float, float]
"""Seconds into the hold, and psi gauge."""

MOST_READINGS = 10_000
"""No hold has more; a recorder that reads oftener tells nothing new."""
LEAST_GAP_S = 0.01
"""Readings closer than this are one reading: no rate can be told from them."""
_ON_MARK = 0.01
"""Share of a step by which a mark may be off, from changing units."""


def reading_problems(readings: Sequence[Reading], least: int = 2) -> Iterator[Problem]:
    """Everything wrong with the readings of one gauge; there must be `least` of them."""
    if not least <= len(readings) <= MOST_READINGS:
        few = len(readings) < least
        mend = f"take at least {least}" if few else f"leave out all but {MOST_READINGS}"
        yield Problem("readings", "", f"{'only ' * few}{len(readings)} given", mend)
        return
    for number, (seconds, psi) in enumerate(readings, start=1):
        if not 0 <= seconds <= MOST_HOLD_S:
            yield _bad(number, f"{seconds} s is no time in a hold", f"0 to {MOST_HOLD_S:g} s is")
        if not 0 <= psi <= MOST_PSI:
            yield _bad(number, f"{psi} psi is no gauge pressure", f"0 to {MOST_PSI:g} psi is")
    times = [seconds for seconds, _ in readings]
    for number, (earlier, later) in enumerate(pairwise(times), start=2):
        if later - earlier < LEAST_GAP_S:
            yield _bad(number, "its time does not rise", "put readings in order of time")


def crossing_problems(
    crossings: Sequence[Reading], watched_s: float, mark_step_psi: float
) -> Iterator[Problem]:
    """Everything wrong with taps at marks, the first that makes the others meaningless alone."""
    if problems := [*reading_problems(crossings, least=1)]:
        yield from problems
        return
    last_s, first_psi = crossings[-1][0], crossings[0][1]
    if not last_s <= watched_s <= MOST_HOLD_S or watched_s - crossings[0][0] < LEAST_GAP_S:
        mend = f"give a time after the last tap, {MOST_HOLD_S:g} s at most"
        yield Problem("argument", "watched_s", f"{watched_s} cannot be", mend)
    for number, (earlier, later) in enumerate(pairwise(crossings), start=2):
        if earlier[1] == later[1]:
            yield _bad(number, "it is the mark of the tap before", "tap each mark once")
    for number, (_, psi) in enumerate(crossings, start=1):
        steps = (psi - first_psi) / mark_step_psi if mark_step_psi else 0.5
        if abs(steps - round(steps)) > _ON_MARK:
            mend = f"marks are {mark_step_psi:g} psi apart"
            yield _bad(number, f"{psi:g} psi is no mark", mend)


def argument_problems(given: Mapping[str, float]) -> Iterator[Problem]:
    """Arguments, by name, that are no numbers from 0 to `MOST_PSI`."""
    for name, value in given.items():
        if not 0 <= value <= MOST_PSI:
            yield Problem("argument", name, f"{value} cannot be", f"give 0 to {MOST_PSI:g}")


def _bad(number: int, what: str, mend: str) -> Problem:
    return Problem("readings", f"reading {number}", what, mend)
