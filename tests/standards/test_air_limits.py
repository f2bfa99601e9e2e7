"""Every limit of the shipped air steps against a table typed here, apart from the checklists.

49 CFR 570.57(a)(1) to (6), 393.43(a),(b),(d), 393.50 and 393.51(c) read; FMVSS 121 S5.1.1
read, S5.1.1.1 in the rules that brought it (61 FR 6173, 61 FR 60635; compliance from 1997-03-01),
read; what is from memory or second hand says so beside it.
"""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest

from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan
from walkaround.plan.values import Measure
from walkaround.rules.limits import Air
from walkaround.vehicle.model import Vehicle

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


HOLDS = {
    (TRAILER, "shop"): ["supply_hold", "applied_hold"],
    (TRAILER, "coupled"): ["supply_hold_coupled", "applied_hold_coupled"],
    (TRACTOR, "shop"): ["released_hold", "applied_hold_tow"],
}


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
    holds = [step.id for step in plan.steps if step.hold]
    assert holds == HOLDS[vehicle_id, air]
    assert [hold_limit(plan, hold) for hold in holds] == [released, applied]


def test_what_is_published_for_three_vehicles_is_shown_beside_the_limit() -> None:
    """A state's cab check, as quoted: 5 psi released, 6 applied; 570.57 gives 4 and 5."""
    for plan in (planned(TRACTOR, towed=2), planned(TRAILER, "coupled", 2)):
        holds = [step.hold for step in plan.steps if step.hold]
        assert [any("at most 5 psi/min" in str(text) for text in hold.also) for hold in holds] == [
            True,
            False,
        ]
        assert any("at most 6 psi/min" in str(text) for text in holds[1].also)


@pytest.mark.parametrize(
    ("vehicle_id", "air", "towed", "said"),
    [
        (TRACTOR, "shop", 0, "less than 2 psi/min: drivers' manuals of the states"),
        (TRACTOR, "shop", 1, "less than 3 psi/min: drivers' manuals of the states, two vehicles"),
        (TRAILER, "coupled", 1, "less than 3 psi/min: drivers' manuals of the states"),
    ],
)
def test_drivers_manuals_say_less_than_where_the_rule_says_not_more_than(
    vehicle_id: str, air: Air, towed: int, said: str
) -> None:
    hold = next(step.hold for step in planned(vehicle_id, air, towed).steps if step.hold)
    assert hold.equal_passes
    assert any(str(text).startswith(said) for text in hold.also)


def test_shop_air_and_a_coupled_trailer_are_told_apart_in_words() -> None:
    shop, coupled = (
        next(step for step in planned(TRAILER, air, 1).steps if step.hold)
        for air in ("shop", "coupled")
    )
    assert "alone on shop air" in str(shop.long)
    assert "shop practice" in str(shop.long)
    assert "coupled" in str(coupled.title)
    assert "49 CFR 570.57(a)(5)" in str(coupled.long)


NEW, MIDDLE, OLD = date(2009, 10, 5), date(1975, 3, 1), date(1975, 2, 28)
"""To FMVSS 121 with its cut-in rule; the first day of FMVSS 121 for trucks; the day before."""

