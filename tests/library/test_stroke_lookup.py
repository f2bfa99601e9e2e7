"""Stroke limits for whoever asks from outside: what is taken, what is turned away."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.base.errors import InputError
from walkaround.library.stroke_lookup import stroke_limit_in


@pytest.mark.parametrize("type_", ["30", 30, " 30 ", "30\n"])
@pytest.mark.parametrize("actuator", ["clamp", "Clamp", " CLAMP "])
def test_a_type_is_taken_as_number_or_text(actuator: str, type_: str | int) -> None:
    assert stroke_limit_in(actuator, type_) == 2.0


@pytest.mark.parametrize("type_", ["c", "C", " c "])
def test_letters_are_taken_in_any_case(type_: str) -> None:
    assert stroke_limit_in("bolt", type_) == 1.75


def test_a_rated_stroke_changes_the_limit_where_the_table_says_so_alone() -> None:
    assert stroke_limit_in("clamp", 24, True) == 2.0
    assert stroke_limit_in("clamp", 24, True, 2.5) == 2.0
    assert stroke_limit_in("clamp", 24, True, 3) == 2.5
    assert stroke_limit_in("clamp", 24, True, 76 / 25.4) == 2.5  # marked 76 mm
    assert stroke_limit_in("clamp", 30, True, 3.0) == 2.5
    assert stroke_limit_in("clamp", 24, False, 3.0) == 1.75


@pytest.mark.parametrize(
    ("asked", "sentence"),
    [
        (
            ("clamp", "99"),
            "argument, type: is 99, which no stroke table lists for a clamp chamber; "
            'perhaps 9 is meant, or set actuator = "other" and rated_stroke_in.',
        ),
        (
            ("clamp", "36", True),
            "argument, long_stroke: is true, but no table lists a long-stroke clamp chamber 36; "
            "set it to false or correct type.",
        ),
        (("bolt", ""), "argument, type: is missing; give one of: A, B, C, D, E, F, G."),
        (
            ("clamp", "", False, 2.5),
            "argument, type: is missing; give one of: 6, 9, 12, 16, 20, 24, 30, 36.",
        ),
        (
            ("other", "7"),
            "argument, rated_stroke_in: is missing, and no table lists such an actuator; "
            "give the rated stroke marked on the actuator, in inches.",
        ),
        (
            ("other", "", False, 64.0),
            "argument, rated_stroke_in: is 64, not the stroke of a brake chamber in inches; "
            "write a value from 1 to 5.",
        ),
        (
            ("clmp", "30"),
            'argument, actuator: is "clmp", which is not allowed here; perhaps clamp is meant.',
        ),
        (
            ("clamp", "30", False, -1.0),
            "argument, rated_stroke_in: is -1.0; write a number above 0.",
        ),
    ],
)
def test_what_cannot_be_answered_gets_one_sentence(asked: tuple[Any, ...], sentence: str) -> None:
    with pytest.raises(InputError) as caught:
        stroke_limit_in(*asked)
    assert str(caught.value) == sentence


@given(
    actuator=st.sampled_from(["clamp", "bolt", "roto", "dd3", "wedge", "other"]) | st.text(),
    type_=st.sampled_from(["30", "C", "24"]) | st.text() | st.integers(),
    long_stroke=st.booleans(),
    rated_stroke_in=st.none() | st.floats(),
)
def test_anything_gets_a_limit_or_an_input_error(
    actuator: str, type_: str | int, long_stroke: bool, rated_stroke_in: float | None
) -> None:
    try:
        limit_in = stroke_limit_in(actuator, type_, long_stroke, rated_stroke_in)
    except InputError:
        return
    assert 0 < limit_in <= 4.0
