"""Shipped vehicles with air: their studies, and what a mechanic finds out of a leak."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import replace
from functools import cache

from support.airtruth import HOLES, Hole, held, holes_of, told
from support.lampcases import VEHICLES

from walkaround.airhold import assess
from walkaround.airhold.verdict import Z
from walkaround.diagnosis.ranking import Ranking
from walkaround.leaks.plumbing import Source
from walkaround.leaks.ranking import AirEvidence, HoldLosses, MeasuredLoss
from walkaround.leaks.study import AirStudy, air_findings, air_ranked, air_study_of
from walkaround.leaks.tables import BrakeState
from walkaround.leaks.trials import AirTrial, general_place
from walkaround.leaks.variants import AirPart
from walkaround.library.standard_tables import standard_tables
from walkaround.vehicle.model import POWER_UNITS

TABLES = standard_tables().air
HOLDS: tuple[BrakeState, ...] = ("released", "applied")
AIRED = [v.id for v in VEHICLES.values() if v.brakes.system in ("air", "air_over_hydraulic")]
RIGS: list[tuple[str, Source]] = [
    (id_, source)
    for id_ in AIRED
    for source in (("own",) if VEHICLES[id_].kind in POWER_UNITS else ("shop", "coupled"))
]  # type: ignore[misc]
"""Every shipped vehicle with air, on whatever air it is held."""


@cache
def air_study(vehicle_id: str, source: Source) -> AirStudy:
    """The study of a shipped vehicle's air."""
    return air_study_of(VEHICLES[vehicle_id], TABLES, source)


def lost(readings: list[tuple[float, float]]) -> MeasuredLoss:
    """The rate at which a gauge lost, and the error that an air hold gives it."""
    found = assess(readings, 2.0)
    error = (found.high_psi_per_min - found.low_psi_per_min) / (2 * Z)
    return MeasuredLoss(found.rate_psi_per_min, error)


def found_out(
    vehicle_id: str, source: Source, hole: Hole, size: str, chance: random.Random
) -> AirEvidence:
    """Both holds with their readings, ears in each, and at red once it is empty."""
    vehicle = VEHICLES[vehicle_id]
    places = {each.heard for each in holes_of(vehicle, source)}
    holds, heard = [], dict[BrakeState, tuple[str, ...]]()
    for brakes in HOLDS:
        readings, hissed = held(vehicle, source, brakes, hole, size)
        holds.append(HoldLosses(brakes, {g: lost(each) for g, each in readings.items()}))  # type: ignore[misc]
        heard[brakes] = (told(hole, size, hissed, places, chance),)
    # With the lines off a walk asks for air back out of red, and for nothing else.
    _, hissed = held(vehicle, source, "dumped", hole, size)
    if hole.heard == "red_gladhand" and source != "own":
        at = told(hole, size, hissed, places, chance)
        heard |= {"dumped": (at,)} if at == "red_gladhand" else {}
    return AirEvidence(tuple(holds), heard)


def leaks_of(vehicle_id: str, source: Source, times: int) -> Iterator[tuple[Hole, AirEvidence]]:
    """Every leak at every size, found out so many times by ears that err as they may."""
    chance = random.Random(f"{vehicle_id} {source}")
    for hole in holes_of(VEHICLES[vehicle_id], source):
        for size in HOLES:
            for _ in range(times):
                yield hole, found_out(vehicle_id, source, hole, size, chance)


def place_of(ranking: Ranking[AirPart, AirTrial], hole: Hole) -> int:
    """Which likely cause holds this leak's part, the first being 0; far beyond all where none."""
    part = (hole.kind, hole.place)
    for place, cause in enumerate(ranking.causes):
        if part == cause.fault or part in cause.same_look:
            return place
    return len(ranking.causes) + 100


def outcome_of(vehicle_id: str, hole: Hole, size: str, source: Source, trial: AirTrial) -> str:
    """What comes out of a trial at a vehicle with this leak, for eyes and ears that never err."""
    vehicle, part = VEHICLES[vehicle_id], (hole.kind, hole.place)
    if trial.what == "plug":
        own = "rear_cock" if trial.place == "rear" else "test_hose"
        lines = ("red", "blue") if trial.place == "rear" else (trial.place,)
        return trial.outcomes[0 if part in [(own, line) for line in lines] else 1]
    assert trial.brakes
    readings, hissed = held(vehicle, source, trial.brakes, hole, size)
    match trial.what:
        case "listen":
            here = general_place(hole.heard)
            return here if hissed and here in trial.outcomes else "nothing"
        case "soap":
            return "bubbles" if hissed and hole.heard == trial.place else "none"
        case _:
            fell = any(each[0][1] - each[-1][1] >= 1 for each in readings.values())
            return "falls" if fell else "stands"


def until_told(
    vehicle_id: str, source: Source, hole: Hole, size: str, sure: float = 0.9
) -> tuple[int, int]:
    """Do what comes next until one cause is left, or nothing tells more.

    Both holds are known, and nobody has listened.

    Returns:
        How many things were done, and which cause then has the part that leaks, the first being 0.
    """
    of = air_study(vehicle_id, source)
    evidence = found_out(vehicle_id, source, hole, size, random.Random(1))
    evidence = replace(evidence, heard={})
    while True:
        told = air_findings(of, evidence)
        if told.next is None or told.causes[0].share >= sure:
            return len(evidence.results), place_of(air_ranked(of, evidence), hole)
        trial = next(trial for trial in of.trials if trial.id == told.next.id)
        out = outcome_of(vehicle_id, hole, size, source, trial)
        evidence = replace(evidence, results={**evidence.results, trial.id: out})
