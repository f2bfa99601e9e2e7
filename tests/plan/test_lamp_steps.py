"""Circuits lit together: every lamp is shown, and no dead, swapped or bridged circuit looks right.

The truth here is simulated by the test itself: which housings shine when circuits are dead,
swapped or bridged follows from the wiring alone, not from the steps.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from functools import cache
from itertools import combinations

import pytest
from support.english import ENGLISH

from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import Lamp, lamps_for, reflectors_for
from walkaround.lamps.wiring import Wiring, wire
from walkaround.library.load import Library, load_library
from walkaround.plan.abs_steps import ABS_BY_STOP
from walkaround.plan.effort import round_m
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import ANYTHING_ELSE, Item, Look, Plan, Step
from walkaround.rounds.plan_rounds import Rounds, plan_rounds
from walkaround.rounds.power_source import takes_part
from walkaround.rules.checklist import SPOTS
from walkaround.vehicle.model import POWER_UNITS, Vehicle
from walkaround.words.prompts import prompt

POWERS = ("box", "cab", "helper")


@cache
def library() -> Library:
    found = load_library(shipped(), today=date(2026, 11, 25))
    assert found.problems == ()
    return found


VEHICLES = [vehicle.id for vehicle in library().vehicles]
TOWED = [each.id for each in library().vehicles if each.kind not in POWER_UNITS]
EACH = pytest.mark.parametrize(
    ("whose", "power"),
    [(whose, power) for whose in VEHICLES for power in POWERS if power != "box" or whose in TOWED],
)


@cache
def vehicle(id_: str) -> Vehicle:
    return next(vehicle for vehicle in library().vehicles if vehicle.id == id_)


@cache
def planned(whose: str, power: str) -> Plan:
    return plan_walk(vehicle(whose), library().rules, power=power)


@cache
def lamps_of(whose: str) -> tuple[Lamp, ...]:
    what = vehicle(whose)
    fitting = [c for c in library().checklists if c.applies.matches(what)]
    return lamps_for(what, fitting)


@cache
def wired(whose: str) -> Wiring:
    return wire(vehicle(whose), lamps_of(whose), library().connectors)


def lamp_steps(plan: Plan) -> list[Step]:
    """Those that follow from the circuits; what feeds the ABS besides has a test of its own."""
    lamps = [step for step in plan.steps if step.kind == "lamp"]
    return [step for step in lamps if not step.id.startswith(ABS_BY_STOP)]


def lit_in(step: Step) -> set[str]:
    """Ids of the lamps that the step expects lit; reflectors are looked at in it too."""
    return {lamp for item in lit_items(step) for lamp in item.lamps}


def lit_items(step: Step) -> list[Item]:
    return [item for item in step.items if step.expect.get(item.id, "dark") != "dark"]


Looks = Mapping[str, Look]
_STRONGEST: tuple[Look, ...] = ("flashing", "steady", "dark")


@cache
def rounds_of(whose: str, power: str, circuits: frozenset[str]) -> Rounds:
    here = [circuit for circuit in wired(whose).circuits if circuit.id in circuits]
    return plan_rounds(library().power_sources[power], here)


def fed_in(step: Step, whose: str, power: str) -> Looks:
    """How each circuit is fed in this step, from the settings that the rounds give."""
    wiring, source = wired(whose), library().power_sources[power]
    kind, _, rest = step.id.partition("_")
    here = {wiring.circuit_of[x.id] for x in lamps_of(whose) if x.spot == step.spot}
    if source.where == "cab":
        here = set(wiring.circuit_of.values())
    rounds = rounds_of(whose, power, frozenset(here))
    if kind == "look":
        return rounds.settings[int(rest.split("_")[0]) - 1].looks
    if kind == "load":
        assert rounds.load_check is not None
        return rounds.load_check.looks
    (alone,) = step.circuits_on
    flashes = next(c.flashes for c in wiring.circuits if c.id == alone)
    return {alone: "flashing" if flashes else "steady"}


def seen(step: Step, whose: str, fed: Looks, feeds: Mapping[str, str] | None = None) -> Looks:
    """How each lamp at the step's spot looks with the circuits fed so.

    By lamp, not by housing: a stop filament is told from the tail filament beside it by its
    brightness. `feeds` tells which circuit's wire really ends at the lamps of another.
    """
    looks: dict[str, Look] = {}
    for lamp in lamps_of(whose):
        # In a cab's mirror the ABS lamp alone is looked for.
        if lamp.spot == step.spot or (step.spot == "cab" and lamp.kind == "abs"):
            circuit = wired(whose).circuit_of[lamp.id]
            looks[lamp.id] = fed.get((feeds or {}).get(circuit, circuit), "dark")
    return looks


def by_housing(whose: str, looks: Looks) -> Looks:
    """The strongest look of what is in each housing."""
    inside: dict[str, set[Look]] = {}
    for lamp in lamps_of(whose):
        if lamp.id in looks:
            inside.setdefault(lamp.housing, set()).add(looks[lamp.id])
    return {
        housing: next(look for look in _STRONGEST if look in both)
        for housing, both in inside.items()
    }


@EACH
def test_every_lamp_that_can_be_switched_is_lit_at_its_spot_in_some_step(
    whose: str, power: str
) -> None:
    plan = planned(whose, power)
    lit = {lamp for step in lamp_steps(plan) for lamp in lit_in(step)}
    assert lit == {lamp.id for lamp in lamps_of(whose)}


@EACH
def test_what_is_expected_is_what_sound_wiring_shows(whose: str, power: str) -> None:
    for step in lamp_steps(planned(whose, power)):
        looks = seen(step, whose, fed_in(step, whose, power))
        assert step.expect == by_housing(whose, looks), step.id
        assert lit_in(step) == {lamp for lamp, look in looks.items() if look != "dark"}, step.id


@EACH
def test_a_dead_circuit_is_seen(whose: str, power: str) -> None:
    steps = lamp_steps(planned(whose, power))
    fed = [(step, fed_in(step, whose, power)) for step in steps]
    for circuit in set(wired(whose).circuit_of.values()):
        assert any(
            seen(step, whose, looks) != seen(step, whose, {**looks, circuit: "dark"})
            for step, looks in fed
        ), circuit


@EACH
def test_a_swap_or_a_bridge_of_circuits_that_can_be_told_apart_is_seen(
    whose: str, power: str
) -> None:
    steps = lamp_steps(planned(whose, power))
    circuits = [c for c in wired(whose).circuits if takes_part(c)]
    rounds = rounds_of(whose, power, frozenset(c.id for c in circuits))
    hidden = {frozenset(pair[:2]) for pair in rounds.pairs_not_told_apart}
    switched = sorted(c.id for c in circuits if c.id not in rounds.not_switchable)
    fed = [(step, fed_in(step, whose, power)) for step in steps]
    for one, other in combinations(switched, 2):
        if frozenset((one, other)) in hidden or not _share_a_spot(steps, one, other):
            continue
        swap = {one: other, other: one}
        assert any(
            seen(step, whose, looks) != seen(step, whose, looks, swap) for step, looks in fed
        ), swap
        assert any(
            seen(step, whose, looks) != seen(step, whose, _bridged(looks, one, other))
            for step, looks in fed
        ), swap


def _share_a_spot(steps: list[Step], one: str, other: str) -> bool:
    """Whether both are lit at one spot: else each is switched where the other is not seen."""
    spots = [{step.spot for step in steps if id_ in step.circuits_on} for id_ in (one, other)]
    return bool(spots[0] & spots[1])


def _bridged(looks: Looks, one: str, other: str) -> Looks:
    """Joined wires carry what either of them is fed: a steady feed wins over a flashing one."""
    both = {looks.get(one, "dark"), looks.get(other, "dark")}
    joined: Look = next(look for look in ("steady", "flashing", "dark") if look in both)  # type: ignore[assignment]
    return {**looks, one: joined, other: joined}


@pytest.mark.parametrize("whose", TOWED)
def test_a_box_in_hand_takes_one_round_and_fewer_looks_than_one_by_one(whose: str) -> None:
    together = planned(whose, "box")
    singly = plan_walk(vehicle(whose), library().rules, together=False)
    assert together.rounds == 1
    loads = sum(step.id.startswith("load_") for step in lamp_steps(together))
    assert len(lamp_steps(together)) - loads <= len(lamp_steps(singly))


@pytest.mark.parametrize("whose", VEHICLES)
def test_the_load_check_is_at_the_rear_and_after_every_other_look_there(whose: str) -> None:
    for power in POWERS if whose in TOWED else ("cab", "helper"):
        steps = lamp_steps(planned(whose, power))
        loads = [step for step in steps if step.id.startswith("load_")]
        assert len(loads) <= 1
        for load in loads:
            before = steps[: steps.index(load)]
            assert load.spot == "rear"
            assert {s.id for s in steps if s.id.startswith("look_") and s.spot == "rear"} <= {
                s.id for s in before
            }


@EACH
def test_where_tail_turn_and_stop_can_be_on_at_once_the_rear_is_seen_so_exactly_once(
    whose: str, power: str
) -> None:
    """Their current together shows a poor ground that one lamp alone does not: common practice."""
    from_cab = library().power_sources[power].where == "cab"
    there = {lamp.id for lamp in lamps_of(whose) if from_cab or lamp.spot == "rear"}
    circuits = frozenset(wired(whose).circuit_of[lamp] for lamp in there)
    load = rounds_of(whose, power, circuits).load_check
    at_rear = [step for step in lamp_steps(planned(whose, power)) if step.spot == "rear"]
    shown = [fed_in(step, whose, power) for step in at_rear]
    assert len([looks for looks in shown if load and looks == load.looks]) == (load is not None)
    assert load or power != "box", "a box feeds any contacts at once"


@EACH
def test_the_words_name_what_is_lit_and_that_the_rest_is_dark(whose: str, power: str) -> None:
    for step in lamp_steps(planned(whose, power)):
        if any(item.kind == "abs" for item in step.items):
            continue
        said = prompt(step, power, "short", ENGLISH).body
        looks = set(step.expect.values())
        assert (" flashing" in said.split("rest off")[-1]) == ("flashing" in looks), step.id
        assert ("rest dark" in said) == ("dark" in looks), step.id


def test_housings_are_counted_as_the_eye_counts_them() -> None:
    """Two housings of tail, stop and turn are two things to look at, though six lamps."""
    plan = planned("pump_trailer_3", "box")
    said = [prompt(step, "box", "short", ENGLISH).say for step in lamp_steps(plan)]
    assert any("turn lamp, plate lamp on; right stop/turn flashing" in text for text in said)
    semi = planned("sandbag_semitrailer_7", "box").step("load_rear")
    assert semi is not None
    assert (
        "Three ID lamps, both tail and stop lamps on; both turns flashing; rest dark."
        in prompt(semi, "box", "short", ENGLISH).say
    )


def test_from_the_cab_what_is_set_is_said_once_a_setting() -> None:
    for whose in VEHICLES:
        looks = [s for s in lamp_steps(planned(whose, "cab")) if s.spot != "cab"]
        for before, step in zip([None, *looks], looks, strict=False):
            same = before is not None and before.id.split("_")[:2] == step.id.split("_")[:2]
            assert step.stays == (same and before.round == step.round), step.id
            assert step.switching, step.id


def test_an_ordinary_cab_walks_round_a_semitrailer_twice_for_its_switches() -> None:
    """The published pre-trip routine walks round twice (common practice, no source)."""
    plan = planned("sandbag_semitrailer_7", "cab")
    assert str(plan.why_rounds).startswith("Two rounds")
    assert any("markers cannot be told from tail" in str(text) for text in plan.hidden)


@pytest.mark.parametrize("power", POWERS)
def test_the_abs_lamp_is_fed_from_each_of_its_supplies(power: str) -> None:
    """FMVSS 121 S5.5.2: a constant supply, and the stop circuit besides (from memory)."""
    for whose in TOWED:
        with_abs = [lamp for lamp in lamps_of(whose) if lamp.kind == "abs"]
        steps = planned(whose, power).steps
        by_stop = [s for s in steps if s.id.startswith(ABS_BY_STOP)]
        assert len(by_stop) == len(with_abs)
        for step in by_stop:
            assert step.circuits_on == ("stop",)
            assert step.items[0].kind == "abs"
            assert set(step.expect.values()) <= {"steady", "dark"}
            said = prompt(step, power, "short", ENGLISH).say
            assert ("Only stop lamps on" if power == "box" else "ey off, brake pedal") in said
            assert "It lights, then goes out." in said


def test_alone_in_the_cab_the_abs_lamp_is_watched_in_the_mirror() -> None:
    for whose in TOWED:
        steps = [s for s in planned(whose, "cab").steps if s.part == "lamps"]
        watched = [
            s
            for s in steps
            if any(
                item.kind == "abs" and item.id in s.expect and s.expect[item.id] == "steady"
                for item in s.items
            )
        ]
        assert watched == steps[: len(watched)], "while the mechanic sits there anyway"
        for step in watched:
            assert step.spot == "cab"
            assert set(step.expect) == {step.items[0].id}, "no other lamp is judged in a mirror"
            assert "in the mirror" in prompt(step, "cab", "short", ENGLISH).say


@EACH
def test_reflectors_and_anything_else_are_asked_at_a_look_there(whose: str, power: str) -> None:
    """No step of their own where a lamp is looked at; no reflector is left out or asked twice."""
    what = vehicle(whose)
    wanted = sorted(each.id for each in reflectors_for(what, library().checklists))
    steps = [step for step in planned(whose, power).steps if step.part == "lamps"]
    asked = [
        lamp
        for step in steps
        for item in step.items
        for lamp in item.lamps
        if item.kind in ("reflector", "tape")
    ]
    assert sorted(asked) == wanted
    for spot in SPOTS:
        here = [s for s in steps if s.spot == spot and not s.id.startswith(("rear_socket", "horn"))]
        if here:
            asking = [s for s in here if any(item.id == ANYTHING_ELSE for item in s.items)]
            assert len(asking) == 1
            fit = [s for s in here if any(i.required and i.kind != "abs" for i in lit_items(s))]
            assert asking == fit[-1:] or not fit
        assert not any(step.id.startswith("reflectors") for step in here) or len(here) == 1


@pytest.mark.parametrize("whose", VEHICLES)
def test_rounds_are_rounds_of_the_vehicle_and_a_last_look_at_the_rear_is_none(whose: str) -> None:
    plan = planned(whose, "cab")
    steps = [step for step in plan.steps if step.part == "lamps"]
    load = plan.step("load_rear")
    assert plan.rounds == max(step.round for step in steps)
    assert load is None or load.round == plan.rounds
    settings = {
        s.id.rsplit("_", 1)[0].removesuffix("_right").removesuffix("_left")
        for s in steps
        if s.id.startswith("look_")
    }
    assert plan.rounds == len(settings)


@pytest.mark.parametrize("together", [True, False])
@pytest.mark.parametrize("whose", TOWED)
def test_with_a_box_one_walks_round_once(whose: str, together: bool) -> None:
    plan = plan_walk(vehicle(whose), library().rules, power="box", together=together)
    assert plan.walked_m == round(round_m(plan.vehicle), 1)


def test_from_the_cab_each_setting_is_a_way_of_its_own() -> None:
    plan = planned("sandbag_semitrailer_7", "cab")
    ways: dict[str, set[str]] = {}
    for step in plan.steps:
        if step.kind == "lamp" and step.spot in SPOTS:
            ways.setdefault(step.id.removesuffix(f"_{step.spot}"), set()).add(step.spot)
    # Once round the vehicle, and twice to the rear and back, which is as far.
    assert sorted(map(len, ways.values())) == [1, 1, len(SPOTS)]
    assert plan.walked_m == round(3 * round_m(plan.vehicle), 1)


@EACH
def test_what_hangs_at_a_side_is_named_from_left_to_right_as_one_stands_before_it(
    whose: str, power: str
) -> None:
    """Who faces the left side has the front at the left hand; at the right side, the rear."""
    plan = planned(whose, power)
    x_mm = {mark.id: mark.x_mm for mark in plan.marks}
    for step in plan.steps:
        if step.part == "lamps" and step.spot in ("left_side", "right_side"):
            along = [x_mm[item.place] for item in step.items if item.place in x_mm]
            assert along == sorted(along, reverse=step.spot == "right_side"), step.id