# Step, date of make, least, most, and each limit that is published besides.
BOUNDS: list[tuple[str, date, float | None, float | None, set[str]]] = [
    # 570.57(a)(4): cut-out not over 135 psi.
    ("cut_out", NEW, None, 135.0, set()),
    # 570.57(a)(4): cut-in not under 80 psi; FMVSS 121 S5.1.1.1: trucks 100 psi from 1997-03-01.
    ("cut_in", NEW, 80.0, None, {"at least 100 psi"}),
    ("cut_in", date(1997, 3, 1), 80.0, None, {"at least 100 psi"}),
    ("cut_in", date(1997, 2, 28), 80.0, None, set()),
    # 570.57(a)(3): at 60 psi at least if built to FMVSS 121, else 50. 393.51(c), older vehicles,
    # not made to FMVSS 121, and part 396 App. A 1.f: 55 psi or half of cut-out, the lower one.
    ("low_pressure_warning", NEW, 60.0, None, {"at least 55 psi"}),
    ("low_pressure_warning", MIDDLE, 60.0, None, {"at least 55 psi"}),
    ("low_pressure_warning", OLD, 55.0, None, {"at least 50 psi", "at least 55 psi"}),
    ("low_pressure_secondary", NEW, 60.0, None, {"at least 55 psi"}),
    ("low_pressure_secondary", OLD, 55.0, None, {"at least 50 psi", "at least 55 psi"}),
    # 393.43(a), (b): 20 to 45 psi.
    ("protection_valve", NEW, 20.0, 45.0, set()),
    # 85 to 100 psi within 45 s: CDL manual 5.3. FMVSS 121 S5.1.1, new vehicles: 25 s x actual /
    # required reservoir capacity; made to it from 1975-03-01 on, 393.50(a).
    ("rebuild_time", NEW, None, 45.0, {"at most 25 s"}),
    ("rebuild_time", OLD, None, 45.0, set()),
]


@pytest.mark.parametrize(("step_id", "made", "least", "most", "also"), BOUNDS)
def test_a_pressure_or_time_of_a_tow_vehicle_is_bounded_as_published(
    step_id: str, made: date, least: float | None, most: float | None, also: set[str]
) -> None:
    asked = measure(planned(TRACTOR, made=made), step_id)
    assert {(value.at_least, value.at_most) for value in asked.values} == {(least, most)}
    assert {str(text).partition(":")[0] for text in asked.also} == also


def test_every_limit_that_is_shipped_for_a_value_is_in_the_table_above() -> None:
    asked = {step.id for step in planned(TRACTOR).steps if step.measure}
    strokes = {step_id for step_id in asked if step_id.startswith("stroke_")}
    assert asked - strokes == {step_id for step_id, *_ in BOUNDS} | {"reserve"}


def test_each_circuit_of_a_tow_vehicle_has_its_own_warning() -> None:
    plan = planned(TRACTOR)
    read = [
        [value.gauge for value in measure(plan, step_id).values]
        for step_id in ("low_pressure_warning", "low_pressure_secondary")
    ]
    assert read == [["primary"], ["secondary"]]


def test_the_formula_for_a_new_compressor_is_named_as_the_test_of_a_new_vehicle() -> None:
    [formula] = measure(planned(TRACTOR), "rebuild_time").also
    assert "FMVSS 121 S5.1.1, the new-vehicle test, at 25 s x actual / required" in str(formula)


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


def test_of_an_older_vehicle_393_50_wants_seven_tenths_left() -> None:
    """49 CFR 393.50(b), vehicles not made to FMVSS 121: 70 % of the reading."""
    assert measure(planned(TRACTOR), "reserve").also == ()
    [other] = measure(planned(TRACTOR, made=OLD), "reserve").also
    assert str(other).startswith("at most 30 %: 49 CFR 393.50")


def test_brakes_that_air_alone_applied_stay_on_for_a_quarter_of_an_hour() -> None:
    """49 CFR 393.43(d): at least 15 minutes, counted from the breakaway."""
    step = planned(RELAY_TRAILER).step("emergency_stays")
    assert step is not None
    assert step.wait is not None
    assert (step.wait.after, step.wait.seconds) == ("emergency_set", 15 * 60)
    assert not step.must  # optional: it may be left


def test_spring_brakes_are_not_waited_for_but_seen_to_be_still_set_at_the_end() -> None:
    """A spring needs no air to hold: the second look after 15 minutes is left to the last step."""
    plan = planned(TRAILER)
    assert not any(step.wait for step in plan.steps)
    assert "staying out" in str(plan.step("brakes_set").short)  # type: ignore[union-attr]
    assert "still out" in str(plan.steps[-1].short)


