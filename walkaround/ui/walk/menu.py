"""What opens from the bar of a walk: the menu, the open defects, all steps so far."""

from __future__ import annotations

import flet as ft

from walkaround.plan.steps import Step
from walkaround.ui.home.settings import voice_settings
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, caution, page_column, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.state import Defect, Walk
from walkaround.walk.transitions import recheck_stands
from walkaround.words.answers import answer_word
from walkaround.words.measured import defect_words

LEAVE_SAFE = (
    "Before you leave a vehicle half checked: chocks in, air source shut, and everybody told "
    "that it is under air or power."
)


@screen
def menu_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Leave, look back, voice and looks."""
    colours, walk = view.palette, view.walk

    async def back() -> None:
        view.open("")

    async def steps() -> None:
        view.open("steps")

    async def end() -> None:
        view.open("end")

    async def cab() -> None:
        await view.go(f"/cab/{walk.id}")

    body = [
        wide_button(colours, "Stop for now", taps.pause, key="pause", icon=ft.Icons.PAUSE_CIRCLE),
        wide_button(colours, "Steps and answers", steps, key="steps", icon=ft.Icons.LIST),
        wide_button(colours, "Show only what to switch", cab, key="cab", icon=ft.Icons.TOGGLE_ON),
    ]
    if walk.phase == "stepping":
        body.append(
            wide_button(colours, "End this walk here", end, key="end", icon=ft.Icons.STOP_CIRCLE)
        )
    body += voice_settings(view)
    return page_column(top_bar("More", colours, back=back), body)


@screen
def end_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Asked before a walk is closed with steps open."""
    colours, walk = view.palette, view.walk
    left = len(walk.steps) - len(walk.answers)

    async def back() -> None:
        view.open("")

    body = [
        heading("End this walk here?", colours),
        words(
            f"{left} steps have no answer. The record will be marked partial and say that they "
            "were not checked.",
            colours.ink,
        ),
        caution(LEAVE_SAFE, colours),
    ]
    end = wide_button(colours, "End it here", taps.finish, key="end_yes", bad=True, height=96)
    return page_column(top_bar("More", colours, back=back), body, [end])


@screen
def defects_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Every open defect, and what can be done about it now."""
    walk = view.walk

    async def back() -> None:
        view.open("")

    body = [_defect(view, taps, walk, defect) for defect in walk.open_defects]
    return page_column(top_bar("Open defects", view.palette, back=back), body)


def _defect(view: View, taps: WalkTaps, walk: Walk, defect: Defect) -> ft.Control:
    colours = view.palette
    step = next(step for step in walk.steps if step.id == defect.step)

    async def recheck() -> None:
        await taps.recheck(step.id)

    rows: list[ft.Control] = [
        words(step.title, colours.ink, bold=True),
        words(defect_words(walk, defect, view.words), colours.bad, bold=True),
    ]
    if walk.notes.get(step.id):
        rows.append(words(walk.notes[step.id], colours.ink))
    if recheck_stands(walk, step.id):
        rows.append(
            wide_button(
                colours,
                "Repaired: recheck now",
                recheck,
                key=f"recheck_{step.id}",
                icon=ft.Icons.REPLAY,
            )
        )
    else:
        rows.append(
            words(
                "The vehicle is no longer as this step needs it. Finish this walk, then recheck "
                "the defect from its record.",
                colours.quiet_ink,
                SMALL,
            )
        )
    return card(ft.Column(rows, spacing=8), colours)


@screen
def steps_panel(view: View, taps: WalkTaps) -> ft.Control:
    """All steps with their answers; an answered one can be looked at again."""
    walk = view.walk

    async def back() -> None:
        view.open("menu")

    body = [_step_line(view, taps, walk, step) for step in walk.steps]
    return page_column(top_bar("Steps and answers", view.palette, back=back), body)


def _step_line(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    colours = view.palette
    given = walk.answers.get(step.id)

    async def look() -> None:
        await taps.look_back(step.id)

    answer = answer_word(step, given.answer, view.words) if given else "no answer yet"
    colour = {"ok": colours.ok, "defect": colours.bad, "missing": colours.bad}.get(
        given.answer if given else "", colours.quiet_ink
    )
    lines: list[ft.Control] = [words(step.title, colours.ink), words(answer, colour, bold=True)]
    return card(
        ft.Column(lines, spacing=2), colours, tap=look if given else None, key=f"step_{step.id}"
    )
