"""A tow vehicle's socket: switch by switch, which contacts are live; then air at the gladhands."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

import flet as ft

from walkaround.base.message import Message, message
from walkaround.contacts.check_record import MOST_NAME_CHARS
from walkaround.contacts.socket import (
    OFF,
    Light,
    SocketSwitch,
    probed_contacts,
    socket_faults,
    switches_of,
    unprobed_contacts,
)
from walkaround.lamps.connector import Connector
from walkaround.ui.contacts.overview import store_check
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import caution, notice, page_column, top_bar
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, GOOD, QUIET, SMALL
from walkaround.ui.kit.zones import defect_zone, ok_zone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.pictures.connector import pin_view
from walkaround.vehicle.model import Vehicle

Gladhand = Literal["red", "blue"]
GLADHANDS: tuple[Gladhand, ...] = ("red", "blue")
_FACE_PX = 170.0
_NEXT: Mapping[Light | None, Light | None] = {None: "bright", "bright": "dim", "dim": None}
"""What another tap makes of a contact."""


@dataclass(frozen=True)
class SocketAnswers:
    """The answers given so far.

    Attributes:
        seen: by switch, the contacts that were live.
        live: those of the switch being looked at, while they are marked; None before.
        air: by gladhand, what was found.
    """

    seen: Mapping[str, Mapping[str, Light]] = field(default_factory=dict)
    live: Mapping[str, Light] | None = None
    air: Mapping[str, str] = field(default_factory=dict)

    def with_switch(self, switch: str, live: Mapping[str, Light]) -> SocketAnswers:
        """Return the same with this switch looked at."""
        return replace(self, seen={**self.seen, switch: live}, live=None)

    def with_tapped(self, contact: str) -> SocketAnswers:
        """Return the same with one contact brighter, dimmer or dark."""
        live = dict(self.live or {})
        light = _NEXT[live.pop(contact, None)]
        return replace(self, live={**live, contact: light} if light else live)


Tell = Callable[[Callable[[SocketAnswers], SocketAnswers]], None]


@screen
def socket_screen(view: View, vehicle: Vehicle) -> ft.Control:
    """Ask for one switch after the other, then each gladhand; then show what was found."""
    connector = view.parts.library.connectors[vehicle.electrical.connector].as_of(vehicle.made)
    switches = switches_of(connector)
    entered, tell = use_unfinished(view.unfinished, "told", SocketAnswers())
    title = view.words("socket-title", name=vehicle.name)
    bar = top_bar(view.words, title, back=view.to("/contacts"))
    unseen = [each for each in (SocketSwitch(OFF, ()), *switches) if each.id not in entered.seen]
    gladhands = GLADHANDS if vehicle.brakes.system == "air" else ()
    unheard = [line for line in gladhands if line not in entered.air]
    if unseen:
        strong = unseen[0].contacts if entered.live is None else tuple(entered.live)
        face = pin_view(connector, view.palette, _face_px(view), _FACE_PX, strong, view.words)
        heading_rows: list[ft.Control] = [
            label(view.words("socket-left", count=len(unseen)), QUIET, SMALL)
        ]
        if unseen[0].id == OFF:
            heading_rows += _before(view, connector)
        heading_rows.append(face)
        if entered.live is None:
            return page_column(bar, *_switch_question(view, unseen[0], heading_rows, tell))
        return page_column(
            bar,
            *_live_contacts(
                view, unseen[0], probed_contacts(switches), entered.live, heading_rows, tell
            ),
        )
    if unheard:
        return page_column(bar, *_gladhand_question(view, unheard[0], tell))
    return page_column(bar, *_found(view, vehicle, switches, entered))


def _face_px(view: View) -> float:
    return view.device.column_px - 24


ScreenParts = tuple[list[ft.Control], list[ft.Control]]
"""What scrolls, and what stays under the thumb."""


def _before(view: View, connector: Connector) -> list[ft.Control]:
    words = view.words
    entered: list[ft.Control] = [
        caution(words("socket-caution"), SMALL),
        label(words("socket-how")),
    ]
    if alone := unprobed_contacts(connector):
        entered.append(caution(words("socket-not-probed", contacts=alone), SMALL))
    return entered


def _name(view: View, switch: SocketSwitch) -> str:
    return view.words("socket-everything-off") if switch.id == OFF else view.words.text(switch.name)


def _switch_question(
    view: View, switch: SocketSwitch, heading_rows: list[ft.Control], tell: Tell
) -> ScreenParts:
    """Ask whether the switch's own contacts are live and no others."""
    right: dict[str, Light] = dict.fromkeys(switch.contacts, "bright")
    expected = view.words(
        "socket-expected",
        switch=_name(view, switch),
        count=len(switch.contacts),
        contacts=switch.contacts,
    )
    zones = [
        defect_zone(view.words, lambda: tell(lambda now: replace(now, live={}))),
        ok_zone(view.words, lambda: tell(lambda now: now.with_switch(switch.id, right))),
    ]
    return [*heading_rows, heading(expected)], [
        ft.Row(zones, spacing=12, key=f"switch_{switch.id}")
    ]


