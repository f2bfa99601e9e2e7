"""The face of a connector as a picture: which contacts a step is about, and which are in doubt.

A contact of the step is filled and ringed, one in doubt is hatched and carries a question mark,
so that color only adds to it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator
from math import sqrt

from walkaround.base.message import Message
from walkaround.drawing import svg
from walkaround.drawing.connector_face import Contact, Looking, connector_drawing, face_words
from walkaround.drawing.palette import Palette
from walkaround.drawing.svg import Point
from walkaround.lamps.connector import Connector

_LABEL, _LONG_LABEL = 16.0, 14.0
"""Least height of a label, px; the second of one with three characters."""
_GLYPH = 0.62
"""Width of a figure or capital in heights of the label."""
_HATCH_PX = 5.0
_RING_PX = 3.5


def connector_svg(
    connector: Connector,
    palette: Palette,
    width_px: float,
    height_px: float,
    strong: Collection[str],
    looking: Looking = "socket",
    read: Callable[[Message], str] = str,
) -> str:
    """Draw the face of this connector in a box of this size.

    Args:
        strong: the contacts that the step is about.
        looking: into the vehicle's socket, or into the plug that goes in there.
        read: puts a message into words; into those of logs if not said.
    """
    layout = connector_drawing(connector, width_px, height_px, looking)
    pieces: list[str] = []
    if layout.shell is not None:
        middle, radius = layout.shell
        pieces.append(svg.circle(middle, radius, fill=palette.body, line=palette.line, px=2))
    if layout.notch is not None:
        pieces.append(svg.circle(*layout.notch, fill=palette.line))
    for contact in layout.contacts:
        pieces += _contact(contact, palette, contact.pin in strong)
    return svg.document(width_px, height_px, read(face_words(connector, strong, looking)), pieces)


def _contact(contact: Contact, palette: Palette, strong: bool) -> Iterator[str]:
    ground, ink = palette.card, palette.ink
    if strong:
        in_doubt = palette.caution, palette.on_caution
        ground, ink = in_doubt if contact.doubtful else (palette.accent, palette.on_accent)
        yield svg.circle(contact.center, contact.radius, fill=palette.ink)
        yield svg.circle(contact.center, contact.radius - _RING_PX + 1, fill=palette.card)
    radius = contact.radius - _RING_PX if strong else contact.radius - 1
    yield svg.circle(contact.center, radius, fill=ground)
    label = f"{contact.pin}?" if contact.doubtful else contact.pin
    size = _label_px(label, contact.radius)
    if contact.doubtful:
        yield _hatch(contact.center, radius, ink if strong else palette.line)
        yield _room(label, size, contact.center, ground)
    if not strong:
        yield svg.circle(contact.center, radius, line=palette.line, px=2)
    yield svg.text(label, contact.center, size, fill=ink)


def _label_px(label: str, radius: float) -> float:
    fits = 1.7 * radius / (_GLYPH * len(label))
    return max(_LABEL if len(label) < 3 else _LONG_LABEL, min(1.15 * radius, fits))


def _hatch(center: Point, radius: float, color: str) -> str:
    """Slanting lines across a contact."""
    (x, y), slant = center, sqrt(0.5)
    across = int(radius / _HATCH_PX)
    ends = []
    for off in (step * _HATCH_PX for step in range(-across, across + 1)):
        half = slant * sqrt(radius**2 - off**2)
        at_x, at_y = x + slant * off, y + slant * off
        ends.append(((at_x - half, at_y + half), (at_x + half, at_y - half)))
    return svg.lines(ends, line=color, px=1.5)


def _room(label: str, size: float, center: Point, ground: str) -> str:
    """Where the hatching leaves room for a label."""
    (x, y), wide = center, _GLYPH * size * len(label) + 4
    corner = x - wide / 2, y - size / 2
    return svg.rectangle(corner, (wide, size), fill=ground, radius=size / 3)
