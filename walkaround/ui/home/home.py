"""The first screen: walks to go on with, vehicles to start on, records and settings."""

from __future__ import annotations

import flet as ft

from walkaround.records.walk_line import WalkLine
from walkaround.ui.kit.buttons import button, small_answer, wide_button
from walkaround.ui.kit.parts import card, notice, page_column
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import ANSWER, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.vehicle_cards import defect_count, vehicle_card
from walkaround.vehicle.model import Vehicle

GOING_SHOWN = 10
"""So many walks under way are offered on the first screen."""


@screen
def home_screen(view: View) -> ft.Control:
    """What can be done next."""
    colours, parts = view.palette, view.parts
    walks = parts.store.overview()
    going, defects = walks.going, walks.open_defects
    body: list[ft.Control] = []
    if view.sound.trouble:
        body.append(notice(view.sound.trouble, colours, key="no_sound"))
    body += [notice(text, colours, key="unread") for text in walks.unread]
    if going:
        body.append(heading("Go on", colours))
        body += [_going(view, line) for line in going[:GOING_SHOWN]]
    if len(going) > GOING_SHOWN:
        rest = f"{len(going) - GOING_SHOWN} more are under Records."
        body.append(words(rest, colours.quiet_ink, SMALL))
    body.append(heading("Start a walk", colours))
    body += [_vehicle(view, v, len(defects.get(v.id, ()))) for v in parts.library.vehicles]
    body.append(_new(view))
    body += [notice(str(problem), colours) for problem in parts.library.problems]
    return page_column(_title(view), body, [_foot(view)])


def _title(view: View) -> ft.Control:
    colours = view.palette
    return ft.Column(
        [
            ft.Semantics(
                content=words("walkaround", colours.ink, ANSWER, bold=True),
                heading_level=1,
                header=True,
            ),
            words("Lamps and air brakes, one step at a time", colours.quiet_ink, SMALL),
        ],
        spacing=0,
    )


def _going(view: View, line: WalkLine) -> ft.Control:
    colours = view.palette

    async def go_on() -> None:
        await view.go(f"/walk/{line.id}", going_on=True)

    began = f"{line.began.astimezone():%d %b, %H:%M}"
    done = f"{line.answered} of {line.steps} steps answered, begun {began}"
    return card(
        ft.Column(
            [
                words(line.vehicle_name, colours.ink, bold=True),
                words(done, colours.quiet_ink, SMALL),
                *defect_count(view, len(line.open_defects)),
                ft.ProgressBar(
                    value=line.answered / line.steps,
                    color=colours.ok,
                    bgcolor=colours.other,
                    bar_height=8,
                    border_radius=4,
                ),
                button(
                    "Go on",
                    colours,
                    go_on,
                    key=f"go_on_{line.id}",
                    icon=ft.Icons.PLAY_ARROW,
                    ground=colours.accent,
                    ink=colours.on_accent,
                ),
            ],
            spacing=8,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        ),
        colours,
    )


def _vehicle(view: View, vehicle: Vehicle, open_defects: int) -> ft.Control:
    async def start() -> None:
        await view.go(f"/start/{vehicle.id}")

    key = f"vehicle_{vehicle.id}"
    return vehicle_card(view, vehicle, start, key=key, open_defects=open_defects)


def _new(view: View) -> ft.Control:
    async def new() -> None:
        await view.go("/vehicle/new")

    return wide_button(
        view.palette, "New vehicle", new, key="new_vehicle", icon=ft.Icons.ADD, height=64
    )


def _foot(view: View) -> ft.Control:
    colours = view.palette

    async def vehicles() -> None:
        await view.go("/vehicles")

    async def records() -> None:
        await view.go("/records")

    async def settings() -> None:
        await view.go("/settings")

    return ft.Row(
        [
            small_answer("Vehicles", ft.Icons.LOCAL_SHIPPING, colours, vehicles, key="vehicles"),
            small_answer("Records", ft.Icons.FOLDER_OPEN, colours, records, key="records"),
            small_answer("Settings", ft.Icons.TUNE, colours, settings, key="settings"),
        ],
        spacing=8,
    )
