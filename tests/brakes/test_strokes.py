"""Strokes, their limits, and what one over its limit asks for."""

from __future__ import annotations

import math
from datetime import date
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.base.units import length_limit_text, to_in
from walkaround.brakes.strokes import (
    StrokeLimit,
    adjuster_must_be_automatic,
    limit_of,
    over_advice,
    stroke_verdict,
)
from walkaround.library.standard_tables import standard_tables
from walkaround.vehicle.model import Axle, Vehicle
from walkaround.words.pronunciation import pronounced

TABLE = standard_tables().strokes
AXLES = st.builds(
    Axle,
    actuator=st.sampled_from(["clamp", "bolt", "roto", "dd3", "wedge", "other"]),
    type=st.sampled_from(["", "6", "9", "12", "16", "20", "24", "30", "36", "50", "A", "G", "X"]),
    long_stroke=st.booleans(),
    rated_stroke_in=st.none() | st.sampled_from([1.75, 2.0, 2.25, 2.5, 3.0, 3.5]),
    slack=st.sampled_from([None, "automatic", "manual"]),
    foundation=st.sampled_from(["drum", "disc"]),
)
CLAMP_30 = Axle(actuator="clamp", type="30", slack="automatic")


def limit(**axle: Any) -> StrokeLimit | None:
    return limit_of(Axle.model_validate(axle), TABLE)


def vehicle(system: str, made: date) -> Vehicle:
    return Vehicle.model_validate(
        {
            "id": "x",
            "kind": "semitrailer",
            "made": made,
            "width_mm": 2500,
            "length_mm": 9000,
            "electrical": {"volts": 12, "connector": "x"},
            "brakes": {"system": system},
        }
    )


# Limits


def test_a_limit_says_where_it_stands_and_what_it_is_of() -> None:
    assert limit(actuator="clamp", type="30") == StrokeLimit(
        2.0, "49 CFR 393.47(e)(1)", "read", "pushrod stroke"
    )
    assert limit(actuator="wedge") == StrokeLimit(
        0.0625, "49 CFR 393.47(f)", "read", "lining movement"
    )
    assert limit(rated_stroke_in=3.0) == StrokeLimit(
        2.4, "49 CFR 393.47(e)(2): 80% of the marked rated stroke", "read", "pushrod stroke"
    )


@pytest.mark.parametrize(
    "axle",
    [
        {},
        {"actuator": "other", "type": "7"},
        {"actuator": "clamp", "type": "99"},
        {"actuator": "clamp", "type": "36", "long_stroke": True},
        {"actuator": "clamp"},
        {"rated_stroke_in": 64.0},  # millimetres
        # Its row may allow less than 80 percent of this: type 20, 1 3/4 in.
        {"actuator": "clamp", "rated_stroke_in": 2.25},
    ],
)
def test_where_nothing_is_known_there_is_no_limit(axle: dict[str, Any]) -> None:
    assert limit(**axle) is None


@given(axle=AXLES)
def test_a_limit_is_a_stroke_that_can_be(axle: Axle) -> None:
    found = limit_of(axle, TABLE)
    assert found is None or 0 < found.limit_in <= 3.0


@given(axle=AXLES)
def test_a_marked_stroke_never_lowers_a_listed_limit(axle: Axle) -> None:
    unmarked = limit_of(axle.model_copy(update={"rated_stroke_in": None}), TABLE)
    marked = limit_of(axle, TABLE)
    if unmarked is not None:
        assert marked is not None
        assert marked.limit_in >= unmarked.limit_in
        rated_3_in = axle.long_stroke and axle.type in ("20", "24") and axle.rated_stroke_in == 3.0
        assert rated_3_in or marked == unmarked


@given(axle=AXLES)
def test_a_long_stroke_chamber_may_travel_further_than_a_standard_one(axle: Axle) -> None:
    standard = limit_of(axle.model_copy(update={"long_stroke": False}), TABLE)
    long = limit_of(axle.model_copy(update={"long_stroke": True}), TABLE)
    if axle.actuator == "clamp" and axle.type in ("12", "16", "20", "24", "30"):
        assert standard is not None
        assert long is not None
        assert long.limit_in > standard.limit_in


# Verdicts


@given(sixteenths=st.integers(0, 64), limit_sixteenths=st.integers(1, 48))
def test_sixteenths_are_compared_as_fractions_are(sixteenths: int, limit_sixteenths: int) -> None:
    over = Fraction(sixteenths, 16) > Fraction(limit_sixteenths, 16)
    verdict = stroke_verdict(sixteenths / 16, limit_sixteenths / 16)
    assert verdict == ("over" if over else "within")


@given(mm=st.integers(0, 120), limit_in=st.sampled_from([r.limit_in for r in TABLE.rows]))
def test_whole_millimetres_are_compared_with_the_limit_as_it_is_shown(
    mm: int, limit_in: float
) -> None:
    shown_mm = float(length_limit_text(limit_in, "mm").removesuffix(" mm"))
    verdict = stroke_verdict(to_in(mm, "mm"), limit_in)
    assert verdict == ("within" if mm <= shown_mm else "over")


