"""Orders that could hurt somebody say first what keeps people whole, in the words that are spoken.

Each is read from every shipped vehicle's plan, so a checklist that loses one of them fails here.
An engine is started out of gear with the parking brake set or the wheels chocked, service brakes
are not applied fully over set spring brakes, chocks hold two wheels: common practice, no source;
29 CFR 1910.178(k)(1) on chocks as background.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache
from itertools import product
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.english import ENGLISH
from support.switchgear import circuit

from walkaround.base.errors import InputError
from walkaround.brakes.not_covered import not_covered
from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.lamp_settings import settings_for
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.plan.steps import Plan, Step
from walkaround.rounds.power_source import PowerSource
from walkaround.rules.checklist import Wording
from walkaround.rules.limits import Air
from walkaround.vehicle.model import POWER_UNITS, Brakes, BrakeSystem, Kind, Vehicle
from walkaround.words.prompts import prompt

ENGINE = re.compile(r"start the engine", re.IGNORECASE)


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


@cache
def plans() -> tuple[Plan, ...]:
    """Every shipped vehicle with every source of power and air, as its whole walk."""
    airs: tuple[Air, ...] = ("shop", "coupled")
    return tuple(
        plan_walk(vehicle, library().rules, power=power, air=air)
        for vehicle, air in product(library().vehicles, airs)
        for power in powers_for(vehicle, library().rules.power_sources)
    )


def steps(part: str = "") -> Iterator[tuple[Plan, Step]]:
    for plan in plans():
        yield from ((plan, step) for step in plan.steps if part in ("", step.part))


def test_no_engine_is_started_before_it_is_asked_to_be_out_of_gear() -> None:
    asked = [s for _, s in steps() if s.kind == "act" and ENGINE.search(str(s.short))]
    assert {step.id for step in asked} >= {"charged_cut_out", "engine_off_released", "fan_down"}
    for step in asked:
        assert "out of gear" in str(step.short).lower(), step.id
        before = str(step.long).lower().split("start the engine")[0]
        assert "out of gear" in before, step.id


def test_a_pedal_that_lights_lamps_is_pressed_just_far_enough_to_light_them() -> None:
    """Full service air over set spring brakes adds both forces up."""
    pressed = 0
    for plan, _ in lamp_plans():
        for step in plan.steps:
            if step.kind == "lamp" and "pedal down" in str(step.switching).lower():
                pressed += 1
                assert "just far enough to light the stop lamps" in str(step.switching), step.id
    assert pressed


def test_no_stop_lamp_is_lit_from_a_cab_without_words_for_the_pedal() -> None:
    for plan, source in lamp_plans():
        setting = ""
        for step in plan.steps:
            if step.kind != "lamp" or source.where == "spot":
                continue
            setting = str(step.switching).lower() or setting
            stops = any("stop" in c.split("_") and "turn" not in c for c in step.circuits_on)
            assert not stops or "pedal down just far" in setting, step.id


def test_a_pedal_that_was_down_for_the_lamps_is_up_when_they_are_done() -> None:
    """What follows brings air, with somebody at the wheels: common practice, no source."""
    for plan, source in lamp_plans():
        lamps = [step for step in plan.steps if step.part == "lamps"]
        pressed = [s for s in lamps if s.kind == "lamp" and "pedal" in str(s.switching).lower()]
        assert (lamps[-1].id == "all_off") == bool(pressed), (plan.vehicle.id, plan.power)
        if pressed:
            assert source.where != "spot"
            assert (lamps[-1].must, lamps[-1].kind) == (True, "act")
            assert re.search("pedal (prop out|up)", str(lamps[-1].short))


def test_two_wheels_are_chocked_and_neither_steers_nor_lifts() -> None:
    for plan in plans():
        chocks = plan.step("chocks_on")
        assert chocks is not None
        assert chocks.must
        said = str(chocks.short).lower()
        assert "two wheels, one each side" in said
        assert "no steered wheel" in said
        assert "no lift axle" in said


@pytest.mark.parametrize("spring", [True, False])
def test_draining_says_that_it_releases_brakes_where_it_does(spring: bool) -> None:
    """A trailer without spring brakes is held by its reservoirs' air: 49 CFR 393.43 background."""
    drained = [
        step
        for plan, step in steps()
        if step.id.startswith("water_drained")
        and plan.vehicle.kind not in POWER_UNITS
        and any(axle.spring for axle in plan.vehicle.brakes.axles) == spring
    ]
    assert drained
    for step in drained:
        assert ("releases the brakes" in str(step.caution)) != spring
        assert spring or ("Chocks in?" in str(step.short) and step.must)


