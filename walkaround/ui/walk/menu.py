"""What opens from the bar of a walk: menu, open defects, all steps; and a walk that was left."""

from __future__ import annotations

import flet as ft

from walkaround.base.message import message
from walkaround.plan.steps import Step
from walkaround.ui.home.keys import keys_screen
from walkaround.ui.home.settings import voice_settings
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, caution, page_column, top_bar
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, GOOD, QUIET, SMALL
from walkaround.ui.kit.zones import answer_zone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.pictures.photos import photo_row
from walkaround.ui.taps.walk import WalkTaps
from walkaround.ui.walk.causes import cause_rows
from walkaround.ui.walk.repair_panel import REPAIRED
from walkaround.walk.leaving import under_air
from walkaround.walk.state import Defect, Walk
from walkaround.walk.transitions import recheck_stands
from walkaround.words.answers import given_word, why_words
from walkaround.words.measured_values import defect_words


@screen
def menu_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Leave, look back, voice and looks."""
    walk, words, icons = view.walk, view.words, ft.Icons
    steps, cab = view.opens("steps"), view.to(f"/cab/{walk.id}")
    body = [
        wide_button(
            words("menu-stop-for-now"), tapped(taps.pause), key="pause", icon=icons.PAUSE_CIRCLE
        ),
        wide_button(words("steps-title"), steps, key="steps", icon=icons.LIST),
        wide_button(words("keys-title"), view.opens("keys"), key="keys", icon=icons.KEYBOARD),
    ]
    if not view.practices:
        only = words("menu-only-switches")
        body.insert(2, wide_button(only, cab, key="cab", icon=icons.TOGGLE_ON))
    if walk.phase == "stepping":
        end = view.opens("end")
        body.append(wide_button(words("menu-end"), end, key="end", icon=icons.STOP_CIRCLE))
    bar = top_bar(view.words, view.words("menu-title"), back=view.opens(""))
    return page_column(bar, [*body, *voice_settings(view)])


def keys_panel(view: View, taps: WalkTaps, key: str) -> ft.Control:  # noqa: ARG001
    """Show the keys that this phone has learned, and how it learns them."""
    return keys_screen(view, view.opens("menu"), key=key)


@screen
def leave_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Ask before a vehicle is left for now that stands under air."""
    orders = [caution(view.words.text(order)) for order in under_air(view.walk)]
    leave = tapped(taps.pause, sure=True)
    stop = wide_button(view.words("leave-yes"), leave, key="leave_yes", height=96)
    bar = top_bar(view.words, view.words("menu-title"), back=view.opens(""))
    return page_column(bar, [heading(view.words("leave-question")), *orders, stop])


@screen
def end_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Ask before a walk is closed with steps open."""
    walk = view.walk
    left = len(walk.steps) - len(walk.answers)
    body = [
        heading(view.words("end-question")),
        *[caution(view.words.text(order)) for order in under_air(walk)],
        caution(view.words("end-leave-it-safe")),
        label(view.words("end-means", count=left)),
    ]
    # Below the words, not under the thumb: it is reached past them.
    end = wide_button(view.words("end-yes"), taps.finish, key="end_yes", bad=True, height=96)
    bar = top_bar(view.words, view.words("menu-title"), back=view.opens(""))
    return page_column(bar, [*body, end])


@screen
def defects_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Show every open defect, and what can be done about it now."""
    walk, body = view.walk, list[ft.Control]()
    for defect in walk.open_defects:
        rows = [*defect_rows(view, walk, defect), repaired_button(view, defect)]
        if not recheck_stands(walk, defect.step):
            rows.append(label(view.words("recheck-from-its-record"), QUIET, SMALL))
        body.append(card(ft.Column(rows, spacing=8)))
    body += due_rows(view, taps, walk)
    if likely := taps.cause_taps.causes(walk):
        word, opens = view.words("causes-title"), view.opens("causes")
        more = wide_button(word, opens, key="causes", icon=ft.Icons.TROUBLESHOOT)
        body += [heading(view.words("causes-likeliest")), *cause_rows(view, likely)[:1], more]
    if lost := taps.cause_taps.leaks(walk):
        word, opens = view.words("leaks-title"), view.opens("leaks")
        more = wide_button(word, opens, key="leaks", icon=ft.Icons.HEARING)
        body += [heading(view.words("leaks-likeliest")), *cause_rows(view, lost)[:1], more]
    bar = top_bar(view.words, view.words("defects-title"), back=view.opens(""))
    return page_column(bar, body)


