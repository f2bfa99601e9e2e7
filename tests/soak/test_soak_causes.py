"""Every single fault of every shipped vehicle by ngspice, and how often the causes hold it."""

from __future__ import annotations

import random
from statistics import mean

import pytest
from causes.test_truth import assert_same_voltages
from support.lampcases import VEHICLES, study
from support.lamptruth import (
    first_and_of_three,
    misread,
    perfectly_seen,
    single_faults,
    two_at_once,
)

pytestmark = pytest.mark.soak


@pytest.mark.parametrize("vehicle_id", sorted(VEHICLES))
def test_every_single_fault_of_a_vehicle(vehicle_id: str) -> None:
    cases = single_faults(vehicle_id, 1)
    assert_same_voltages(study(vehicle_id).network, cases)
    assert perfectly_seen(cases)[0] >= 0.98
    first, of_three = first_and_of_three(misread(cases, random.Random(3), times=5))
    assert first >= 0.85
    assert of_three >= 0.95
    assert mean(two_at_once(vehicle_id, 60, random.Random(4))) >= 0.8
