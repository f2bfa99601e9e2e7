"""Reads checklist, vehicle and connector files; one bad file never hides the others.

What a file holds follows from its keys and its folder: `connector` tables make a connector table,
`power_source` tables a file of power sources, an `electrical` table or a folder `vehicles` a
vehicle, anything else is a checklist.

All files are read again whenever a crew changes one vehicle of its own, and most of the work is to
understand checklists; what a file held is therefore understood once for as long as it holds that.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from functools import lru_cache, partial
from pathlib import Path
from typing import Literal, TypeVar

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message
from walkaround.lamps.connector import Connector, ConnectorTable
from walkaround.lamps.feeds import ROLES
from walkaround.lamps.wiring_checks import connector_problems
from walkaround.library.standard_tables import standard_tables
from walkaround.library.toml_file import file_bytes, read_table, table_in
from walkaround.library.validate import Table, validated
from walkaround.plan.plan_walk import Rulebook
from walkaround.rounds.power_checks import power_problems
from walkaround.rounds.power_source import PowerSource, PowerTable
from walkaround.rules.checklist import Checklist
from walkaround.rules.checks import checklist_problems
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.checks import Reference, vehicle_problems

Holds = Literal["connectors", "power sources", "vehicle", "checklist"]
_Item = TypeVar("_Item", Checklist, Vehicle, Connector, PowerSource)
_once = lru_cache(maxsize=64)
"""Of more files than a shop has, those read last."""


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
    files: list[tuple[Path, bytes, Holds]] = []
    for path in paths:
        with _noting(problems):
            data = file_bytes(path)
            files.append((path, data, _holds(path, _table_in(data, str(path)))))

    def keep(
        what: Holds, items_in: Callable[[bytes, str], Iterable[_Item]]
    ) -> dict[str, tuple[_Item, Path]]:
        """What these files hold of one kind, by id, each with its file."""
        item_of: dict[str, tuple[_Item, Path]] = {}
        for path, data, holds in files:
            if holds != what:
                continue
            with _noting(problems):
                for item in items_in(data, str(path)):
                    first, of = item_of.setdefault(item.id, (item, path))
                    if first is not item:
                        taken = message("trouble-id-is-taken", id=item.id, file=str(of))
                        mend = message("problem-give-one-another-id")
                        problems.append(Problem(str(path), "id", taken, mend))
        return item_of

    plugs = keep("connectors", _connectors_in)
    connectors = {id_: connector for id_, (connector, _) in plugs.items()}
    powers = keep("power sources", _power_sources_in)
    lists = keep("checklist", _checklists_in)
    checklists = tuple(checklist for checklist, _ in lists.values())
    reference = reference_of(checklists, connectors, today)
    vehicles = keep(
        "vehicle", lambda data, where: [vehicle_of(_table_in(data, where), where, reference)]
    )
    return Library(
        checklists=checklists,
        vehicles=tuple(vehicle for vehicle, _ in vehicles.values()),
        connectors=connectors,
        power_sources={id_: source for id_, (source, _) in powers.items()},
        problems=(*problems, *_rules_told_twice(lists.values())),
        vehicle_files={id_: path for id_, (_, path) in vehicles.items()},
    )


@_once
def _table_in(data: bytes, where: str) -> Table:
    return table_in(data, where)


@_once
def _connectors_in(data: bytes, where: str) -> tuple[Connector, ...]:
    return tuple(connectors_of(_table_in(data, where), where).values())


@_once
def _power_sources_in(data: bytes, where: str) -> tuple[PowerSource, ...]:
    return tuple(power_sources_of(_table_in(data, where), where).values())


@_once
def _checklists_in(data: bytes, where: str) -> tuple[Checklist]:
    return (checklist_of(_table_in(data, where), where),)


def load_vehicle(path: Path, reference: Reference) -> Vehicle:
    """Read one vehicle file; raises InputError with all its problems."""
    return vehicle_of(read_table(path), str(path), reference)


def reference_of(
    checklists: Sequence[Checklist], connectors: Mapping[str, Connector], today: date
) -> Reference:
    """Set out what vehicles are checked against: these, and the tables that came with the app."""
    tables = standard_tables()
    return Reference(tuple(checklists), connectors, tables.bulbs, tables.strokes, today)


def file_problems(paths: Iterable[Path], shipped: Path, today: date) -> tuple[Problem, ...]:
    """Every problem of these files, beside each other and beside the files of the shipped folder.

    Raises:
        InputError: some of them cannot be opened; names each.
    """
    path_of = {path.resolve(): path for path in paths}
    unopened: list[Problem] = []
    for path in path_of.values():
        with _noting(unopened):
            file_bytes(path)
    if unopened:
        raise InputError(unopened)
    others = [path for path in _files([shipped]) if path.resolve() not in path_of]
    library = load_files([*others, *path_of.values()], today=today)
    names = {str(path) for path in path_of.values()}
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


@contextmanager
def _noting(problems: list[Problem]) -> Iterator[None]:
    """Note the problems of a file that cannot be taken, and go on."""
    try:
        yield
    except InputError as error:
        problems += error.problems


def _rules_told_twice(checklists: Iterable[tuple[Checklist, Path]]) -> list[Problem]:
    first: dict[str, Path] = {}
    problems = []
    for checklist, path in checklists:
        for rule in checklist.lamps:
            if first.setdefault(rule.id, path) != path:
                what = message("trouble-lamp-rule-is-elsewhere", file=str(first[rule.id]))
                mend = message("problem-give-this-one-another-id")
                problems.append(Problem(str(path), f"lamp {rule.id}", what, mend))
    return problems


def connectors_of(table: Table, where: str) -> dict[str, Connector]:
    """Return the connectors that a table holds, by id; raises InputError with all its problems."""

    check = partial(connector_problems, where=where)
    connectors = validated(ConnectorTable, table, where, check, stand_in={}).connectors
    return {connector.id: connector for connector in connectors}


def power_sources_of(table: Table, where: str) -> dict[str, PowerSource]:
    """The power sources of a table, by id, each with its switches; raises InputError as above."""
    circuits = [role.id for role in ROLES.values()]

    check = partial(power_problems, where=where, circuit_ids=circuits)

    def check_part(sound: PowerTable) -> list[Problem]:
        # A source that is not in shape is missing here, and is no reason to blame another.
        return [p for p in check(sound) if not p.key.endswith(".switches_of")]

    return validated(PowerTable, table, where, check, {}, check_part).by_id()


def vehicle_of(table: Table, where: str, reference: Reference) -> Vehicle:
    """Return the vehicle that a table describes; raises InputError with all its problems."""
    stand_in = {
        "id": "x",
        "kind": "semitrailer",
        "made": reference.today,
        "width_mm": 2000,
        "length_mm": 9000,
        "electrical": {"volts": 12, "connector": "x"},
    }

    check = partial(vehicle_problems, where=where, reference=reference)
    # Which lamps it has cannot be told while its size or kind is not known.
    lampless = replace(reference, checklists=())
    check_part = partial(vehicle_problems, where=where, reference=lampless)
    return validated(Vehicle, table, where, check, stand_in, check_part)


def checklist_of(table: Table, where: str) -> Checklist:
    """Return the checklist that a table holds; raises InputError with all its problems."""
    stand_in = {"id": "x", "title": "x", "source": "x", "provenance": "memory"}
    return validated(Checklist, table, where, partial(checklist_problems, where=where), stand_in)
