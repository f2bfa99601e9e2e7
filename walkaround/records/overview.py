"""The overview of all walks: which are under way, and which defects are still open."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from heapq import merge
from itertools import accumulate
from operator import attrgetter, itemgetter
from typing import NamedTuple

from walkaround.base.clock import tells_boot
from walkaround.base.message import Message, Text, message
from walkaround.comparison.later_walks import LaterState
from walkaround.records.walk_line import ELSEWHERE, ID_LENGTH, WalkLine, original_id

MONTHS_NAMED = 3
"""If more months than this cannot be read, only the first and the last are named."""


class FolderFault(NamedTuple):
    """Why a month's folder cannot be read.

    Attributes:
        why: the system's description, such as "permission denied".
        shut: whether this user may not read it; else the disk failed.
    """

    why: Text
    shut: bool


@dataclass(frozen=True, slots=True)
class Overview:
    """An overview of all walks of a data folder.

    Attributes:
        lines: every walk, the latest first.
        going: the walks that are not finished, in the same order.
        open_defects: by vehicle, see `open_by_vehicle`.
        vehicles: the ids of all vehicles with walks.
        copies: the walks with several copies, since they were continued differently: by the walk's
            own id, the ids that its copies are stored under.
        pairs: the ids of the first and the second walk of each double check.
        blind: walks of open double checks; their findings are left out of the overview.
        unread: what may be missing, see `unread_messages`.
    """

    lines: tuple[WalkLine, ...]
    going: tuple[WalkLine, ...]
    open_defects: Mapping[str, Mapping[str, str]]
    vehicles: frozenset[str]
    copies: Mapping[str, tuple[str, ...]]
    pairs: tuple[tuple[str, str], ...] = ()
    blind: frozenset[str] = frozenset()
    unread: tuple[Message, ...] = ()


def overview_of(lines: Iterable[WalkLine], unread: tuple[Message, ...] = ()) -> Overview:
    """Make the overview of these walks."""
    ordered = in_order(lines)
    pairs, blind = _double_checks(ordered)
    newest_first = tuple(
        line._replace(open_defects=(), cleared=(), ok=()) if line.id in blind else line
        for line in reversed(ordered)
    )
    ids = {line.id for line in newest_first}
    copies: dict[str, tuple[str, ...]] = {}
    for id_ in sorted(id_ for id_ in ids if len(id_) > ID_LENGTH):
        own_id = original_id(id_)
        copies[own_id] = (*copies.get(own_id, (own_id,) if own_id in ids else ()), id_)
    return Overview(
        lines=newest_first,
        going=tuple(line for line in newest_first if line.phase != "finished" and line.steps),
        open_defects=open_by_vehicle(newest_first),
        vehicles=frozenset(line.vehicle for line in newest_first),
        copies=copies,
        pairs=pairs,
        blind=blind,
        unread=unread,
    )


def _double_checks(
    lines: Sequence[WalkLine],
) -> tuple[tuple[tuple[str, str], ...], frozenset[str]]:
    """Return the pairs of double checks, and the walks of those that are not closed.

    The findings of the first walk are hidden from its beginning, so that the second may begin at
    any time.
    """
    double = {line.id: line for line in lines if line.double}
    pairs = tuple((x.double_of, x.id) for x in double.values() if x.double_of in double)
    going = {id_ for id_, line in double.items() if line.phase != "finished"}
    return pairs, frozenset(going.union(*(pair for pair in pairs if going.intersection(pair))))


def in_order(lines: Iterable[WalkLine]) -> list[WalkLine]:
    """Sort walks by when they began, the oldest first, also if the wall clock was wrong.

    Their numbers give the order within this data folder. For walks from elsewhere there is only the
    wall clock.
    """
    own_lines: list[WalkLine] = []
    other_lines: list[WalkLine] = []
    for line in lines:
        (other_lines if line.number == ELSEWHERE else own_lines).append(line)
    own_lines.sort(key=attrgetter("number", "id"))
    other_lines.sort(key=attrgetter("began", "id"))
    if not other_lines:
        return own_lines
    times = accumulate((line.began for line in own_lines), max)
    timed = merge(
        zip(times, own_lines, strict=True), ((x.began, x) for x in other_lines), key=itemgetter(0)
    )
    return [line for _, line in timed]


def unread_messages(walks: str, faults: Mapping[str, FolderFault]) -> tuple[Message, ...]:
    """Say what may be missing: a sentence for each fault, with the folders of its months.

    Args:
        walks: the folder of walks.
        faults: the faults by month, such as "2026-11".
    """
    sentences = []
    for fault in dict.fromkeys(faults[month] for month in sorted(faults)):
        months = [month for month in sorted(faults) if faults[month] == fault]
        which = message("records-months", months=tuple(f"{walks}/{month}" for month in months))
        if len(months) > MONTHS_NAMED:
            count, first, last = len(months), months[0], months[-1]
            which = message("records-many-months", count=count, walks=walks, first=first, last=last)
        sentences.append(
            message(
                "records-months-shut" if fault.shut else "records-months-failing",
                which=which,
                why=fault.why,
                count=len(months),
            )
        )
    return tuple(sentences)


def open_by_vehicle(lines: Iterable[WalkLine]) -> dict[str, dict[str, str]]:
    """Find the open defects of each vehicle: by step id the latest walk in which it is open.

    A defect is closed by a later walk in which the same step is OK, if that walk is its recheck or
    began after the last answer of the walk that found it. Of two walks at the same time neither
    closes the other's defects, nor does one copy of a walk those of another, nor the second of a
    double check those of the first.
    """
    ordered = in_order(lines)
    walks_of: dict[str, list[WalkLine]] = {x.vehicle: [] for x in ordered if x.open_defects}
    for line in ordered:
        if line.vehicle in walks_of:
            walks_of[line.vehicle].append(line)
    still_open = {
        vehicle: {
            step: id_
            for same_vehicle in _by_vin(walks)
            for step, id_ in _still_open(same_vehicle).items()
        }
        for vehicle, walks in walks_of.items()
    }
    return {vehicle: steps for vehicle, steps in still_open.items() if steps}


def by_vehicle(lines: Iterable[WalkLine]) -> dict[str, list[WalkLine]]:
    """Group walks by vehicle, those of each in the order in which they began."""
    walks_of: dict[str, list[WalkLine]] = {}
    for line in in_order(lines):
        walks_of.setdefault(line.vehicle, []).append(line)
    return walks_of


def later_walks(
    line: WalkLine, of_vehicle: Sequence[WalkLine]
) -> dict[str, list[tuple[LaterState, str]]]:
    """Find what later walks say of each defect that a walk left open, see `open_by_vehicle`.

    Args:
        line: the walk.
        of_vehicle: all walks of its vehicle in order.

    Returns:
        By step what the last look came to, and the id of its walk. Where it is wrong again, the
        look that found it OK comes before; steps at which nobody looked are left out.
    """
    groups = [walks for walks in _by_vin(of_vehicle) if line in walks]
    # Of several vehicles of this id nobody can tell which one a walk without a VIN was of.
    if len(groups) != 1:
        return {}
    place, own_id = groups[0].index(line), original_id(line.id)
    looks_of: dict[str, list[tuple[LaterState, str]]] = {}
    for at, other in enumerate(groups[0]):
        follows = at > place and own_id != original_id(other.double_of) and _follows(line, other)
        if original_id(other.id) == own_id or not (
            follows or original_id(other.recheck_of) == own_id
        ):
            continue
        for step in line.open_defects:
            before = looks_of.get(step, [])
            if step in other.ok:
                looks_of[step] = [("cured", other.id)]
            elif step in other.open_defects and before[:1] and before[0][0] == "cured":
                looks_of[step] = [before[0], ("again", other.id)]
            elif step in other.open_defects:
                looks_of[step] = [("open", other.id)]
    return looks_of


def _by_vin(walks: Sequence[WalkLine]) -> Sequence[Sequence[WalkLine]]:
    """Group the walks of one vehicle id by vehicle.

    Another shop may have given the same id to a vehicle of its own. If VINs differ, an OK of one
    must not close a defect of the other; a walk without a VIN belongs to each.
    """
    vins = sorted({line.vin for line in walks if line.vin})
    if len(vins) < 2 or all(line.number != ELSEWHERE for line in walks):
        return [walks]
    return [[line for line in walks if line.vin in (vin, "")] for vin in vins]


def _still_open(walks: Sequence[WalkLine]) -> dict[str, str]:
    """Find the open defects of one vehicle; its walks are in order."""
    # The last walk in which a step is OK: if it does not close a defect, no earlier one does.
    last_ok: dict[str, WalkLine] = {}
    step_ids = {step for line in walks for step in line.open_defects}
    for line in reversed(walks):
        last_ok.update(dict.fromkeys(step_ids.intersection(line.ok), line))
        step_ids -= last_ok.keys()
        if not step_ids:
            break
    rechecked = {(line.recheck_of, step) for line in walks if line.recheck_of for step in line.ok}
    still_open: dict[str, str] = {}
    places = {line.id: place for place, line in enumerate(walks)}
    for place, line in enumerate(walks):
        for step in line.open_defects:
            later = last_ok.get(step)
            seen_ok = (
                later is not None
                and places[later.id] > place
                and original_id(line.id) != original_id(later.double_of)
                and _follows(line, later)
            )
            if not seen_ok and (original_id(line.id), step) not in rechecked:
                still_open[step] = line.id
    return dict(sorted(still_open.items()))


def _follows(line: WalkLine, later: WalkLine) -> bool:
    """Tell whether the later walk began after the last answer of the other.

    Within one boot of the computer its monotonic clock decides. An answer after a restart is later
    than all walks that began before it. Otherwise, or if boots cannot be told apart, the wall clock
    decides.
    """
    if line.last_answer is None:
        return True
    if tells_boot(line.last_boot):
        if line.last_boot == later.began_boot:
            return line.last_s <= later.began_s
        if line.began_boot == later.began_boot:
            return False
    return line.last_answer <= later.began
