"""What was checked, found and not checked: at the end of a walk, and in its record later."""

from __future__ import annotations

from collections.abc import Sequence
from typing import get_args

import flet as ft

from walkaround.base.message import message
from walkaround.bootstrap import today
from walkaround.plan.plan_walk import default_power, plan_walk, powers_for
from walkaround.plan.steps import Plan, Step
from walkaround.records.walk_line import original_id
from walkaround.report.about import about_words, result_text
from walkaround.ui.compared.pair import compare_buttons
from walkaround.ui.drawn.photos import photo_row
from walkaround.ui.home.copies import copy_buttons
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, caution, notice, page_column, top_bar
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, GOOD, QUIET, SMALL, TITLE
from walkaround.ui.kit.zones import answer_zone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.ui.walk.causes import likely_cards
from walkaround.ui.walk.menu import defect_rows, due_rows, repaired_button
from walkaround.ui.walk.sign import signatures_card
from walkaround.walk.chambers import ends_of
from walkaround.walk.events import Answer, Answered, Finished
from walkaround.walk.state import Defect, Walk, counts
from walkaround.words.air_hold import recorded
from walkaround.words.answers import given_word, reason_text
from walkaround.words.leak import gauges_text
from walkaround.words.measured import (
    apart_text,
    chambers_text,
    defect_words,
    outcome_text,
    strokes_apart,
)


@screen
def summary_screen(view: View, taps: WalkTaps) -> ft.Control:
    """Every step has its answer: look through it, then close the record."""
    walk = view.walk
    assert walk.plan is not None

    word = view.words("summary-close")
    close = answer_zone(word, ft.Icons.TASK_ALT, taps.finish, key="finish")
    back = tapped(taps.look_back, walk.steps[-1].id)
    body = [
        *findings(view, taps, walk),
        signatures_card(view, walk),
        button(view.words("steps-title"), view.opens("steps"), key="steps", icon=ft.Icons.LIST),
    ]
    bar = top_bar(view.words, walk.plan.vehicle.name, back=back)
    return page_column(bar, body, [ft.Row([close])])


@screen
def record_screen(view: View, taps: WalkTaps) -> ft.Control:
    """A closed walk: its findings, its files, and the recheck of what is still open."""
    walk = view.walk
    assert walk.plan is not None

    async def recheck() -> None:
        await taps.begin(recheck_plan(view, walk))

    began, vehicle = walk.events[0].at.local_text(), walk.plan.vehicle
    names = tuple(dict.fromkeys(e.who for e in walk.events if isinstance(e, Answered)))
    ended = next((e.at.local_text() for e in walk.events if isinstance(e, Finished)), "")
    times = [view.words("record-begun", began=began, who=walk.events[0].who)]
    times += [view.words("record-ended", ended=ended)] if ended else []
    times += [view.words("record-answered-by", names=names)] if len(names) > 1 else []
    marks = {"plate": vehicle.plate, "vin": vehicle.vin}
    body: list[ft.Control] = [
        *(label(told, QUIET, SMALL) for told in times),
        *(
            label(view.words(f"record-{name}", mark=mark), QUIET, SMALL)
            for name, mark in marks.items()
            if mark
        ),
        *(
            label(view.words.text(each), QUIET, SMALL)
            for each in view.parts.sharing.signed(walk.id)
        ),
        *_copies(view, walk),
        *_linked(view, walk),
        *compare_buttons(view, walk),
        *findings(view, taps, walk),
        signatures_card(view, walk),
    ]
    if (walk.open_defects or walk.due) and walk.phase == "finished":
        word, icon = view.words("record-recheck"), ft.Icons.REPLAY
        body.append(wide_button(word, recheck, key="recheck", icon=icon))
    page, table = view.words("record-page"), view.words("record-table")
    everything = view.words("record-everything")
    share = button(
        view.words("record-share"),
        key="share",
        icon=ft.Icons.IOS_SHARE,
        url=f"/shared/{walk.id}.zip",
        expand=True,
        height=64,
    )
    files: list[ft.Control] = [
        ft.Row([_file(view, walk, "pdf", page), share], spacing=12),
        ft.Row(
            [_file(view, walk, "csv", table), _file(view, walk, "json", everything)], spacing=12
        ),
    ]
    bar = top_bar(view.words, walk.plan.vehicle.name, back=view.to("/records"))
    return page_column(bar, body, [ft.Column(files, spacing=8)])


def _copies(view: View, walk: Walk) -> Sequence[ft.Control]:
    """The other copies of this walk, where it went on differently somewhere."""
    overview = view.parts.store.overview()
    others = copy_buttons(view, overview, walk.id, but=walk.id)
    said = caution(view.words("record-copies", count=len(others)), key="copies")
    return [said, *others] if others else []


def _linked(view: View, walk: Walk) -> list[ft.Control]:
    """The record whose defects this one rechecks, and those that recheck its own."""
    assert walk.plan is not None
    lines, words = view.parts.store.overview().lines, view.words
    former = [line for line in lines if line.id == walk.plan.recheck_of]
    later = [line for line in lines if line.recheck_of == walk.id]
    return [
        ft.Row(
            [
                button(
                    words(told, day=f"{line.began.astimezone():%Y-%m-%d %H:%M}"),
                    view.to(f"/record/{line.id}"),
                    key=f"linked_{line.id}",
                    icon=ft.Icons.LINK,
                )
            ]
        )
        for told, found in (("record-recheck-of", former), ("record-rechecked-on", later))
        for line in found
    ]


