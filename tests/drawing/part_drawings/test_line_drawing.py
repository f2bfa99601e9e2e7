"""Line drawings of parts: inside their box, in both palettes, and each with a step that shows it.

Elements are those of SVG 1.1 (W3C Recommendation, second edition, 2011).
"""

from __future__ import annotations

from itertools import combinations
from xml.etree import ElementTree

import pytest
from support.plans import shipped_plans

from walkaround.drawing.palette import DARK, LIGHT, Palette
from walkaround.drawing.part_drawings.line_drawing import (
    SUBJECTS,
    Subject,
    drawn_part,
    line_drawing,
)

NAMESPACE = "{http://www.w3.org/2000/svg}"
BOXES = ((388.0, 226.0), (388.0, 165.0), (300.0, 92.0))


def points(root: ElementTree.Element) -> list[tuple[float, float]]:
    """Corners, ends and centers of everything drawn."""
    found = []
    for element in root.iter():
        for pair in element.attrib.get("points", "").split():
            x, _, y = pair.partition(",")
            found.append((float(x), float(y)))
        for x, y in (("x", "y"), ("cx", "cy")):
            if x in element.attrib:
                found.append((float(element.attrib[x]), float(element.attrib[y])))
    return found


@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize("subject", SUBJECTS)
def test_a_drawing_lies_inside_its_box(subject: Subject, palette: Palette) -> None:
    for width, height in BOXES:
        root = ElementTree.fromstring(line_drawing(subject, palette, width, height))
        assert len(list(root)) > 4
        assert all(0 <= x <= width and 0 <= y <= height for x, y in points(root)), (width, height)


def test_no_two_drawings_are_the_same() -> None:
    drawn = {subject: line_drawing(subject, LIGHT, 388, 226) for subject in SUBJECTS}
    for one, other in combinations(drawn, 2):
        assert points(ElementTree.fromstring(drawn[one])) != points(
            ElementTree.fromstring(drawn[other])
        )


def test_each_drawing_is_shown_at_a_step_of_a_shipped_vehicle() -> None:
    steps = [step for plan in shipped_plans().values() for step in plan.steps]
    assert {drawn_part(step) for step in steps} == {*SUBJECTS, None}


def test_wherever_chocks_are_the_matter_one_is_drawn() -> None:
    steps = {step.id: step for plan in shipped_plans().values() for step in plan.steps}
    chocks = {id_ for id_ in steps if id_.startswith("chock")}
    assert {"chocks_on", "chocks_off", "chocks_off_lever", "chocks_stay"} <= chocks
    assert {drawn_part(steps[id_]) for id_ in chocks} == {"chock"}
