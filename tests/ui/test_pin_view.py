"""The face of a connector as drawn: every shipped connector, day and night, for eyes and ears."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date

import flet as ft
import flet.canvas as cv
import pytest
from support.flet_harness import shown

from walkaround.disk.locations import shipped
from walkaround.drawing.connector_face import advice, caption, face_words
from walkaround.lamps.wiring import Connector
from walkaround.library.load import load_library
from walkaround.ui.drawn.connector import pin_view
from walkaround.ui.kit.theme import DARK, LIGHT, Palette

CONNECTORS = load_library(shipped(), today=date(2026, 11, 1)).connectors
BOXES = [(388.0, 165.0), (336.0, 140.0), (344.0, 240.0), (560.0, 600.0)]
"""Sizes that the screens give it on phones, low phones and tablets, px."""

both = pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
every = pytest.mark.parametrize("id_", sorted(CONNECTORS))


@ft.component
def Card(connector: Connector, palette: Palette, strong: Collection[str]) -> ft.Control:
    return pin_view(connector, palette, 388, 165, strong)


def controls(control: ft.Control) -> Iterator[ft.Control]:
    yield control
    content = getattr(control, "content", None)
    for child in [content] if content else getattr(control, "controls", []):
        yield from controls(child)


def canvas_of(view: ft.Control) -> cv.Canvas:
    (canvas,) = [control for control in controls(view) if isinstance(control, cv.Canvas)]
    return canvas


def labels(canvas: cv.Canvas) -> dict[str, cv.Text]:
    return {shape.value or "": shape for shape in canvas.shapes if isinstance(shape, cv.Text)}


def around(canvas: cv.Canvas, text: cv.Text) -> list[str]:
    """Colours of the discs and rings of one contact, from the bottom up."""
    here = [s for s in circles(canvas) if (s.x, s.y) == (text.x, text.y)]
    # The shell is not one of them, though a contact may stand at its centre.
    return [str(s.paint.color) for s in here if s.radius < max(c.radius for c in circles(canvas))]


def circles(canvas: cv.Canvas) -> list[cv.Circle]:
    return [shape for shape in canvas.shapes if isinstance(shape, cv.Circle)]


async def test_the_face_is_told_in_words() -> None:
    connector = CONNECTORS["sae_j560"]
    async with shown(Card, connector, LIGHT, ["7"]) as screen:
        assert screen.names() == [face_words(connector, ["7"])]
        assert {caption(connector), advice(connector)} <= set(screen.texts())


@every
@both
@pytest.mark.parametrize("box", BOXES)
def test_every_contact_is_drawn_with_its_label(
    id_: str, palette: Palette, box: tuple[float, float]
) -> None:
    connector = CONNECTORS[id_]
    canvas = canvas_of(pin_view(connector, palette, *box, strong=()))
    marked = [f"{pin.pin}?" if pin.doubt else pin.pin for pin in connector.pins]
    assert list(labels(canvas)) == marked
    assert canvas.width is not None
    assert canvas.height is not None
    assert canvas.width <= box[0] - 20
    assert canvas.height <= box[1] - 20


@every
@pytest.mark.parametrize("box", BOXES)
def test_labels_can_be_read_and_lie_on_their_contacts(id_: str, box: tuple[float, float]) -> None:
    canvas = canvas_of(pin_view(CONNECTORS[id_], LIGHT, *box, strong=()))
    across = 2 * max(circle.radius for circle in circles(canvas)) + 2
    for text, label in labels(canvas).items():
        assert label.style is not None
        assert label.style.size is not None
        assert label.style.size >= (16 if len(text) < 3 else 14), text
        # Figures of Roboto Bold are 0.575 of their size wide (from memory of the font's metrics).
        assert label.style.size * 0.575 * len(text) < across


@both
def test_contacts_of_this_step_are_filled_ringed_and_inked_to_be_read(palette: Palette) -> None:
    canvas = canvas_of(pin_view(CONNECTORS["sae_j560"], palette, 388, 165, strong=["4", "7"]))
    seen = labels(canvas)
    colours = {text: around(canvas, label) for text, label in seen.items()}
    assert colours["4"] == [palette.ink, palette.card, palette.accent]
    assert colours["7?"] == [palette.ink, palette.card, palette.caution]
    assert colours["1"] == [palette.card, palette.line]
    inks = {text: label.style.color for text, label in seen.items() if label.style}
    assert inks["4"] == palette.on_accent
    assert inks["7?"] == palette.on_caution
    assert inks["1"] == palette.ink


@both
def test_only_contacts_in_doubt_are_hatched(palette: Palette) -> None:
    connector = CONNECTORS["sae_j560"]
    sure = tuple(pin.model_copy(update={"doubt": ""}) for pin in connector.pins)
    for pins, hatched in ((connector.pins, True), (sure, False)):
        view = pin_view(connector.model_copy(update={"pins": pins}), palette, 388, 165, ["7"])
        lines = [shape for shape in canvas_of(view).shapes if isinstance(shape, cv.Line)]
        assert bool(lines) == hatched


def test_words_stand_beside_the_face_where_there_is_room_and_else_below() -> None:
    wide, tall = (pin_view(CONNECTORS["sae_j560"], LIGHT, *box, ()) for box in BOXES[1:3])
    assert any(isinstance(control, ft.Row) for control in controls(wide))
    assert not any(isinstance(control, ft.Row) for control in controls(tall))
