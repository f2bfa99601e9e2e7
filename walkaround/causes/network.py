"""The wiring of a vehicle as a direct-current network, and the states that it may be in.

    source, its own resistance - rail - contact and feed wire of each circuit that is on - circuit
    circuit - branch wire - lamps of this circuit in one cluster - cluster - ground - main ground

The lamps of one branch hang in parallel between its end and their cluster. Of circuits that are
off nothing is known but that their switches are open: current may still find its way back through
their lamps.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from walkaround.causes.figures import LampFigures
from walkaround.lamps.bulbs import Filament
from walkaround.lamps.wiring import Wiring
from walkaround.vehicle.model import Vehicle

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Numbers = NDArray[np.intp]

_MM_PER_KM = 1e6


@dataclass(frozen=True, slots=True)
class Network:
    """One vehicle's lamps and wires; ohms, volts and amperes.

    Attributes:
        circuits, clusters: their ids, in the order of the arrays.
        branches: circuit and cluster of each branch, as places in those.
        loads: what burns, in the order of the arrays of lamps.
        branch_of: the branch of each load.
        amps, rated_volts, led: of each load.
        volts: of the source, without load.
    """

    circuits: tuple[str, ...]
    clusters: tuple[str, ...]
    branches: tuple[tuple[int, int], ...]
    loads: tuple[Filament, ...]
    branch_of: Numbers
    amps: Floats
    rated_volts: Floats
    led: Flags
    volts: float
    source_ohms: float
    feed_ohms: Floats
    branch_ohms: Floats
    ground_ohms: Floats
    main_ohms: float
    figures: LampFigures

    @property
    def nodes(self) -> int:
        """How many nodes are solved for: the rail, circuits, clusters, the main ground."""
        return 2 + len(self.circuits) + len(self.clusters)


class States(NamedTuple):
    """Many states of a network, one a row; an open wire has infinite ohms.

    Attributes:
        on: which circuits the source feeds, [state, circuit].
        feed_ohms, branch_ohms, ground_ohms, main_ohms: as they are in each state.
        burning: which loads are whole, [state, load].
        bridge: two circuits that touch, or -1 and -1, [state, 2].
    """

    on: Flags
    feed_ohms: Floats
    branch_ohms: Floats
    ground_ohms: Floats
    main_ohms: Floats
    burning: Flags
    bridge: Numbers

    def some(self, places: Numbers) -> States:
        """Give the states at these places."""
        return States(
            self.on[places],
            self.feed_ohms[places],
            self.branch_ohms[places],
            self.ground_ohms[places],
            self.main_ohms[places],
            self.burning[places],
            self.bridge[places],
        )


def network_of(
    vehicle: Vehicle, wiring: Wiring, loads: Sequence[Filament], figures: LampFigures
) -> Network:
    """Build the network of a vehicle; lengths that no file tells follow from its size."""
    circuits = tuple(circuit.id for circuit in wiring.circuits)
    clusters = tuple(dict.fromkeys(load.cluster for load in loads))
    places = [(circuits.index(load.circuit), clusters.index(load.cluster)) for load in loads]
    branches = tuple(dict.fromkeys(places))
    length_mm, width_mm = vehicle.length_mm, vehicle.width_mm
    contact = figures["sound_contact_ohms"]
    gauges = {pin.pin: pin.gauge for pin in wiring.connector.pins}

    def feed(pins: Sequence[str]) -> float:
        match = re.fullmatch(r"(\d+) AWG", gauges.get(pins[0], "")) if pins else None
        gauge = float(match[1]) if match else figures["feed_awg"]
        wire = _wire_ohms(gauge, figures["feed_length"] * length_mm, figures)
        return (contact + wire) / max(len(pins), 1)

    def branch(cluster: str) -> float:
        is_on_side = cluster.endswith("_side")
        reach = (
            figures["side_branch_length"] * length_mm
            if is_on_side
            else figures["end_branch_length"] * width_mm
        )
        return contact + _wire_ohms(figures["branch_awg"], reach, figures)

    ground = figures["sound_ground_ohms"] + _wire_ohms(
        figures["ground_awg"], figures["ground_length"] * width_mm, figures
    )
    return Network(
        circuits=circuits,
        clusters=clusters,
        branches=branches,
        loads=tuple(loads),
        branch_of=np.array([branches.index(place) for place in places], dtype=np.intp),
        amps=np.array([load.watts / load.volts for load in loads]),
        rated_volts=np.array([load.volts for load in loads]),
        led=np.array([load.led for load in loads], dtype=np.bool_),
        volts=figures[f"source_volts_{wiring.volts}"],
        source_ohms=figures["sound_source_ohms"],
        feed_ohms=np.array([feed(circuit.pins) for circuit in wiring.circuits]),
        branch_ohms=np.array([branch(clusters[cluster]) for _, cluster in branches]),
        ground_ohms=np.full(len(clusters), ground),
        main_ohms=contact
        + _wire_ohms(figures["main_ground_awg"], figures["feed_length"] * length_mm, figures),
        figures=figures,
    )


def _wire_ohms(gauge: float, length_mm: float, figures: LampFigures) -> float:
    return figures[f"awg_{gauge:.0f}"] * length_mm / _MM_PER_KM


def faultless_states(network: Network, on: Flags) -> States:
    """Give these settings, [state, circuit], of a network without a fault."""
    count = len(on)
    return States(
        on=on,
        feed_ohms=np.tile(network.feed_ohms, (count, 1)),
        branch_ohms=np.tile(network.branch_ohms, (count, 1)),
        ground_ohms=np.tile(network.ground_ohms, (count, 1)),
        main_ohms=np.full(count, network.main_ohms),
        burning=np.ones((count, len(network.loads)), dtype=np.bool_),
        bridge=np.full((count, 2), -1, dtype=np.intp),
    )
