"""All vehicles, and those that a new one can be copied from, each on a card."""

from __future__ import annotations

import flet as ft

from walkaround.garage.words import about
from walkaround.ui.kit.buttons import Tap, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.import_file import taking_in
from walkaround.vehicle.model import Vehicle
from walkaround.words.problems import problem_text


@screen
def vehicles_screen(view: View) -> ft.Control:
    """Every vehicle, and the ways to another one."""
    parts = view.parts

    walks = parts.store.overview()
    open_ = walks.open_defects
    body: list[ft.Control] = [
        wide_button(
            view.words("vehicle-new"),
            view.to("/vehicle/new"),
            key="new_vehicle",
            icon=ft.Icons.ADD,
            height=64,
        ),
        taking_in(view, key="taking_in"),
    ]
    body += [notice(view.words.text(text), key="unread") for text in walks.unread]
    body += [_line(view, each, len(open_.get(each.id, ()))) for each in parts.library.vehicles]
    body += [notice(problem_text(each, view.words)) for each in parts.library.problems]
    return page_column(top_bar(view.words, view.words("vehicles-title"), back=view.to("/")), body)


@screen
def templates_screen(view: View) -> ft.Control:
    """The vehicles that a new one can be a copy of: those that come with the app first."""
    own_vehicles = view.parts.own_vehicles

    vehicles = sorted(
        own_vehicles.library.vehicles, key=lambda vehicle: own_vehicles.is_own(vehicle.id)
    )
    body = [
        heading(view.words("vehicle-most-like-it")),
        label(view.words("vehicle-can-be-changed"), QUIET, SMALL),
        *(_template(view, vehicle) for vehicle in vehicles),
    ]
    title = view.words("vehicle-new")
    return page_column(top_bar(view.words, title, back=view.to("/vehicles")), body)


def _line(view: View, vehicle: Vehicle, open_defects: int) -> ft.Control:
    key = f"about_{vehicle.id}"
    return vehicle_card(
        view, vehicle, view.to(f"/vehicle/{vehicle.id}"), key=key, open_defects=open_defects
    )


def _template(view: View, vehicle: Vehicle) -> ft.Control:
    title = view.words("vehicle-copy-of", name=vehicle.name)
    return vehicle_card(
        view, vehicle, view.to(f"/vehicle/new/{vehicle.id}"), key=f"copy_{vehicle.id}", title=title
    )


def vehicle_card(
    view: View, vehicle: Vehicle, tap: Tap, *, key: str, title: str = "", open_defects: int = 0
) -> ft.Control:
    """A card that leads somewhere; under the vehicle's own name unless there is a title."""
    lines = [
        label(title or vehicle.name, bold=True),
        label(view.words.text(about(vehicle)), QUIET, SMALL),
        *defect_count(view, open_defects),
    ]
    return card(
        ft.Row(
            [
                ft.Column(lines, spacing=4, expand=True),
                ft.Icon(ft.Icons.CHEVRON_RIGHT, size=36, color=ft.Colors.ON_SURFACE),
            ]
        ),
        tap=tap,
        key=key,
    )


def defect_count(view: View, count: int) -> list[ft.Control]:
    """How many defects are open, loud; nothing if there are none."""
    if not count:
        return []
    word = view.words("defects-open", count=count)
    icon = ft.Icon(ft.Icons.REPORT, size=24, color=BAD)
    return [ft.Row([icon, label(word, BAD, bold=True)], spacing=6)]
