"""The first screen: walks to go on with, vehicles to start on, records and settings."""

from __future__ import annotations

import flet as ft

from walkaround.records.walk_line import WalkLine
from walkaround.ui.home.first_start import first_card
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, share_bar, stretched
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import ANSWER, QUIET, SMALL, Tone
from walkaround.ui.kit.zones import small_answer
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.list import defect_count, new_vehicle_button
from walkaround.ui.vehicle.search import vehicle_choice
from walkaround.words.problems import problem_text

GOING_SHOWN = 10
"""How many walks under way the first screen offers."""


@screen
def home_screen(view: View) -> ft.Control:
    """Show what can be done next."""
    parts = view.parts
    walks = parts.store.overview()
    going = walks.going
    body: list[ft.Control] = []
    if view.sound.trouble:
        body.append(notice(view.sound.trouble, key="no_sound"))
    body += [notice(view.words.text(text), key="unread") for text in walks.unread]
    if view.knows_phone and not view.settings.shown_how:
        body.append(first_card(view, key="first"))
    if going:
        body.append(heading(view.words("home-go-on")))
        body += [_walk_under_way(view, line) for line in going[:GOING_SHOWN]]
    if len(going) > GOING_SHOWN:
        rest = view.words("home-more-going", count=len(going) - GOING_SHOWN)
        body.append(label(rest, QUIET, SMALL))
    body.append(heading(view.words("home-start-a-walk")))
    body.append(vehicle_choice(view, "/start/", "vehicle_", key="choice"))
    body.append(new_vehicle_button(view))
    word, icon = view.words("contacts-title"), ft.Icons.CABLE
    body.append(wide_button(word, view.to("/contacts"), key="contacts", icon=icon))
    word, icon = view.words("practice-title"), ft.Icons.SCHOOL
    body.append(wide_button(word, view.to("/practice"), key="practice", icon=icon))
    body += [notice(problem_text(each, view.words)) for each in parts.library.problems]
    about = label(view.words("home-what-it-is"), QUIET, SMALL)
    title = heading(view.words("app-name"), ANSWER)
    zones = [
        ("vehicles", view.words("vehicles-title"), ft.Icons.LOCAL_SHIPPING),
        ("records", view.words("records-title"), ft.Icons.FOLDER_OPEN),
        ("settings", view.words("settings-title"), ft.Icons.TUNE),
    ]
    names = [word for _, word, _ in zones]
    ways = [
        small_answer(word, icon, view.to(f"/{key}"), key=key, beside=names)
        for key, word, icon in zones
    ]
    bottom = [ft.Row(ways, spacing=8)]
    if view.device.low:
        # Its height is for what can be done.
        return page_column(ft.Row([]), [title, *body, about], bottom)
    return page_column(ft.Column([title, about], spacing=0), body, bottom)


def _walk_under_way(view: View, line: WalkLine) -> ft.Control:
    began = line.began.astimezone()
    progress = view.words(
        "home-unfinished",
        at=min(line.answered + 1, line.steps),
        steps=line.steps,
        day=f"{began:%d}",
        month=began.month,
        time=f"{began:%H:%M}",
    )
    on, icon = view.to(f"/walk/{line.id}", going_on=True), ft.Icons.PLAY_ARROW
    word, key = view.words("home-go-on"), f"go_on_{line.id}"
    rows = [
        label(line.vehicle_name, bold=True),
        label(progress, QUIET, SMALL),
        *defect_count(view, len(line.open_defects)),
        share_bar(line.answered / line.steps),
        button(word, on, key=key, icon=icon, tone=Tone.ACCENT),
    ]
    return card(stretched(rows, 8))
