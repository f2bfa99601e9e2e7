"""The plan for paper: labels beside the vehicle, none over another, filled where it is wrong."""

from __future__ import annotations

import re
from itertools import pairwise
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.plans import shipped_plans

from walkaround.drawing.palette import LIGHT
from walkaround.drawing.paper.vehicle import WIDTH_PX, PlaceLabel, findings_svg, strokes_svg
from walkaround.plan.steps import Plan

SVG = "{http://www.w3.org/2000/svg}"
PLANS = shipped_plans()


def boxes(svg: str) -> list[dict[str, str]]:
    return [dict(each.attrib) for each in ElementTree.fromstring(svg).iter(f"{SVG}rect")]


def span(box: dict[str, str]) -> tuple[float, float]:
    return float(box["x"]), float(box["x"]) + float(box["width"])


def lamps(plan: Plan) -> list[str]:
    return [mark.id for mark in plan.marks if mark.colour]


def ends(plan: Plan) -> list[str]:
    return [mark.id for mark in plan.marks if re.fullmatch(r"axle_\d+_(left|right)", mark.id)]


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_labels_stay_on_the_paper_and_apart(data: st.DataObject) -> None:
    plan = PLANS[data.draw(st.sampled_from(sorted(PLANS)))]
    marks = data.draw(st.lists(st.sampled_from(lamps(plan)), max_size=12, unique=True))
    labels = [PlaceLabel(mark, (str(n),), loud=False) for n, mark in enumerate(marks, start=1)]
    drawn = boxes(findings_svg(plan, labels, "told"))
    assert len(drawn) == len(marks)
    for row in {box["y"] for box in drawn}:
        spans = sorted(span(box) for box in drawn if box["y"] == row)
        assert all(low >= 0 and high <= WIDTH_PX for low, high in spans)
        assert all(a[1] <= b[0] for a, b in pairwise(spans))


@pytest.mark.parametrize("vehicle_id", [id_ for id_, plan in PLANS.items() if ends(plan)])
def test_every_wheel_end_has_its_own_box_with_its_words(vehicle_id: str) -> None:
    plan = PLANS[vehicle_id]
    labels = [
        PlaceLabel(end, (f"{end} 1 in", "at most 2 in", "within"), loud=False) for end in ends(plan)
    ]
    svg = strokes_svg(plan, labels, "told")
    assert len(boxes(svg)) == len(labels)
    for label in labels:
        for line in label.lines:
            assert f">{line}</text>" in svg


def test_what_is_wrong_is_filled_and_what_is_not_is_empty() -> None:
    plan = PLANS["sandbag_semitrailer_7"]
    first, second = lamps(plan)[:2]
    labels = [PlaceLabel(first, ("1",), loud=True), PlaceLabel(second, ("2",), loud=False)]
    fills = {box["fill"] for box in boxes(findings_svg(plan, labels, "told"))}
    assert fills == {LIGHT.bad, LIGHT.card}


def test_filled_and_empty_differ_in_gray_as_they_do_in_color() -> None:
    """Relative luminance, WCAG 2.2: a ratio of 7 at least between the two fills."""

    def luminance(color: str) -> float:
        parts = [int(color[at : at + 2], 16) / 255 for at in (1, 3, 5)]
        linear = [p / 12.92 if p <= 0.03928 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
        return sum(w * p for w, p in zip((0.2126, 0.7152, 0.0722), linear, strict=True))

    assert (luminance(LIGHT.card) + 0.05) / (luminance(LIGHT.bad) + 0.05) >= 7


def test_which_way_the_front_is_and_which_side_is_which_is_written() -> None:
    svg = findings_svg(PLANS["dolly_4"], [], "told")
    for word in ("FRONT", "LEFT", "RIGHT"):
        assert f">{word}</text>" in svg


def test_the_right_side_is_above_since_the_front_points_left() -> None:
    plan = PLANS["sandbag_semitrailer_7"]
    labels = [
        PlaceLabel("axle_1_right", ("R",), loud=False),
        PlaceLabel("axle_1_left", ("L",), loud=False),
    ]
    texts = ElementTree.fromstring(strokes_svg(plan, labels, "told")).iter(f"{SVG}text")
    y = {each.text: float(each.attrib["y"]) for each in texts}
    assert y["R"] < y["L"]
