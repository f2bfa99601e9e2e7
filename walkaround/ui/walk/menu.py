"""What opens from the bar of a walk: menu, open defects, all steps; and a walk that was left."""

from __future__ import annotations

import flet as ft

from walkaround.plan.steps import Step
from walkaround.ui.home.settings import voice_settings
from walkaround.ui.kit.buttons import answer_zone, wide_button
from walkaround.ui.kit.parts import card, caution, page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, GOOD, QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.state import Defect, Walk
from walkaround.walk.transitions import recheck_stands
from walkaround.words.answers import answer_word
from walkaround.words.measured import defect_words


@screen
def menu_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Leave, look back, voice and looks."""
    walk = view.walk

    body = [
        wide_button(
            view.words("menu-stop-for-now"), taps.pause, key="pause", icon=ft.Icons.PAUSE_CIRCLE
        ),
        wide_button(
            view.words("steps-title"), view.opens("steps"), key="steps", icon=ft.Icons.LIST
        ),
        wide_button(
            view.words("menu-only-switches"),
            view.to(f"/cab/{walk.id}"),
            key="cab",
            icon=ft.Icons.TOGGLE_ON,
        ),
    ]
    if walk.phase == "stepping":
        body.append(
            wide_button(
                view.words("menu-end"), view.opens("end"), key="end", icon=ft.Icons.STOP_CIRCLE
            )
        )
    body += voice_settings(view)
    bar = top_bar(view.words, view.words("menu-title"), back=view.opens(""))
    return page_column(bar, body)


@screen
def end_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Asked before a walk is closed with steps open."""
    walk = view.walk
    left = len(walk.steps) - len(walk.answers)

    body = [
        heading(view.words("end-question")),
        label(view.words("end-means", count=left)),
        caution(view.words("end-leave-it-safe")),
    ]
    end = wide_button(view.words("end-yes"), taps.finish, key="end_yes", bad=True, height=96)
    bar = top_bar(view.words, view.words("menu-title"), back=view.opens(""))
    return page_column(bar, body, [end])


@screen
def defects_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Every open defect, and what can be done about it now."""
    walk = view.walk

    body = [_defect(view, taps, walk, defect) for defect in walk.open_defects]
    bar = top_bar(view.words, view.words("defects-title"), back=view.opens(""))
    return page_column(bar, body)


def _defect(view: View, taps: WalkTaps, walk: Walk, defect: Defect) -> ft.Control:
    step = next(step for step in walk.steps if step.id == defect.step)

    async def recheck() -> None:
        await taps.recheck(step.id)

    rows: list[ft.Control] = [
        label(view.words.text(step.title), bold=True),
        label(defect_words(walk, defect, view.words), BAD, bold=True),
    ]
    if walk.notes.get(step.id):
        rows.append(label(walk.notes[step.id]))
    if recheck_stands(walk, step.id):
        rows.append(
            wide_button(
                view.words("recheck-now"), recheck, key=f"recheck_{step.id}", icon=ft.Icons.REPLAY
            )
        )
    else:
        rows.append(label(view.words("recheck-from-its-record"), QUIET, SMALL))
    return card(ft.Column(rows, spacing=8))


@screen
def steps_panel(view: View, taps: WalkTaps) -> ft.Control:
    """All steps with their answers; an answered one can be looked at again."""
    walk = view.walk

    body = [_step_line(view, taps, walk, step) for step in walk.steps]
    bar = top_bar(view.words, view.words("steps-title"), back=view.opens("menu"))
    return page_column(bar, body)


def _step_line(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    given = walk.answers.get(step.id)

    async def look() -> None:
        await taps.look_back(step.id)

    answer = answer_word(step, given.answer, view.words) if given else view.words("steps-no-answer")
    color = {"ok": GOOD, "defect": BAD, "missing": BAD}.get(given.answer if given else "", QUIET)
    lines: list[ft.Control] = [label(view.words.text(step.title)), label(answer, color, bold=True)]
    return card(ft.Column(lines, spacing=2), tap=look if given else None, key=f"step_{step.id}")


@screen
def paused_screen(view: View, taps: WalkTaps) -> ft.Control:
    """How far it is, and the way back into it."""
    walk = view.walk
    assert walk.plan is not None

    go_on = answer_zone(view.words("home-go-on"), ft.Icons.PLAY_ARROW, taps.resume, key="resume")
    done = view.words("paused-answered", answered=len(walk.answers), steps=len(walk.steps))
    body: list[ft.Control] = [
        heading(view.words("paused-title")),
        label(done),
        caution(view.words("paused-look-again")),
    ]
    bar = top_bar(view.words, walk.plan.vehicle.name, back=view.to("/"))
    return page_column(bar, body, [ft.Row([go_on])])
