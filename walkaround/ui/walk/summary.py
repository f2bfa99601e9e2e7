"""What was checked, found and not checked: at the end of a walk, and in its record later."""

from __future__ import annotations

from collections.abc import Sequence
from typing import get_args

import flet as ft

from walkaround.base.message import message
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Step
from walkaround.records.export import about_words, counts, result_text
from walkaround.ui.kit.buttons import answer_zone, button, wide_button
from walkaround.ui.kit.parts import card, caution, notice, page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, GOOD, QUIET, SMALL, TITLE
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.events import Answer
from walkaround.walk.state import Walk
from walkaround.walk.transitions import recheck_stands
from walkaround.words.answers import reason_text
from walkaround.words.measured import apart_text, defect_words, outcome_text, strokes_apart


@screen
def summary_screen(view: View, taps: WalkTaps) -> ft.Control:
    """Every step has its answer: look through it, then close the record."""
    walk = view.walk
    assert walk.plan is not None

    async def back() -> None:
        await taps.look_back(walk.steps[-1].id)

    async def finish() -> None:
        await taps.finish()

    close = answer_zone(view.words("summary-close"), ft.Icons.TASK_ALT, finish, key="finish")
    body = [
        *findings(view, taps, walk),
        button(view.words("steps-title"), view.opens("steps"), key="steps", icon=ft.Icons.LIST),
    ]
    bar = top_bar(view.words, walk.plan.vehicle.name, back=back)
    return page_column(bar, body, [ft.Row([close])])


@screen
def record_screen(view: View, taps: WalkTaps) -> ft.Control:
    """A closed walk: its findings, its files, and the recheck of what is still open."""
    walk = view.walk
    assert walk.plan is not None
    plan = walk.plan

    async def recheck() -> None:
        await taps.begin(recheck_plan(view, walk))

    began = walk.events[0].at.local_text()
    body: list[ft.Control] = [
        label(view.words("record-begun", began=began, who=walk.events[0].who), QUIET, SMALL),
        *findings(view, taps, walk),
    ]
    if walk.open_defects and walk.phase == "finished":
        body.append(
            wide_button(view.words("record-recheck"), recheck, key="recheck", icon=ft.Icons.REPLAY)
        )
    table, everything = view.words("record-table"), view.words("record-everything")
    files = ft.Row([_file(walk, "csv", table), _file(walk, "json", everything)], spacing=12)
    return page_column(
        top_bar(view.words, plan.vehicle.name, back=view.to("/records")), body, [files]
    )


def recheck_plan(view: View, walk: Walk) -> Plan:
    """A walk of its own for the open defects of this one."""
    assert walk.plan is not None
    library = view.parts.library
    return plan_walk(
        walk.plan.vehicle,
        library.rules,
        scope="recheck",
        power=walk.plan.power,
        together=walk.plan.together,
        air=walk.plan.air,
        towed=walk.plan.towed,
        only=[defect.step for defect in walk.open_defects],
        recheck_of=walk.id,
    )


def _file(walk: Walk, kind: str, word: str) -> ft.Control:
    return button(
        word,
        lambda: None,
        key=f"file_{kind}",
        icon=ft.Icons.DOWNLOAD,
        url=f"/files/{walk.id}.{kind}",
        expand=True,
        height=64,
    )


def findings(view: View, taps: WalkTaps, walk: Walk) -> list[ft.Control]:
    """Defects first, then what was not checked, the air holds, what was measured, the counts."""
    shown: list[ft.Control] = [_headline(view, walk)]
    if damage := view.parts.open_walks.notice(walk.id):
        shown.append(caution(damage, key="damage"))
    if walk.partial:
        shown.append(notice(_partial(view, walk), key="partial"))
    shown += [_defect(view, taps, walk, step) for step in walk.steps if _is_open(walk, step)]
    shown += _rechecked(view, walk)
    shown += _unchecked(view, walk)
    shown += [_hold(view, walk, step) for step in walk.steps if step.id in walk.holds]
    shown += _measured(view, walk)
    shown.append(_counts(view, walk))
    shown += [label(text, QUIET, SMALL) for text in about_words(walk, view.words)]
    shown.append(label(view.words("record-notice"), QUIET, SMALL))
    return shown


