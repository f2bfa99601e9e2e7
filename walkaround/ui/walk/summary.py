"""What was checked, found and not checked: at the end of a walk, and in its record later."""

from __future__ import annotations

from collections.abc import Sequence
from typing import get_args

import flet as ft

from walkaround.base.message import message
from walkaround.comparison.later_walks import NOTHING_LATER, Later, is_cured, left_open
from walkaround.plan.steps import Step
from walkaround.report.walk_texts import (
    about_words,
    headline_text,
    later_words,
    result_text,
    ways_text,
)
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.parts import card, caution, notice, page_column, top_bar
from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, GOOD, QUIET, SMALL, TITLE
from walkaround.ui.kit.zones import answer_zone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.pictures.photos import photo_row
from walkaround.ui.taps.walk import WalkTaps
from walkaround.ui.walk.causes import likely_cards
from walkaround.ui.walk.menu import defect_rows, due_rows, repaired_button
from walkaround.ui.walk.odometer import odometer_field
from walkaround.ui.walk.sign import signatures_card, tag_caution
from walkaround.walk.chambers import ends_of
from walkaround.walk.events import Answer
from walkaround.walk.state import Defect, Walk, answer_counts
from walkaround.words.air_hold import all_readings_words
from walkaround.words.answers import given_word, reason_text
from walkaround.words.chambers import chambers_text
from walkaround.words.leak import gauges_text
from walkaround.words.measured_values import apart_text, defect_words, outcome_text, strokes_apart

_HEADLINE_PX = 38.0
"""What a walk found is drawn no larger: it takes one line of a narrow phone."""


@screen
def summary_screen(view: View, taps: WalkTaps) -> ft.Control:
    """Show the walk once every step has its answer: to be looked through, then closed."""
    walk = view.walk
    assert walk.plan is not None

    word = view.words("summary-close")
    close = answer_zone(word, ft.Icons.TASK_ALT, taps.finish, key="finish")
    back = tapped(taps.look_back, walk.steps[-1].id)
    body = [
        *headline(view, walk),
        *finding_rows(view, taps, walk),
        odometer_field(view, taps, key="odometer_of"),
        signatures_card(view, walk),
        button(view.words("steps-title"), view.opens("steps"), key="steps", icon=ft.Icons.LIST),
    ]
    bar = top_bar(view.words, walk.plan.vehicle.name, back=back)
    return page_column(bar, body, [ft.Row([close])])


def headline(view: View, walk: Walk, later: Later = NOTHING_LATER) -> list[ft.Control]:
    """Say how many defects are open, by what later walks say; a tag; whether it was whole."""
    assert walk.plan is not None
    count, early = left_open(walk, later), walk.ended_early
    word = view.words("summary-headline-early" if early else "summary-headline", count=count)
    if count < len(walk.open_defects):
        word = headline_text(walk, later, view.words)
    rows: list[ft.Control] = [heading(word)]
    if count:
        defects_label = label(word, BAD, fitting_size(TITLE, _HEADLINE_PX), bold=True)
        defects_label.expand = True
        rows = [ft.Row([ft.Icon(ft.Icons.REPORT, size=36, color=BAD), defects_label], spacing=10)]
    rows += tag_caution(view, walk)
    if early:
        rows.append(notice(view.words("summary-partial-whole"), key="ended_early"))
    if walk.plan.scope != "whole":
        rows.append(notice(view.words(f"summary-partial-{walk.plan.scope}"), key="partial"))
    return rows


