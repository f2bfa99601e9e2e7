"""Every limit of the shipped air steps against a table typed here, apart from the checklists.

49 CFR 570.57(a)(1) to (6), 393.43(b),(d) and FMVSS 121 S5.1.1.1 read; 393.51(c) read; what is from
memory or second hand says so beside it.
"""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest

from walkaround.limits import Air
from walkaround.loading import Library, load_library
from walkaround.locations import shipped
from walkaround.planning import plan_walk
from walkaround.steps import Measure, Plan
from walkaround.vehicle import Vehicle

TRAILER, TRACTOR, RELAY_TRAILER = "sandbag_semitrailer_7", "depot_tractor_2", "pump_trailer_3"


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


def vehicle(vehicle_id: str) -> Vehicle:
    return next(vehicle for vehicle in library().vehicles if vehicle.id == vehicle_id)


def planned(vehicle_id: str, air: Air = "shop", towed: int = 0, made: date | None = None) -> Plan:
    known = vehicle(vehicle_id)
    if made is not None:
        known = known.model_copy(update={"made": made})
    return plan_walk(known, library().rules, scope="brakes", air=air, towed=towed)


def hold_limit(plan: Plan, step_id: str) -> float:
    step = plan.step(step_id)
    assert step is not None
    assert step.hold is not None
    return step.hold.limit_psi_per_min


def measure(plan: Plan, step_id: str) -> Measure:
    step = plan.step(step_id)
    assert step is not None
    assert step.measure is not None
    return step.measure


# 49 CFR 570.57(a)(5) and (6): single 2 and 3, combination 3 and 4, one more for each further towed
# vehicle. A lone trailer on shop air: 2 and 3, common practice, no source.
@pytest.mark.parametrize(
    ("vehicle_id", "air", "towed", "released", "applied"),
    [
        (TRAILER, "shop", 0, 2.0, 3.0),
        (TRAILER, "coupled", 1, 3.0, 4.0),
        (TRAILER, "coupled", 2, 4.0, 5.0),
        (TRAILER, "coupled", 3, 5.0, 6.0),
        (TRACTOR, "shop", 0, 2.0, 3.0),
        (TRACTOR, "shop", 1, 3.0, 4.0),
        (TRACTOR, "shop", 2, 4.0, 5.0),
    ],
)
def test_an_air_hold_has_the_limit_of_what_is_coupled(
    vehicle_id: str, air: Air, towed: int, released: float, applied: float
) -> None:
    plan = planned(vehicle_id, air, towed)
    tow_vehicle = vehicle_id == TRACTOR
    assert hold_limit(plan, "released_hold" if tow_vehicle else "supply_hold") == released
    assert hold_limit(plan, "applied_hold_tow" if tow_vehicle else "applied_hold") == applied


def test_what_is_published_for_three_vehicles_is_shown_beside_the_limit() -> None:
    """A state's cab check, as quoted: 5 psi released, 6 applied; 570.57 gives 4 and 5."""
    for plan in (planned(TRACTOR, towed=2), planned(TRAILER, "coupled", 2)):
        holds = [step.hold for step in plan.steps if step.hold]
        assert [any("at most 5 psi/min" in text for text in hold.also) for hold in holds] == [
            True,
            False,
        ]
        assert any("at most 6 psi/min" in text for text in holds[1].also)


def test_drivers_manuals_say_less_than_where_the_rule_says_not_more_than() -> None:
    step = planned(TRACTOR).step("released_hold")
    assert step is not None
    assert step.hold is not None
    assert step.hold.equal_passes
    assert "less than 2 psi/min: drivers' manuals of the states" in step.hold.also


