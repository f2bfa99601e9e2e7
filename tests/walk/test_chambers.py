"""A stroke is held against the limit of the chamber that was read at its wheel end.

49 CFR 393.47(e), clamp chambers: type 30 2 in, long stroke 2 1/2 in (3 in rated: 2 1/2), type 24
1 3/4 in, type 20 1 3/4 in; 393.47(b): chambers on one axle the same size.
"""

from __future__ import annotations

from datetime import date
from functools import cache

import pytest
from support.english import ENGLISH
from support.walks import Teller, begun, refused

from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan
from walkaround.walk.advance import fold
from walkaround.walk.chambers import chamber_words, chambers_match
from walkaround.walk.events import Answered, ChamberTold, Measured
from walkaround.walk.measured_values import outcome

MARKING = "rods_marked_1"


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


@cache
def planned(vehicle_id: str = "sandbag_semitrailer_7") -> Plan:
    """A semitrailer whose file says: clamp chambers type 30, long stroke, 3 in rated."""
    vehicle = next(v for v in library().vehicles if v.id == vehicle_id)
    return plan_walk(vehicle, library().rules, scope="brakes")


def at_marking(vehicle_id: str = "sandbag_semitrailer_7") -> Teller:
    teller = begun(planned(vehicle_id))
    for step in teller.walk.steps:
        if step.id == MARKING:
            break
        reason = None if step.must or step.kind == "act" else "no_tool"
        teller.tell(Answered, step=step.id, answer="not_checked" if reason else "ok", reason=reason)
    return teller


def told(teller: Teller, side: str, type_: str, **more: object) -> None:
    body = {"actuator": "clamp", "type": type_, **more}
    teller.tell(ChamberTold, step=MARKING, end=f"axle_1_{side}", **body)


def limit_in(teller: Teller, side: str) -> float | None:
    step = teller.walk.plan and teller.walk.plan.step(f"stroke_1_{side}")
    assert step
    assert step.measure
    return step.measure.values[0].at_most


def test_without_a_word_the_chamber_is_as_the_file_says() -> None:
    teller = at_marking()
    assert limit_in(teller, "left") == 2.5
    step = teller.walk.here
    assert step
    assert chambers_match(teller.walk, step)


@pytest.mark.parametrize(
    ("type_", "more", "limit"),
    [
        ("30", {"long_stroke": False}, 2.0),
        ("24", {"long_stroke": False}, 1.75),
        ("20", {"long_stroke": False}, 1.75),
        ("30", {"long_stroke": True}, 2.5),
        ("30", {"long_stroke": True, "rated_stroke_in": 3.0}, 2.5),
    ],
)
def test_the_limit_follows_from_the_chamber_that_is_there(
    type_: str, more: dict[str, object], limit: float
) -> None:
    teller = at_marking()
    told(teller, "left", type_, **more)
    assert limit_in(teller, "left") == limit
    assert limit_in(teller, "right") == 2.5
    step = teller.walk.plan and teller.walk.plan.step("stroke_1_left")
    assert step
    said = ENGLISH.text(step.short)
    assert {2.0: "limit 2 in", 1.75: "limit 1 3/4 in", 2.5: "limit 2 1/2 in"}[limit] in said


@pytest.mark.parametrize("wording", ["brisk", "short", "long"])
def test_every_wording_says_the_limit_of_the_chamber_that_is_there(wording: str) -> None:
    teller = at_marking()
    for side in ("left", "right"):
        told(teller, side, "24", long_stroke=False)
    plan = teller.walk.plan
    assert plan
    for side in ("left", "right"):
        step = plan.step(f"stroke_1_{side}")
        assert step
        said = ENGLISH.text(getattr(step, wording))
        # 49 CFR 393.47(e)(1), clamp chamber type 24; the file has a long-stroke type 30, 2 1/2 in.
        assert "1 3/4 in" in said
        assert "2 1/2 in" not in said


def test_in_doubt_the_standard_limit_counts_and_the_record_says_so() -> None:
    teller = at_marking()
    told(teller, "left", "30", long_stroke=None)
    step = teller.walk.plan and teller.walk.plan.step("stroke_1_left")
    assert step
    assert step.measure
    assert limit_in(teller, "left") == 2.0
    assert "so the standard limit counts" in ENGLISH.text(step.measure.limit)
    assert "can't tell if long stroke" in str(chamber_words(teller.walk, "axle_1_left"))
    assert str(chamber_words(teller.walk, "axle_1_right")).startswith("long-stroke")


