"""All walks at a glance: which are under way, and which defects are still open."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from operator import attrgetter

from walkaround.clock import tells_boot
from walkaround.lines import WalkLine

PLACE = attrgetter("number", "id")
"""Sorts walks by when they began, whatever the wall clock said; those of old come first."""


@dataclass(frozen=True, slots=True)
class Overview:
    """All walks of a data folder at a glance.

    Attributes:
        lines: every walk, the one begun last first.
        going: those that are not finished, in the same order.
        open_defects: by vehicle, see `open_by_vehicle`.
        vehicles: ids of all vehicles that walks are of.
    """

    lines: tuple[WalkLine, ...]
    going: tuple[WalkLine, ...]
    open_defects: Mapping[str, Mapping[str, str]]
    vehicles: frozenset[str]


def overview_of(lines: Iterable[WalkLine]) -> Overview:
    """The walks in order, and what is still to be done about them."""
    newest_first = tuple(sorted(lines, key=PLACE, reverse=True))
    return Overview(
        lines=newest_first,
        going=tuple(line for line in newest_first if line.phase != "finished" and line.steps),
        open_defects=open_by_vehicle(newest_first),
        vehicles=frozenset(line.vehicle for line in newest_first),
    )


def open_by_vehicle(lines: Iterable[WalkLine]) -> dict[str, dict[str, str]]:
    """The open defects of each vehicle: step id -> the latest walk in which it is open.

    What one walk found is closed by a later one in which the same step is OK, if that one is its
    recheck or began after its last answer. Of two walks at the same time neither closes the
    other's defects.
    """
    in_order = sorted(lines, key=PLACE)
    faulty = {line.vehicle for line in in_order if line.open_defects}
    by_vehicle: dict[str, list[WalkLine]] = {vehicle: [] for vehicle in faulty}
    for line in in_order:
        if line.vehicle in faulty:
            by_vehicle[line.vehicle].append(line)
    found = {vehicle: _still_open(walks) for vehicle, walks in by_vehicle.items()}
    return {vehicle: steps for vehicle, steps in found.items() if steps}


def _still_open(walks: Sequence[WalkLine]) -> dict[str, str]:
    """Of one vehicle, its walks in order."""
    last_ok = _last_ok(walks)
    rechecks: dict[str, set[str]] = {}
    for line in walks:
        if line.recheck_of:
            rechecks.setdefault(line.recheck_of, set()).update(line.ok)
    found: dict[str, str] = {}
    for line in walks:
        for step in line.open_defects:
            later = last_ok.get(step)
            seen_ok = later is not None and PLACE(later) > PLACE(line) and _follows(line, later)
            if not seen_ok and step not in rechecks.get(line.id, ()):
                found[step] = line.id
    return dict(sorted(found.items()))


def _last_ok(walks: Sequence[WalkLine]) -> dict[str, WalkLine]:
    """The last walk in which each step is OK that is open in another. If that one does not close a
    defect, none before it does."""
    asked = {step for line in walks for step in line.open_defects}
    last: dict[str, WalkLine] = {}
    for line in reversed(walks):
        hits = asked.intersection(line.ok)
        last.update(dict.fromkeys(hits, line))
        asked -= hits
        if not asked:
            break
    return last


def _follows(line: WalkLine, later: WalkLine) -> bool:
    """Whether the later walk began after the last answer of the other.

    Within one boot the computer's own clock tells. A walk that was answered after a restart was
    so after all that began before it. Else, and where boots cannot be told apart, the wall clock
    has to tell.
    """
    if line.last_answer is None:
        return True
    if tells_boot(line.last_boot):
        if line.last_boot == later.began_boot:
            return line.last_s <= later.began_s
        if line.began_boot == later.began_boot:
            return False
    return line.last_answer <= later.began
