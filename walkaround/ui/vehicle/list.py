"""All vehicles, and those that a new one can be copied from."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import notice, page_column, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.import_file import taking_in
from walkaround.ui.vehicle.vehicle_cards import vehicle_card
from walkaround.vehicle.model import Vehicle


@screen
def vehicles_screen(view: View) -> ft.Control:
    """Every vehicle, and the ways to another one."""
    colours, parts = view.palette, view.parts

    async def back() -> None:
        await view.go("/")

    async def new() -> None:
        await view.go("/vehicle/new")

    walks = parts.store.overview()
    open_ = walks.open_defects
    body: list[ft.Control] = [
        wide_button(colours, "New vehicle", new, key="new_vehicle", icon=ft.Icons.ADD, height=64),
        taking_in(view, key="taking_in"),
    ]
    body += [notice(text, colours, key="unread") for text in walks.unread]
    body += [_line(view, each, len(open_.get(each.id, ()))) for each in parts.library.vehicles]
    body += [notice(str(problem), colours) for problem in parts.library.problems]
    return page_column(top_bar("Vehicles", colours, back=back), body)


@screen
def templates_screen(view: View) -> ft.Control:
    """The vehicles that a new one can be a copy of: those that come with the app first."""
    colours, own_vehicles = view.palette, view.parts.own_vehicles

    async def back() -> None:
        await view.go("/vehicles")

    vehicles = sorted(
        own_vehicles.library.vehicles, key=lambda vehicle: own_vehicles.is_own(vehicle.id)
    )
    body = [
        heading("Which one is most like it?", colours),
        words("Everything can be changed afterwards.", colours.quiet_ink, SMALL),
        *(_template(view, vehicle) for vehicle in vehicles),
    ]
    return page_column(top_bar("New vehicle", colours, back=back), body)


def _line(view: View, vehicle: Vehicle, open_defects: int) -> ft.Control:
    async def show() -> None:
        await view.go(f"/vehicle/{vehicle.id}")

    key = f"about_{vehicle.id}"
    return vehicle_card(view, vehicle, show, key=key, open_defects=open_defects)


def _template(view: View, vehicle: Vehicle) -> ft.Control:
    async def copy() -> None:
        await view.go(f"/vehicle/new/{vehicle.id}")

    title = f"Copy of {vehicle.name}"
    return vehicle_card(view, vehicle, copy, key=f"copy_{vehicle.id}", title=title)