def test_a_stroke_between_the_limits_is_judged_by_the_chamber_that_is_there() -> None:
    """2 1/4 in: within for the long-stroke chamber of the file, over for the standard one."""
    for long_stroke, judged in ((True, "within"), (False, "outside"), (None, "outside")):
        teller = at_marking()
        told(teller, "left", "30", long_stroke=long_stroke)
        step = teller.walk.plan and teller.walk.plan.step("stroke_1_left")
        assert step
        assert step.measure
        value = teller.sealed(
            Measured, step="stroke_1_left", value_id="stroke", value=2.25, unit="in"
        )
        assert outcome(step.measure, {"stroke": value}) == judged


def test_an_unknown_chamber_has_no_limit_and_passes_nothing() -> None:
    teller = at_marking()
    teller.tell(ChamberTold, step=MARKING, end="axle_1_left", actuator="other", type="")
    step = teller.walk.plan and teller.walk.plan.step("stroke_1_left")
    assert step
    assert step.measure
    assert not step.measure.known
    assert limit_in(teller, "left") is None
    assert "not known" in ENGLISH.text(step.short)


def test_chambers_that_differ_are_a_defect_and_not_ok() -> None:
    """49 CFR 393.47(b)."""
    teller = at_marking()
    told(teller, "left", "24", long_stroke=False)
    why = refused(teller, Answered, step=MARKING, answer="ok")
    assert "not alike" in why
    walk = teller.found(MARKING)
    assert [defect.step for defect in walk.open_defects] == [MARKING]


def test_the_same_other_chamber_at_both_ends_is_alike() -> None:
    teller = at_marking()
    for side in ("left", "right"):
        told(teller, side, "24", long_stroke=False)
    assert teller.ok(MARKING).answers[MARKING].answer == "ok"
    assert limit_in(teller, "left") == limit_in(teller, "right") == 1.75


def test_the_walk_is_the_same_after_it_was_stored() -> None:
    teller = at_marking()
    told(teller, "left", "30", long_stroke=None)
    again = fold(teller.walk.events)
    assert again == teller.walk


def test_a_chamber_is_told_only_where_it_is_asked_for() -> None:
    teller = at_marking()
    body = {"actuator": "clamp", "type": "30", "long_stroke": True}
    assert "no chamber" in refused(teller, ChamberTold, step=MARKING, end="axle_2_left", **body)
    early = begun(planned())
    first = early.walk.steps[0].id
    assert "no chamber" in refused(early, ChamberTold, step=first, end="axle_1_left", **body)


def test_a_chamber_is_not_read_again_once_a_stroke_was_held_against_its_limit() -> None:
    """Or a stroke that was called within would stand against a limit that it exceeds."""
    teller = at_marking()
    steps = teller.walk.steps
    here = [step.id for step in steps].index(MARKING)
    for step in steps[here:]:
        if step.id == "stroke_1_right":
            break
        reason = None if step.must or step.kind in ("act", "chambers") else "no_tool"
        teller.tell(Answered, step=step.id, answer="not_checked" if reason else "ok", reason=reason)
    teller.back(MARKING)
    told(teller, "right", "30", long_stroke=True)
    teller.ok(MARKING)
    stroke = {"step": "stroke_1_right", "value_id": "stroke", "value": 2.25, "unit": "in"}
    teller.tell(Measured, **stroke)
    teller.ok("stroke_1_right")
    teller.back(MARKING)
    body = {"actuator": "clamp", "type": "30", "long_stroke": False}
    why = refused(teller, ChamberTold, step=MARKING, end="axle_1_left", **body)
    assert "walk of its own" in why


def test_a_rated_stroke_that_no_row_asks_for_makes_no_ends_unlike() -> None:
    """Of type 30 the table has one long-stroke row, of type 24 two."""
    for type_, other, same in (("30", "30", True), ("24", "24", False)):
        teller = at_marking()
        told(teller, "left", type_, long_stroke=True, rated_stroke_in=3.0)
        told(teller, "right", other, long_stroke=True)
        step = teller.walk.here
        assert step
        assert chambers_match(teller.walk, step) == same
