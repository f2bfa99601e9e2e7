"""The first screen: walks to go on with, vehicles to start on, records and settings."""

from __future__ import annotations

import flet as ft

from walkaround.lines import WalkLine, open_by_vehicle
from walkaround.ui.buttons import button
from walkaround.ui.guard import screen
from walkaround.ui.parts import card, notice, page_column
from walkaround.ui.text import heading, words
from walkaround.ui.theme import ANSWER, SMALL
from walkaround.ui.view import View
from walkaround.vehicle import Vehicle


@screen
def home_screen(view: View) -> ft.Control:
    """What can be done next."""
    colours, parts = view.palette, view.parts
    lines = parts.store.lines()
    going = [line for line in lines if line.phase != "finished" and line.steps]
    defects = open_by_vehicle(lines)
    body: list[ft.Control] = []
    if view.message:
        body.append(notice(view.message, colours))
    if view.sound.trouble:
        body.append(notice(view.sound.trouble, colours, key="no_sound"))
    if going:
        body.append(heading("Go on", colours))
        body += [_going(view, line) for line in going]
    body.append(heading("Start a walk", colours))
    body += [_vehicle(view, v, len(defects.get(v.id, ()))) for v in parts.library.vehicles]
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
        await view.go(f"/walk/{line.id}")

    began = f"{line.began.astimezone():%d %b, %H:%M}"
    done = f"{line.answered} of {line.steps} steps answered, begun {began}"
    return card(
        ft.Column(
            [
                words(line.vehicle_name, colours.ink, bold=True),
                words(done, colours.quiet_ink, SMALL),
                *_defects(view, len(line.open_defects)),
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
    colours = view.palette

    async def start() -> None:
        await view.go(f"/start/{vehicle.id}")

    volts = f"{vehicle.electrical.volts} V"
    about = f"{vehicle.kind.capitalize()}, {volts}, {vehicle.length_mm / 1000:.1f} m long"
    return card(
        ft.Row(
            [
                ft.Column(
                    [
                        words(vehicle.name, colours.ink, bold=True),
                        words(about, colours.quiet_ink, SMALL),
                        *_defects(view, open_defects),
                    ],
                    spacing=4,
                    expand=True,
                ),
                ft.Icon(ft.Icons.CHEVRON_RIGHT, size=36, color=colours.ink),
            ],
        ),
        colours,
        tap=start,
        key=f"vehicle_{vehicle.id}",
    )


def _defects(view: View, count: int) -> list[ft.Control]:
    if not count:
        return []
    colours = view.palette
    word = "1 open defect" if count == 1 else f"{count} open defects"
    icon = ft.Icon(ft.Icons.REPORT, size=24, color=colours.bad)
    return [ft.Row([icon, words(word, colours.bad, bold=True)], spacing=6)]


def _foot(view: View) -> ft.Control:
    colours = view.palette

    async def records() -> None:
        await view.go("/records")

    async def settings() -> None:
        await view.go("/settings")

    return ft.Row(
        [
            button(
                "Records", colours, records, key="records", icon=ft.Icons.FOLDER_OPEN, expand=True
            ),
            button("Settings", colours, settings, key="settings", icon=ft.Icons.TUNE, expand=True),
        ],
        spacing=12,
    )