@pytest.mark.parametrize(
    ("kind", "air", "held"),
    [
        ("semitrailer", "shop", "Landing gear or tongue jack down, or"),
        ("full trailer", "shop", "Drawbar on its support, or"),
        ("converter dolly", "shop", "Drawbar on its support, or"),
        ("pole trailer", "shop", "Pole on a stand, or"),
        ("semitrailer", "coupled", "Tow unit's parking brake set, out of gear"),
        ("truck", "shop", "Parking brake set, out of gear, engine off"),
    ],
)
def test_what_holds_the_front_up_or_the_vehicle_still_fits_its_kind(
    kind: Kind, air: Air, held: str
) -> None:
    known = next(v for v in library().vehicles if v.kind == "semitrailer")
    plan = plan_walk(known.model_copy(update={"kind": kind}), library().rules, air=air, power="cab")
    assert held in str(plan.steps[0].short)


@pytest.mark.parametrize("system", ["electric", "surge", "none", "air_over_hydraulic"])
def test_what_does_not_park_by_itself_ends_coupled_or_chocked_and_says_which(
    system: BrakeSystem,
) -> None:
    known = next(v for v in library().vehicles if v.kind == "semitrailer")
    vehicle = known.model_copy(update={"brakes": Brakes(system=system)})
    last = plan_walk(vehicle, library().rules).steps[-1]
    assert (last.id, last.must) == ("chocks_stay", True)
    assert [choice.id for choice in last.choices] == ["coupled", "chocked"]
    assert "parking brakes seen" not in str(last.short).lower()


def test_rear_air_lines_are_shut_before_any_air_goes_in() -> None:
    """A converter dolly or full trailer leads air on to a unit behind it."""
    for plan in plans():
        ids = [step.id for step in plan.steps]
        behind = plan.vehicle.kind in ("full trailer", "converter dolly")
        air = plan.vehicle.brakes.system == "air"
        assert ("rear_lines_shut" in ids) == (behind and air)
        if "rear_lines_shut" in ids:
            charged = ids.index("supply_charged" if plan.air == "shop" else "charged_coupled")
            assert ids.index("rear_lines_shut") < charged


def test_air_over_hydraulic_has_its_air_checked_and_its_fluid_named_as_not() -> None:
    """49 CFR 570.57 is for air brake systems and air-over-hydraulic subsystems, by its title."""
    truck = next(v for v in library().vehicles if v.brakes.system == "air_over_hydraulic")
    plan = plan_walk(truck, library().rules, power="cab")
    ids = {step.id for step in plan.steps}
    assert {"released_hold", "reserve", "applied_hold_tow", "booster_seen", "cut_out"} <= ids
    assert not any(step.kind == "chambers" or "stroke" in step.id for step in plan.steps)
    assert any("fluid" in str(sentence) for sentence in not_covered(truck))


def test_the_chamber_is_read_before_its_stroke_is_measured() -> None:
    """49 CFR 393.47(b), (e): the limit follows from the chamber that is there."""
    for plan in plans():
        ids = [step.id for step in plan.steps]
        for step in plan.steps:
            if step.id.startswith("stroke_"):
                axle = step.id.split("_")[1]
                read = plan.step(f"rods_marked_{axle}")
                assert read is not None
                assert read.kind == "chambers"
                assert ids.index(read.id) < ids.index(step.id)
                assert "square ports, a trapezoid tag" in str(plan.step("rods_marked_1").long)  # type: ignore[union-attr]


# Lamps: reverse, the box, blackout


def lamp_plans() -> Iterator[tuple[Plan, PowerSource]]:
    """Every shipped vehicle with every source it may have, circuits together and one by one."""
    for vehicle, together in product(library().vehicles, (True, False)):
        for power, source in powers_for(vehicle, library().rules.power_sources).items():
            plan = plan_walk(vehicle, library().rules, power=power, together=together)
            yield plan, source


def test_after_reverse_neutral_is_asked_before_anything_else() -> None:
    """A gear left in moves the vehicle over whoever stands behind it when the engine starts."""
    reversing = 0
    for plan, source in lamp_plans():
        asked = [step for step in plan.steps if step.id.startswith("out_of_reverse")]
        in_gear = False
        for step in plan.steps:
            if step.kind == "lamp" and "backup" in step.circuits_on and source.where != "spot":
                reversing += 1
                in_gear = True
            elif step in asked:
                assert in_gear, "asked where nothing is in gear"
                in_gear = False
            else:
                # Later spots of one setting are looked at with the gear in; nothing else is.
                assert not in_gear, (plan.vehicle.id, plan.power, step.id)
        assert not in_gear
        assert len(asked) <= 1, "reverse goes in once"
        for step in asked:
            assert (step.kind, step.spot, step.must) == ("act", "cab", True)
            for wording in get_args(Wording):
                said = prompt(step, plan.power, wording, ENGLISH).say.lower()
                for order in ("neutral", "reverse off", "parking brake set"):
                    assert order in said
            assert ("call out" in str(step.short).lower()) == (source.where == "called")
    assert reversing


