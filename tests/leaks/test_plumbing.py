"""Who feeds what follows from the vehicle, and any vehicle with air has likely causes."""

from __future__ import annotations

from datetime import date

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.aircases import TABLES, air_study
from support.lampcases import VEHICLES

from walkaround.base.errors import InputError
from walkaround.leaks.plumbing import Source, plumbing_of
from walkaround.leaks.ranking import AirEvidence
from walkaround.leaks.study import air_findings, air_study_of
from walkaround.leaks.tables import BRAKE_STATES
from walkaround.vehicle.model import KINDS, POWER_UNITS, Axle, Brakes, Electrical, Vehicle


@st.composite
def any_vehicle(draw: st.DrawFn) -> tuple[Vehicle, Source, int]:
    kind = draw(st.sampled_from(KINDS))
    axle = st.builds(
        Axle, spring=st.booleans(), lift=st.booleans(), type=st.sampled_from(["", "30"])
    )
    brakes = Brakes(
        system=draw(st.sampled_from(["air", "air_over_hydraulic"])),
        reservoir_l=tuple(draw(st.lists(st.floats(1, 500), max_size=4))),
        axles=tuple(draw(st.lists(axle, max_size=4))),
    )
    vehicle = Vehicle(
        id="any",
        kind=kind,
        made=date(2010, 1, 1),
        width_mm=2500.0,
        length_mm=draw(st.floats(2_000, 20_000)),
        electrical=Electrical(volts=12, connector="sae_j560"),
        brakes=brakes,
    )
    source = "own" if kind in POWER_UNITS else draw(st.sampled_from(["shop", "coupled"]))
    return vehicle, source, draw(st.integers(0, 3))  # type: ignore[return-value]


@settings(max_examples=40)
@given(any_vehicle())
def test_any_vehicle_with_air_has_likely_causes(drawn: tuple[Vehicle, Source, int]) -> None:
    vehicle, source, towed = drawn
    of = air_study_of(vehicle, TABLES, source, towed)
    told = air_findings(of, AirEvidence(heard={"released": ("nothing",)}))
    assert sum(cause.share for cause in told.causes) == pytest.approx(1)
    assert all(np.isfinite(of.variants.rates[brakes]).all() for brakes in BRAKE_STATES)
    for way in of.plumbing.ways:
        # Each way of leaking is open to air at least once, or its row could never be told.
        assert any(of.plumbing.emptied(way.node, brakes) for brakes in way.open_in), way


def test_a_vehicle_without_air_is_refused() -> None:
    with pytest.raises(InputError, match="no air brakes"):
        plumbing_of(VEHICLES["tool_trailer_12"], TABLES)


def test_a_tank_that_leaks_takes_red_along_and_red_takes_no_tank() -> None:
    """The check valve of 49 CFR 571.121 S5.2.1.4 lets air into the tank, and not back."""
    plumbing = air_study("sandbag_semitrailer_7", "shop").plumbing
    assert plumbing.emptied("tank", "released") == {"tank", "red_line"}
    assert plumbing.emptied("red_line", "released") == {"red_line"}
    assert plumbing.emptied("tank", "dumped") == {"tank"}
    assert plumbing.emptied("chambers", "released") == set()
    assert plumbing.emptied("chambers", "applied") == {"chambers", "tank", "red_line"}


def test_a_smaller_tank_falls_faster_by_as_much() -> None:
    """14.7 psi a minute for each litre of free air out of one litre: the ideal gas."""
    plumbing = air_study("sandbag_semitrailer_7", "shop").plumbing
    litres = plumbing.volumes_l["tank"] + plumbing.volumes_l["red_line"]
    fall = plumbing.fall("tank", "released")
    assert fall["supply"] * litres == pytest.approx(14.7, abs=0.01)
    assert fall["service"] == 0


def test_what_is_towed_counts_while_the_supply_knob_is_in() -> None:
    plumbing = plumbing_of(VEHICLES["depot_tractor_2"], TABLES, towed=1)
    assert "trailer" in {way.kind for way in plumbing.ways}
    assert plumbing.emptied("red_line", "released") >= {"primary", "secondary"}
    assert plumbing.emptied("red_line", "applied") == set()
    assert "trailer" not in {way.kind for way in air_study("depot_tractor_2", "own").plumbing.ways}
