"""Shipped vehicles as networks, as netlists, and what is seen of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from functools import cache

import numpy as np
from support.spice import Broken, Spice, State

from walkaround.causes.faults import FaultVariant, LampFault, apply_variant
from walkaround.causes.network import Network, States, faultless_states
from walkaround.causes.predictions import LitCircuits
from walkaround.causes.ranking import LampEvidence, Sighting
from walkaround.causes.study import Study, study_of
from walkaround.causes.trials import LampTrial
from walkaround.diagnosis.ranking import Ranking
from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import lamps_for
from walkaround.lamps.wiring import wire
from walkaround.lamps.wiring_document import wiring_document
from walkaround.library.load import load_library
from walkaround.library.standard_tables import standard_tables
from walkaround.vehicle.model import Vehicle

LIBRARY = load_library(shipped(), today=date(2026, 11, 26))
TABLES = standard_tables()
Looks = Mapping[LitCircuits, Mapping[str, str]]
"""What is seen of each housing in each setting."""
VEHICLES = {vehicle.id: vehicle for vehicle in LIBRARY.vehicles}


@cache
def study(vehicle_id: str) -> Study:
    """The study of a shipped vehicle."""
    return study_of_vehicle(VEHICLES[vehicle_id])


def study_of_vehicle(vehicle: Vehicle) -> Study:
    lamps = lamps_for(vehicle, LIBRARY.checklists)
    wiring = wire(vehicle, lamps, LIBRARY.connectors)
    return study_of(vehicle, lamps, wiring, TABLES.bulbs, TABLES.figures)


@cache
def spice(vehicle_id: str) -> Spice:
    """A shipped vehicle for the simulator."""
    vehicle = VEHICLES[vehicle_id]
    lamps = lamps_for(vehicle, LIBRARY.checklists)
    wiring = wire(vehicle, lamps, LIBRARY.connectors)
    document = wiring_document(vehicle, lamps, wiring, TABLES.bulbs)
    return Spice(document, vehicle.length_mm, vehicle.width_mm)


def states_of(network: Network, states: Sequence[State]) -> States:
    """The same states for our own network."""
    made = faultless_states(
        network, np.array([[c in on for c in network.circuits] for _, on in states])
    )
    for row, (faults, _) in enumerate(states):
        for broken in faults:
            fault = LampFault(broken.kind, broken.place)  # type: ignore[arg-type]
            variant = FaultVariant(fault, _at(network, broken), broken.ohms, 1.0)
            apply_variant(made, np.array([row]), variant)
    return made


def alone(study: Study) -> list[LitCircuits]:
    """Each circuit by itself."""
    return [study.setting([circuit]) for circuit in study.network.circuits]


def load_check(study: Study) -> LitCircuits:
    """Tail, marker, stop and left turn together, as at the rear after the last round."""
    apart = ("blackout", "right", "abs", "backup", "headlamp")
    return study.setting([c for c in study.network.circuits if not c.startswith(apart)])


def evidence(looks: Looks, *faults: Broken) -> LampEvidence:
    """What is seen of every housing, and the breakers that tripped."""
    sightings = tuple(
        Sighting(setting, (housing,), look)  # type: ignore[arg-type]
        for setting, of_housings in looks.items()
        for housing, look in of_housings.items()
    )
    tripped = frozenset(broken.place for broken in faults if broken.kind == "shorted")
    return LampEvidence(sightings, tripped or None)


def place_of(ranking: Ranking[LampFault, LampTrial], broken: Broken) -> int:
    """Which likely cause holds this fault, the first being 0; beyond all where none does."""
    fault = (broken.kind, broken.place)
    for place, cause in enumerate(ranking.causes):
        if fault == cause.fault or fault in cause.same_look:
            return place
    return len(ranking.causes) + 100


def _at(network: Network, fault: Broken) -> tuple[int, ...]:
    match fault.kind:
        case "burnt_out":
            names = [f"{load.housing}:{load.circuit}" for load in network.loads]
            return (names.index(fault.place),)
        case "open_branch":
            branches = [f"{network.circuits[c]}@{network.clusters[k]}" for c, k in network.branches]
            return (branches.index(fault.place),)
        case "open_ground" | "poor_ground":
            return (network.clusters.index(fault.place),)
        case "crossed" | "bridged":
            return tuple(network.circuits.index(each) for each in fault.place.split("+"))
        case "open_feed" | "poor_feed" | "shorted":
            return (network.circuits.index(fault.place),)
        case _:
            return ()
