"""Reads checklist, vehicle and connector files; one bad file never hides the others.

What a file holds follows from its keys and its folder: `connector` tables make a connector table,
`power_source` tables a file of power sources, an `electrical` table or a folder `vehicles` a
vehicle, anything else is a checklist.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial
from pathlib import Path
from typing import Literal, ParamSpec, TypeVar

from walkaround.base.errors import InputError, Problem
from walkaround.garage.checks import vehicle_problems
from walkaround.lamps.feeds import ROLES
from walkaround.lamps.wiring import Connector, ConnectorTable
from walkaround.lamps.wiring_checks import connector_problems
from walkaround.library.standard_tables import standard_tables
from walkaround.library.toml_file import file_bytes, read_table
from walkaround.library.validate import Table, validated
from walkaround.plan.plan_walk import Rulebook
from walkaround.rounds.power_checks import power_problems
from walkaround.rounds.power_source import PowerSource, PowerTable
from walkaround.rules.checklist import Checklist
from walkaround.rules.checks import checklist_problems
from walkaround.vehicle.model import Vehicle

Holds = Literal["connectors", "power sources", "vehicle", "checklist"]
_P = ParamSpec("_P")
_T = TypeVar("_T")
_Item = TypeVar("_Item", Checklist, Vehicle, Connector, PowerSource)
# What was kept under each id, and the file it came from.
_Kept = dict[str, tuple[_Item, Path]]


@dataclass(frozen=True, slots=True)
class Library:
    """Everything that could be read, and every problem of what could not.

    Attributes:
        vehicle_files: the file of each vehicle, by the vehicle's id.
    """

    checklists: tuple[Checklist, ...]
    vehicles: tuple[Vehicle, ...]
    connectors: Mapping[str, Connector]
    power_sources: Mapping[str, PowerSource]
    problems: tuple[Problem, ...]
    vehicle_files: Mapping[str, Path]

    @property
    def rules(self) -> Rulebook:
        """What plans are made from."""
        return Rulebook(
            self.checklists, self.connectors, self.power_sources, standard_tables().strokes
        )


def load_library(*folders: Path, today: date) -> Library:
    """Read every TOML file of these folders and of their `vehicles` folders.

    Args:
        folders: those that do not exist count as empty; of two things with one id the first counts.
        today: the day it is, against which dates of make are checked.
    """
    return load_files(_files(folders), today=today)


def load_files(paths: Iterable[Path], *, today: date) -> Library:
    """Read these files, as `load_library` does."""
    problems: list[Problem] = []
    tables = {
        path: table for path in paths if (table := _noted(problems, read_table, path)) is not None
    }

    def holding(what: Holds) -> list[tuple[Path, Table]]:
        return [(path, table) for path, table in tables.items() if _holds(path, table) == what]

    plugs: _Kept[Connector] = {}
    for path, table in holding("connectors"):
        found = _noted(problems, connectors_of, table, str(path))
        problems += _keep((found or {}).values(), path, plugs)
    powers: _Kept[PowerSource] = {}
    for path, table in holding("power sources"):
        sources = _noted(problems, power_sources_of, table, str(path))
        problems += _keep((sources or {}).values(), path, powers)
    connectors = {id_: connector for id_, (connector, _) in plugs.items()}
    checklists: _Kept[Checklist] = {}
    for path, table in holding("checklist"):
        checklist = _noted(problems, checklist_of, table, str(path))
        problems += _keep([checklist] if checklist else [], path, checklists)
    rules = tuple(checklist for checklist, _ in checklists.values())
    vehicles: _Kept[Vehicle] = {}
    for path, table in holding("vehicle"):
        vehicle = _noted(problems, vehicle_of, table, str(path), connectors, today, rules)
        problems += _keep([vehicle] if vehicle else [], path, vehicles)
    return Library(
        checklists=rules,
        vehicles=tuple(vehicle for vehicle, _ in vehicles.values()),
        connectors=connectors,
        power_sources={id_: source for id_, (source, _) in powers.items()},
        problems=(*problems, *_rules_told_twice(checklists)),
        vehicle_files={id_: path for id_, (_, path) in vehicles.items()},
    )


def load_vehicle(
    path: Path,
    connectors: Mapping[str, Connector],
    today: date,
    checklists: Sequence[Checklist] = (),
) -> Vehicle:
    """Read one vehicle file; raises InputError with all its problems.

    Without checklists, what it says of single lamps is only checked when it is wired.
    """
    return vehicle_of(read_table(path), str(path), connectors, today, checklists)


def file_problems(paths: Iterable[Path], shipped: Path, today: date) -> tuple[Problem, ...]:
    """Every problem of these files, beside each other and beside the files of the shipped folder.

    Raises:
        InputError: some of them cannot be opened; names each.
    """
    given = {path.resolve(): path for path in paths}
    unopened: list[Problem] = []
    for path in given.values():
        _noted(unopened, file_bytes, path)
    if unopened:
        raise InputError(unopened)
    others = [path for path in _files([shipped]) if path.resolve() not in given]
    library = load_files([*others, *given.values()], today=today)
    names = {str(path) for path in given.values()}
    return tuple(problem for problem in library.problems if problem.where in names)


def _holds(path: Path, table: Table) -> Holds:
    """What this table of a file says."""
    if "connector" in table:
        return "connectors"
    if "power_source" in table:
        return "power sources"
    if path.parent.name == "vehicles" or "electrical" in table:
        return "vehicle"
    return "checklist"


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


def connectors_of(table: Table, where: str) -> dict[str, Connector]:
    """The connectors that a table holds, by id; raises InputError with all its problems."""

    def check(found: ConnectorTable) -> list[Problem]:
        return connector_problems(found, where)

    found = validated(ConnectorTable, table, where, check, stand_in={})
    return {connector.id: connector for connector in found.connectors}


def power_sources_of(table: Table, where: str) -> dict[str, PowerSource]:
    """The power sources of a table, by id, each with its switches; raises InputError as above."""
    circuits = [role.id for role in ROLES.values()]

    def check(found: PowerTable) -> list[Problem]:
        return power_problems(found, where, circuits)

    def check_part(found: PowerTable) -> list[Problem]:
        # A source that is not in shape is missing here, and is no reason to blame another.
        return [p for p in check(found) if not p.key.endswith(".switches_of")]

    stand_in: Table = {}
    return validated(PowerTable, table, where, check, stand_in, check_part).by_id()


def vehicle_of(
    table: Table,
    where: str,
    connectors: Mapping[str, Connector],
    today: date,
    checklists: Sequence[Checklist] = (),
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

    def check(vehicle: Vehicle, rules: Sequence[Checklist]) -> list[Problem]:
        tables = standard_tables()
        return vehicle_problems(
            vehicle,
            where,
            connectors,
            today,
            bulbs=tables.bulbs,
            strokes=tables.strokes,
            checklists=rules,
        )

    # Which lamps it has cannot be told while its size or kind is not known.
    return validated(
        Vehicle, table, where, partial(check, rules=checklists), stand_in, partial(check, rules=())
    )


def checklist_of(table: Table, where: str) -> Checklist:
    """The checklist that a table holds; raises InputError with all its problems."""
    stand_in = {"id": "x", "title": "x", "source": "x", "provenance": "memory"}

    def check(checklist: Checklist) -> list[Problem]:
        return checklist_problems(checklist, where)

    return validated(Checklist, table, where, check, stand_in)