def test_a_gear_is_told_by_the_file_and_not_by_words() -> None:
    """A source of one's own that says `in_gear`, and one of before that does not say it."""
    truck = next(v for v in library().vehicles if v.kind == "truck")
    cab = library().rules.power_sources["cab"]
    for said, flag, asks in (("R", None, True), ("R", True, True), ("R", False, False)):
        switches = tuple(
            switch.model_copy(
                update={
                    "name": said,
                    "positions": tuple(
                        p.model_copy(update={"name": said, "say": said, "in_gear": flag})
                        for p in switch.positions
                    ),
                }
            )
            if switch.id == "reverse"
            else switch
            for switch in cab.switches
        )
        own = cab.model_copy(update={"id": "own", "switches": switches})
        rules = replace(library().rules, power_sources={"own": own})
        plan = plan_walk(truck, rules, power="own")
        assert any(s.id.startswith("out_of_reverse") for s in plan.steps) == asks


@pytest.mark.parametrize("together", [True, False])
@pytest.mark.parametrize("where", ["cab", "called"])
def test_backup_lamps_that_no_switch_of_the_file_lights_still_need_the_gear(
    where: str, together: bool
) -> None:
    """Who works the switches finds reverse without the file."""
    truck = next(v for v in library().vehicles if v.kind == "truck")
    cab = library().rules.power_sources["cab"]
    switches = tuple(switch for switch in cab.switches if switch.id != "reverse")
    assert len(switches) < len(cab.switches)
    own = cab.model_copy(update={"id": "own", "where": where, "switches": switches})
    rules = replace(library().rules, power_sources={"own": own})
    ids = [step.id for step in plan_walk(truck, rules, power="own", together=together).steps]
    assert ids[ids.index("backup_rear") + 1] == "out_of_reverse_1"


def test_a_box_in_hand_lights_backup_lamps_without_a_gear() -> None:
    box = library().rules.power_sources["box"]
    backup = circuit("backup")
    [lit] = settings_for(None, [backup], box)
    assert lit.looks == {"backup": "steady"}
    assert not lit.in_gear


def test_a_recheck_of_what_needs_reverse_ends_out_of_reverse() -> None:
    for plan, source in lamp_plans():
        reverse = [s for s in plan.steps if s.kind == "lamp" and "backup" in s.circuits_on]
        if source.where == "spot" or not reverse:
            continue
        only = (reverse[0].id,)
        again = plan_walk(
            plan.vehicle,
            library().rules,
            scope="recheck",
            power=plan.power,
            together=plan.together,
            only=only,
            former=plan,
        )
        ids = [step.id for step in again.steps]
        assert ids.index("out_of_reverse_1") == ids.index(only[0]) + 1


def test_a_box_in_hand_is_for_what_is_towed() -> None:
    """At a power unit's rear socket it would feed back into the harness: common practice."""
    for vehicle in library().vehicles:
        power_unit = vehicle.kind in POWER_UNITS
        assert ("box" in powers_for(vehicle, library().rules.power_sources)) != power_unit
        assert plan_walk(vehicle, library().rules).power == ("cab" if power_unit else "box")
        if power_unit:
            with pytest.raises(InputError, match="is for what is towed"):
                plan_walk(vehicle, library().rules, power="box")


def test_blackout_lamps_are_lit_alone() -> None:
    """Their switch cuts the service lamps (from memory of US tactical practice)."""
    hooded = 0
    for plan, _ in lamp_plans():
        for step in plan.steps:
            on = {"blackout" in circuit for circuit in step.circuits_on}
            hooded += True in on
            assert len(on) <= 1, (plan.vehicle.id, plan.power, step.id, step.circuits_on)
    assert hooded