def _live_contacts(
    view: View,
    switch: SocketSwitch,
    contacts: tuple[str, ...],
    live: Mapping[str, Light],
    heading_rows: list[ft.Control],
    tell: Tell,
) -> ScreenParts:
    """Ask which contacts are live instead."""
    words = view.words

    def one(contact: str) -> ft.Control:
        light = live.get(contact)
        word = words(f"socket-contact-{light or 'dark'}", contact=contact)
        tap = lambda: tell(lambda now: now.with_tapped(contact))  # noqa: E731 - a tap
        return chip(words, word, tap, key=f"live_{contact}", on=light is not None)

    def finish() -> None:
        tell(lambda now: now.with_switch(switch.id, live))

    chips = grid([one(contact) for contact in contacts], 3)
    body = [*heading_rows, heading(_name(view, switch)), label(words("socket-tap-live")), chips]
    key = f"told_{switch.id}"
    return body, [wide_button(words("form-done"), finish, key=key, icon=ft.Icons.CHECK, height=96)]


def _gladhand_question(view: View, line: Gladhand, tell: Tell) -> ScreenParts:
    """Ask whether air comes to a gladhand when it should, and only then."""

    def answer(what: str) -> Callable[[], None]:
        return lambda: tell(lambda now: replace(now, air={**now.air, line: what}))

    zones = [defect_zone(view.words, answer("defect")), ok_zone(view.words, answer("ok"))]
    body = [caution(view.words("socket-air-caution")), heading(view.words(f"socket-{line}"))]
    return body, [ft.Row(zones, spacing=12, key=f"air_{line}")]


def _found(
    view: View, vehicle: Vehicle, switches: tuple[SocketSwitch, ...], entered: SocketAnswers
) -> ScreenParts:
    words = view.words
    faults: tuple[Message, ...] = tuple(f.text for f in socket_faults(switches, entered.seen))
    wrong = [line for line in GLADHANDS if entered.air.get(line) == "defect"]
    faults += tuple(message(f"socket-{line}-wrong") for line in wrong)

    async def record() -> None:
        results = {
            "kind": "socket",
            "name": vehicle.name[:MOST_NAME_CHARS],
            "vehicle": vehicle.id,
            "connector": vehicle.electrical.connector,
            "seen": entered.seen,
        }
        await store_check(view, {**results, **entered.air}, faults)

    body: list[ft.Control] = [label(words.text(fault), BAD, bold=True) for fault in faults]
    body = body or [label(words("contacts-good"), GOOD, bold=True)]
    body += [notice(words("socket-advice"))] if faults else []
    word, icon = words("contacts-record"), ft.Icons.CHECK
    return body, [wide_button(word, record, key="record", bad=bool(faults), icon=icon, height=96)]
