"""The board for the next shift: tagged vehicles, open defects by age, walks under way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import NamedTuple

from walkaround.base.message import Text
from walkaround.records.overview import Overview
from walkaround.records.walk_line import WalkLine

FaultTexts = Mapping[tuple[str, str], str]
"""What was found, by the ids of the walk and the step."""


class OpenDefect(NamedTuple):
    """A step found wrong and not rechecked since.

    Attributes:
        step: the id of the step.
        title: the title of the step.
        walk: the latest walk in which it is open.
        since: when the first walk that found it began, if it was never OK since.
    """

    step: str
    title: Text
    walk: str
    since: datetime


class BoardRow(NamedTuple):
    """A vehicle on the board.

    Attributes:
        line: its latest walk.
        tag: the walk in which an out-of-service tag was placed; None if there is no tag now.
        defects: its open defects, the oldest first.
    """

    line: WalkLine
    tag: WalkLine | None
    defects: tuple[OpenDefect, ...]


class Board(NamedTuple):
    """The whole board: vehicles with a tag or open defects, and walks under way."""

    vehicles: tuple[BoardRow, ...]
    going: tuple[WalkLine, ...]


def board_of(overview: Overview) -> Board:
    """Make the board: tagged vehicles first, then by the age of the oldest defect."""
    walks_of: dict[str, list[WalkLine]] = {vehicle: [] for vehicle in overview.open_defects}
    tags: dict[str, WalkLine] = {}
    for line in overview.lines:
        if line.vehicle in walks_of:
            walks_of[line.vehicle].append(line)
        if line.tag:
            tags.setdefault(line.vehicle, line)
    tagged = {vehicle: line for vehicle, line in tags.items() if line.tag == "placed"}
    latest: dict[str, WalkLine] = {}
    for line in overview.lines:
        if line.vehicle in walks_of or line.vehicle in tagged:
            latest.setdefault(line.vehicle, line)
    rows = [
        BoardRow(
            line,
            tagged.get(vehicle),
            _by_age(walks_of.get(vehicle, ()), overview.open_defects.get(vehicle, {})),
        )
        for vehicle, line in latest.items()
    ]
    rows.sort(key=lambda row: (row.tag is None, _oldest(row), row.line.vehicle_name))
    return Board(tuple(rows), overview.going)


def age_days(since: datetime, now: datetime) -> int:
    """Return the whole days since then; 0 if a clock was set back."""
    return max(0, (now - since).days)


def _oldest(row: BoardRow) -> datetime:
    return row.defects[0].since if row.defects else row.line.began


def _by_age(
    newest_first: Sequence[WalkLine], still_open: Mapping[str, str]
) -> tuple[OpenDefect, ...]:
    """Return the open defects of one vehicle, the oldest first."""
    defects = []
    for step, walk in still_open.items():
        place = next(place for place, line in enumerate(newest_first) if line.id == walk)
        latest = first = newest_first[place]
        for line in newest_first[place + 1 :]:
            if step in line.ok:
                break
            first = line if step in line.open_defects else first
        title = latest.titles[latest.open_defects.index(step)]
        defects.append(OpenDefect(step, title, walk, first.began))
    return tuple(sorted(defects, key=lambda defect: (defect.since, defect.step)))
