"""The plan as a picture: every step of the shipped vehicles, day and night, as any reader of SVG
takes it.

The elements and attributes are those of SVG 1.1 (W3C Recommendation, second edition, 2011), read
here with the standard library's XML parser, which knows nothing of this project.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import dist
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.plans import BOXES, made_plan, made_vehicle, plans, shipped_plans

from walkaround.drawing.palette import LIGHT
from walkaround.drawing.plan_svg import PictureStyle, plan_svg, style_named
from walkaround.drawing.vehicle_plan import plan_shapes_of, plan_words
from walkaround.plan.steps import Mark, Plan, Step

NAMESPACE = "{http://www.w3.org/2000/svg}"
LOOK = PictureStyle(396, 300, dark=False)
looks = pytest.mark.parametrize(
    "look",
    [PictureStyle(round(w), round(h), dark) for w, h in BOXES for dark in (False, True)],
    ids=str,
)


def step_of(vehicle: str, step_id: str) -> tuple[Plan, Step]:
    plan = shipped_plans()[vehicle]
    step = plan.step(step_id)
    assert step is not None
    return plan, step


def read(plan: Plan, step: Step, look: PictureStyle = LOOK) -> ElementTree.Element:
    return ElementTree.fromstring(plan_svg(plan, step, look))


def elements(picture: ElementTree.Element, kind: str) -> Iterator[ElementTree.Element]:
    return picture.iter(f"{NAMESPACE}{kind}")


def texts(picture: ElementTree.Element) -> list[str]:
    return [text.text or "" for text in elements(picture, "text")]


def px(element: ElementTree.Element, name: str) -> float:
    return float(element.attrib[name])


@looks
def test_every_shipped_step_is_drawn_in_its_size_with_all_its_numbers(look: PictureStyle) -> None:
    for plan in shipped_plans().values():
        for step in plan.steps:
            picture = read(plan, step, look)
            assert picture.tag == f"{NAMESPACE}svg"
            assert (px(picture, "width"), px(picture, "height")) == look[:2]
            assert picture.attrib["viewBox"] == f"0 0 {look.width} {look.height}"
            count = len(plan_shapes_of(plan, step).marked)
            numbers = sorted(text for text in texts(picture) if text.isdigit())
            assert numbers == [str(n + 1) for n in range(count)], step.id


def test_its_title_says_in_words_where_to_look() -> None:
    plan, step = step_of("sandbag_semitrailer_7", "stop_rear")
    (title,) = elements(read(plan, step), "title")
    assert title.text == str(plan_words(plan, step))


def test_it_stands_alone() -> None:
    """No address is followed, no style sheet, script or font of anyone's is needed."""
    for plan in shipped_plans().values():
        text = plan_svg(plan, plan.steps[0], LOOK)
        picture = ElementTree.fromstring(text)
        known = {"svg", "title", "rect", "circle", "polygon", "polyline", "path", "text"}
        assert {element.tag.removeprefix(NAMESPACE) for element in picture.iter()} <= known
        fonts = {element.attrib.get("font-family", "sans-serif") for element in picture.iter()}
        assert fonts == {"sans-serif"}
        assert "href" not in text
        assert "url(" not in text
        assert text.count("http") == 1, "the name of the language, and no address"


def test_a_name_that_would_be_markup_is_text() -> None:
    vehicle = made_vehicle().model_copy(update={"name": "</title><script>\"&'<b>"})
    plan = made_plan(vehicle)
    (title,) = elements(read(plan, plan.steps[0]), "title")
    assert vehicle.name in (title.text or "")


