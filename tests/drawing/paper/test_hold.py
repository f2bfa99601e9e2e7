"""The chart for paper: the same places as on the screen, lines told apart without color."""

from __future__ import annotations

from xml.etree import ElementTree

from support.walks import HOLD, STEPS, begun

from walkaround.airhold.hold import Hold
from walkaround.drawing.hold_chart import hold_chart
from walkaround.drawing.paper.hold import ChartWords, hold_svg

SVG = "{http://www.w3.org/2000/svg}"
WORDS = ChartWords("told", "supply, psi", "limit", "fitted")


def held() -> Hold:
    teller = begun()
    teller.ok(*(step.id for step in STEPS[:4]))
    return teller.hold(end_psi=108.0).holds[HOLD]


def drawn() -> ElementTree.Element:
    return ElementTree.fromstring(hold_svg(held(), "supply", WORDS, 300, 160))


def test_every_reading_is_a_dot_at_its_place() -> None:
    chart = hold_chart(held(), "supply", held().results()["supply"], 60.0, 300, 160)
    xs = sorted({float(dot.attrib["cx"]) for dot in drawn().iter(f"{SVG}circle")})
    assert xs == [round(x, 1) for x, _ in chart.points]


def test_the_limit_alone_is_dashed_in_chart_and_key() -> None:
    dashed = [line for line in drawn().iter(f"{SVG}polyline") if "stroke-dasharray" in line.attrib]
    assert len(dashed) == 2


def test_title_and_key_are_written() -> None:
    texts = {each.text for each in drawn().iter(f"{SVG}text")}
    assert {"supply, psi", "limit", "fitted", "0 s", "60 s", "110"} <= texts


def test_all_of_it_lies_on_the_paper() -> None:
    for line in drawn().iter(f"{SVG}polyline"):
        for point in line.attrib["points"].split():
            x, y = map(float, point.split(","))
            assert 0 <= x <= 300
            assert 0 <= y <= 160
