"""An air hold before and after it runs: start it, see what it showed, answer, tell of the air."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import flet as ft

from walkaround.airhold.hold import Hold, final_verdict
from walkaround.airhold.verdict import Assessment, Verdict
from walkaround.base.message import Quantity
from walkaround.plan.steps import Step
from walkaround.rules.limits import Line
from walkaround.ui.airhold.running_hold import hold_charts
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, caution, notice, page_column, top_bar
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import ANSWER, BAD, GAP, GOOD, QUIET, SMALL, Tone
from walkaround.ui.kit.zones import answer_zone, defect_zone, ok_zone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.evidence.air_heard import is_lost
from walkaround.walk.state import Walk
from walkaround.words.air_hold import (
    also_words,
    doubt,
    gauge_name,
    hold_bounds,
    hold_ending,
    limit_words,
    plain_rule,
    verdict_words,
)
from walkaround.words.language import Words, capital
from walkaround.words.leak import corrected_text, leak_text

_FROM_C = 20.0
_LEAST_C, _MOST_C = -50.0, 70.0
_MOVES_C = (-5, -1, 1, 5)
_CHART_PX = 150.0
_SHAPES: Mapping[Verdict, ft.IconData] = {
    "within": ft.Icons.CHECK_CIRCLE,
    "over": ft.Icons.REPORT,
    "undecided": ft.Icons.HELP,
    "settling": ft.Icons.HOURGLASS_BOTTOM,
}


def hold_body(view: View, walk: Walk, step: Step) -> Sequence[ft.Control]:
    """Tell what stands under the step's words: why a hold was void, or its result."""
    hold = walk.holds.get(step.id)
    if hold is None or hold.running:
        return []
    if hold.void:
        return [caution(view.words.text(hold.void))]
    rows: list[ft.Control] = []
    if ending := hold_ending(hold, view.words):
        rows.append(
            caution(ending) if hold.ended == "settling" else notice(ending, key="how_ended")
        )
    results = hold.results()
    # What decides the answer is seen without scrolling.
    worst_first = sorted(results, key=lambda line: final_verdict(results[line]) == "within")
    rows += [_result(view, hold, line, results[line]) for line in worst_first]
    if is_lost(walk, step) and not view.peek:
        word, opens = view.words("leaks-title"), view.opens("leaks")
        rows.append(wide_button(word, opens, key="leaks", icon=ft.Icons.HEARING))
    return [
        *rows,
        hold_charts(view, hold, results, hold.ended_s, _CHART_PX),
        *_details(view, walk, hold),
    ]


def _result(view: View, hold: Hold, line: Line, assessment: Assessment) -> ft.Control:
    """Show one gauge: verdict by word and shape, rate, why there is none, plain rule result."""
    limit_psi = hold.rule.limit_psi_per_min
    color = {"within": GOOD, "over": BAD}.get(assessment.verdict)
    decided = assessment.verdict in ("within", "over")
    why = doubt(assessment, limit_psi, hold.gauge(line).unit, view.words)
    verdict = label(verdict_words(assessment, hold.rule, view.words), color, ANSWER - 6, bold=True)
    verdict.expand = True
    shape = ft.Icon(_SHAPES[assessment.verdict], size=36, color=color)
    lines: list[ft.Control] = [
        label(view.words("gauge-named", gauge=gauge_name(line)), QUIET, SMALL, bold=True),
        ft.Row([shape, verdict], spacing=10, vertical_alignment=ft.CrossAxisAlignment.CENTER),
        *([label(capital(why), bold=True)] if why else []),
        label(plain_rule(assessment, limit_psi, view.words)),
    ]
    if decided:
        lines.append(label(hold_bounds(assessment, hold.gauge(line), view.words), QUIET, SMALL))
    return card(ft.Column(lines, spacing=2), key=f"result_{line}")


