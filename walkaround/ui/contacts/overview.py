"""What can be checked of cables and sockets, and what was found before."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from typing import Any

import flet as ft
from pydantic import ValidationError

from walkaround.base.message import Message
from walkaround.contacts.check_record import ContactCheck
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, GOOD, QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.vehicle.model import POWER_UNITS

log = logging.getLogger(__name__)

MOST_SHOWN = 40


@screen
def contacts_screen(view: View) -> ft.Control:
    """Show the way to each check, and earlier ones, the last first."""
    words = view.words
    before = [_card(view, each) for each in [*stored_checks(view)][::-1][:MOST_SHOWN]]
    body = [
        label(words("contacts-about")),
        wide_button(
            words("contacts-cable"), view.to("/contacts/cable"), key="cable", icon=ft.Icons.CABLE
        ),
        heading(words("contacts-socket")),
        *_sockets(view),
        heading(words("contacts-before")),
        *(before or [label(words("contacts-none-before"), QUIET)]),
    ]
    return page_column(top_bar(words, words("contacts-title"), back=view.to("/")), body)


def _sockets(view: View) -> Iterator[ft.Control]:
    for vehicle in view.parts.library.vehicles:
        if vehicle.kind in POWER_UNITS:
            to = view.to(f"/contacts/{vehicle.id}")
            icon = ft.Icons.ELECTRICAL_SERVICES
            yield wide_button(vehicle.name, to, key=f"socket_{vehicle.id}", icon=icon)


def stored_checks(view: View) -> Iterator[ContactCheck]:
    """Read what was found before; a row that a later version wrote is left out."""
    for row in view.parts.store.saved_checks("contacts"):
        try:
            yield ContactCheck.model_validate(row)
        except ValidationError:
            log.warning("a check of a cable or socket cannot be read: %s", row)


async def store_check(view: View, results: dict[str, Any], faults: tuple[Message, ...]) -> None:
    """Keep a check and show it among the others."""
    checked = ContactCheck(**results, faults=faults, at=view.parts.clock(), who=view.who)
    row = checked.model_dump(mode="json")
    if await view.saved(lambda: view.parts.store.save_check("contacts", row)):
        await view.go("/contacts")


def connector_title(view: View, connector_id: str) -> str:
    """Name a connector."""
    connector = view.parts.library.connectors.get(connector_id)
    return view.words.text(connector.name) if connector else connector_id


def _card(view: View, check: ContactCheck) -> ft.Control:
    words = view.words
    fault_labels = [label(words.text(fault), BAD, bold=True) for fault in check.faults]
    who_and_when = words("contacts-checked", who=check.who, time=check.at.local_text())
    rows: list[ft.Control] = [
        label(check.name, bold=True),
        label(connector_title(view, check.connector), QUIET, SMALL),
        *(fault_labels or [label(words("contacts-good"), GOOD, bold=True)]),
        label(who_and_when, QUIET, SMALL),
    ]
    return card(ft.Column(rows, spacing=4))
