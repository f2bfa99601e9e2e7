"""What can be said at which step: over every step of every vehicle that comes with the app.

The list of what is never answered by voice is the one that the people who work at axles gave: air
charged, released or let out, chocks, stand clear, brakes put on, the breakaway, somebody at an
axle, the meter first, rechecks, closing a record. It is looked for here in the words of the steps
themselves, not in the flags that make the rule.
"""

from __future__ import annotations

import re
from datetime import date
from functools import cache
from itertools import product
from typing import get_args

import pytest
from support.walks import begun, plan

from walkaround.disk.locations import shipped
from walkaround.key_answers.key_presses import Place
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.plan.steps import Plan, Step
from walkaround.rules.limits import Air
from walkaround.spoken_answers.phrases import (
    MEANINGS,
    PHRASES,
    RIVALS,
    SCORED,
    accepted_meanings,
    meaning_of,
)

HARMLESS = {"again", "explain", "back", "note"}
ANSWERS = {"ok", "defect", "not_checked", "not_fitted"}
NEVER = re.compile(
    r"\bcharge|\bdrain|\bvent|\bbleed|\bdump|\bexhaust|\bchock|\bclear\?|stand clear|\bapplication"
    r"|\bbrakes? (?:on|must|set|released|applied)|\bbreakaway|\bsupply knob|\bparking brake"
    r"|\bmeter first|\brods\b|\bstroke|\bair hold|\bstart the engine",
    re.IGNORECASE,
)


@cache
def plans() -> tuple[Plan, ...]:
    """Every shipped vehicle with every source of power and air, circuits apart and together."""
    library = load_library(shipped(), today=date(2026, 11, 25))
    airs: tuple[Air, ...] = ("shop", "coupled")
    return tuple(
        plan_walk(vehicle, library.rules, power=power, air=air, together=together)
        for vehicle, air, together in product(library.vehicles, airs, (False, True))
        for power in powers_for(vehicle, library.rules.power_sources)
    )


@cache
def steps() -> dict[str, tuple[Plan, Step]]:
    """Each different step once."""
    return {repr(step): (plan, step) for plan in plans() for step in plan.steps}


def at(step: Step, *, asked: bool = False) -> set[str]:
    walk = begun(plan((step,))).walk
    return set(accepted_meanings(walk, step, "step", question_open=asked))


def test_no_step_of_any_vehicle_that_could_hurt_somebody_is_answered_by_voice() -> None:
    answered, never = 0, 0
    for _, step in steps().values():
        said = at(step)
        dangerous = NEVER.search(f"{step.title} {step.short}")
        if (
            step.must
            or step.soft
            or step.once
            or dangerous
            or step.part not in ("connect", "lamps")
        ):
            never += 1
            assert not said & ANSWERS, (step.id, step.title, dangerous)
        answered += bool(said & ANSWERS)
        assert said <= HARMLESS | ANSWERS | {"start"}, step.id
    assert answered > 50
    assert never > 50


def test_only_lamps_reflectors_and_plain_looks_are_answered_by_voice() -> None:
    for _, step in steps().values():
        if at(step) & ANSWERS:
            assert step.kind in ("lamp", "look"), step.id
            assert not step.meter_first, step.id
            assert step.part in ("connect", "lamps"), step.id


def test_a_count_is_an_air_hold_and_a_value_is_read_off_a_gauge_or_a_rule() -> None:
    kinds = {
        (s.spoken, s.kind, s.measure.quantity if s.measure else "") for _, s in steps().values()
    }
    assert {row for row in kinds if row[0]} == {
        ("count", "hold", ""),
        ("value", "measure", "psi"),
        ("value", "measure", "in"),
    }
    for _, step in steps().values():
        assert ("start" in at(step)) == (step.kind == "hold"), step.id


def test_while_something_is_asked_only_a_yes_counts_or_going_back() -> None:
    for _, step in steps().values():
        assert at(step, asked=True) == {"yes", "back"}, step.id


def test_nothing_is_heard_where_one_listens_for_air() -> None:
    quiet = [step for _, step in steps().values() if step.quiet]
    assert quiet
    assert not any(at(step) or at(step, asked=False) for step in quiet)


@pytest.mark.parametrize("place", [each for each in get_args(Place) if each != "step"])
def test_no_other_place_takes_an_answer(place: Place) -> None:
    for _, step in steps().values():
        assert (
            not set(accepted_meanings(begun(plan((step,))).walk, step, place, question_open=False))
            & ANSWERS
        )


def test_a_recheck_takes_no_ok_by_voice() -> None:
    step = next(s for _, s in steps().values() if s.hands_free and not s.meter_first)
    walk = begun(plan((step,), scope="recheck", recheck_of="earlier")).walk
    assert not set(accepted_meanings(walk, step, "step", question_open=False)) & {
        "ok",
        "not_checked",
        "not_fitted",
    }


def test_what_a_rule_requires_cannot_be_left_out_by_voice() -> None:
    required = [s for _, s in steps().values() if any(item.required for item in s.items)]
    assert required
    assert not any("not_fitted" in at(step) for step in required)


def test_every_meaning_is_one_phrase_of_its_own_that_nobody_says_by_chance() -> None:
    assert set(PHRASES) == set(MEANINGS)
    assert len(set(SCORED)) == len(SCORED)
    for meaning, phrase in PHRASES.items():
        assert meaning_of(phrase) == meaning
        assert len(phrase.split()) >= 3
    assert all(meaning_of(rival) is None for rival in RIVALS)
