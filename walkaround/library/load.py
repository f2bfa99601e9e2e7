"""Loading checklist, vehicle, connector and power source files; one bad file hides no other.

The kind of a file follows from its keys and its folder: `connector` tables make a connector table,
`power_source` tables a file of power sources, an `electrical` table or a folder `vehicles` a
vehicle; any other file is a checklist.

All files are read again whenever a crew changes a vehicle of its own, and most of the work is
validating checklists; so results are cached by the content of a file.
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
from walkaround.library.validate import Table, validate_table
from walkaround.plan.plan_walk import Rulebook
from walkaround.rounds.power_checks import power_problems
from walkaround.rounds.power_source import PowerSource, PowerTable
from walkaround.rules.checklist import Checklist
from walkaround.rules.checks import checklist_problems
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.checks import Reference, vehicle_problems

FileKind = Literal["connectors", "power sources", "vehicle", "checklist"]
_Item = TypeVar("_Item", Checklist, Vehicle, Connector, PowerSource)
_cached = lru_cache(maxsize=64)
"""Caches the results for the last files, more than a shop has."""


@dataclass(frozen=True, slots=True)
class Library:
    """Everything that could be loaded, and every problem of what could not.

    Attributes:
        checklists, vehicles: in the order of the files.
        connectors, power_sources: by their ids.
        problems: every problem of the files.
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
        """The rules that plans are made from."""
        return Rulebook(
            self.checklists, self.connectors, self.power_sources, standard_tables().strokes
        )


def load_library(*folders: Path, today: date) -> Library:
    """Load every TOML file of these folders and of their `vehicles` folders.

    Args:
        folders: the folders; missing ones count as empty. If two files have the same id, the first
            one is used.
        today: the present day, to check the dates of manufacture.
    """
    return load_files(_files(folders), today=today)


def load_files(paths: Iterable[Path], *, today: date) -> Library:
    """Load these files, see `load_library`."""
    problems: list[Problem] = []
    files: list[tuple[Path, bytes, FileKind]] = []
    for path in paths:
        with _collect_problems(problems):
            data = file_bytes(path)
            files.append((path, data, _file_kind(path, _table_in(data, str(path)))))

    def read_kind(
        wanted_kind: FileKind, items_in: Callable[[bytes, str], Iterable[_Item]]
    ) -> dict[str, tuple[_Item, Path]]:
        """Read the files of one kind: each item by its id, with its file."""
        item_of: dict[str, tuple[_Item, Path]] = {}
        for path, data, kind in files:
            if kind != wanted_kind:
                continue
            with _collect_problems(problems):
                for item in items_in(data, str(path)):
                    first, first_path = item_of.setdefault(item.id, (item, path))
                    if first is not item:
                        what = message("trouble-id-is-taken", id=item.id, file=str(first_path))
                        mend = message("problem-give-one-another-id")
                        problems.append(Problem(str(path), "id", what, mend))
        return item_of

    connector_files = read_kind("connectors", _connectors_in)
    connectors = {id_: connector for id_, (connector, _) in connector_files.items()}
    power_files = read_kind("power sources", _power_sources_in)
    checklist_files = read_kind("checklist", _checklists_in)
    checklists = tuple(checklist for checklist, _ in checklist_files.values())
    reference = reference_of(checklists, connectors, today)
    vehicles = read_kind(
        "vehicle", lambda data, where: [vehicle_of(_table_in(data, where), where, reference)]
    )
    return Library(
        checklists=checklists,
        vehicles=tuple(vehicle for vehicle, _ in vehicles.values()),
        connectors=connectors,
        power_sources={id_: source for id_, (source, _) in power_files.items()},
        problems=(*problems, *_duplicate_rules(checklist_files.values())),
        vehicle_files={id_: path for id_, (_, path) in vehicles.items()},
    )


@_cached
def _table_in(data: bytes, where: str) -> Table:
    return table_in(data, where)


@_cached
def _connectors_in(data: bytes, where: str) -> tuple[Connector, ...]:
    return tuple(connectors_of(_table_in(data, where), where).values())


