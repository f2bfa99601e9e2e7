"""What a press does: never twice, never too soon, never what takes a tap. Drawn by hypothesis."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.walks import STEPS, begun, plan

from walkaround.key_answers.key_presses import (
    TAKE_BACK_S,
    Place,
    PressContext,
    PressEffect,
    press_effect,
    tap_needed,
)
from walkaround.key_answers.learned_keys import ACTIONS, Action
from walkaround.plan.steps import Scope, Step
from walkaround.walk.events import Repaired, Revisited

DEAD_S = 0.4
FREE = tuple(each.model_copy(update={"hands_free": each.power}) for each in STEPS)
"""The lamps and reflectors of the small plan may be answered by a key."""
PRESS = st.sampled_from(ACTIONS)
ASKED = st.builds(
    PressContext,
    place=st.sampled_from(get_args(Place)),
    since_s=st.floats(0, 5),
    busy=st.booleans(),
    unread=st.booleans(),
    locked=st.booleans(),
    ok_needs_tap=st.booleans(),
    defect_needs_tap=st.booleans(),
    answered_ago_s=st.none() | st.floats(0, 30),
)


@given(PRESS, ASKED)
def test_a_press_answers_only_the_step_that_is_asked_has_been_heard_and_takes_keys(
    action: Action, asked: PressContext
) -> None:
    if press_effect(action, asked, DEAD_S) == "answer_ok":
        assert (action, asked.place) == ("ok", "step")
        assert not any((asked.busy, asked.unread, asked.locked, asked.ok_needs_tap))
        assert asked.since_s >= DEAD_S


@given(PRESS, ASKED)
def test_nothing_is_done_too_soon_nor_on_what_keys_were_not_learnt_for(
    action: Action, asked: PressContext
) -> None:
    if asked.since_s < DEAD_S or asked.busy or asked.place == "elsewhere":
        assert press_effect(action, asked, DEAD_S) == "nothing"


@given(PRESS, ASKED)
def test_an_answer_is_taken_back_by_back_alone_and_only_for_a_while(
    action: Action, asked: PressContext
) -> None:
    ago_s = asked.answered_ago_s
    if press_effect(action, asked, DEAD_S) == "take_back":
        assert action == "back"
        assert ago_s is not None
        assert ago_s <= TAKE_BACK_S


@given(PRESS, ASKED)
def test_a_defect_is_told_where_keys_may_tell_one_and_again_is_heard_everywhere(
    action: Action, asked: PressContext
) -> None:
    doing = press_effect(action, asked, DEAD_S)
    if doing == "tell_faults":
        assert action == "defect"
        assert not asked.defect_needs_tap
        assert asked.place != "step" or not asked.unread
    if action == "again" and doing != "say_again":
        assert asked.since_s < DEAD_S or asked.busy or asked.place == "elsewhere"


@dataclass
class Bench:
    """A walk of so many steps whose every step looks alike, on one phone with a bouncing pedal."""

    steps: int
    appeared_s: float = 0.0
    answered: int = 0

    def press(self, at_s: float) -> None:
        place: Place = "step" if self.answered < self.steps else "end"
        asked = PressContext(place=place, since_s=at_s - self.appeared_s)
        if press_effect("ok", asked, DEAD_S) == "answer_ok":
            self.answered += 1
            self.appeared_s = at_s


@given(st.lists(st.floats(0.001, 3.0), max_size=60))
def test_a_bouncing_pedal_answers_no_two_steps_within_the_dead_time(gaps: list[float]) -> None:
    bench, at_s, answered_at = Bench(40), 0.0, list[float]()
    for gap_s in gaps:
        at_s += gap_s
        before = bench.answered
        bench.press(at_s)
        if bench.answered > before:
            answered_at.append(at_s)
    assert all(later - sooner >= DEAD_S for sooner, later in pairwise(answered_at))
    assert bench.answered == len(answered_at)


@given(st.lists(st.floats(0.001, 0.2), min_size=1, max_size=6))
def test_a_burst_of_one_press_answers_one_step(gaps: list[float]) -> None:
    bench, at_s = Bench(40), 1.0
    bench.press(at_s)
    for gap_s in gaps:
        at_s += gap_s
        if at_s < 1.0 + DEAD_S:
            bench.press(at_s)
    assert bench.answered == 1


def needs(teller_step: Step, *, scope: Scope = "whole") -> tuple[bool, bool]:
    walk = begun(plan((teller_step, STEPS[-1]), scope=scope)).walk
    return tap_needed(walk, teller_step, ok=True) is not None, (
        tap_needed(walk, teller_step, ok=False) is not None
    )


@pytest.mark.parametrize("each", FREE, ids=lambda each: str(each.id))
def test_a_step_takes_a_tap_unless_it_says_otherwise(each: Step) -> None:
    assert needs(each) == (not each.hands_free, not each.hands_free)


def test_what_is_to_be_metered_first_takes_a_tap() -> None:
    doubtful = FREE[1].model_copy(update={"meter_first": "Nobody knows what is on pin A."})
    assert needs(doubtful) == (True, True)


def test_in_a_walk_of_rechecks_ok_takes_a_tap_and_a_defect_none() -> None:
    assert needs(FREE[1], scope="recheck") == (True, False)


def test_a_defect_is_neither_taken_back_nor_rechecked_by_a_key() -> None:
    teller = begun(plan(FREE))
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    tail = FREE[1]
    teller.tell(Revisited, step="tail_rear", purpose="change")
    assert tap_needed(teller.walk, tail, ok=True)
    assert not tap_needed(teller.walk, tail, ok=False)
    teller.found("tail_rear", tail_left="dark")
    again = {"done": "bulb", "what": {"id": "answer-ok"}, "again": ("tail_rear",)}
    teller.tell(Repaired, step="tail_rear", **again)
    teller.tell(Revisited, step="tail_rear", purpose="recheck")
    assert tap_needed(teller.walk, tail, ok=True)
    assert not tap_needed(teller.walk, tail, ok=False)


@pytest.mark.parametrize("place", ["faults", "end", "elsewhere", "looking_back"])
def test_no_answer_is_given_where_no_step_is_asked(place: Place) -> None:
    does = {
        press_effect(action, PressContext(place=place, since_s=9.0), DEAD_S) for action in ACTIONS
    }
    assert not does & {"answer_ok", "take_back"}


def test_every_thing_that_a_press_may_do_is_done_by_one() -> None:
    """None of the names stands for nothing."""
    done: set[PressEffect] = set()
    for action in ACTIONS:
        for place in get_args(Place):
            for flag in (False, True):
                asked = PressContext(
                    place=place, since_s=9.0, locked=flag, answered_ago_s=1.0 if flag else None
                )
                done.add(press_effect(action, asked, DEAD_S))
    done.add(press_effect("ok", PressContext(place="step", since_s=9.0, ok_needs_tap=True), DEAD_S))
    done.add(press_effect("ok", PressContext(place="step", since_s=9.0, unread=True), DEAD_S))
    assert done == set(get_args(PressEffect))