def _headline(view: View, walk: Walk) -> ft.Control:
    count = len(walk.open_defects)
    word = view.words("summary-headline", count=count)
    if not count:
        return heading(word)
    row: list[ft.Control] = [
        ft.Icon(ft.Icons.REPORT, size=36, color=BAD),
        label(word, BAD, TITLE, bold=True),
    ]
    return ft.Row(row, spacing=10)


def _partial(view: View, walk: Walk) -> str:
    assert walk.plan is not None
    return view.words(f"summary-partial-{walk.plan.scope}")


def _is_open(walk: Walk, step: Step) -> bool:
    return any(defect.step == step.id for defect in walk.open_defects)


def _defect(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    async def recheck() -> None:
        await taps.recheck(step.id)

    rows: list[ft.Control] = [
        label(view.words.text(step.title), bold=True),
        label(defect_words(walk, walk.defects[step.id], view.words), BAD, bold=True),
    ]
    if walk.notes.get(step.id):
        rows.append(label(walk.notes[step.id]))
    if walk.phase != "finished" and recheck_stands(walk, step.id):
        key = f"recheck_{step.id}"
        rows.append(button(view.words("recheck-now"), recheck, key=key))
    return card(ft.Column(rows, spacing=6))


def _rechecked(view: View, walk: Walk) -> Sequence[ft.Control]:
    done = [step for step in walk.steps if step.id in walk.defects]
    done = [step for step in done if walk.defects[step.id].state == "rechecked"]
    cured = [
        view.words(
            "summary-rechecked",
            step=step.title,
            defect=defect_words(walk, walk.defects[step.id], view.words),
        )
        for step in done
    ]
    return [card(label(text, GOOD, bold=True)) for text in cured]


def _unchecked(view: View, walk: Walk) -> Sequence[ft.Control]:
    if not walk.unchecked:
        return []
    head = label(view.words("answer-not-checked"), bold=True)
    lines = [label(_why(view, walk, step)) for step in walk.unchecked]
    return [card(ft.Column([head, *lines], spacing=6))]


def _why(view: View, walk: Walk, step: Step) -> str:
    given = walk.answers.get(step.id)
    if given and given.reason:
        why = reason_text(given.reason, view.words)
        return view.words("summary-unchecked", step=step.title, why=why)
    return view.words("summary-not-reached", step=step.title)


def _hold(view: View, walk: Walk, step: Step) -> ft.Control:
    hold = walk.holds[step.id]
    text = result_text(walk, hold, view.words) or view.words("summary-no-result")
    return card(ft.Column([label(view.words.text(step.title), bold=True), label(text)], spacing=6))


def _measured(view: View, walk: Walk) -> Sequence[ft.Control]:
    """Every value taken, then what the ends of each axle have to do with each other."""
    rows: list[ft.Control] = []
    for step in walk.steps:
        if step.measure and (
            text := outcome_text(step.measure, walk.measured.get(step.id, {}), view.words)
        ):
            rows.append(label(view.words("summary-outcome", step=step.title, outcome=text)))
    for apart in strokes_apart(walk):
        color = BAD if apart.much else QUIET
        rows.append(label(apart_text(apart, view.words), color, SMALL, bold=apart.much))
    if not rows:
        return []
    title = label(view.words("summary-measured"), bold=True)
    return [card(ft.Column([title, *rows], spacing=6), key="measured")]


def _counts(view: View, walk: Walk) -> ft.Control:
    tally = counts(walk)
    answers = tuple(
        message(f"summary-count-{answer.replace('_', '-')}", count=tally[answer])
        for answer in get_args(Answer)
        if tally[answer]
    )
    return label(view.words("summary-counts", count=tally["steps"], answers=answers))
