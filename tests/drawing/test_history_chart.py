"""The chart of values over time: everything lies inside it, and each line can be told."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pytest

from walkaround.drawing.palette import DARK, LIGHT
from walkaround.drawing.paper.history import HistoryWords, ValuesOverTime, history_svg

WORDS = HistoryWords("told", "limit 2", "2026-05-03", "2026-09-03")
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


@pytest.mark.parametrize("count", [1, 2, 5])
@pytest.mark.parametrize("limit", [None, 2.0, 9.0])
def test_all_that_is_drawn_lies_inside(count: int, limit: float | None) -> None:
    xs, ys = [20000.0 + 30 * n for n in range(count)], [1.0 + n / 2 for n in range(count)]
    trend = [(y, y - 1, y + 1) for y in ys] if count > 2 else []
    over = ValuesOverTime(xs, ys, [(y - 0.5, y + 0.5) for y in ys], trend, limit)
    root = ElementTree.fromstring(history_svg(over, WORDS, 340, 190, LIGHT))
    for shape in root:
        for pair in shape.get("points", "").split():
            x, y = map(float, pair.split(","))
            assert 0 <= x <= 340
            assert 0 <= y <= 190
        if shape.get("cx"):
            assert 40 <= float(shape.get("cx", 0)) <= 330
    assert ("dasharray" in ElementTree.tostring(root, "unicode")) == (limit is not None)


def test_it_is_drawn_in_the_colors_of_the_screen() -> None:
    over = ValuesOverTime([0.0], [1.0], [(1.0, 1.0)], [], 2.0)
    assert DARK.ink in history_svg(over, WORDS, 340, 190, DARK)
