"""A gauge from near by: its needle points at what it shows, measured in the picture itself."""

from __future__ import annotations

import re
from math import atan2
from xml.etree import ElementTree

from hypothesis import given
from hypothesis import strategies as st

from walkaround.drawing.palette import DARK, LIGHT
from walkaround.drawing.part_drawings.near_dial import near_dial

NAMESPACE = "{http://www.w3.org/2000/svg}"


def lines(picture: str) -> list[list[tuple[float, float]]]:
    """Every line of the picture, as points."""
    found = []
    for element in ElementTree.fromstring(picture).iter(f"{NAMESPACE}polyline"):
        numbers = [float(x) for x in re.findall(r"-?[\d.]+", element.get("points", ""))]
        found.append(list(zip(numbers[::2], numbers[1::2], strict=True)))
    return found


def leaning(line: list[tuple[float, float]]) -> float:
    """How far a line leans to the right of upright, radians."""
    (x0, y0), (x1, y1) = sorted(line, key=lambda point: -point[1])
    return atan2(x1 - x0, y0 - y1)


@given(st.floats(8, 140), st.sampled_from([(336, 90), (180, 120), (388, 240)]))
def test_the_needle_stands_between_the_marks_of_what_it_shows(
    psi: float, box: tuple[int, int]
) -> None:
    *marks, needle = lines(near_dial(psi, LIGHT, *box))
    first = 5 * round(psi / 5) - 7
    leans = [leaning(mark) for mark in marks]
    assert leans == sorted(leans)
    a_psi = (leans[-1] - leans[0]) / (len(leans) - 1)
    assert abs(first + (leaning(needle) - leans[0]) / a_psi - psi) < 0.25
    for line in [*marks, needle]:
        assert all(0 <= x <= box[0] and 0 <= y <= box[1] for x, y in line)


def test_no_mark_is_below_nothing_and_both_palettes_draw() -> None:
    for palette in (LIGHT, DARK):
        assert len(lines(near_dial(-3.0, palette, 300, 100))) == 9
