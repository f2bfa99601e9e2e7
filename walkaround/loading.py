"""Reads checklist, vehicle and connector files; one bad file never hides the others.

What a file holds follows from its keys and its folder: `connector` tables make a connector table,
an `electrical` table or a folder `vehicles` a vehicle, anything else is a checklist.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, ParamSpec, TypeVar

from pydantic import ValidationError

from walkaround.checking import checklist_problems
from walkaround.checklist import Checklist
from walkaround.errors import InputError, Problem
from walkaround.tomlfile import read_table
from walkaround.vehicle import Vehicle, vehicle_problems
from walkaround.wiring import Connector, ConnectorTable, connector_problems
from walkaround.written import Written, problems_of

_Table = dict[str, Any]
_P = ParamSpec("_P")
_T = TypeVar("_T")
_Model = TypeVar("_Model", bound=Written)
_Item = TypeVar("_Item", Checklist, Vehicle, Connector)
# What was kept under each id, and the file it came from.
_Kept = dict[str, tuple[_Item, Path]]


@dataclass(frozen=True, slots=True)
class Library:
    """Everything that could be read, and every problem of what could not."""

    checklists: tuple[Checklist, ...]
    vehicles: tuple[Vehicle, ...]
    connectors: Mapping[str, Connector]
    problems: tuple[Problem, ...]


def load_library(*folders: Path, today: date) -> Library:
    """Read every TOML file of these folders and of their `vehicles` folders.

    Args:
        folders: those that do not exist count as empty; of two things with one id the first counts.
        today: the day it is, against which dates of make are checked.
    """
    problems: list[Problem] = []
    tables = {
        path: table
        for path in _files(folders)
        if (table := _noted(problems, read_table, path)) is not None
    }
    plugs: _Kept[Connector] = {}
    for path in [path for path, table in tables.items() if _holds_connectors(table)]:
        found = _noted(problems, connectors_of, tables.pop(path), str(path))
        problems += _keep((found or {}).values(), path, plugs)
    connectors = {id_: connector for id_, (connector, _) in plugs.items()}
    checklists: _Kept[Checklist] = {}
    vehicles: _Kept[Vehicle] = {}
    for path, table in tables.items():
        if _holds_vehicle(path, table):
            vehicle = _noted(problems, vehicle_of, table, str(path), connectors, today)
            problems += _keep([vehicle] if vehicle else [], path, vehicles)
        else:
            checklist = _noted(problems, checklist_of, table, str(path))
            problems += _keep([checklist] if checklist else [], path, checklists)
    return Library(
        checklists=tuple(checklist for checklist, _ in checklists.values()),
        vehicles=tuple(vehicle for vehicle, _ in vehicles.values()),
        connectors=connectors,
        problems=(*problems, *_rules_told_twice(checklists)),
    )


def load_vehicle(path: Path, connectors: Mapping[str, Connector], today: date) -> Vehicle:
    """Read one vehicle file; raises InputError with all its problems."""
    return vehicle_of(read_table(path), str(path), connectors, today)


def load_checklist(path: Path) -> Checklist:
    """Read one checklist file; raises InputError with all its problems."""
    return checklist_of(read_table(path), str(path))


def connectors_from(path: Path) -> Mapping[str, Connector]:
    """Read one connector table, connectors by id; raises InputError with all its problems."""
    return connectors_of(read_table(path), str(path))


def file_problems(
    path: Path, connectors: Mapping[str, Connector], today: date
) -> tuple[Problem, ...]:
    """Every problem of one file, whatever it holds."""
    problems: list[Problem] = []
    table = _noted(problems, read_table, path)
    if table is None:
        return tuple(problems)
    if _holds_connectors(table):
        _noted(problems, connectors_of, table, str(path))
    elif _holds_vehicle(path, table):
        _noted(problems, vehicle_of, table, str(path), connectors, today)
    else:
        _noted(problems, checklist_of, table, str(path))
    return tuple(problems)


def _holds_connectors(table: _Table) -> bool:
    return "connector" in table


def _holds_vehicle(path: Path, table: _Table) -> bool:
    return path.parent.name == "vehicles" or "electrical" in table


def _files(folders: Iterable[Path]) -> list[Path]:
    return [
        path
        for folder in folders
        for place in (folder, folder / "vehicles")
        for path in sorted(place.glob("*.toml"))
    ]


def _noted(
    problems: list[Problem], read: Callable[_P, _T], *args: _P.args, **kwargs: _P.kwargs
) -> _T | None:
    """What `read` gives, or None with its problems noted."""
    try:
        return read(*args, **kwargs)
    except InputError as error:
        problems += error.problems
        return None


def _keep(items: Iterable[_Item], path: Path, kept: _Kept[_Item]) -> list[Problem]:
    """Keep what has a new id; say which file had an id before."""
    problems = []
    for item in items:
        if item.id in kept:
            what = f"{item.id} is already the id of {kept[item.id][1]}"
            problems.append(Problem(str(path), "id", what, "give one of them another id"))
        else:
            kept[item.id] = (item, path)
    return problems


def _rules_told_twice(checklists: _Kept[Checklist]) -> list[Problem]:
    first: dict[str, Path] = {}
    problems = []
    for checklist, path in checklists.values():
        for rule in checklist.lamps:
            if first.setdefault(rule.id, path) != path:
                what = f"{first[rule.id]} has a lamp rule of this id, which is the one that counts"
                mend = "give this one another id"
                problems.append(Problem(str(path), f"lamp {rule.id}", what, mend))
    return problems


def connectors_of(table: _Table, where: str) -> dict[str, Connector]:
    """The connectors that a table holds, by id; raises InputError with all its problems."""

    def check(found: ConnectorTable) -> list[Problem]:
        ids = [connector.id for connector in found.connectors]
        twice = sorted({id_ for id_ in ids if ids.count(id_) > 1})
        mend = "give each its own id"
        return [Problem(where, f"connector {id_}", "stands twice", mend) for id_ in twice] + [
            p for connector in found.connectors for p in connector_problems(connector, where)
        ]

    found = _validated(ConnectorTable, table, where, check, stand_in={})
    return {connector.id: connector for connector in found.connectors}


def vehicle_of(
    table: _Table, where: str, connectors: Mapping[str, Connector], today: date
) -> Vehicle:
    """The vehicle that a table describes; raises InputError with all its problems."""
    stand_in = {
        "id": "x",
        "kind": "semitrailer",
        "made": today,
        "width_mm": 2000,
        "length_mm": 9000,
        "electrical": {"volts": 12, "connector": "x"},
    }

    def check(vehicle: Vehicle) -> list[Problem]:
        return vehicle_problems(vehicle, where, connectors, today)

    return _validated(Vehicle, table, where, check, stand_in)


def checklist_of(table: _Table, where: str) -> Checklist:
    """The checklist that a table holds; raises InputError with all its problems."""
    stand_in = {"id": "x", "title": "x", "source": "x", "provenance": "memory"}

    def check(checklist: Checklist) -> list[Problem]:
        return checklist_problems(checklist, where)

    return _validated(Checklist, table, where, check, stand_in)


def _validated(
    model: type[_Model],
    table: _Table,
    where: str,
    check: Callable[[_Model], list[Problem]],
    stand_in: _Table,
) -> _Model:
    """The model of a table; raises InputError with the problems of its shape and of its sense.

    The parts that are in shape are checked even when others are not, with `stand_in` in place of
    what is missing, so that a file's problems are told all at once.
    """
    try:
        item = model.model_validate(table)
    except ValidationError as error:
        problems = problems_of(error, where)
        sound = _sound_part(table, error)
        try:
            rest = check(model.model_validate(stand_in | sound))
        except ValidationError:
            rest = []
        made_up = stand_in.keys() - sound.keys()
        problems += [p for p in rest if re.split(r"[ .]", p.key)[0] not in made_up]
        raise InputError(problems) from None
    if problems := check(item):
        raise InputError(problems)
    return item


def _sound_part(table: _Table, error: ValidationError) -> _Table:
    """The table without the keys, or the items of top-level lists, that hold a fault."""
    sound = dict(table)
    faulty: dict[str, set[int]] = {}
    for detail in error.errors(include_url=False):
        key, *inner = detail["loc"]
        if inner and isinstance(inner[0], int):
            faulty.setdefault(str(key), set()).add(inner[0])
        else:
            sound.pop(str(key), None)
    for key, places in faulty.items():
        if key in sound:
            items = enumerate(sound[key])
            sound[key] = [item for place, item in items if place not in places]
    return sound