def recheck_plan(view: View, walk: Walk) -> Plan:
    """A walk of its own for the open defects of this one, and for what was repaired there."""
    assert walk.plan is not None
    settings, vehicle, power = view.settings, walk.plan.vehicle, walk.plan.power
    now, rules = today(view.parts.clock), view.parts.library.rules
    # A source that this vehicle has no more, such as a box at a power unit.
    known = power in powers_for(vehicle, rules.power_sources)
    return plan_walk(
        vehicle,
        rules,
        day=now,
        scope="recheck",
        power=power if known else default_power(vehicle),
        together=walk.plan.together,
        air=walk.plan.air,
        towed=walk.plan.towed,
        shop=settings.shop,
        gauges=settings.gauges_at_zero(vehicle, walk.plan.air, settings.altitude_m, now),
        altitude_m=settings.altitude_m,
        only=[step.id for step in walk.steps if walk.is_open(step.id) or step.id in walk.due],
        recheck_of=original_id(walk.id),
        former=walk.plan,
    )


def _file(view: View, walk: Walk, kind: str, word: str) -> ft.Control:
    url, icon = f"/files/{walk.id}.{kind}?language={view.words.language}", ft.Icons.DOWNLOAD
    return button(word, key=f"file_{kind}", icon=icon, url=url, expand=True, height=64)


def findings(view: View, taps: WalkTaps, walk: Walk) -> list[ft.Control]:
    """Defects first, then what was not checked, the air holds, what was measured, the counts."""
    assert walk.plan is not None
    count = len(walk.open_defects)
    word = view.words("summary-headline", count=count)
    loud = [ft.Icon(ft.Icons.REPORT, size=36, color=BAD), label(word, BAD, TITLE, bold=True)]
    shown: list[ft.Control] = []
    if walk.ended_early:
        shown.append(notice(view.words("summary-partial-whole"), key="ended_early"))
    if walk.plan.scope != "whole":
        shown.append(notice(view.words(f"summary-partial-{walk.plan.scope}"), key="partial"))
    shown.append(ft.Row(list(loud), spacing=10) if count else heading(word))
    if damage := view.parts.open_walks.notice(walk.id):
        shown.append(caution(damage, key="damage"))
    shown += [_defect(view, walk, defect) for defect in walk.open_defects]
    shown += likely_cards(view, taps, walk)
    defects = [(step, walk.defects[step.id]) for step in walk.steps if step.id in walk.defects]
    for step, defect in defects:
        if defect.state == "rechecked":
            what = defect_words(walk, defect, view.words)
            text = view.words("summary-rechecked", step=step.title, defect=what)
            shown.append(card(label(text, GOOD, bold=True)))
        elif defect.state == "withdrawn":
            what = defect_words(walk, defect, view.words)
            at = f"{(defect.closed or defect.found).at.local():%H:%M}"
            text = view.words("summary-withdrawn", step=step.title, defect=what, time=at)
            shown.append(card(label(text)))
    shown += due_rows(view, taps, walk)
    if walk.unchecked:
        head = label(view.words("answer-not-checked"), bold=True)
        lines = [label(_why(view, walk, step)) for step in walk.unchecked]
        shown.append(card(ft.Column([head, *lines], spacing=6)))
    shown += [_hold(view, walk, step) for step in walk.steps if step.id in walk.holds]
    shown += _measured(view, walk)
    shown += _photos(view, walk)
    notes = [
        label(view.words("summary-outcome", step=step.title, outcome=note))
        for step in walk.steps
        if (note := walk.notes.get(step.id)) and step.id not in walk.defects
    ]
    if notes:
        head = label(view.words("summary-notes"), bold=True)
        shown.append(card(ft.Column([head, *notes], spacing=6), key="notes"))
    # How a vehicle was left is as much a finding as what was measured.
    shown += [
        label(
            view.words(
                "summary-outcome", step=step.title, outcome=given_word(step, given, view.words)
            )
        )
        for step in walk.steps
        if (given := walk.answers.get(step.id)) and given.choice
    ]
    tally = counts(walk)
    answers = tuple(
        message(f"summary-count-{answer.replace('_', '-')}", count=tally[answer])
        for answer in get_args(Answer)
        if tally[answer]
    )
    shown.append(label(view.words("summary-counts", count=tally["steps"], answers=answers)))
    about = [*about_words(walk, view.words), view.words("record-notice")]
    return [*shown, *(label(text, QUIET, SMALL) for text in about)]


def _photos(view: View, walk: Walk) -> Sequence[ft.Control]:
    """Photos that stand beside no open defect, by their steps."""
    rows = [
        row
        for step in walk.steps
        if step.id in walk.photos and not walk.is_open(step.id)
        for row in (label(view.words.text(step.title)), *photo_row(walk, step.id, view.words))
    ]
    head = label(view.words("report-photos"), bold=True)
    return [card(ft.Column([head, *rows], spacing=6), key="photos")] if rows else []


def _defect(view: View, walk: Walk, defect: Defect) -> ft.Control:
    rows = [*defect_rows(view, walk, defect), repaired_button(view, defect)]
    return card(ft.Column(rows, spacing=6))


def _why(view: View, walk: Walk, step: Step) -> str:
    given = walk.answers.get(step.id)
    if given and given.reason:
        why = reason_text(given.reason, view.words)
        return view.words("summary-unchecked", step=step.title, why=why)
    return view.words("summary-not-reached", step=step.title)


def _hold(view: View, walk: Walk, step: Step) -> ft.Control:
    hold = walk.holds[step.id]
    text = result_text(walk, hold, view.words) or view.words("summary-no-result")
    told: list[ft.Control] = [label(view.words.text(step.title), bold=True), label(text)]
    if hold.readings:
        read = view.words("report-readings", readings=recorded(hold, view.words))
        told.append(label(read, QUIET, SMALL))
    return card(ft.Column(told, spacing=6))


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
