"""Where the contacts are on the face of a connector, as far as that is known.

A face that nobody knows is never made up: its contacts then stand in rows, in the order of the
connector table. Places are hours of a clock dial, seen looking into the vehicle's socket; a plug
that goes in there shows them mirrored.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from math import ceil, cos, pi, sin
from typing import Literal

from walkaround.base.message import Message, message
from walkaround.drawing.svg import Point
from walkaround.lamps.connector import Connector, Pin
from walkaround.lamps.names import join_clauses

Looking = Literal["socket", "plug"]

# Shares of the radius of the shell: where the ring of contacts runs, the radius of a contact, and
# that of the notch, which lies against the shell from within.
_RING = 0.6
_CONTACT = 0.24
_NOTCH = 0.07
_SHELL_MARGIN_PX = 3.0
# Share of its place in a row that a contact fills.
_ROW_FILL = 0.84


Upright = Literal["lid-at-top", "notch-at-top", "notch-at-bottom"]


@dataclass(frozen=True, slots=True)
class Layout:
    """A face that is known.

    Attributes:
        hours: contact to its hour on the dial; the one in the center is not among them.
        center: the contact in the center.
        notch_hour: where the shell is notched, None when that is not known.
        upright: how the socket stands when the dial stands upright.
        provenance: whether the source was read, or the layout is from memory.
    """

    hours: Mapping[str, int]
    center: str
    notch_hour: int | None
    upright: Upright
    source: str
    provenance: Literal["read", "memory"]


def _ring(
    upright: Upright,
    source: str,
    provenance: Literal["read", "memory"],
    notch_hour: int | None = None,
) -> Layout:
    """One to six clockwise from the top, seven in the center."""
    hours = {"1": 12, "2": 2, "3": 4, "4": 6, "5": 8, "6": 10}
    return Layout(hours, "7", notch_hour, upright, source, provenance)


_HEAVY_SHELL: Upright = "lid-at-top"
LAYOUTS: Mapping[str, Layout] = {
    "iso_1724": _ring(
        "notch-at-bottom",
        "kfz-tech.de, trailer socket, seen from the plug's side; contenderclass.de, socket seen "
        "from behind the car: notch at the bottom, 1 at the top, 2 to 6 clockwise, 7 in the center",
        "read",
        notch_hour=6,
    ),
    "iso_3732": _ring("notch-at-bottom", "ISO 3732, from memory: numbered as ISO 1724", "memory"),
    "iso_1185": _ring(_HEAVY_SHELL, "ISO 1185, from memory: numbered as ISO 1724", "memory"),
    "sae_j560": _ring(
        _HEAVY_SHELL,
        "SAE J560, from memory: numbered as ISO 1185; one shell for both was read on "
        "a connector maker's page",
        "memory",
    ),
    "sae_j2863": Layout(
        hours={"1": 7, "2": 5, "3": 11, "4": 1, "5": 9, "6": 3},
        center="7",
        notch_hour=12,
        upright="notch-at-top",
        source="SAE J2863, from memory; elektroda.com, 7-pin trailer connector, agrees",
        provenance="memory",
    ),
}
"""By connector id. The faces of 12, 13 and 15 contacts, of ISO 7638, and of ISO 3731, which is
keyed apart from ISO 1185, are not known here."""


@dataclass(frozen=True, slots=True)
class Contact:
    """One contact as drawn: `center` and `radius` in px from the top left corner of the box."""

    pin: str
    doubtful: bool
    center: Point
    radius: float


@dataclass(frozen=True, slots=True)
class ConnectorDrawing:
    """The contacts to draw in a box.

    Attributes:
        shell: center and radius of the shell; None where the contacts stand in rows.
        notch: center and radius of the notch, where it is known.
    """

    contacts: tuple[Contact, ...]
    shell: tuple[Point, float] | None
    notch: tuple[Point, float] | None


def layout_of(connector: Connector) -> Layout | None:
    """Return the face of this connector; None when it is not known, or not with these contacts."""
    layout = LAYOUTS.get(connector.id)
    names = {pin.pin for pin in connector.pins}
    return layout if layout and names == {*layout.hours, layout.center} else None


def connector_drawing(
    connector: Connector, width_px: float, height_px: float, looking: Looking = "socket"
) -> ConnectorDrawing:
    """Return the contacts in a box of this size: on their face, or in rows when it is not known."""
    layout = layout_of(connector)
    if layout is None:
        return ConnectorDrawing(_in_rows(connector, width_px, height_px), None, None)
    middle, radius = (width_px / 2, height_px / 2), min(width_px, height_px) / 2 - _SHELL_MARGIN_PX
    contacts = tuple(
        Contact(
            pin=pin.pin,
            doubtful=bool(pin.doubt),
            center=_on_dial(middle, _RING * radius, layout.hours.get(pin.pin), looking),
            radius=_CONTACT * radius,
        )
        for pin in connector.pins
    )
    notch = None
    if layout.notch_hour is not None:
        at = _on_dial(middle, (1 - _NOTCH) * radius, layout.notch_hour, looking)
        notch = at, _NOTCH * radius
    return ConnectorDrawing(contacts, (middle, radius), notch)


def caption(connector: Connector, looking: Looking = "socket") -> Message:
    """Tell what is drawn: a face as one looks into it, or only which contacts there are."""
    if layout_of(connector):
        return message(f"face-into-{looking}")
    return message(f"face-contacts-of-{looking}")


def advice(connector: Connector) -> Message:
    """Tell how far the drawing can be trusted, and what goes before it."""
    marks = "letters" if any(pin.pin.isalpha() for pin in connector.pins) else "numbers"
    layout = layout_of(connector)
    if layout is None:
        return message("face-not-to-scale", marks=marks)
    upright = message(f"face-{layout.upright}")
    return message(f"face-{layout.provenance}", upright=upright, marks=marks)


def face_words(
    connector: Connector, strong: Collection[str], looking: Looking = "socket"
) -> Message:
    """Describe the face: which contacts this is about, and where they are."""
    sentences = [message("face-of", caption=caption(connector, looking), title=connector.name)]
    sentences += [_contact(pin, connector, looking) for pin in connector.pins if pin.pin in strong]
    other_doubtful = [pin.pin for pin in connector.pins if pin.doubt and pin.pin not in strong]
    if other_doubtful:
        sentences.append(message("face-also-in-doubt", contacts=tuple(other_doubtful)))
    return message("face-told", contacts=join_clauses(sentences), advice=advice(connector))


def _hour(hour: int, looking: Looking) -> int:
    return hour if looking == "socket" else (12 - hour) % 12 or 12


def _on_dial(middle: Point, radius: float, hour: int | None, looking: Looking) -> Point:
    """The place of an hour at this distance from the middle; no hour is the middle itself."""
    if hour is None:
        return middle
    angle = _hour(hour, looking) * pi / 6
    return middle[0] + radius * sin(angle), middle[1] - radius * cos(angle)


def _contact(pin: Pin, connector: Connector, looking: Looking) -> Message:
    """One contact: where it is, what it feeds, and whether that is in doubt."""
    layout = layout_of(connector)
    hour = layout.hours.get(pin.pin) if layout else None
    place = "unknown"
    if layout is not None:
        place = "center" if hour is None else "hour"
    return message(
        "face-contact",
        contact=pin.pin,
        place=place,
        hour=_hour(hour, looking) if hour is not None else 0,
        function=connector.said_of(pin, "function"),
        doubt="yes" if pin.doubt else "no",
    )


def _in_rows(connector: Connector, width_px: float, height_px: float) -> tuple[Contact, ...]:
    """As many rows as make the contacts largest."""
    count = len(connector.pins)

    def cell(rows: int) -> float:
        return min(width_px / ceil(count / rows), height_px / rows)

    rows = max(range(1, count + 1), key=cell)
    columns, side = ceil(count / rows), cell(rows)
    left, top = (width_px - columns * side) / 2, (height_px - rows * side) / 2
    return tuple(
        Contact(
            pin=pin.pin,
            doubtful=bool(pin.doubt),
            center=(left + (at % columns + 0.5) * side, top + (at // columns + 0.5) * side),
            radius=_ROW_FILL * side / 2,
        )
        for at, pin in enumerate(connector.pins)
    )
