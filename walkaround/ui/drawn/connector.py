"""The face of a connector, drawn: which contacts this step is about, and which are in doubt.

A contact of this step is filled and ringed, one in doubt is hatched and carries a question mark,
so that colour only adds to it.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from math import ceil, sqrt

import flet as ft
import flet.canvas as cv

from walkaround.drawing.connector_face import (
    Contact,
    Drawing,
    Looking,
    Point,
    advice,
    caption,
    drawing,
    face_words,
    layout_of,
)
from walkaround.lamps.wiring import Connector
from walkaround.ui.kit.text import words
from walkaround.ui.kit.theme import FONT, GAP, QUIET, RADIUS, SMALL, Palette

_PAD = 10.0
_TEXT_PX = 172.0
"""Least width for the words beside a face; where there is less they stand below it."""
_ROWS_WIDER = 1.6
"""Contacts in rows take a box this much wider than high."""
_LINE_PX = 24.0
_LETTER_PX = 8.6
"""Height of a line of words, and width of a letter, on average and rather more."""
_LABEL, _LONG_LABEL = 16.0, 14.0
"""Least height of a label, px; the second of one with three characters."""
_GLYPH = 0.62
"""Width of a figure or capital in heights of the label."""
_HATCH_PX = 5.0
_RING_PX = 3.5


def pin_view(
    connector: Connector,
    palette: Palette,
    width_px: float,
    height_px: float,
    strong: Collection[str],
    looking: Looking = "socket",
) -> ft.Control:
    """The face of this connector in a box of this size; made for boxes from 320 by 140 px.

    Args:
        strong: the contacts that this step is about.
        looking: into the vehicle's socket, or into the plug that goes in there.
    """
    told = caption(connector, looking), advice(connector)
    width, height = width_px - 2 * _PAD, height_px - 2 * _PAD
    beside = width - height - GAP >= _TEXT_PX
    if beside:
        wide = height if layout_of(connector) else _ROWS_WIDER * height
        face_px = min(wide, width - GAP - _TEXT_PX), height
    else:
        face_px = width, height - GAP - sum(_lines(text, width) for text in told) * _LINE_PX
    drawn = drawing(connector, *face_px, looking)
    canvas = cv.Canvas(
        width=face_px[0], height=face_px[1], shapes=list(_strokes(drawn, palette, strong))
    )
    text = ft.Column(
        [
            words(told[0], size=SMALL, bold=True),
            words(told[1], QUIET, SMALL),
        ],
        spacing=4,
        alignment=ft.MainAxisAlignment.CENTER,
        expand=beside,
    )
    return ft.Semantics(
        label=face_words(connector, strong, looking),
        image=True,
        exclude_semantics=True,
        content=ft.Container(
            width=width_px,
            height=height_px,
            bgcolor=palette.card,
            border_radius=RADIUS,
            padding=_PAD,
            clip_behavior=ft.ClipBehavior.ANTI_ALIAS,
            content=(ft.Row if beside else ft.Column)([canvas, text], spacing=GAP),
        ),
    )


def _lines(text: str, width_px: float) -> int:
    """Lines that a text takes at this width."""
    return ceil(len(text) * _LETTER_PX / width_px)


def _strokes(drawn: Drawing, palette: Palette, strong: Collection[str]) -> Iterator[cv.Shape]:
    """Everything on the canvas, from the bottom up."""
    if drawn.shell is not None:
        (x, y), radius = drawn.shell
        yield cv.Circle(x, y, radius, paint=_fill(palette.body))
        yield cv.Circle(x, y, radius, paint=_line(palette.line, 2))
        if drawn.notch is not None:
            (x, y), radius = drawn.notch
            yield cv.Circle(x, y, radius, paint=_fill(palette.line))
    for contact in drawn.contacts:
        yield from _contact(contact, palette, contact.pin in strong)


def _contact(contact: Contact, palette: Palette, strong: bool) -> Iterator[cv.Shape]:
    ground, ink = palette.card, palette.ink
    if strong:
        doubtful = palette.caution, palette.on_caution
        ground, ink = doubtful if contact.doubtful else (palette.accent, palette.on_accent)
        yield cv.Circle(*contact.centre, contact.radius, paint=_fill(palette.ink))
        yield cv.Circle(*contact.centre, contact.radius - _RING_PX + 1, paint=_fill(palette.card))
    radius = contact.radius - _RING_PX if strong else contact.radius - 1
    yield cv.Circle(*contact.centre, radius, paint=_fill(ground))
    text = f"{contact.pin}?" if contact.doubtful else contact.pin
    size = _label_px(text, contact.radius)
    if contact.doubtful:
        yield from _hatch(contact.centre, radius, ink if strong else palette.line)
        yield _room(text, size, contact.centre, ground)
    if not strong:
        yield cv.Circle(*contact.centre, radius, paint=_line(palette.line, 2))
    style = ft.TextStyle(size=size, weight=ft.FontWeight.W_700, color=ink, font_family=FONT)
    yield cv.Text(*contact.centre, text, style, alignment=ft.Alignment.CENTER)


def _label_px(text: str, radius: float) -> float:
    fits = 1.7 * radius / (_GLYPH * len(text))
    return max(_LABEL if len(text) < 3 else _LONG_LABEL, min(1.15 * radius, fits))


def _hatch(centre: Point, radius: float, colour: str) -> Iterator[cv.Shape]:
    """Slanting lines across a contact."""
    (x, y), slant = centre, sqrt(0.5)
    across = int(radius / _HATCH_PX)
    for off in (step * _HATCH_PX for step in range(-across, across + 1)):
        half = slant * sqrt(radius**2 - off**2)
        at_x, at_y = x + slant * off, y + slant * off
        yield cv.Line(at_x - half, at_y + half, at_x + half, at_y - half, _line(colour, 1.5))


def _room(text: str, size: float, centre: Point, ground: str) -> cv.Shape:
    """Where the hatching leaves room for a label."""
    (x, y), wide = centre, _GLYPH * size * len(text) + 4
    corner = x - wide / 2, y - size / 2
    return cv.Rect(*corner, wide, size, border_radius=size / 3, paint=_fill(ground))


def _fill(colour: str) -> ft.Paint:
    return ft.Paint(color=colour, style=ft.PaintingStyle.FILL)


def _line(colour: str, width: float) -> ft.Paint:
    return ft.Paint(color=colour, style=ft.PaintingStyle.STROKE, stroke_width=width)
