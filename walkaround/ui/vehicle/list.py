"""The vehicles that a new one can be copied from, the card of any, and the tag that hangs on it."""

from __future__ import annotations

from collections.abc import Iterator

import flet as ft

from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, caution, page_column, top_bar
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.messages import vehicle_summary


@screen
def templates_screen(view: View) -> ft.Control:
    """Show the vehicles that a new one can be a copy of: those that come with the app first."""
    own_vehicles = view.parts.own_vehicles
    body = [
        heading(view.words("vehicle-most-like-it")),
        label(view.words("vehicle-can-be-changed"), QUIET, SMALL),
    ]
    for vehicle in sorted(
        own_vehicles.library.vehicles, key=lambda one: own_vehicles.is_own(one.id)
    ):
        tap, title = (
            view.to(f"/vehicle/new/{vehicle.id}"),
            view.words("vehicle-copy-of", name=vehicle.name),
        )
        body.append(vehicle_card(view, vehicle, tap, key=f"copy_{vehicle.id}", title=title))
    title = view.words("vehicle-new")
    return page_column(top_bar(view.words, title, back=view.to("/vehicles")), body)


def new_vehicle_button(view: View) -> ft.Control:
    """Make the button that leads to a new vehicle."""
    word, new = view.words("vehicle-new"), view.to("/vehicle/new")
    return wide_button(word, new, key="new_vehicle", icon=ft.Icons.ADD, height=64)


def vehicle_card(
    view: View, vehicle: Vehicle, tap: Tap, *, key: str, title: str = "", open_defects: int = 0
) -> ft.Control:
    """Show a card that leads somewhere; under the vehicle's own name unless there is a title."""
    lines = [
        label(title or vehicle.name, bold=True),
        label(view.words.text(vehicle_summary(vehicle)), QUIET, SMALL),
        *defect_count(view, open_defects),
    ]
    arrow = ft.Icon(ft.Icons.CHEVRON_RIGHT, size=36, color=ft.Colors.ON_SURFACE)
    return card(ft.Row([ft.Column(lines, spacing=4, expand=True), arrow]), tap=tap, key=key)


def defect_count(view: View, count: int) -> list[ft.Control]:
    """Tell how many defects are open, loud; nothing if there are none."""
    if not count:
        return []
    word = view.words("defects-open", count=count)
    icon = ft.Icon(ft.Icons.REPORT, size=24, color=BAD)
    return [ft.Row([icon, label(word, BAD, bold=True)], spacing=6)]


def tag_card(view: View, vehicle_id: str) -> Iterator[ft.Control]:
    """Warn of the out-of-service tag that hangs on this vehicle."""
    overview = view.parts.store.overview()
    tags = (each for each in overview.lines if each.vehicle == vehicle_id and each.tag)
    last = next((each for each in tags if each.id not in overview.blind), None)
    if last and last.tag == "placed":
        day = f"{last.began.astimezone():%Y-%m-%d}"
        yield caution(view.words("board-tag", day=day), key="tag")
