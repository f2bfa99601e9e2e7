"""The order that keeps people whole, what each scope asks, and what each lamp step expects.

The order follows common practice and these texts: chocks before air releases parking brakes
(29 CFR 1910.178(k)(1) as background), the source shut before a timed hold, supply vented and
brakes seen to set before lines come off, chocks last. Which circuit lights which lamp is told
apart from the code: SAE J560 (pins 2 marker, 3 left, 4 stop, 5 right, 6 tail, 7 ABS) and, for the
combined 24 V wiring, MIL-S-62183C (B left stop and turn, J right stop and turn, E tail and
marker).
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import replace
from datetime import date
from functools import cache
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError
from support.english import ENGLISH

from walkaround.base.errors import InputError
from walkaround.disk.locations import shipped
from walkaround.lamps.names import pins_named
from walkaround.lamps.required_lamps import lamps_for, reflectors_for
from walkaround.lamps.wiring import circuits_of
from walkaround.library.load import Library, load_library
from walkaround.plan.abs_steps import ABS_BY_STOP
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import CHECKED_KINDS, OTHERS, UNPLACED, Plan, Practice, Scope
from walkaround.rules.checklist import PARTS, SPOTS, Applies
from walkaround.vehicle.model import Brakes, Electrical, Vehicle
from walkaround.words.prompts import prompt

SEMI, PUMP = "sandbag_semitrailer_7", "pump_trailer_3"
BOTH = (SEMI, PUMP)
POWERS = ("box", "cab", "helper")
GOING_UNDER_AIR = {"supply_charged", "source_shut", "service_applied", "application_released"}


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


def vehicle(id_: str) -> Vehicle:
    return next(vehicle for vehicle in library().vehicles if vehicle.id == id_)


def planned(
    whose: str | Vehicle, scope: Scope = "whole", power: str = "", only: tuple[str, ...] = ()
) -> Plan:
    """One circuit at a time; circuits lit together are tested in test_lampsteps."""
    known = library()
    what = vehicle(whose) if isinstance(whose, str) else whose
    return plan_walk(what, known.rules, scope=scope, power=power, together=False, only=only)


def ids(plan: Plan) -> list[str]:
    return [step.id for step in plan.steps]


def assert_whole(plan: Plan) -> None:
    """Nothing here may hurt anybody, whatever of the walk is asked."""
    order = ids(plan)
    at = {id_: place for place, id_ in enumerate(order)}
    last = at.get("chocks_off", at.get("chocks_stay"))

    def first_before_second(first: str, second: str) -> None:
        if second in at:
            assert first in at, f"{second} without {first} in {order}"
            assert at[first] < at[second], order

    assert order[0] == "chocks_on"
    assert last == len(order) - 1
    for id_ in at.keys() & GOING_UNDER_AIR:
        first_before_second("chocks_on", id_)
        first_before_second("lines_on", id_)
    first_before_second("lines_on", "supply_charged")
    first_before_second("supply_charged", "source_shut")
    first_before_second("source_shut", "supply_hold")
    first_before_second("source_shut", "rods_marked_1")
    first_before_second("rods_marked_1", "stroke_1_left")
    first_before_second("supply_charged", "service_applied")
    first_before_second("service_applied", "applied_hold")
    first_before_second("service_applied", "needles_steady")
    first_before_second("needles_steady", "stroke_1_left")
    first_before_second("clear_called", "application_released")
    # What was put on comes off, and never under pressure.
    first_before_second("source_bled", "lines_off")
    if "service_applied" in at:
        assert at["service_applied"] < at["application_released"] < at["source_bled"]
    if "lines_on" in at:
        vented = at.get("brakes_set", at.get("emergency_set"))
        assert vented is not None
        assert at["source_bled"] < vented < at["lines_off"] < len(order) - 1
    # Nothing is fed before its pins are metered, its voltage and wiring confirmed.
    if "doubtful_pins" in at:
        first_before_second("doubtful_pins", "cable_on")
    if "cable_on" in at:
        first_before_second("cable_on", "cable_off")
    for step in plan.steps:
        if step.kind == "lamp":
            assert at["cable_on"] < at[step.id] < at["cable_off"]


@pytest.mark.parametrize("whose", BOTH)
@pytest.mark.parametrize("scope", ["whole", "lamps", "brakes"])
@pytest.mark.parametrize("power", POWERS)
def test_every_scope_keeps_people_whole(whose: str, scope: Scope, power: str) -> None:
    assert_whole(planned(whose, scope, power))


@given(st.data(), st.sampled_from(BOTH), st.sampled_from(POWERS))
def test_a_recheck_of_any_steps_keeps_people_whole(
    data: st.DataObject, whose: str, power: str
) -> None:
    steps = planned(whose, power=power).steps
    checked = [step.id for step in steps if step.kind in CHECKED_KINDS]
    only = data.draw(st.lists(st.sampled_from(checked), min_size=1, max_size=4, unique=True))
    plan = planned(whose, "recheck", power, tuple(only))
    assert_whole(plan)
    assert set(only) <= set(ids(plan))


@pytest.mark.parametrize("whose", BOTH)
def test_a_recheck_repeats_what_was_wrong_and_readies_the_vehicle_for_it(whose: str) -> None:
    lamp = planned(whose, "recheck", only=("tail_rear",))
    assert [s.id for s in lamp.steps if s.kind in CHECKED_KINDS] == ["tail_rear"]
    assert {"chocks_on", "cable_on", "cable_off"} <= set(ids(lamp))
    assert not any(step.air for step in lamp.steps)
    air = planned(whose, "recheck", only=("applied_hold",))
    assert {"lines_on", "supply_charged", "service_applied"} <= set(ids(air))
    assert {"source_shut", "clear_called", "application_released"} <= set(ids(air))
    assert not any(step.power for step in air.steps)
    assert "supply_hold" not in ids(air)


@pytest.mark.parametrize("whose", BOTH)
def test_a_recheck_of_everything_is_the_whole_walk(whose: str) -> None:
    whole = planned(whose)
    assert ids(planned(whose, "recheck", only=tuple(ids(whole)))) == ids(whole)


@pytest.mark.parametrize("whose", BOTH)
def test_lamps_alone_need_no_air_and_brakes_alone_no_power(whose: str) -> None:
    whole, lamps, brakes = (planned(whose, scope) for scope in ("whole", "lamps", "brakes"))
    assert not any(step.air for step in lamps.steps)
    assert not any(step.power for step in brakes.steps)
    assert set(ids(lamps)) | set(ids(brakes)) == set(ids(whole))
    assert {s.part for s in whole.steps if s.id in set(ids(lamps)) & set(ids(brakes))} <= {
        "secure",
        "leave",
    }


@pytest.mark.parametrize("whose", BOTH)
def test_parts_are_walked_in_order_and_every_step_has_an_id_of_its_own(whose: str) -> None:
    steps = planned(whose).steps
    places = [PARTS.index(step.part) for step in steps]
    assert places == sorted(places)
    assert len({step.id for step in steps}) == len(steps)


@pytest.mark.parametrize("whose", BOTH)
def test_a_vehicle_that_air_alone_holds_keeps_its_chocks(whose: str) -> None:
    plan = planned(whose)
    spring = any(axle.spring for axle in plan.vehicle.brakes.axles)
    assert ("chocks_off" in ids(plan)) is ("brakes_set" in ids(plan)) is spring
    assert ("chocks_stay" in ids(plan)) is ("emergency_set" in ids(plan)) is not spring


def test_a_vehicle_without_air_brakes_is_asked_nothing_about_air() -> None:
    plan = planned(vehicle(SEMI).model_copy(update={"brakes": Brakes(system="electric")}))
    assert not any(step.air or step.hold for step in plan.steps)
    assert ids(plan)[-1] == "chocks_stay"
    assert_whole(plan)


@pytest.mark.parametrize("whose", BOTH)
def test_nobody_can_skip_what_keeps_the_vehicle_where_it_is(whose: str) -> None:
    must = {step.id for step in planned(whose).steps if step.must}
    assert {"chocks_on", "cable_on", "lines_on", "clear_called", "needles_steady"} <= must
    assert {"source_bled", "lines_off", "cable_off"} <= must
    assert must & {"chocks_off", "chocks_stay"}
    assert all(step.kind in ("act", "look") for step in planned(whose).steps if step.must)


@pytest.mark.parametrize("whose", BOTH)
def test_each_wheel_end_is_listened_to_looked_at_and_measured_in_one_visit(whose: str) -> None:
    plan = planned(whose)
    for number, _ in enumerate(plan.vehicle.brakes.axles, start=1):
        for side in ("left", "right"):
            step = plan.step(f"stroke_{number}_{side}")
            assert step is not None
            assert (step.kind, step.soft) == ("measure", True)
            assert {item.place for item in step.items} == {f"axle_{number}_{side}"}
            seen = [item.id.removeprefix(f"axle_{number}_{side}_") for item in step.items]
            assert seen == ["leak", "chamber", "hose", "slack", "lining"]
            assert "No hiss" in str(step.short)
            assert "hands off" in str(step.caution).lower()


@pytest.mark.parametrize("whose", BOTH)
def test_what_was_explained_at_the_first_wheel_end_is_not_explained_again(whose: str) -> None:
    plan = planned(whose)
    ends = [step for step in plan.steps if step.id.startswith("stroke_")]
    assert "asbestos" in str(ends[0].caution)
    assert all("asbestos" not in str(step.caution) for step in ends[1:])
    assert all(len(str(step.long)) < len(str(ends[0].long)) for step in ends[1:])


@pytest.mark.parametrize("whose", BOTH)
def test_whatever_moves_the_brakes_warns_of_it(whose: str) -> None:
    moving = [
        "supply_charged",
        "service_applied",
        "application_released",
        "brakes_set",
        "emergency_set",
    ]
    for step in planned(whose).steps:
        if step.id in moving:
            assert re.search(r"hands away|stand clear", str(step.caution).lower()), step.id


# Circuit by circuit at the rear of each demo vehicle; told by hand from the tables named above.
REAR = {
    SEMI: {
        "marker": "clearance_rear licence_plate",
        "tail": "tail identification_rear",
        "left_turn": "turn_rear_left",
        "right_turn": "turn_rear_right",
        "stop": "stop",
    },
    PUMP: {
        "tail": "clearance_rear identification_rear tail licence_plate",
        "left_stop_turn": "stop_left turn_rear_left",
        "right_stop_turn": "stop_right turn_rear_right",
        "blackout_marker": "blackout_marker",
        "blackout_stop": "blackout_stop",
    },
}


@pytest.mark.parametrize("whose", BOTH)
def test_at_the_rear_each_circuit_lights_what_its_standard_says(whose: str) -> None:
    found = {
        step.circuits_on[0]: {
            lamp for item in step.items if item.id in step.expect for lamp in item.lamps
        }
        for step in planned(whose).steps
        if step.kind == "lamp" and step.spot == "rear"
    }
    assert set(found) == set(REAR[whose])
    for circuit, starts in REAR[whose].items():
        wanted = starts.split()
        assert all(lamp.startswith(tuple(wanted)) for lamp in found[circuit]), circuit
        assert all(any(lamp.startswith(s) for lamp in found[circuit]) for s in wanted), circuit


@pytest.mark.parametrize(("whose", "power"), [*product(BOTH, POWERS)])
def test_every_lamp_is_looked_at_once_and_every_reflector_too(whose: str, power: str) -> None:
    plan = planned(whose, power=power)
    # The ABS lamp is looked at once more from its other supply.
    once = [step for step in plan.steps if not step.id.startswith(ABS_BY_STOP)]
    seen = Counter(lamp for step in once for item in step.items for lamp in item.lamps)
    checklists = [c for c in library().checklists if c.applies.matches(plan.vehicle)]
    lamps = lamps_for(plan.vehicle, checklists) + reflectors_for(plan.vehicle, checklists)
    # A pedal under blackout lights the markers with the stop lamps.
    often = {id_ for id_ in seen if id_.startswith("blackout_marker")} if power != "box" else set()
    assert set(seen) == {lamp.id for lamp in lamps}
    assert {id_ for id_, count in seen.items() if count > 1} <= often


@pytest.mark.parametrize(("whose", "power"), [*product(BOTH, POWERS)])
def test_a_lamp_step_expects_every_housing_at_its_spot(whose: str, power: str) -> None:
    plan = planned(whose, power=power)
    checklists = [c for c in library().checklists if c.applies.matches(plan.vehicle)]
    at_spot = {
        spot: {lamp.housing for lamp in lamps_for(plan.vehicle, checklists) if lamp.spot == spot}
        for spot in SPOTS
    }
    for step in plan.steps:
        if step.kind == "lamp":
            lit = {item.id for item in step.items if item.id in step.expect}
            if step.spot == "cab":
                # In the mirror the ABS lamp alone can be judged.
                assert [item.kind for item in step.items] == ["abs"]
                continue
            assert set(step.expect) == at_spot[step.spot]
            if len(step.circuits_on) > 1:
                assert step.circuits_on == ("blackout_marker", "blackout_stop")
                continue
            assert {housing for housing, look in step.expect.items() if look != "dark"} == lit
            turns = "turn" in step.circuits_on[0]
            assert {step.expect[housing] for housing in lit} == {"flashing" if turns else "steady"}
            assert any(item.id == OTHERS for item in step.items) == bool(at_spot[step.spot] - lit)


@pytest.mark.parametrize("whose", BOTH)
def test_every_thing_to_look_at_has_its_mark_on_the_plan(whose: str) -> None:
    plan = planned(whose)
    marks = {mark.id for mark in plan.marks}
    # What hangs on a line or on the frame has no place of its own on the plan.
    elsewhere = {"seal", "red_hose", "blue_hose", "blue_air", "red_air", "holder"}
    elsewhere |= {"frame_hoses", "tanks"}
    items = [item for step in plan.steps for item in step.items]
    looked_at = {item.place for item in items if item.kind not in UNPLACED}
    assert looked_at <= marks | elsewhere
    assert len(marks) == len(plan.marks)
    for mark in plan.marks:
        assert 0 <= mark.x_mm <= plan.vehicle.length_mm
        assert abs(mark.y_mm) <= plan.vehicle.width_mm / 2


@pytest.mark.parametrize("whose", BOTH)
@pytest.mark.parametrize("power", ["box", "helper"])
def test_with_a_box_or_a_helper_one_round_goes_clockwise(whose: str, power: str) -> None:
    plan = planned(whose, power=power)
    lamps = [step for step in plan.steps if step.part == "lamps" and step.id != "all_off"]
    spots = [SPOTS.index(step.spot) for step in lamps]
    assert plan.rounds == 1
    assert spots == sorted(spots)


@pytest.mark.parametrize("whose", BOTH)
def test_from_the_cab_each_circuit_costs_a_round(whose: str) -> None:
    plan = planned(whose, power="cab")
    lamps = [step for step in plan.steps if step.part == "lamps" and step.spot != "cab"]
    by_round: dict[int, set[tuple[str, ...]]] = {}
    for step in lamps:
        by_round.setdefault(step.round, set()).add(step.circuits_on)
    circuits = {step.circuits_on for step in lamps if step.circuits_on}
    assert plan.rounds == len(circuits) == len(by_round)
    assert all(len(on - {()}) == 1 for on in by_round.values())
    assert [step.round for step in lamps] == sorted(step.round for step in lamps)
    first = [SPOTS.index(step.spot) for step in lamps if step.round == 1]
    assert first == sorted(first)


def test_a_doubtful_pin_is_metered_before_it_is_fed() -> None:
    plan = planned(PUMP)
    metered = plan.step("doubtful_pins")
    assert metered is not None
    assert "pins A, C, and H" in str(metered.short)
    assert {step.circuits_on for step in plan.steps if step.meter_first} == {("blackout_marker",)}
    # From the cab nobody feeds a pin by hand.
    assert not any(step.meter_first for step in planned(PUMP, power="cab").steps)


@pytest.mark.parametrize("made", [date(1998, 2, 28), date(1998, 3, 1)])
def test_pin_7_is_in_doubt_where_the_rule_for_it_does_not_bind_yet(made: date) -> None:
    """Trailers made on or after 1998-03-01 have ABS (49 CFR 393.55(c)(2)), fed by pin 7."""
    old = vehicle(SEMI).model_copy(update={"made": made})
    by_pin = {c.pins: c for c in circuits_of(old, library().connectors)}
    assert by_pin["7",].meter_first == (made < date(1998, 3, 1))
    assert not by_pin["2",].meter_first


@given(vehicle_id=st.sampled_from(BOTH), together=st.booleans())
def test_that_a_pin_is_metered_first_is_said_once_a_walk(vehicle_id: str, together: bool) -> None:
    plan = plan_walk(vehicle(vehicle_id), library().rules, together=together)
    said = {step.id: prompt(step, plan.power, "short", ENGLISH).say for step in plan.steps}
    metering = [id_ for id_, text in said.items() if re.search(r"(?i)\bmeter\b", text)]
    assert metering == (["doubtful_pins"] if vehicle_id == PUMP else [])
    assert len([step for step in plan.steps if step.meter_first]) <= 1


@pytest.mark.parametrize("whose", BOTH)
def test_voltage_and_wiring_are_named_for_this_vehicle(whose: str) -> None:
    plan = planned(whose)
    step = plan.step("cable_on")
    assert step is not None
    assert f"{plan.vehicle.electrical.volts} V" in str(step.short)
    wiring = library().connectors[plan.vehicle.electrical.connector]
    assert wiring.title in str(step.short)


@pytest.mark.parametrize("whose", BOTH)
def test_every_step_names_its_source_and_nothing_is_left_to_fill_in(whose: str) -> None:
    for step in planned(whose).steps:
        assert step.source
        assert not re.search(r"[{}]", f"{step.title} {step.short} {step.long}")


@pytest.mark.parametrize("whose", BOTH)
def test_a_plan_is_the_same_after_it_was_stored(whose: str) -> None:
    plan = planned(whose)
    assert Plan.model_validate_json(plan.model_dump_json()) == plan
    assert planned(whose) == plan


@given(
    kind=st.sampled_from(["semitrailer", "full trailer", "pole trailer", "converter dolly"]),
    width_mm=st.sampled_from([1800.0, 2032.0, 2591.0]),
    length_mm=st.sampled_from([4000.0, 9144.0, 9145.0, 16000.0]),
    made=st.sampled_from([date(1975, 1, 1), date(1998, 3, 1), date(2020, 1, 1)]),
    axles=st.integers(0, 5),
    spring=st.booleans(),
    system=st.sampled_from(["air", "air_over_hydraulic", "electric", "surge", "none"]),
)
def test_any_trailer_of_the_common_wiring_gets_a_walk_that_keeps_people_whole(
    axles: int, spring: bool, system: str, **fields: object
) -> None:
    brakes = {"system": system, "axles": [{"spring": spring}] * axles}
    electrical = {"volts": 12, "connector": "sae_j560"}
    plan = planned(
        Vehicle.model_validate({"id": "x", "electrical": electrical, "brakes": brakes, **fields})
    )
    order = ids(plan)
    assert order.index("chocks_on") < order.index("cable_on")
    assert order[-1] in ("chocks_off", "chocks_stay")
    read = sum(step.kind == "chambers" for step in plan.steps)
    assert read == (axles if system == "air" else 0)
    assert (order[-1] == "chocks_off") == (system == "air" and spring and axles > 0)
    if system == "air" and axles:
        assert_whole(plan)


def test_a_lamp_without_a_circuit_is_told_and_not_left_out() -> None:
    truck = vehicle(SEMI).model_copy(
        update={"electrical": Electrical(volts=12, connector="sae_j560", blackout=True)}
    )
    with pytest.raises(InputError):
        planned(truck)


def test_pins_are_named_as_people_name_them() -> None:
    assert [str(pins_named(pins)) for pins in ("7", "AC", "ACH")] == [
        "pin 7",
        "pins A and C",
        "pins A, C, and H",
    ]


def test_an_unknown_step_is_none() -> None:
    assert planned(SEMI).step("no_such_step") is None


def test_no_gauges_are_asked_for_where_none_is_read() -> None:
    """Such a step had nothing to tell, and so no answer but that it was not checked."""
    known = library()
    air = next(each for each in known.checklists if any(s.kind == "gauges" for s in each.steps))
    anywhere = [step.model_copy(update={"needs": ()}) for step in air.steps]
    asking = air.model_copy(update={"applies": Applies(), "steps": tuple(anywhere)})
    rules = replace(known.rules, checklists=(asking, *known.rules.checklists))
    for vehicle in known.vehicles:
        plan = plan_walk(vehicle, rules, scope="lamps")
        assert not any(step.kind == "gauges" for step in plan.steps)


def test_a_plan_whose_texts_are_strings_is_read_and_written_again_byte_for_byte() -> None:
    """Plans kept English before; the digests of a walk are over what was written."""
    stored = (Path(__file__).parent / "plan_with_strings.json").read_text(encoding="utf-8").strip()
    plan = Plan.model_validate_json(stored)
    assert plan.model_dump_json(exclude_unset=True) == stored
    assert ENGLISH.text(plan.why_rounds).startswith("Two rounds: ")
    stroke = next(step.measure for step in plan.steps if step.measure)
    assert ENGLISH.text(stroke.limit).startswith("at most 2 1/2 in: ")


def test_nothing_of_a_plan_can_be_changed_once_it_is_made() -> None:
    """A walk's seals are over what was asked, and a recheck asks it again."""
    plan = planned(SEMI)
    measure = next(step.measure for step in plan.steps if step.measure)
    item = next(step.items[0] for step in plan.steps if step.items)
    choice = next(step.choices[0] for step in plan.steps if step.choices)
    made = (plan, plan.steps[0], plan.marks[0], plan.chambers[0], item, choice)
    for each in (*made, measure, measure.values[0], Practice(level="leak", seed=1)):
        for name in type(each).model_fields:
            with pytest.raises(ValidationError, match="frozen"):
                setattr(each, name, getattr(each, name))


@pytest.mark.parametrize("power", ["box", "cab", "helper"])
def test_a_plan_of_messages_is_the_same_once_it_was_stored(power: str) -> None:
    plan = planned(SEMI, power=power)
    stored = plan.model_dump_json(exclude_unset=True)
    again = Plan.model_validate_json(stored)
    assert again == plan
    assert again.model_dump_json(exclude_unset=True) == stored