@pytest.mark.parametrize(
    ("mm", "limit_in", "verdict"),
    [
        (50.8, 2.0, "within"),
        (50, 2.0, "within"),
        (51, 2.0, "over"),  # 2.008 in
        (44.5, 1.75, "within"),  # printed for 44.45
        (45, 1.75, "over"),
        (57.2, 2.25, "within"),  # printed for 57.15
        (61, 2.4, "within"),  # 60.96, shown as 61
        (2, 0.0625, "over"),
    ],
)
def test_millimetres_equal_to_the_printed_limit_pass(
    mm: float, limit_in: float, verdict: str
) -> None:
    assert stroke_verdict(to_in(mm, "mm"), limit_in) == verdict


@given(share=st.integers(1, 20), rated_in=st.sampled_from([1.75, 2.25, 2.5, 3.0]))
def test_what_equals_a_reckoned_limit_passes(share: int, rated_in: float) -> None:
    limit_in = share * rated_in / 10
    assert stroke_verdict(share * 0.1 * rated_in, limit_in) == "within"


def test_no_number_is_never_within() -> None:
    assert stroke_verdict(math.nan, 2.0) == "over"
    assert stroke_verdict(math.inf, 2.0) == "over"


@pytest.mark.parametrize(
    ("limit_in", "in_text", "mm_text"),
    [
        (1.75, "1 3/4 in", "44.5 mm"),
        (2.0, "2 in", "50.8 mm"),
        (0.0625, "1/16 in", "1.6 mm"),
        (1.8, "1.8 in", "45.7 mm"),  # not 1 13/16 in, which is over it
        (2.4, "2.4 in", "61 mm"),
    ],
)
def test_a_limit_is_shown_as_it_is(limit_in: float, in_text: str, mm_text: str) -> None:
    assert length_limit_text(limit_in, "in") == in_text
    assert length_limit_text(limit_in, "mm") == mm_text


# What a stroke over its limit asks for


def test_an_automatic_adjuster_over_its_limit_is_not_to_be_adjusted() -> None:
    assert "find the cause, do not adjust it" in str(over_advice(CLAMP_30))


def test_a_manual_adjuster_is_adjusted_by_who_may() -> None:
    """49 CFR 396.25, read: brake work is for those qualified for it."""
    text = str(over_advice(Axle(actuator="clamp", slack="manual")))
    assert "adjusted by a person qualified for brakes (49 CFR 396.25)" in text
    assert "cause" not in text


@pytest.mark.parametrize(
    "axle",
    [
        Axle(actuator="clamp"),
        Axle(actuator="wedge", slack="manual"),
        Axle(actuator="clamp", foundation="disc"),
    ],
)
def test_where_the_adjuster_is_not_known_both_are_told(axle: Axle) -> None:
    text = str(over_advice(axle))
    assert "find the cause, do not adjust it" in text
    assert "396.25" in text


@given(axle=AXLES)
def test_what_is_said_of_a_stroke_leaves_no_digit(axle: Axle) -> None:
    found = limit_of(axle, TABLE) or StrokeLimit(1.8, "", "read", "pushrod stroke")
    said = pronounced(f"{over_advice(axle)} {found.source}")
    assert not any(character.isdigit() for character in said)
    assert "safe" not in said


# 49 CFR 393.53 (from memory, the date read): air-braked vehicles made on or after 1994-10-20.
@pytest.mark.parametrize(
    ("system", "made", "must"),
    [
        ("air", date(1994, 10, 20), True),
        ("air", date(1994, 10, 19), False),
        ("air_over_hydraulic", date(2001, 1, 1), True),
        ("electric", date(2001, 1, 1), False),
        ("surge", date(2001, 1, 1), False),
        ("none", date(2001, 1, 1), False),
    ],
)
def test_newer_air_brakes_must_adjust_themselves(system: str, made: date, must: bool) -> None:
    assert adjuster_must_be_automatic(vehicle(system, made)) == must


@pytest.mark.parametrize(
    ("actuator", "types"),
    [
        ("clamp", "6 9 12 16 20 24 30 36"),
        ("dd3", "30"),
        ("bolt", "A B C D E F G"),
        ("roto", "9 12 16 20 24 30 36 50"),
    ],
)
def test_a_kind_of_chamber_has_the_types_of_its_own_table_by_size(
    actuator: str, types: str
) -> None:
    """The tables of 49 CFR 393.47(e), each with its first column."""
    assert TABLE.types(actuator) == tuple(types.split())


def test_of_clamp_chambers_some_are_made_with_a_long_stroke() -> None:
    """49 CFR 393.47(e), the table of long stroke clamp type brake chambers."""
    assert TABLE.types("clamp", long_stroke=True) == ("12", "16", "20", "24", "30")