def test_you_front_left_and_right_are_written_on_it() -> None:
    plan, step = step_of("sandbag_semitrailer_7", "rods_marked_1")
    assert {"YOU", "FRONT", "LEFT", "RIGHT"} <= set(texts(read(plan, step)))
    plan, step = step_of("pump_trailer_3", "tail_rear")
    assert {"REAR", "LEFT", "RIGHT"} <= set(texts(read(plan, step)))
    plan, step = step_of("pump_trailer_3", "tail_right_side")
    assert {"REAR", "RIGHT", "FRONT"} <= set(texts(read(plan, step)))


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("step_id", ["tail_rear", "rods_marked_1"])
def test_a_number_is_drawn_in_the_ink_that_fits_its_disc(dark: bool, step_id: str) -> None:
    plan, step = step_of("sandbag_semitrailer_7", step_id)
    look = LOOK._replace(dark=dark)
    ink = look.palette.on_lamp if step_id == "tail_rear" else look.palette.on_accent
    numbers = [t for t in elements(read(plan, step, look), "text") if (t.text or "").isdigit()]
    assert {number.attrib["fill"] for number in numbers} == {ink}


@pytest.mark.parametrize("dark", [False, True])
def test_every_lamp_disc_has_a_ring_in_ink_around_its_color(dark: bool) -> None:
    plan, step = step_of("sandbag_semitrailer_7", "tail_rear")
    look = LOOK._replace(dark=dark)
    picture = read(plan, step, look)
    for number in (t for t in elements(picture, "text") if (t.text or "").isdigit()):
        at = px(number, "x"), px(number, "y")
        here = [
            circle
            for circle in elements(picture, "circle")
            if dist((px(circle, "cx"), px(circle, "cy")), at) < 10 and px(circle, "r") > 10
        ]
        here.sort(key=lambda circle: -px(circle, "r"))
        assert here[0].attrib["stroke"] == look.palette.ink
        assert here[-1].attrib["fill"] in look.palette.lamps.values()
        assert px(here[-1], "r") < px(here[0], "r") - 2


def test_a_lamp_of_two_colors_is_drawn_half_and_half() -> None:
    plan, step = step_of("sandbag_semitrailer_7", "left_turn_rear")
    halves = {path.attrib["fill"] for path in elements(read(plan, step), "path")}
    assert halves == {LIGHT.lamps["amber"], LIGHT.lamps["red"]}


def test_no_text_on_the_plan_is_below_sixteen_px_and_all_of_it_can_be_drawn() -> None:
    """The one font that ships with the web client has no signs beyond plain letters."""
    for plan in shipped_plans().values():
        for step in plan.steps:
            for text in elements(read(plan, step, PictureStyle(344, 240, dark=True)), "text"):
                assert px(text, "font-size") >= 16, (step.id, text.text)
                assert text.text
                assert text.text.isascii()


def test_a_vehicle_cut_at_both_ends_shows_two_ragged_edges() -> None:
    vehicle = made_vehicle(length_mm=20000.0, axles=0)
    lamp = Mark(id="lamp", x_mm=10000.0, y_mm=1250.0, colour="amber")
    plan = made_plan(vehicle, "right_side", (lamp,), ("lamp",))
    lines = elements(read(plan, plan.steps[0]), "polyline")
    assert sum(line.attrib["points"].count(",") > 4 for line in lines) == 2


@given(plans(), st.sampled_from(BOXES))
def test_any_plan_becomes_well_formed_and_short(plan: Plan, box: tuple[float, float]) -> None:
    text = plan_svg(plan, plan.steps[0], PictureStyle(round(box[0]), round(box[1]), dark=False))
    ElementTree.fromstring(text)
    assert "nan" not in text
    assert len(text) < 25_000


@given(st.integers(40, 2000), st.integers(40, 2000), st.booleans())
def test_a_look_is_read_back_from_its_name(width: int, height: int, dark: bool) -> None:
    look = PictureStyle(width, height, dark)
    assert style_named(look.name) == look


@pytest.mark.parametrize(
    "name", ["", "x", "39x100_light", "100x2001_dark", "100x100_", "0100x100_dark", "100x100_dim",
             "-1x100_dark", "1e3x100_dark", "100x100_dark\n", "١٠٠x100_dark"]
)  # fmt: skip
def test_what_is_no_look_is_none(name: str) -> None:
    assert style_named(name) is None


@given(st.text(max_size=20))
def test_no_name_at_all_raises(name: str) -> None:
    look = style_named(name)
    assert look is None or look.name == name
