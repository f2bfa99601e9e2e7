"""What ngspice says of single faults, against our own network and the ranking made with it.

ngspice is a circuit simulator that is not ours; its netlists are written by `support.spice` from
what `walkaround wiring --json` prints. Of each shipped vehicle every so many faults are simulated
here, all of them in the long run.
"""

from __future__ import annotations

import random

import numpy as np
import pytest
from support.lampcases import VEHICLES, states_of, study
from support.lamptruth import (
    Case,
    first_and_of_three,
    misread,
    perfectly_seen,
    settings,
    single_faults,
    two_at_once,
)

from walkaround.causes.network import Network
from walkaround.causes.solution import solve

NEAREST_V = 0.001
"""Voltages closer than this are the same, V: what a meter shows."""
EVERY = {id_: 14 if id_ == "high_water_truck_1" else 6 for id_ in sorted(VEHICLES)}


@pytest.fixture(params=sorted(VEHICLES))
def cases(request: pytest.FixtureRequest) -> tuple[Case, ...]:
    return single_faults(request.param, EVERY[request.param])


def test_both_solvers_find_the_same_voltages(cases: tuple[Case, ...]) -> None:
    assert_same_voltages(study(cases[0].vehicle_id).network, cases)


def assert_same_voltages(network: Network, cases: tuple[Case, ...]) -> None:
    looked = settings(cases[0].vehicle_id)
    ours = solve(
        network, states_of(network, [(case.faults, s.on) for case in cases for s in looked])
    )
    theirs = [volts for case in cases for volts in case.volts]
    nodes = ["rail", *network.circuits, *network.clusters, "frame"]
    ends = [f"{network.circuits[c]}.{network.clusters[k]}" for c, k in network.branches]
    for names, found in ((nodes, ours.nodes), (ends, ours.ends)):
        expected = np.array([[volts[name] for name in names] for volts in theirs])
        apart = np.abs(found - expected)
        print(f"\n{expected.size} voltages, at most {apart.max() * 1000:.3f} mV apart")
        assert ((apart <= NEAREST_V) | (apart <= 0.02 * np.abs(expected))).all()


def test_with_perfect_eyes_the_fault_is_in_the_first_cause(cases: tuple[Case, ...]) -> None:
    found, size = perfectly_seen(cases)
    assert found >= 0.98
    # Not by calling everything one cause.
    assert size <= 5


def test_with_looks_misread_the_fault_is_first_or_among_the_first_three() -> None:
    """Of all vehicles together, of which there are few cases each; the long run takes each."""
    chance = random.Random(1)
    places = [
        place
        for id_, every in EVERY.items()
        for place in misread(single_faults(id_, every), chance)
    ]
    first, of_three = first_and_of_three(places)
    assert first >= 0.85
    assert of_three >= 0.95


def test_of_two_faults_at_once_one_is_among_the_first_three() -> None:
    chance = random.Random(2)
    hits = [hit for id_ in EVERY for hit in two_at_once(id_, 4, chance)]
    assert np.mean(hits) >= 0.8