def test_the_wheels_are_visited_in_the_order_that_keeps_people_whole() -> None:
    """49 CFR part 396 App. A 1.a(5): engine off, 80 to 90 psi, fully applied. Rods are marked
    before, nobody is in while a valve moves: common practice.
    """
    parts = ("marking", "applied_hold", "strokes", "clear")
    assert [step.id for step in planned(TRAILER).steps if step.part in parts] == [
        "rods_marked_1",
        "rods_marked_2",
        "service_applied",
        "applied_hold",
        "needles_steady",
        "stroke_1_right",
        "stroke_2_right",
        "stroke_2_left",
        "stroke_1_left",
        "clear_called",
        "application_released",
        "rods_back",
    ]


def test_nobody_is_shouted_at_while_in_at_the_brakes_and_none_skips_the_call_to_clear() -> None:
    for vehicle_id in (TRAILER, TRACTOR, RELAY_TRAILER):
        steps = {step.id: step for step in planned(vehicle_id).steps}
        inside = [step for id_, step in steps.items() if id_.startswith(("rods_marked", "stroke_"))]
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


APPLIED = ("service_applied", "applied_coupled", "reserve", "pedal_applied", "full_application")
"""Every step that has the brakes applied fully."""
AT_80_90 = ("service_applied", "full_application")


@pytest.mark.parametrize("vehicle_id", [TRAILER, TRACTOR, RELAY_TRAILER])
def test_the_pressure_that_strokes_are_measured_at_is_told_from_both_practices(
    vehicle_id: str,
) -> None:
    """Part 396 App. A 1.a(5): 80 to 90 psi (read); roadside practice: 90 to 100 (from memory)."""
    [step] = [step for step in planned(vehicle_id).steps if step.id in AT_80_90]
    assert "80 to 90 psi" in str(step.long)
    assert "oadside practice" in str(step.long)
    assert "90 to 100 psi" in str(step.long)


@pytest.mark.parametrize("vehicle_id", [TRAILER, TRACTOR, RELAY_TRAILER])
@pytest.mark.parametrize("air", ["shop", "coupled"])
def test_a_step_about_a_full_application_is_never_over_set_spring_brakes(
    vehicle_id: str, air: Air
) -> None:
    """Common practice: both forces add up. A recheck starts from parked brakes, so each says it."""
    applied = [step for step in planned(vehicle_id, air, 1).steps if step.id in APPLIED]
    assert len(applied) == (3 if vehicle_id == TRACTOR else 1)
    assert all("over set spring brakes" in str(step.long) for step in applied)


@pytest.mark.parametrize("vehicle_id", [TRAILER, TRACTOR, RELAY_TRAILER])
@pytest.mark.parametrize("air", ["shop", "coupled"])
def test_engines_run_only_outdoors_or_with_an_exhaust_hose(vehicle_id: str, air: Air) -> None:
    """Common practice against carbon monoxide."""
    for step in planned(vehicle_id, air, 1).steps:
        if step.air and "tart the engine" in str(step.long):
            assert "outdoors" in str(step.caution), step.id
            assert "exhaust hose on" in str(step.caution), step.id


@pytest.mark.parametrize("vehicle_id", [TRAILER, TRACTOR, RELAY_TRAILER])
def test_a_stroke_measured_anew_asks_for_all_that_keeps_the_one_who_is_in_whole(
    vehicle_id: str,
) -> None:
    plan = plan_walk(vehicle(vehicle_id), library().rules, scope="recheck", only=("stroke_1_left",))
    parts = ("marking", "applied_hold", "strokes", "clear")
    ids = [step.id for step in plan.steps if step.part in parts and "marked" not in step.id]
    trailer = ["service_applied", "needles_steady"]
    tractor = ["pedal_applied", "full_application"]
    before = tractor if vehicle_id == TRACTOR else trailer
    released = "application_released_tow" if vehicle_id == TRACTOR else "application_released"
    assert ids == [*before, "stroke_1_left", "clear_called", released]
    assert "rods_marked_1" in [step.id for step in plan.steps]
