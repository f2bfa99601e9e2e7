"""Every single fault of every shipped vehicle by ngspice, and how often the causes hold it."""

from __future__ import annotations

import random
from statistics import mean
from typing import Any

import pytest
from causes.test_truth import assert_same_voltages
from support import spice
from support.lampcases import VEHICLES, study
from support.lampcases import spice as wired
from support.lamptruth import (
    first_and_of_three,
    misread,
    perfectly_seen,
    simulated,
    single_faults,
    two_at_once,
)

pytestmark = pytest.mark.soak


@pytest.mark.parametrize("vehicle_id", sorted(VEHICLES))
def test_every_single_fault_of_a_vehicle(vehicle_id: str) -> None:
    cases = single_faults(vehicle_id, 1)
    assert_same_voltages(study(vehicle_id).network, cases)
    assert perfectly_seen(cases)[0] >= 0.98
    first, of_three = first_and_of_three(misread(cases, random.Random(3), times=10))
    assert first >= 0.85
    assert of_three >= 0.95
    assert mean(two_at_once(vehicle_id, 60, random.Random(4))) >= 0.8


@pytest.mark.parametrize(
    ("eyes", "wiring"),
    [
        ({"LIT": 0.7, "DIM": 0.05}, {}),
        ({"LIT": 0.35, "DIM": 0.01}, {}),
        ({"POOR": (0.3, 1.5), "POOR_LED": (1.0, 5.0)}, {}),
        ({}, {"source_volts_12": 13.8, "source_volts_24": 28.0}),
        ({}, {"feed_length": 2.0, "end_branch_length": 1.5, "sound_source_ohms": 0.06}),
        ({}, {"filament_cold_share": 0.07, "led_dark_below": 0.4, "led_full_from": 0.9}),
    ],
)
def test_other_eyes_joints_and_wires_than_the_tables_leave_the_fault_first(
    eyes: dict[str, Any], wiring: dict[str, float], monkeypatch: pytest.MonkeyPatch
) -> None:
    """What is simulated differs from what causes are reckoned with; the figures are guesses."""
    for name, value in eyes.items():
        monkeypatch.setattr(spice, name, value)
    found = []
    for vehicle_id in ("sandbag_semitrailer_7", "pump_trailer_3", "pontoon_trailer_9"):
        for figure, other in wiring.items():
            monkeypatch.setitem(wired(vehicle_id).figures, figure, other)
        faults = [*wired(vehicle_id).faults()][::3]
        cases = simulated(vehicle_id, [(broken,) for broken in faults])
        found.append(perfectly_seen(cases)[0])
    assert mean(found) >= 0.98
