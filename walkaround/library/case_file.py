"""A case file: of which vehicle what was seen of lamps, or lost of air, for its likely causes."""

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
from walkaround.library.air_case import AirCase, air_studied, unknown_result
from walkaround.library.load import Library, load_vehicle, reference_of
from walkaround.library.standard_tables import standard_tables
from walkaround.library.toml_file import read_table
from walkaround.library.validate import validated
from walkaround.rounds.plan_rounds import single_settings
from walkaround.rounds.power_source import takes_part
from walkaround.vehicle.model import Vehicle

TOGETHER = "+"
"""Joins the ids of circuits that are on at once."""


class Case(Written):
    """What a case file holds.

    Attributes:
        vehicle: path of its file, from the folder of the case file, or the id of one that ships.
        seen: of each circuit, or circuits joined by +, how housings looked while they were on.
        tripped: circuits whose breaker or fuse opened; left out, nothing is known of them.
        conditions: what made the eyes err.
        found: what came out of each trial, by its id.
        air: what was lost of its air; a case is of lamps or of air.
    """

    vehicle: str
    seen: Mapping[str, Mapping[Id, LampLook]] = Field(default_factory=dict)
    tripped: tuple[Id, ...] | None = None
    conditions: tuple[Condition, ...] = ()
    found: Mapping[str, str] = Field(default_factory=dict)
    air: AirCase | None = None


class Studied(NamedTuple):
    """A case that was read: what its causes are found in and what is known, of lamps or of air."""

    vehicle: str
    lamps: tuple[Study, LampEvidence] | None = None
    air: tuple[AirStudy, AirEvidence] | None = None

    @property
    def findings(self) -> Findings:
        """Find the likely causes."""
        if self.air:
            return air_findings(*self.air)
        assert self.lamps
        return lamp_findings(*self.lamps)


def studied(path: Path, library: Library, today: date) -> Studied:
    """Read a case file.

    Args:
        path: of the case file.
        library: what comes with the app.
        today: the day it is.

    Raises:
        InputError: the file, or the vehicle's, has problems; names each.
    """
    case = _read(path)
    vehicle = _vehicle(case.vehicle, path.parent, library, today)
    if case.air:
        return Studied(vehicle.id, air=air_studied(case.air, vehicle, str(path)))
    study = study_for(vehicle, library)
    return Studied(vehicle.id, lamps=(study, _evidence(case, study, str(path))))


def _read(path: Path) -> Case:
    where = str(path)
    stand_in = {"vehicle": "x", "seen": {}}
    return validated(
        Case, read_table(path), where, lambda case: _mixed_or_empty(case, where), stand_in
    )


def study_for(vehicle: Vehicle, library: Library, power: str = "") -> Study:
    """Make the study of a vehicle's lamps, by the rules of a library.

    Args:
        vehicle: the vehicle.
        library: whose rules it is wired by.
        power: id of what lights its lamps; where it is not known each circuit can be lit alone.

    Raises:
        InputError: the vehicle cannot be wired, or names a bulb that is in no table.
    """
    lamps, tables = lamps_for(vehicle, library.checklists), standard_tables()
    wiring = wire(vehicle, lamps, library.connectors)
    source, by_itself = library.power_sources.get(power), None
    if source and source.where != "spot":
        settings = single_settings(source, [c for c in wiring.circuits if takes_part(c)])
        by_itself = [
            id_
            for id_, setting in settings.items()
            if sum(look != "dark" for look in setting.looks.values()) == 1
        ]
    return study_of(vehicle, lamps, wiring, tables.bulbs, tables.figures, by_itself)


def _vehicle(name: str, folder: Path, library: Library, today: date) -> Vehicle:
    """A vehicle that ships, by its id; else that of a file, from this folder or from here."""
    for vehicle in library.vehicles:
        if vehicle.id == name:
            return vehicle
    beside = folder / name
    reference = reference_of(library.checklists, library.connectors, today)
    return load_vehicle(beside if beside.exists() else Path(name), reference)


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
    of_lamps = bool(any(case.seen.values()) or case.tripped or case.found)
    if case.air and of_lamps:
        mend = message("problem-write-two-cases")
        return [Problem(where, "air", message("problem-lamps-and-air"), mend)]
    if of_lamps or (case.air and (case.air.hold or case.air.found)):
        return []
    return [Problem(where, "seen", message("problem-nothing-seen"), message("problem-say-seen"))]


def _unknown_places(case: Case, study: Study) -> Iterator[Flaw]:
    circuits = study.network.circuits
    named = [(f"seen.{key}", id_) for key in case.seen for id_ in key.split(TOGETHER)]
    for key, circuit in [*named, *(("tripped", id_) for id_ in case.tripped or ())]:
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
