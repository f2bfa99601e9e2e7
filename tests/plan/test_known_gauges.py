"""Known gauges are not asked again: their step goes, and the walk reads them as they are."""

from __future__ import annotations

from datetime import date

import pytest
from support.walks import Teller

from walkaround.airhold.gauge import Gauge
from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan
from walkaround.rules.limits import Line
from walkaround.walk.events import GaugesTold
from walkaround.walk.state import Walk

LIBRARY = load_library(shipped(), today=date(2026, 11, 25))
VEHICLE = next(each for each in LIBRARY.vehicles if each.id == "sandbag_semitrailer_7")
BAR = Gauge(name="supply", unit="bar", step=0.1)


def planned(*lines: Line) -> Plan:
    gauges = {line: BAR.model_copy(update={"name": line}) for line in lines}
    return plan_walk(VEHICLE, LIBRARY.rules, gauges=gauges, altitude_m=250.0)


def test_known_gauges_are_not_asked_and_are_read_as_they_are() -> None:
    asked = plan_walk(VEHICLE, LIBRARY.rules)
    plan = planned("supply", "service", "primary")
    assert len(plan.steps) == len(asked.steps) - 1
    assert plan.gauges == asked.gauges == ("supply", "service")
    assert set(plan.known_gauges) == {"supply", "service"}
    teller = Teller()
    walk = teller.begin(plan)
    assert walk.gauge("service").unit == "bar"
    assert walk.altitude_m == 250.0


def test_one_gauge_that_is_not_known_has_all_of_them_asked() -> None:
    plan = planned("supply")
    assert plan.step("gauges") is not None
    assert plan.known_gauges == {}
    assert plan.altitude_m == 0.0


def test_what_is_told_in_the_walk_goes_before_what_was_known() -> None:
    plan = planned("supply", "service")
    asked = plan_walk(VEHICLE, LIBRARY.rules)
    gauges = next(step for step in asked.steps if step.kind == "gauges")
    teller = Teller()
    teller.begin(plan.model_copy(update={"steps": (gauges, *plan.steps)}))
    told = {"supply": Gauge(name="supply", step=5.0).model_dump()}
    walk = teller.tell(GaugesTold, step=gauges.id, gauges=told, altitude_m=40.0, at_zero=True)
    assert (walk.gauge("supply").step, walk.gauge("service").unit) == (5.0, "bar")
    assert walk.altitude_m == 40.0


def test_before_a_walk_begins_it_is_at_sea_level_and_its_gauges_are_read_to_the_psi() -> None:
    assert (Walk().altitude_m, Walk().gauge("supply")) == (0.0, Gauge(name="supply"))
    assert (Gauge(name="supply").unit, Gauge(name="supply").step) == ("psi", 1.0)


@pytest.mark.parametrize("scope", ["lamps", "brakes"])
def test_a_walk_that_reads_no_gauge_keeps_none(scope: str) -> None:
    gauges: dict[Line, Gauge] = {"supply": BAR, "service": BAR}
    plan = plan_walk(VEHICLE, LIBRARY.rules, scope=scope, gauges=gauges)  # type: ignore[arg-type]
    assert bool(plan.known_gauges) == (scope == "brakes")