@_cached
def _power_sources_in(data: bytes, where: str) -> tuple[PowerSource, ...]:
    return tuple(power_sources_of(_table_in(data, where), where).values())


@_cached
def _checklists_in(data: bytes, where: str) -> tuple[Checklist]:
    return (checklist_of(_table_in(data, where), where),)


def load_vehicle(path: Path, reference: Reference) -> Vehicle:
    """Read one vehicle file.

    Raises:
        InputError: with all problems of the file.
    """
    return vehicle_of(read_table(path), str(path), reference)


def reference_of(
    checklists: Sequence[Checklist], connectors: Mapping[str, Connector], today: date
) -> Reference:
    """Return what vehicles are checked against: these, and the shipped tables."""
    tables = standard_tables()
    return Reference(tuple(checklists), connectors, tables.bulbs, tables.strokes, today)


def file_problems(paths: Iterable[Path], shipped: Path, today: date) -> tuple[Problem, ...]:
    """Return every problem of these files, loaded together with those of the shipped folder.

    Raises:
        InputError: some of them cannot be opened; it lists each.
    """
    path_of = {path.resolve(): path for path in paths}
    unreadable: list[Problem] = []
    for path in path_of.values():
        with _collect_problems(unreadable):
            file_bytes(path)
    if unreadable:
        raise InputError(unreadable)
    others = [path for path in _files([shipped]) if path.resolve() not in path_of]
    library = load_files([*others, *path_of.values()], today=today)
    names = {str(path) for path in path_of.values()}
    return tuple(problem for problem in library.problems if problem.where in names)


def _file_kind(path: Path, table: Table) -> FileKind:
    """Return the kind of a file."""
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
def _collect_problems(problems: list[Problem]) -> Iterator[None]:
    """Add the problems of an InputError in the block to a list, and go on."""
    try:
        yield
    except InputError as error:
        problems += error.problems


def _duplicate_rules(checklists: Iterable[tuple[Checklist, Path]]) -> list[Problem]:
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
    """Return the connectors of a table, by id.

    Raises:
        InputError: with all problems of the table.
    """
    check = partial(connector_problems, where=where)
    connectors = validate_table(ConnectorTable, table, where, check, defaults={}).connectors
    return {connector.id: connector for connector in connectors}


def power_sources_of(table: Table, where: str) -> dict[str, PowerSource]:
    """Return the power sources of a table, by id, each with its switches.

    Raises:
        InputError: with all problems of the table.
    """
    circuits = [role.id for role in ROLES.values()]

    check = partial(power_problems, where=where, circuit_ids=circuits)

    def check_part(valid: PowerTable) -> list[Problem]:
        # A source with problems is missing here; others that refer to it are not to blame.
        return [p for p in check(valid) if not p.key.endswith(".switches_of")]

    return validate_table(PowerTable, table, where, check, {}, check_part).by_id()


def vehicle_of(table: Table, where: str, reference: Reference) -> Vehicle:
    """Return the vehicle of a table.

    Raises:
        InputError: with all problems of the table.
    """
    defaults = {
        "id": "x",
        "kind": "semitrailer",
        "made": reference.today,
        "width_mm": 2000,
        "length_mm": 9000,
        "electrical": {"volts": 12, "connector": "x"},
    }

    check = partial(vehicle_problems, where=where, reference=reference)
    # Its lamps are not known as long as its size or kind is not.
    without_lamps = replace(reference, checklists=())
    check_part = partial(vehicle_problems, where=where, reference=without_lamps)
    return validate_table(Vehicle, table, where, check, defaults, check_part)


def checklist_of(table: Table, where: str) -> Checklist:
    """Return the checklist of a table.

    Raises:
        InputError: with all problems of the table.
    """
    defaults = {"id": "x", "title": "x", "source": "x", "provenance": "memory"}
    return validate_table(
        Checklist, table, where, partial(checklist_problems, where=where), defaults
    )