def finding_rows(
    view: View, taps: WalkTaps, walk: Walk, later: Later = NOTHING_LATER
) -> list[ft.Control]:
    """Show defects, then what was not checked, air holds, measured values and counts.

    Beside what the walk left open stands what `later` walks say of it.
    """
    assert walk.plan is not None
    rows: list[ft.Control] = []
    if damage := view.parts.open_walks.notice(walk.id):
        rows.append(caution(damage, key="damage"))
    rows += [_defect(view, walk, defect, later) for defect in walk.open_defects]
    rows += likely_cards(view, taps, walk)

    def closed(step: Step, defect: Defect, found_text: str) -> str:
        by = defect.closed or defect.found
        text_args = {
            "step": step.title,
            "defect": found_text,
            "who": by.who,
            "time": by.at.local_text(),
        }
        return view.words(f"summary-{defect.state}", **text_args)

    defects = [(step, walk.defects[step.id]) for step in walk.steps if step.id in walk.defects]
    for step, defect in defects:
        if defect.state == "rechecked":
            defect_text = defect_words(walk, defect, view.words)
            rows.append(card(label(closed(step, defect, defect_text), GOOD, bold=True)))
        elif defect.state == "withdrawn":
            defect_text = defect_words(walk, defect, view.words)
            rows.append(card(label(closed(step, defect, defect_text))))
    rows += due_rows(view, taps, walk)
    if walk.unchecked:
        head = label(view.words("answer-not-checked"), bold=True)
        lines = [label(_why(view, walk, step)) for step in walk.unchecked]
        rows.append(card(ft.Column([head, *lines], spacing=6)))
    rows += [_hold(view, walk, step) for step in walk.steps if step.id in walk.holds]
    rows += _measured(view, walk)
    rows += _photos(view, walk)
    notes = [
        label(view.words("summary-outcome", step=step.title, outcome=note))
        for step in walk.steps
        if (note := walk.notes.get(step.id)) and step.id not in walk.defects
    ]
    if notes:
        head = label(view.words("summary-notes"), bold=True)
        rows.append(card(ft.Column([head, *notes], spacing=6), key="notes"))
    # How a vehicle was left is as much a finding as what was measured.
    rows += [
        label(
            view.words(
                "summary-outcome", step=step.title, outcome=given_word(step, answered, view.words)
            )
        )
        for step in walk.steps
        if (answered := walk.answers.get(step.id)) and answered.choice
    ]
    tally = answer_counts(walk)
    answers = tuple(
        message(f"summary-count-{answer.replace('_', '-')}", count=tally[answer])
        for answer in get_args(Answer)
        if tally[answer]
    )
    rows.append(label(view.words("summary-counts", count=tally["steps"], answers=answers)))
    if ways := ways_text(walk, view.words):
        rows.append(label(ways))
    about_lines = [*about_words(walk, view.words), view.words("record-notice")]
    return [*rows, *(label(text, QUIET, SMALL) for text in about_lines)]


def _photos(view: View, walk: Walk) -> Sequence[ft.Control]:
    """Show photos that stand beside no open defect, by their steps."""
    rows = [
        row
        for step in walk.steps
        if step.id in walk.photos and not walk.is_open(step.id)
        for row in (label(view.words.text(step.title)), *photo_row(walk, step.id, view.words))
    ]
    head = label(view.words("report-photos"), bold=True)
    return [card(ft.Column([head, *rows], spacing=6), key="photos")] if rows else []


def _defect(view: View, walk: Walk, defect: Defect, later: Later) -> ft.Control:
    cured = is_cured(later, defect.step)
    later_text = later_words(later, defect.step, view.words)
    rows = [
        *(label(each, GOOD if cured else BAD, bold=True) for each in later_text),
        *defect_rows(view, walk, defect),
    ]
    return card(ft.Column(rows if cured else [*rows, repaired_button(view, defect)], spacing=6))


def _why(view: View, walk: Walk, step: Step) -> str:
    answered = walk.answers.get(step.id)
    if answered and answered.reason:
        why = reason_text(answered.reason, view.words)
        return view.words("summary-unchecked", step=step.title, why=why)
    return view.words("summary-not-reached", step=step.title)


def _hold(view: View, walk: Walk, step: Step) -> ft.Control:
    hold = walk.holds[step.id]
    text = result_text(walk, hold, view.words) or view.words("summary-no-result")
    rows: list[ft.Control] = [label(view.words.text(step.title), bold=True), label(text)]
    if hold.readings:
        read = view.words("report-readings", readings=all_readings_words(hold, view.words))
        rows.append(label(read, QUIET, SMALL))
    return card(ft.Column(rows, spacing=6))


def _measured(view: View, walk: Walk) -> Sequence[ft.Control]:
    """Show every value taken, then how the ends of each axle compare."""
    rows: list[ft.Control] = []
    for step in walk.steps:
        if step.measure and (
            text := outcome_text(step.measure, walk.measured.get(step.id, {}), view.words)
        ):
            rows.append(label(view.words("summary-outcome", step=step.title, outcome=text)))
    for apart in strokes_apart(walk):
        color = BAD if apart.much else QUIET
        rows.append(label(apart_text(apart, view.words), color, SMALL, bold=apart.much))
    for step in walk.steps:
        if (ends := ends_of(step)) and step.id in walk.answers:
            read = "; ".join(chambers_text(walk, ends, view.words))
            rows.append(label(view.words("summary-outcome", step=step.title, outcome=read)))
    if walk.told_gauges:
        rows.append(label(gauges_text(walk.told_gauges, view.words), QUIET, SMALL))
    if not rows:
        return []
    title = label(view.words("summary-measured"), bold=True)
    return [card(ft.Column([title, *rows], spacing=6), key="measured")]