# Step, date of make, least, most, a piece of what is published besides.
BOUNDS = [
    # 570.57(a)(4): cut-out not over 135 psi, cut-in not under 80; FMVSS 121 S5.1.1.1: trucks 100.
    ("cut_out", date(2009, 10, 5), None, 135.0, ""),
    ("cut_in", date(2009, 10, 5), 80.0, None, "at least 100 psi"),
    ("cut_in", date(1974, 1, 1), 80.0, None, ""),
    # 570.57(a)(3): at 50 psi at least, FMVSS 121 vehicles 60; 55 in 393.51(c) and older books.
    ("low_pressure_warning", date(2009, 10, 5), 60.0, None, "at least 55 psi"),
    ("low_pressure_warning", date(1974, 1, 1), 50.0, None, "at least 55 psi"),
    # 393.43(b): 20 to 45 psi; 20 to 40 in some books (from memory).
    ("protection_valve", date(2009, 10, 5), 20.0, 45.0, "at most 40 psi"),
    # 85 to 100 psi within 45 s: manuals, second hand. 570.57(a)(2): 45 s, before 1975-03-01 30 s.
    ("rebuild_time", date(2009, 10, 5), None, 45.0, "at most 45 s: 49 CFR 570.57(a)(2)"),
    ("rebuild_time", date(1975, 2, 28), None, 45.0, "at most 30 s: 49 CFR 570.57(a)(2)"),
]


@pytest.mark.parametrize(("step_id", "made", "least", "most", "also"), BOUNDS)
def test_a_pressure_or_time_of_a_tow_vehicle_is_bounded_as_published(
    step_id: str, made: date, least: float | None, most: float | None, also: str
) -> None:
    asked = measure(planned(TRACTOR, made=made), step_id)
    assert {(value.at_least, value.at_most) for value in asked.values} == {(least, most)}
    assert any(also in text for text in asked.also) or (not also and not asked.also)


def test_the_reserve_may_drop_by_a_fifth_of_what_it_was() -> None:
    """49 CFR 570.57(a)(1): one full application, not more than 20 percent of the first reading."""
    asked = measure(planned(TRACTOR), "reserve")
    bounds = {value.id: (value.before, value.at_most) for value in asked.values}
    assert bounds == {
        "primary_before": ("", None),
        "primary_after": ("primary_before", 20.0),
        "secondary_before": ("", None),
        "secondary_after": ("secondary_before", 20.0),
    }


@pytest.mark.parametrize(
    ("vehicle_id", "wait", "after"),
    [(TRAILER, "brakes_stay", "brakes_set"), (RELAY_TRAILER, "emergency_stays", "emergency_set")],
)
def test_brakes_that_a_breakaway_applied_stay_on_for_a_quarter_of_an_hour(
    vehicle_id: str, wait: str, after: str
) -> None:
    """49 CFR 393.43(d): at least 15 minutes, counted from the breakaway."""
    step = planned(vehicle_id).step(wait)
    assert step is not None
    assert step.wait is not None
    assert (step.wait.after, step.wait.seconds) == (after, 15 * 60)
    assert not step.must  # optional: it may be left


def test_the_strokes_are_measured_in_the_order_that_keeps_people_whole() -> None:
    """49 CFR part 396 App. A 1.a(5): engine off, 80 to 90 psi, fully applied. Rods are marked
    before, nobody is in while a valve moves: common practice.
    """
    ids = [step.id for step in planned(TRAILER).steps if step.part == "strokes"]
    assert ids == [
        "strokes_ready",
        "rods_marked_1",
        "rods_marked_2",
        "reservoir_80_90",
        "full_application",
        "needles_steady",
        "stroke_1_right",
        "stroke_2_right",
        "stroke_2_left",
        "stroke_1_left",
        "clear_called",
        "application_released",
    ]


def test_nobody_is_shouted_at_while_in_at_the_brakes_and_none_skips_the_call_to_clear() -> None:
    for vehicle_id in (TRAILER, TRACTOR, RELAY_TRAILER):
        steps = {step.id: step for step in planned(vehicle_id).steps}
        inside = [step for id_, step in steps.items() if id_.startswith(("rods_", "stroke_"))]
        assert inside
        assert all(step.soft and step.caution for step in inside)
        assert steps["clear_called"].must
        assert steps["chocks_on"].must


def test_chocks_go_in_before_any_air_and_come_out_last() -> None:
    for vehicle_id in (TRAILER, TRACTOR, RELAY_TRAILER):
        steps = planned(vehicle_id).steps
        ids = [step.id for step in steps]
        assert ids.index("chocks_on") < min(at for at, step in enumerate(steps) if step.air)
        assert ids[-1] in ("chocks_off", "chocks_stay")
