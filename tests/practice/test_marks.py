"""Marks: who reports what is shown gets all of them, who says OK to everything gets none."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.lampcases import LIBRARY, VEHICLES
from support.practicing import EVERY, all_well, in_practice, levels, plan_of, rightly
from support.practicing import given as answered
from support.walks import begun

from walkaround.plan.steps import Level, Practice
from walkaround.practice.marks import marks
from walkaround.practice.plan import practice_plan
from walkaround.practice.reasons import fault_words
from walkaround.ui.practice_vehicles import practice_vehicle_of
from walkaround.vehicle.model import POWER_UNITS

seeds = st.integers(0, 2**31 - 1)


@given(st.sampled_from(EVERY), seeds)
@settings(max_examples=60, deadline=None)
def test_who_reports_what_is_shown_gets_full_marks(case: tuple[str, Level], seed: int) -> None:
    vehicle = in_practice(*case, seed)
    marked = marks(vehicle, rightly(vehicle))
    assert marked.due > 0
    assert marked.full == marked.due
    assert {each.result for each in marked.every} == {"found"}


@given(st.sampled_from(EVERY), seeds)
@settings(max_examples=60, deadline=None)
def test_who_says_ok_to_everything_gets_none(case: tuple[str, Level], seed: int) -> None:
    vehicle = in_practice(*case, seed)
    marked = marks(vehicle, all_well(vehicle))
    assert marked.full == 0
    assert {each.result for each in marked.every} == {"missed"}


@given(st.sampled_from(EVERY), seeds)
@settings(max_examples=40, deadline=None)
def test_a_seed_puts_in_the_same_fault_each_time_and_its_cause_has_words(
    case: tuple[str, Level], seed: int
) -> None:
    vehicle = in_practice(*case, seed)
    assert in_practice(*case, seed).fault == vehicle.fault
    told = [str(text) for text in fault_words(vehicle)]
    assert len(told) == 2
    assert all(len(text) > 10 for text in told)


@pytest.mark.parametrize("case", EVERY, ids=str)
def test_what_is_reported_beside_the_fault_is_told_and_taken_off(case: tuple[str, Level]) -> None:
    vehicle = in_practice(*case, 1)
    answers = rightly(vehicle)
    before = marks(vehicle, answers)
    look = next(s for s in vehicle.plan.steps if s.looks and not vehicle.due(s))
    answers[look.id] = answered(look, "defect")
    after = marks(vehicle, answers)
    assert after.full == before.full - 1
    assert [each.step for each in after.every if each.result == "none_there"] == [look]


def test_a_lamp_called_by_another_name_is_no_full_mark() -> None:
    vehicle = in_practice("sandbag_semitrailer_7", "dead_lamp", 3)
    answers = rightly(vehicle)
    step = next(step for step in vehicle.plan.steps if vehicle.due(step))
    answers[step.id] = answered(step, "defect", dict.fromkeys(vehicle.due(step), "cracked"))
    marked = marks(vehicle, answers)
    assert "called_otherwise" in {each.result for each in marked.every}
    assert marked.full < marked.due


def test_every_vehicle_has_the_levels_that_it_can_have() -> None:
    assert [(id_, level) for id_ in VEHICLES for level in levels(id_)] == EVERY
    assert any(vehicle.kind in POWER_UNITS for vehicle in VEHICLES.values())


def test_a_walk_in_practice_is_of_the_vehicle_that_its_seed_draws() -> None:
    practice = Practice(level="leak", seed=5)
    plan = practice_plan(plan_of("dolly_4"), practice)
    vehicle = practice_vehicle_of(begun(plan).walk, LIBRARY)
    assert vehicle is not None
    assert vehicle.fault == in_practice("dolly_4", "leak", 5).fault
    assert practice_vehicle_of(begun(plan_of("dolly_4")).walk, LIBRARY) is None
    cautions = [str(step.caution) for step in plan.steps if step.caution]
    assert cautions
    assert all(text.startswith("Practice: touch nothing real. ") for text in cautions)


def test_seeds_reach_every_fault_of_a_level() -> None:
    drawn = {in_practice("dolly_4", "dead_lamp", seed).fault.lamps for seed in range(60)}
    assert len({variant.fault for variant in drawn if variant}) == 7


def test_without_the_fault_nothing_is_due() -> None:
    vehicle = in_practice("sandbag_semitrailer_7", "leak", 1)
    sound = replace(vehicle, fault=type(vehicle.fault)())
    assert not any(sound.due(step) for step in sound.plan.steps)
    assert marks(sound, all_well(sound)).every == ()
