"""When a phrase counts as heard."""

from __future__ import annotations

import pytest

from walkaround.spoken_answers.heard_text import HeardText, is_clear

CLEAR = HeardText(text="Something is wrong", lead=6.0, gap=8.0, end=-2.0, seconds=0.4)


def test_what_is_just_within_every_bound_counts() -> None:
    assert is_clear(CLEAR)
    assert is_clear(CLEAR.model_copy(update={"seconds": 1.9}))


@pytest.mark.parametrize(
    "short",
    [{"text": ""}, {"lead": 5.9}, {"gap": 8.1}, {"end": -2.1}, {"seconds": 0.3}, {"seconds": 2.0}],
)
def test_what_falls_short_of_any_bound_counts_for_nothing(short: dict[str, object]) -> None:
    assert not is_clear(CLEAR.model_copy(update=short))


def test_nothing_was_heard_where_nobody_spoke() -> None:
    assert not is_clear(HeardText())
