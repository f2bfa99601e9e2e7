"""The face of a connector as a picture: every shipped connector, day and night."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from datetime import date
from math import dist
from xml.etree import ElementTree

import pytest

from walkaround.disk.locations import shipped
from walkaround.drawing.connector_face import face_words
from walkaround.drawing.connector_svg import connector_svg
from walkaround.drawing.palette import DARK, LIGHT, Palette
from walkaround.lamps.connector import Connector
from walkaround.library.load import load_library

NAMESPACE = "{http://www.w3.org/2000/svg}"
CONNECTORS = load_library(shipped(), today=date(2026, 11, 1)).connectors
FACES = [(145.0, 145.0), (320.0, 100.0), (324.0, 160.0), (540.0, 520.0)]
"""Sizes that the screens give a face on phones, low phones and tablets, px."""

both = pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
every = pytest.mark.parametrize("id_", sorted(CONNECTORS))


def read(
    connector: Connector,
    palette: Palette = LIGHT,
    box: tuple[float, float] = (145, 145),
    strong: Collection[str] = (),
) -> ElementTree.Element:
    return ElementTree.fromstring(connector_svg(connector, palette, *box, strong))


def elements(picture: ElementTree.Element, kind: str) -> Iterator[ElementTree.Element]:
    return picture.iter(f"{NAMESPACE}{kind}")


def labels(picture: ElementTree.Element) -> dict[str, ElementTree.Element]:
    return {text.text or "": text for text in elements(picture, "text")}


def px(element: ElementTree.Element, name: str) -> float:
    return float(element.attrib[name])


def around(picture: ElementTree.Element, text: ElementTree.Element) -> list[str]:
    """Colors of the discs and rings of one contact, from the bottom up."""
    circles = list(elements(picture, "circle"))
    shell = max(px(circle, "r") for circle in circles)
    middle = px(text, "x"), px(text, "y") - 0.36 * px(text, "font-size")
    return [
        circle.attrib["fill"] if circle.attrib["fill"] != "none" else circle.attrib["stroke"]
        for circle in circles
        if px(circle, "r") < shell and dist((px(circle, "cx"), px(circle, "cy")), middle) < 1
    ]


def test_its_title_tells_it_in_words() -> None:
    connector = CONNECTORS["sae_j560"]
    (title,) = elements(read(connector, strong=["7"]), "title")
    assert title.text == str(face_words(connector, ["7"]))


@every
@both
@pytest.mark.parametrize("box", FACES)
def test_every_contact_is_drawn_with_its_label(
    id_: str, palette: Palette, box: tuple[float, float]
) -> None:
    connector = CONNECTORS[id_]
    picture = read(connector, palette, box)
    marked = [f"{pin.pin}?" if pin.doubt else pin.pin for pin in connector.pins]
    assert list(labels(picture)) == marked
    assert (px(picture, "width"), px(picture, "height")) == box


@every
@pytest.mark.parametrize("box", FACES)
def test_labels_can_be_read_and_lie_on_their_contacts(id_: str, box: tuple[float, float]) -> None:
    picture = read(CONNECTORS[id_], LIGHT, box)
    across = 2 * max(px(circle, "r") for circle in elements(picture, "circle")) + 2
    for text, label in labels(picture).items():
        assert px(label, "font-size") >= (16 if len(text) < 3 else 14), text
        # Figures of Roboto Bold are 0.575 of their size wide (from memory of the font's metrics).
        assert px(label, "font-size") * 0.575 * len(text) < across


@both
def test_contacts_of_this_step_are_filled_ringed_and_inked_to_be_read(palette: Palette) -> None:
    picture = read(CONNECTORS["sae_j560"], palette, strong=["4", "7"])
    seen = labels(picture)
    colors = {text: around(picture, label) for text, label in seen.items()}
    assert colors["4"] == [palette.ink, palette.card, palette.accent]
    assert colors["7?"] == [palette.ink, palette.card, palette.caution]
    assert colors["1"] == [palette.card, palette.line]
    inks = {text: label.attrib["fill"] for text, label in seen.items()}
    assert inks["4"] == palette.on_accent
    assert inks["7?"] == palette.on_caution
    assert inks["1"] == palette.ink


@both
def test_only_contacts_in_doubt_are_hatched(palette: Palette) -> None:
    connector = CONNECTORS["sae_j560"]
    sure = tuple(pin.model_copy(update={"doubt": ""}) for pin in connector.pins)
    for pins, hatched in ((connector.pins, True), (sure, False)):
        changed = connector.model_copy(update={"pins": pins})
        lines = list(elements(read(changed, palette, strong=["7"]), "path"))
        assert bool(lines) == hatched