def _details(view: View, walk: Walk, hold: Hold) -> Sequence[ft.Control]:
    """Show the limit and its source, the leak in plain terms, what the air's temperature did."""
    settings = view.settings
    assert walk.plan is not None
    lines = [
        limit_words(hold.rule, view.words),
        also_words(hold.rule, view.words),
        leak_text(hold, walk.plan, view.words, settings.altitude_m),
    ]
    if hold.air_c:
        lines.append(corrected_text(hold, hold.air_c, view.words, settings.altitude_m))
    rows: list[ft.Control] = [label(text, size=SMALL) for text in lines if text]
    if view.peek:
        return rows
    word, thermometer = view.words("hold-air-button"), ft.Icons.THERMOSTAT
    temperature = button(word, view.opens("air"), key="air_button", icon=thermometer)
    return [*rows, ft.Row([temperature])]


def hold_answers(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """Start; or, once there is a result, the one answer it allows and the way to hold again."""
    if view.peek:
        return ft.Row([])
    hold, height = walk.holds.get(step.id), view.device.answer_px
    word = view.words("hold-again" if hold else "hold-start")
    start = tapped(taps.hold_taps.begin, step.id, hold.began if hold else None)
    if hold is None or hold.void or hold.ended == "settling":
        return ft.Row([answer_zone(word, ft.Icons.TIMER, start, key="start_hold", height=height)])
    icon, tone = ft.Icons.REPLAY, Tone.PLAIN
    key = "again_hold"
    again_zone = answer_zone(word, icon, start, key=key, tone=tone, height=height, across=2)
    if hold.over():
        answer = defect_zone(view.words, taps.answers(step.id, "defect"), height=height)
    else:
        answer = ok_zone(view.words, taps.answers(step.id, "ok"), height=height)
    return ft.Row([again_zone, answer], spacing=GAP)


@screen
def air_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Ask for two air temperatures by taps; show the corrected rate as they change."""
    hold = view.walk.holds[step.id]
    before_c = hold.air_c or (_FROM_C, _FROM_C)
    start_c, set_start = use_unfinished(view.unfinished, "start", before_c[0])
    end_c, set_end = use_unfinished(view.unfinished, "end", before_c[1])
    corrected = corrected_text(hold, (start_c, end_c), view.words, view.settings.altitude_m)
    body = [
        heading(view.words("hold-air-title")),
        label(view.words("hold-air-where"), size=SMALL + 1),
        _dial(view.words, view.words("hold-air-start"), "start", start_c, set_start),
        _dial(view.words, view.words("hold-air-end"), "end", end_c, set_end),
        notice(corrected, key="corrected"),
    ]
    word = view.words("hold-air-keep")
    save = tapped(taps.hold_taps.record_temperature, step.id, hold.began, start_c, end_c)
    keep = wide_button(word, save, key="save_air", icon=ft.Icons.SAVE, height=72)
    bar = top_bar(view.words, view.words.text(step.title), back=view.opens(""))
    return page_column(bar, body, [keep])


def _dial(
    words: Words, word: str, name: str, value_c: float, change: Callable[[float], None]
) -> ft.Control:
    """Show a temperature and four taps that move it, by degrees of the reader's unit."""
    degree_c = 5.0 / 9.0 if words.units.length == "in" else 1.0

    def move(by: int) -> ft.Control:
        to_c = min(_MOST_C, max(_LEAST_C, value_c + by * degree_c))
        key = f"{name}_{'plus' if by > 0 else 'minus'}_{abs(by)}"
        return button(f"{by:+d}", lambda: change(to_c), key=key, expand=True, height=60)

    temperature = words.quantity(Quantity(value=value_c, unit="celsius"))
    figure = label(temperature, size=ANSWER, bold=True, key=f"{name}_c")
    apart = ft.MainAxisAlignment.SPACE_BETWEEN
    head = ft.Row([label(word, bold=True), figure], alignment=apart)
    return ft.Column([head, ft.Row([move(by) for by in _MOVES_C], spacing=8)], spacing=4)
