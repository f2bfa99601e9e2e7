"""A case file: what was seen of a vehicle's lamps, or lost of its air, to find likely causes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import NamedTuple

from pydantic import Field

from walkaround.base.checks import Flaw, unknown
from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message
from walkaround.base.toml_model import Id, Written
from walkaround.causes.appearance import Condition
from walkaround.causes.figures import LampLook
from walkaround.causes.ranking import LampEvidence, Sighting
from walkaround.causes.study import Study, lamp_findings, rank_lamp_faults, study_of
from walkaround.diagnosis.findings import Findings
from walkaround.lamps.required_lamps import lamps_for
from walkaround.lamps.wiring import wire
from walkaround.leaks.ranking import AirEvidence as AirEvidence
from walkaround.leaks.study import AirStudy, air_findings
from walkaround.library.air_case import AirCase, study_air_case, unknown_result
from walkaround.library.load import Library, load_vehicle, reference_of
from walkaround.library.standard_tables import standard_tables
from walkaround.library.toml_file import read_table
from walkaround.library.validate import validate_table
from walkaround.rounds.plan_rounds import single_settings
from walkaround.rounds.power_source import takes_part
from walkaround.vehicle.model import Vehicle

TOGETHER = "+"
"""Joins the ids of circuits that are on at once."""


class Case(Written):
    """The content of a case file.

    Attributes:
        vehicle: the path of its file, from the folder of the case file, or a shipped vehicle's id.
        seen: how housings looked while a circuit, or circuits joined by +, were on.
        tripped: circuits whose breaker or fuse opened; if left out, nothing is known of them.
        conditions: what made it hard to see.
        found: the outcome of each trial, by its id.
        air: the air of the vehicle; a case is either of lamps or of air.
    """

    vehicle: str
    seen: Mapping[str, Mapping[Id, LampLook]] = Field(default_factory=dict)
    tripped: tuple[Id, ...] | None = None
    conditions: tuple[Condition, ...] = ()
    found: Mapping[str, str] = Field(default_factory=dict)
    air: AirCase | None = None


class StudiedCase(NamedTuple):
    """A case that was read: the study of the vehicle and the evidence, of lamps or of air."""

    vehicle: str
    lamps: tuple[Study, LampEvidence] | None = None
    air: tuple[AirStudy, AirEvidence] | None = None

    @property
    def findings(self) -> Findings:
        """The likely causes."""
        if self.air:
            return air_findings(*self.air)
        assert self.lamps
        return lamp_findings(*self.lamps)


def read_case(path: Path, library: Library, today: date) -> StudiedCase:
    """Read a case file.

    Args:
        path: the path of the case file.
        library: the library with the rules and the shipped vehicles.
        today: the present day.

    Raises:
        InputError: the file, or the vehicle's, has problems; it lists each.
    """
    case = _read_file(path)
    vehicle = _vehicle(case.vehicle, path.parent, library, today)
    if case.air:
        return StudiedCase(vehicle.id, air=study_air_case(case.air, vehicle, str(path)))
    study = study_for(vehicle, library)
    return StudiedCase(vehicle.id, lamps=(study, _evidence(case, study, str(path))))


def _read_file(path: Path) -> Case:
    where = str(path)
    defaults = {"vehicle": "x", "seen": {}}
    return validate_table(
        Case, read_table(path), where, lambda case: _mixed_or_empty(case, where), defaults
    )


def study_for(vehicle: Vehicle, library: Library, power: str = "") -> Study:
    """Make the study of a vehicle's lamps, by the rules of a library.

    Args:
        vehicle: the vehicle.
        library: the library with the rules.
        power: the id of the power source; if it is not known, each circuit can be lit alone.

    Raises:
        InputError: the vehicle cannot be wired, or names an unknown bulb.
    """
    lamps, tables = lamps_for(vehicle, library.checklists), standard_tables()
    wiring = wire(vehicle, lamps, library.connectors)
    source, alone_ids = library.power_sources.get(power), None
    if source and source.where != "spot":
        settings = single_settings(source, [c for c in wiring.circuits if takes_part(c)])
        alone_ids = [
            id_
            for id_, setting in settings.items()
            if sum(look != "dark" for look in setting.looks.values()) == 1
        ]
    return study_of(vehicle, lamps, wiring, tables.bulbs, tables.figures, alone_ids)


def _vehicle(name: str, folder: Path, library: Library, today: date) -> Vehicle:
    """Return a shipped vehicle by its id, else that of a file, from this or the current folder."""
    for vehicle in library.vehicles:
        if vehicle.id == name:
            return vehicle
    path_beside = folder / name
    reference = reference_of(library.checklists, library.connectors, today)
    return load_vehicle(path_beside if path_beside.exists() else Path(name), reference)


def _evidence(case: Case, study: Study, where: str) -> LampEvidence:
    flaws = [*_unknown_places(case, study)]
    sightings = tuple(
        Sighting(study.setting(circuits.split(TOGETHER)), (housing,), look)
        for circuits, looks in case.seen.items()
        for housing, look in looks.items()
    )
    if not flaws:
        flaws = [*_unknown_results(case, study)]
    if flaws:
        raise InputError(Problem(where, *flaw) for flaw in flaws)
    tripped = None if case.tripped is None else frozenset(case.tripped)
    return LampEvidence(sightings, tripped, frozenset(case.conditions), dict(case.found))


def _mixed_or_empty(case: Case, where: str) -> list[Problem]:
    has_lamps = bool(any(case.seen.values()) or case.tripped or case.found)
    if case.air and has_lamps:
        mend = message("problem-write-two-cases")
        return [Problem(where, "air", message("problem-lamps-and-air"), mend)]
    if has_lamps or (case.air and (case.air.hold or case.air.found)):
        return []
    return [Problem(where, "seen", message("problem-nothing-seen"), message("problem-say-seen"))]


def _unknown_places(case: Case, study: Study) -> Iterator[Flaw]:
    circuits = study.network.circuits
    circuit_keys = [(f"seen.{key}", id_) for key in case.seen for id_ in key.split(TOGETHER)]
    for key, circuit in [*circuit_keys, *(("tripped", id_) for id_ in case.tripped or ())]:
        if circuit not in circuits:
            what = message("trouble-unknown-circuit-of-vehicle", name=circuit)
            yield unknown(key, what, circuit, circuits)
    for key, looks in case.seen.items():
        for housing in looks:
            if housing not in study.housings:
                what = message("trouble-unknown-housing", name=housing)
                yield unknown(f"seen.{key}.{housing}", what, housing, study.housings)


def _unknown_results(case: Case, study: Study) -> Iterator[Flaw]:
    if not case.found:
        return
    trials = {trial.id: trial.outcomes for trial in rank_lamp_faults(study, LampEvidence()).trials}
    for id_, outcome in case.found.items():
        if outcome not in trials.get(id_, ()):
            yield unknown_result(f"found.{id_}", id_, outcome, trials)
