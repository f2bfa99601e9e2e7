"""Where axles are drawn: under the vehicle, in order, a group at the rear."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.vehicle.model import KINDS, PLAUSIBLE, Axle, Brakes, Electrical, Kind, Vehicle
from walkaround.vehicle.outline import AXLE_SPREAD_MM, axle_x_mm, drawbar_mm


def vehicle(kind: Kind, length_mm: float, axles: int) -> Vehicle:
    return Vehicle(
        id="x",
        kind=kind,
        made=date(2010, 1, 1),
        width_mm=2500.0,
        length_mm=length_mm,
        electrical=Electrical(volts=12, connector="sae_j560"),
        brakes=Brakes(system="air", axles=(Axle(),) * axles),
    )


@given(st.sampled_from(KINDS), st.floats(*PLAUSIBLE["length_mm"]), st.integers(0, 9))
def test_every_axle_lies_under_the_vehicle_and_behind_the_one_before(
    kind: Kind, length_mm: float, axles: int
) -> None:
    found = axle_x_mm(vehicle(kind, length_mm, axles))
    assert len(found) == axles
    assert all(0 < x_mm < length_mm for x_mm in found)
    assert all(before < behind for before, behind in pairwise(found))


@given(st.sampled_from(KINDS), st.floats(*PLAUSIBLE["length_mm"]))
def test_a_drawbar_leaves_most_of_the_length_to_the_body(kind: Kind, length_mm: float) -> None:
    assert 0 <= drawbar_mm(vehicle(kind, length_mm, 2)) <= 0.3 * length_mm


# Common practice, no source: a semitrailer's axles stand together near its rear; a full trailer
# steers with its first axle, which stands near the front of its body.
def test_a_semitrailer_stands_on_a_group_at_its_rear() -> None:
    first, second = axle_x_mm(vehicle("semitrailer", 13716.0, 2))
    assert second - first == pytest.approx(AXLE_SPREAD_MM)
    assert first > 0.6 * 13716.0


def test_a_full_trailer_has_its_first_axle_near_the_front() -> None:
    trailer = vehicle("full trailer", 6706.0, 2)
    first, second = axle_x_mm(trailer)
    assert drawbar_mm(trailer) < first < 0.5 * 6706.0 < second
