"""The first screen: walks to go on with, vehicles to start on, records and settings."""

from __future__ import annotations

import flet as ft

from walkaround.records.walk_line import WalkLine
from walkaround.ui.kit.buttons import button, small_answer, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, share_bar, stretched
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import ANSWER, QUIET, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.list import defect_count, vehicle_card
from walkaround.vehicle.model import Vehicle

GOING_SHOWN = 10
"""So many walks under way are offered on the first screen."""


@screen
def home_screen(view: View) -> ft.Control:
    """What can be done next."""
    parts = view.parts
    walks = parts.store.overview()
    going, defects = walks.going, walks.open_defects
    body: list[ft.Control] = []
    if view.sound.trouble:
        body.append(notice(view.sound.trouble, key="no_sound"))
    body += [notice(text, key="unread") for text in walks.unread]
    if going:
        body.append(heading("Go on"))
        body += [_going(view, line) for line in going[:GOING_SHOWN]]
    if len(going) > GOING_SHOWN:
        rest = f"{len(going) - GOING_SHOWN} more are under Records."
        body.append(words(rest, QUIET, SMALL))
    body.append(heading("Start a walk"))
    body += [_vehicle(view, v, len(defects.get(v.id, ()))) for v in parts.library.vehicles]
    body.append(_new(view))
    body += [notice(str(problem)) for problem in parts.library.problems]
    return page_column(_title(), body, [_foot(view)])


def _title() -> ft.Control:
    return ft.Column(
        [
            ft.Semantics(
                content=words("walkaround", size=ANSWER, bold=True),
                heading_level=1,
                header=True,
            ),
            words("Lamps and air brakes, one step at a time", QUIET, SMALL),
        ],
        spacing=0,
    )


def _going(view: View, line: WalkLine) -> ft.Control:
    began = f"{line.began.astimezone():%d %b, %H:%M}"
    done = f"{line.answered} of {line.steps} steps answered, begun {began}"
    return card(
        stretched(
            [
                words(line.vehicle_name, bold=True),
                words(done, QUIET, SMALL),
                *defect_count(len(line.open_defects)),
                share_bar(line.answered / line.steps),
                button(
                    "Go on",
                    view.to(f"/walk/{line.id}", going_on=True),
                    key=f"go_on_{line.id}",
                    icon=ft.Icons.PLAY_ARROW,
                    tone=Tone.ACCENT,
                ),
            ],
            8,
        ),
    )


def _vehicle(view: View, vehicle: Vehicle, open_defects: int) -> ft.Control:
    key = f"vehicle_{vehicle.id}"
    return vehicle_card(
        vehicle, view.to(f"/start/{vehicle.id}"), key=key, open_defects=open_defects
    )


def _new(view: View) -> ft.Control:
    return wide_button(
        "New vehicle", view.to("/vehicle/new"), key="new_vehicle", icon=ft.Icons.ADD, height=64
    )


def _foot(view: View) -> ft.Control:
    return ft.Row(
        [
            small_answer("Vehicles", ft.Icons.LOCAL_SHIPPING, view.to("/vehicles"), key="vehicles"),
            small_answer("Records", ft.Icons.FOLDER_OPEN, view.to("/records"), key="records"),
            small_answer("Settings", ft.Icons.TUNE, view.to("/settings"), key="settings"),
        ],
        spacing=8,
    )
