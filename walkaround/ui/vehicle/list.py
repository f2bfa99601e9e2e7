"""All vehicles, and those that a new one can be copied from, each on a card."""

from __future__ import annotations

import flet as ft

from walkaround.garage.words import about
from walkaround.ui.kit.buttons import Tap, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import BAD, QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.import_file import taking_in
from walkaround.vehicle.model import Vehicle


@screen
def vehicles_screen(view: View) -> ft.Control:
    """Every vehicle, and the ways to another one."""
    parts = view.parts

    walks = parts.store.overview()
    open_ = walks.open_defects
    body: list[ft.Control] = [
        wide_button(
            "New vehicle", view.to("/vehicle/new"), key="new_vehicle", icon=ft.Icons.ADD, height=64
        ),
        taking_in(view, key="taking_in"),
    ]
    body += [notice(text, key="unread") for text in walks.unread]
    body += [_line(view, each, len(open_.get(each.id, ()))) for each in parts.library.vehicles]
    body += [notice(str(problem)) for problem in parts.library.problems]
    return page_column(top_bar("Vehicles", back=view.to("/")), body)


@screen
def templates_screen(view: View) -> ft.Control:
    """The vehicles that a new one can be a copy of: those that come with the app first."""
    own_vehicles = view.parts.own_vehicles

    vehicles = sorted(
        own_vehicles.library.vehicles, key=lambda vehicle: own_vehicles.is_own(vehicle.id)
    )
    body = [
        heading("Which one is most like it?"),
        words("Everything can be changed afterwards.", QUIET, SMALL),
        *(_template(view, vehicle) for vehicle in vehicles),
    ]
    return page_column(top_bar("New vehicle", back=view.to("/vehicles")), body)


def _line(view: View, vehicle: Vehicle, open_defects: int) -> ft.Control:
    key = f"about_{vehicle.id}"
    return vehicle_card(
        vehicle, view.to(f"/vehicle/{vehicle.id}"), key=key, open_defects=open_defects
    )


def _template(view: View, vehicle: Vehicle) -> ft.Control:
    title = f"Copy of {vehicle.name}"
    return vehicle_card(
        vehicle, view.to(f"/vehicle/new/{vehicle.id}"), key=f"copy_{vehicle.id}", title=title
    )


def vehicle_card(
    vehicle: Vehicle, tap: Tap, *, key: str, title: str = "", open_defects: int = 0
) -> ft.Control:
    """A card that leads somewhere; under the vehicle's own name unless there is a title."""
    lines = [
        words(title or vehicle.name, bold=True),
        words(about(vehicle), QUIET, SMALL),
        *defect_count(open_defects),
    ]
    return card(
        ft.Row(
            [
                ft.Column(lines, spacing=4, expand=True),
                ft.Icon(ft.Icons.CHEVRON_RIGHT, size=36, color=ft.Colors.ON_SURFACE),
            ],
        ),
        tap=tap,
        key=key,
    )


def defect_count(count: int) -> list[ft.Control]:
    """How many defects are open, loud; nothing if there are none."""
    if not count:
        return []
    word = "1 open defect" if count == 1 else f"{count} open defects"
    icon = ft.Icon(ft.Icons.REPORT, size=24, color=BAD)
    return [ft.Row([icon, words(word, BAD, bold=True)], spacing=6)]
