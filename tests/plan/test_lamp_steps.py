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
from walkaround.lamps.required import Lamp, lamps_for
from walkaround.lamps.wiring import Wiring, wire
from walkaround.library.load import Library, load_library
from walkaround.plan.lamp_steps import ABS_BY_STOP
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Look, Plan, Step
from walkaround.rounds.fewest import Rounds, plan_rounds
from walkaround.rounds.power_source import takes_part
from walkaround.vehicle.model import Vehicle
from walkaround.words.prompts import prompt

POWERS = ("box", "cab", "helper")


@cache
def library() -> Library:
    found = load_library(shipped(), today=date(2026, 11, 25))
    assert found.problems == ()
    return found


VEHICLES = [vehicle.id for vehicle in library().vehicles]
EACH = pytest.mark.parametrize(
    ("whose", "power"), [(whose, power) for whose in VEHICLES for power in POWERS]
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
        if lamp.spot == step.spot:
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
    lit = {
        lamp for step in lamp_steps(plan) for item in step.items for lamp in item.lamps
        if step.expect[item.id] != "dark"
    }  # fmt: skip
    assert lit == {lamp.id for lamp in lamps_of(whose)}


@EACH
def test_what_is_expected_is_what_sound_wiring_shows(whose: str, power: str) -> None:
    for step in lamp_steps(planned(whose, power)):
        looks = seen(step, whose, fed_in(step, whose, power))
        assert step.expect == by_housing(whose, looks), step.id
        lit = {lamp for item in step.items for lamp in item.lamps if step.expect[item.id] != "dark"}
        assert lit == {lamp for lamp, look in looks.items() if look != "dark"}, step.id


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


@pytest.mark.parametrize("whose", VEHICLES)
def test_a_box_in_hand_takes_one_round_and_fewer_looks_than_one_by_one(whose: str) -> None:
    together = planned(whose, "box")
    singly = plan_walk(vehicle(whose), library().rules, together=False)
    assert together.rounds == 1
    loads = sum(step.id.startswith("load_") for step in lamp_steps(together))
    assert len(lamp_steps(together)) - loads <= len(lamp_steps(singly))


@pytest.mark.parametrize("whose", VEHICLES)
def test_the_load_check_is_at_the_rear_and_after_every_other_look_there(whose: str) -> None:
    for power in POWERS:
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
def test_the_words_count_every_lamp_and_name_what_is_lit_and_dark(whose: str, power: str) -> None:
    for step in lamp_steps(planned(whose, power)):
        said = prompt(step, power, "short", ENGLISH).body
        if len(step.circuits_on) > 1:
            lamps = sum(len(item.lamps) for item in step.items)
            assert lamps == 1 or f"{lamps} lamps in all." in said
            for look in ("steady", "flashing", "dark"):
                assert (f"{look.capitalize()}: " in said) == (look in step.expect.values())


def test_from_the_cab_what_is_set_is_said_once_a_round() -> None:
    for whose in VEHICLES:
        steps = lamp_steps(planned(whose, "cab"))
        for number in {step.round for step in steps}:
            told = [step.switching for step in steps if step.round == number]
            assert told[0]
            assert not any(told[1:])


def test_an_ordinary_cab_walks_round_a_semitrailer_twice_for_its_switches() -> None:
    """The published pre-trip routine walks round twice (common practice, no source)."""
    plan = planned("sandbag_semitrailer_7", "cab")
    assert str(plan.why_rounds).startswith("Two rounds")
    assert any("marker and tail" in str(text) for text in plan.hidden)


def test_the_abs_lamp_is_fed_from_each_of_its_supplies_where_a_box_is_in_hand() -> None:
    """FMVSS 121 S5.5.2: a constant supply, and the stop circuit besides (from memory)."""
    for whose in VEHICLES:
        with_abs = [lamp for lamp in lamps_of(whose) if lamp.kind == "abs"]
        by_stop = [s for s in planned(whose, "box").steps if s.id.startswith(ABS_BY_STOP)]
        assert len(by_stop) == len(with_abs)
        for step in by_stop:
            assert step.circuits_on == ("stop",)
            assert step.items[0].kind == "abs"
            assert set(step.expect.values()) <= {"steady", "dark"}
            said = prompt(step, "box", "short", ENGLISH).body
            assert "Only pin 4 on" in said
            assert "lights for a moment, then goes out" in said
        assert not any(s.id.startswith(ABS_BY_STOP) for s in planned(whose, "cab").steps)
