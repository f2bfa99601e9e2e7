"""How long a walk will take, added up by hand."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.plans import made_vehicle
from support.walks import STEPS, plan, step

from walkaround.plan.distance import round_m
from walkaround.plan.duration import SECONDS, WALKING_M_PER_S, walk_s
from walkaround.rules.checklist import StepKind


def test_words_way_and_what_is_done_are_added_up() -> None:
    steps = (
        step("chocks", "secure", "act", spot="left_side"),
        step("gauges", "connect", "gauges", spot="source"),
        step("tails", "lamps", "lamp", spot="rear"),
        step("settle", "finish", "wait", spot="rear"),
    )
    towed = made_vehicle()
    # Left side to the front is a quarter of the way round, the front to the rear a half.
    walked_s = 0.75 * round_m(towed) / 1.2
    took_s = walk_s(plan(steps, vehicle=towed), spoken_words=320, words_per_min=160)
    assert took_s == pytest.approx(120 + 15 + 15 + 6 + walked_s)


def test_every_kind_of_step_has_its_time() -> None:
    assert set(SECONDS) == set(get_args(StepKind))
    assert WALKING_M_PER_S == 1.2


@given(st.integers(0, 5000), st.integers(0, 5000), st.sampled_from([120, 160, 220]))
def test_more_words_and_a_slower_voice_take_longer(fewer: int, more: int, rate: int) -> None:
    least, most = sorted((fewer, more))
    asked = plan(STEPS)
    assert walk_s(asked, least, rate) <= walk_s(asked, most, rate) <= walk_s(asked, most, 100)