@given(
    kind=st.sampled_from(["truck", "bus", "truck tractor", "semitrailer", "full trailer"]),
    width_mm=st.sampled_from([1800.0, 2500.0]),
    length_mm=st.sampled_from([4000.0, 9145.0, 16000.0]),
    made=st.sampled_from([date(1975, 1, 1), date(1998, 3, 1), date(2020, 1, 1)]),
    together=st.booleans(),
)
def test_any_ex_service_vehicle_lights_blackout_lamps_alone_and_leaves_reverse(
    together: bool, **fields: object
) -> None:
    electrical = {
        "volts": 24,
        "connector": "mil_12_us_tactical",
        "stop_turn": "combined",
        "blackout": True,
    }
    vehicle = Vehicle.model_validate({"id": "x", "electrical": electrical, **fields})
    for power, source in powers_for(vehicle, library().rules.power_sources).items():
        plan = plan_walk(vehicle, library().rules, power=power, together=together)
        lamps = [step for step in plan.steps if step.part == "lamps"]
        assert all(len({"blackout" in c for c in step.circuits_on}) <= 1 for step in lamps)
        reverse = [n for n, s in enumerate(lamps) if "backup" in s.circuits_on]
        if reverse and source.where != "spot":
            assert reverse == [*range(reverse[0], reverse[-1] + 1)]
            assert lamps[reverse[-1] + 1].id == "out_of_reverse_1"


def test_a_walk_of_a_power_unit_begun_with_a_box_is_rechecked_from_its_cab() -> None:
    """Such walks were begun before; what was wrong at a spot is all looked at again there."""
    tractor = next(v for v in library().vehicles if v.kind == "truck tractor")
    old = plan_walk(tractor, library().rules, power="helper").model_copy(update={"power": "box"})
    wrong = next(s for s in old.steps if s.kind == "lamp" and s.spot == "rear")
    again = plan_walk(
        tractor,
        library().rules,
        scope="recheck",
        only=[wrong.id],
        former=old,
    )
    lit = {lamp for s in again.steps if s.kind == "lamp" for i in s.items for lamp in i.lamps}
    assert {lamp for item in wrong.items for lamp in item.lamps} <= lit
    assert {s.spot for s in again.steps if s.kind == "lamp"} == {"rear"}


def test_a_step_that_is_no_longer_asked_is_rechecked_as_it_was() -> None:
    semi = next(v for v in library().vehicles if v.kind == "semitrailer")
    plan = plan_walk(semi, library().rules)
    gone = plan.steps[-4].model_copy(
        update={"id": "reflectors_rear", "kind": "look", "part": "lamps", "must": False}
    )
    other = next(s for s in plan.steps if s.id == "look_1_rear")
    changed = other.model_copy(update={"circuits_on": ("tail",)})
    steps = [changed if s is other else s for s in plan.steps]
    old = plan.model_copy(update={"steps": (*steps, gone)})
    again = plan_walk(
        semi, library().rules, scope="recheck", only=[gone.id, changed.id], former=old
    )
    assert again.step(gone.id) is not None
    kept = again.step(changed.id)
    assert kept is not None
    assert kept.circuits_on == ("tail",)


HURTS = re.compile(
    r"\b(chock|stand clear|everybody|clear\?|drain|charge|psi|vent|release|dump|gladhand off"
    r"|parking brake|start the engine|pedal right down|propped)", re.IGNORECASE
)  # fmt: skip
"""Words of orders that could hurt somebody when they are taken for done by mistake."""


def test_no_order_that_could_hurt_somebody_is_answered_without_a_tap() -> None:
    """Air, chocks, standing clear, brakes applied, breakaway, somebody at the axle, meter first."""
    free = set()
    for _, step in steps():
        if not step.hands_free:
            continue
        free.add(step.kind)
        assert step.kind in ("lamp", "look"), step.id
        assert not any((step.must, step.soft, step.once, step.charged, step.meter_first))
        assert step.part in ("connect", "lamps"), step.id
        assert not HURTS.search(f"{step.caution} {step.short} {step.brisk}"), step.id
    assert free == {"lamp", "look"}


def test_every_look_at_lamps_or_reflectors_may_be_answered_without_a_tap() -> None:
    for _, step in steps("lamps"):
        if step.kind == "lamp" and not step.meter_first:
            assert step.hands_free, step.id


@pytest.mark.parametrize("step_id", ["rods_marked_{axle}", "linings_marked_{axle}"])
def test_every_wording_asks_whether_air_is_lost_before_anybody_goes_in(step_id: str) -> None:
    """Lost air sets the spring brakes on hands that are in (common practice, no source).

    The gauges are at the front: at the next axle nobody sees them, and a hiss can be heard.
    """
    written = tomllib.loads((shipped() / "pushrod_strokes.toml").read_text("utf-8"))["step"]
    [rule] = [each for each in written if each["id"] == step_id]
    for wording in get_args(Wording):
        assert "{90 psi}" in rule[wording], wording
        assert "still" in rule[wording], wording
        assert re.match(r"(Still n|N)o hiss\?", rule[f"{wording}_again"]), wording
