"""All walks at a glance: which are under way, and which defects are still open."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from heapq import merge
from itertools import accumulate
from operator import attrgetter, itemgetter
from typing import NamedTuple

from walkaround.base.clock import tells_boot
from walkaround.base.message import Message, Text, message
from walkaround.compared.later_walks import LaterState
from walkaround.records.walk_line import ELSEWHERE, ID_LENGTH, WalkLine, original_id

MONTHS_NAMED = 3
"""When more months than this cannot be read, only the first and the last are named."""


class FolderFault(NamedTuple):
    """Why a month's folder cannot be read.

    Attributes:
        why: the cause as the system says it, as in "permission denied".
        shut: this user may not read it; else the disk failed.
    """

    why: Text
    shut: bool


@dataclass(frozen=True, slots=True)
class Overview:
    """All walks of a data folder at a glance.

    Attributes:
        lines: every walk, the one begun last first.
        going: those that are not finished, in the same order.
        open_defects: by vehicle, see `open_by_vehicle`.
        vehicles: ids of all vehicles that walks are of.
        copies: of which walks more than one copy is kept, since they went on differently: by the
            walk's own id, those that its copies are kept under here.
        pairs: the first and the second of the two walks of each double check, by their ids.
        blind: walks of double checks that are not closed yet; of them nothing is told here.
        unread: what of all this may be missing, see `unread_words`.
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
    """Put the walks in order, and say what is still to be done about them."""
    ordered = in_order(lines)
    pairs, blind = _double_checks(ordered)
    newest_first = tuple(
        line._replace(open_defects=(), cleared=(), ok=()) if line.id in blind else line
        for line in reversed(ordered)
    )
    ids = {line.id for line in newest_first}
    copies: dict[str, tuple[str, ...]] = {}
    for id_ in sorted(id_ for id_ in ids if len(id_) > ID_LENGTH):
        own = original_id(id_)
        copies[own] = (*copies.get(own, (own,) if own in ids else ()), id_)
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
    """The pairs of double checks, and the walks of those that are not closed.

    The first walk is blind from its beginning, so that the second may begin at any time.
    """
    double = {line.id: line for line in lines if line.double}
    pairs = tuple((x.double_of, x.id) for x in double.values() if x.double_of in double)
    going = {id_ for id_, line in double.items() if line.phase != "finished"}
    return pairs, frozenset(going.union(*(pair for pair in pairs if going.intersection(pair))))


def in_order(lines: Iterable[WalkLine]) -> list[WalkLine]:
    """Walks in the order in which they began, whatever the wall clock said; those of old first.

    Numbers tell it within this data folder. Only a wall clock can tell where those brought from
    elsewhere come between them.
    """
    own: list[WalkLine] = []
    others: list[WalkLine] = []
    for line in lines:
        (others if line.number == ELSEWHERE else own).append(line)
    own.sort(key=attrgetter("number", "id"))
    others.sort(key=attrgetter("began", "id"))
    if not others:
        return own
    times = accumulate((line.began for line in own), max)
    timed = merge(zip(times, own, strict=True), ((x.began, x) for x in others), key=itemgetter(0))
    return [line for _, line in timed]


def unread_words(walks: str, faults: Mapping[str, FolderFault]) -> tuple[Message, ...]:
    """Say what may be missing: a sentence for each fault, with the months' folders it concerns.

    Args:
        walks: the folder of walks.
        faults: by month, as in "2026-11".
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
    """Find the open defects of each vehicle: step id -> the latest walk in which it is open.

    What one walk found is closed by a later one in which the same step is OK, if that one is its
    recheck or began after its last answer. Of two walks at the same time neither closes the
    other's defects, nor does one copy of a walk those of another, nor the second of a double check
    those of the first.
    """
    ordered = in_order(lines)
    walks_of: dict[str, list[WalkLine]] = {x.vehicle: [] for x in ordered if x.open_defects}
    for line in ordered:
        if line.vehicle in walks_of:
            walks_of[line.vehicle].append(line)
    still_open = {
        vehicle: {step: id_ for alike in _of_one(walks) for step, id_ in _still_open(alike).items()}
        for vehicle, walks in walks_of.items()
    }
    return {vehicle: steps for vehicle, steps in still_open.items() if steps}


def by_vehicle(lines: Iterable[WalkLine]) -> dict[str, list[WalkLine]]:
    """Sort walks by vehicle, those of each in the order in which they began."""
    walks_of: dict[str, list[WalkLine]] = {}
    for line in in_order(lines):
        walks_of.setdefault(line.vehicle, []).append(line)
    return walks_of


def later_walks(
    line: WalkLine, of_vehicle: Sequence[WalkLine]
) -> dict[str, list[tuple[LaterState, str]]]:
    """Find what later walks say of each defect that one left open, as `open_by_vehicle` judges it.

    Args:
        line: the walk.
        of_vehicle: all walks of its vehicle in order.

    Returns:
        By step what the last look came to, and the id of its walk. Where it is wrong again, the
        look that found it OK comes before; steps at which nobody looked are left out.
    """
    groups = [walks for walks in _of_one(of_vehicle) if line in walks]
    # Of several vehicles of this id nobody can tell which one a walk without a VIN was of.
    if len(groups) != 1:
        return {}
    place, own = groups[0].index(line), original_id(line.id)
    looks_of: dict[str, list[tuple[LaterState, str]]] = {}
    for at, other in enumerate(groups[0]):
        follows = at > place and own != original_id(other.double_of) and _follows(line, other)
        if original_id(other.id) == own or not (follows or original_id(other.recheck_of) == own):
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


def _of_one(walks: Sequence[WalkLine]) -> Sequence[Sequence[WalkLine]]:
    """The walks of one id, once for each vehicle that bears it.

    Another shop may have given the same id to a vehicle of its own. Where VINs differ, an OK of
    one must not close a defect of the other; a walk without a VIN counts for each.
    """
    vins = sorted({line.vin for line in walks if line.vin})
    if len(vins) < 2 or all(line.number != ELSEWHERE for line in walks):
        return [walks]
    return [[line for line in walks if line.vin in (vin, "")] for vin in vins]


def _still_open(walks: Sequence[WalkLine]) -> dict[str, str]:
    """The same of one vehicle; its walks are in order."""
    # The last walk in which a step is OK: if that one does not close a defect, none before it does.
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
