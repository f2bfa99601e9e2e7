"""The first screen: walks to go on with, vehicles to start on, records and settings."""

from __future__ import annotations

import flet as ft

from walkaround.records.walk_line import WalkLine
from walkaround.ui.kit.buttons import button, small_answer, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, share_bar, stretched
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import ANSWER, QUIET, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.list import defect_count, vehicle_card
from walkaround.vehicle.model import Vehicle
from walkaround.words.problems import problem_text

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
    body += [notice(view.words.text(text), key="unread") for text in walks.unread]
    if going:
        body.append(heading(view.words("home-go-on")))
        body += [_going(view, line) for line in going[:GOING_SHOWN]]
    if len(going) > GOING_SHOWN:
        rest = view.words("home-more-going", count=len(going) - GOING_SHOWN)
        body.append(label(rest, QUIET, SMALL))
    body.append(heading(view.words("home-start-a-walk")))
    body += [_vehicle(view, v, len(defects.get(v.id, ()))) for v in parts.library.vehicles]
    body.append(_new(view))
    body += [notice(problem_text(each, view.words)) for each in parts.library.problems]
    return page_column(_title(view), body, [_foot(view)])


def _title(view: View) -> ft.Control:
    return ft.Column(
        [
            ft.Semantics(
                content=label(view.words("app-name"), size=ANSWER, bold=True),
                heading_level=1,
                header=True,
            ),
            label(view.words("home-what-it-is"), QUIET, SMALL),
        ],
        spacing=0,
    )


def _going(view: View, line: WalkLine) -> ft.Control:
    began = line.began.astimezone()
    done = view.words(
        "home-steps-answered",
        answered=line.answered,
        steps=line.steps,
        day=f"{began:%d}",
        month=began.month,
        time=f"{began:%H:%M}",
    )
    return card(
        stretched(
            [
                label(line.vehicle_name, bold=True),
                label(done, QUIET, SMALL),
                *defect_count(view, len(line.open_defects)),
                share_bar(line.answered / line.steps),
                button(
                    view.words("home-go-on"),
                    view.to(f"/walk/{line.id}", going_on=True),
                    key=f"go_on_{line.id}",
                    icon=ft.Icons.PLAY_ARROW,
                    tone=Tone.ACCENT,
                ),
            ],
            8,
        )
    )


def _vehicle(view: View, vehicle: Vehicle, open_defects: int) -> ft.Control:
    key = f"vehicle_{vehicle.id}"
    return vehicle_card(
        view, vehicle, view.to(f"/start/{vehicle.id}"), key=key, open_defects=open_defects
    )


def _new(view: View) -> ft.Control:
    word = view.words("vehicle-new")
    new = view.to("/vehicle/new")
    return wide_button(word, new, key="new_vehicle", icon=ft.Icons.ADD, height=64)


def _foot(view: View) -> ft.Control:
    zones = [
        ("vehicles", view.words("vehicles-title"), ft.Icons.LOCAL_SHIPPING),
        ("records", view.words("records-title"), ft.Icons.FOLDER_OPEN),
        ("settings", view.words("settings-title"), ft.Icons.TUNE),
    ]
    return ft.Row(
        [small_answer(word, icon, view.to(f"/{key}"), key=key) for key, word, icon in zones],
        spacing=8,
    )