def defect_rows(view: View, walk: Walk, defect: Defect) -> list[ft.Control]:
    """Show what was found at which step, and its note and photos."""
    step = next(step for step in walk.steps if step.id == defect.step)
    rows: list[ft.Control] = [
        label(view.words.text(step.title), bold=True),
        label(defect_words(walk, defect, view.words), BAD, bold=True),
    ]
    if repair := walk.repairs.get(step.id):
        at = repair.at.local_text()
        repair_text = view.words("summary-repaired", what=repair.what, who=repair.who, time=at)
        rows.append(label(repair_text))
    if note := walk.notes.get(step.id):
        rows.append(label(note))
    return [*rows, *photo_row(walk, step.id, view.words)]


def repaired_button(view: View, defect: Defect) -> ft.Control:
    """Show the way to say what was done about a defect."""
    key, opens = f"{REPAIRED}{defect.step}", view.opens(REPAIRED + defect.step)
    return wide_button(view.words("repairs-title"), opens, key=key, icon=ft.Icons.HANDYMAN)


def due_rows(view: View, taps: WalkTaps, walk: Walk) -> list[ft.Control]:
    """Tell what a repair can have changed, besides what is open, and what can be looked at now."""
    rows: list[ft.Control] = []
    for step in walk.steps:
        if step.id not in walk.due or walk.is_open(step.id):
            continue
        rows.append(label(view.words.text(step.title)))
        if walk.phase == "stepping" and recheck_stands(walk, step.id):
            word, recheck = view.words("recheck-now"), tapped(taps.revisit, step.id, "recheck")
            rows.append(wide_button(word, recheck, key=f"due_{step.id}", icon=ft.Icons.REPLAY))
    if not rows:
        return []
    head = label(view.words("summary-due"), BAD, bold=True)
    return [card(ft.Column([head, *rows], spacing=8), key="due")]


@screen
def steps_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Show all steps with their answers; under way an answered one can be looked at again.

    In a record each answer tells too who gave it when, and how.
    """
    walk = view.walk
    recorded = walk.phase == "finished" or view.route.startswith("/record/")
    body = [_step_line(view, taps, walk, step, recorded=recorded) for step in walk.steps]
    back = view.opens("" if recorded else "menu")
    return page_column(top_bar(view.words, view.words("steps-title"), back=back), body)


def _step_line(view: View, taps: WalkTaps, walk: Walk, step: Step, *, recorded: bool) -> ft.Control:
    answered, words = walk.answers.get(step.id), view.words
    look = tapped(taps.look_back, step.id) if answered and not recorded else None
    none = words("summary-unreached" if walk.phase == "finished" else "steps-no-answer")
    answer = given_word(step, answered, words) if answered else none
    color = {"ok": GOOD, "defect": BAD, "missing": BAD}.get(
        answered.answer if answered else "", QUIET
    )
    lines: list[ft.Control] = [label(words.text(step.title)), label(answer, color, bold=True)]
    if recorded and answered:
        lines += [label(why) for why in filter(None, [why_words(step, answered, words)])]
        by, at = message(f"record-by-{answered.by}"), answered.at.local_text()
        lines.append(label(words("steps-given", time=at, who=answered.who, by=by), QUIET, SMALL))
    return card(ft.Column(lines, spacing=2), tap=look, key=f"step_{step.id}")


@screen
def paused_screen(view: View, taps: WalkTaps) -> ft.Control:
    """Tell how far it is, and the way back into it."""
    walk = view.walk
    assert walk.plan is not None
    word = view.words("home-go-on")
    go_on = answer_zone(word, ft.Icons.PLAY_ARROW, taps.resume, key="resume")
    progress = view.words("paused-answered", answered=len(walk.answers), steps=len(walk.steps))
    body: list[ft.Control] = [
        heading(view.words("paused-title")),
        label(progress),
        caution(view.words("paused-look-again")),
    ]
    bar = top_bar(view.words, walk.plan.vehicle.name, back=view.to("/"))
    return page_column(bar, body, [ft.Row([go_on])])
