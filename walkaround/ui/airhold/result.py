"""An air hold before and after it runs: start it, then see what it showed and answer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import flet as ft

from walkaround.airhold.hold import Hold, final_verdict
from walkaround.airhold.verdict import Assessment, Verdict
from walkaround.plan.steps import Step
from walkaround.rules.limits import Line
from walkaround.ui.airhold.running import charts
from walkaround.ui.kit.buttons import answer_zone, button, defect_zone, ok_zone
from walkaround.ui.kit.parts import card, caution, notice
from walkaround.ui.kit.text import words
from walkaround.ui.kit.theme import ANSWER, GAP, LOW_TOUCH, SMALL, TOUCH, Palette
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.state import Walk
from walkaround.words.air_hold import (
    also_words,
    corrected_text,
    hold_bounds,
    hold_ending,
    limit_words,
    plain_rule,
    rate_words,
    span_words,
)
from walkaround.words.leak import leak_text

_CHART_PX = 150.0
_FACES: Mapping[Verdict, tuple[str, ft.IconData]] = {
    "within": ("Within", ft.Icons.CHECK_CIRCLE),
    "over": ("Over", ft.Icons.REPORT),
    "undecided": ("Undecided", ft.Icons.HELP),
    "settling": ("Settling", ft.Icons.HOURGLASS_BOTTOM),
}
"""Each verdict's word and shape."""


def hold_body(view: View, walk: Walk, step: Step) -> Sequence[ft.Control]:
    """What stands under the step's words: why a hold was void, or its result."""
    hold = walk.holds.get(step.id)
    if hold is None or hold.running:
        return []
    if hold.void:
        return [caution(view.words.text(hold.void), view.palette)]
    results = hold.results()
    return [
        *_ending(view, hold),
        *[_result(view, hold, line, results[line]) for line in _worst_first(results)],
        charts(view, hold, results, hold.ended_s, _CHART_PX),
        *_besides(view, walk, hold),
    ]


def _worst_first(results: Mapping[Line, Assessment]) -> list[Line]:
    """What decides the answer is seen without scrolling."""
    return sorted(results, key=lambda line: final_verdict(results[line]) == "within")


def _ending(view: View, hold: Hold) -> Sequence[ft.Control]:
    told = hold_ending(hold, view.words)
    if not told:
        return []
    if hold.ended == "settling":
        return [caution(told, view.palette)]
    return [notice(told, view.palette, key="how_ended")]


def _result(view: View, hold: Hold, line: Line, found: Assessment) -> ft.Control:
    """One gauge: the verdict by word and shape, its rate, the plain rule result beside it."""
    colours, units = view.palette, view.settings.units
    word, icon = _FACES[found.verdict]
    colour = _colour(found.verdict, colours)
    if found.verdict == "undecided":
        rate = span_words(found, view.words)
    else:
        rate = rate_words(found.rate_psi_per_min, units.pressure)
    faced: list[ft.Control] = [
        ft.Icon(icon, size=36, color=colour),
        words(word, colour, ANSWER - 2, bold=True),
        *([] if found.verdict == "settling" else [words(rate, colours.ink, bold=True)]),
    ]
    told: list[ft.Control] = [
        words(f"{line.capitalize()} gauge", colours.quiet_ink, SMALL, bold=True),
        ft.Row(faced, spacing=10, wrap=True, vertical_alignment=ft.CrossAxisAlignment.CENTER),
        words(plain_rule(found, hold.rule, view.words), colours.ink),
    ]
    if found.verdict in ("within", "over"):
        told.append(
            words(hold_bounds(found, hold.gauge(line), view.words), colours.quiet_ink, SMALL)
        )
    return card(ft.Column(told, spacing=2), colours, key=f"result_{line}")


def _colour(verdict: Verdict, colours: Palette) -> str:
    return {"within": colours.ok, "over": colours.bad}.get(verdict, colours.ink)


def _besides(view: View, walk: Walk, hold: Hold) -> Sequence[ft.Control]:
    """The limit and its source, the leak in plain terms, what the air's temperature did."""
    colours, settings = view.palette, view.settings
    assert walk.plan is not None
    told = [
        limit_words(hold.rule, view.words),
        also_words(hold.rule, view.words),
        leak_text(hold, walk.plan, view.words, settings.altitude_m),
    ]
    if hold.air_c:
        told.append(corrected_text(hold, hold.air_c, view.words, settings.altitude_m))
    shown: list[ft.Control] = [words(text, colours.ink, SMALL) for text in told if text]
    if view.peek:
        return shown

    async def air() -> None:
        view.open("air")

    thermometer = ft.Icons.THERMOSTAT
    temperature = button("Air temperature", colours, air, key="air_button", icon=thermometer)
    return [*shown, ft.Row([temperature])]


def hold_answers(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """Start; or, once there is a result, the one answer it allows and the way to hold again."""
    colours = view.palette
    hold = walk.holds.get(step.id)

    async def start() -> None:
        await taps.hold_taps.begin(step.id, hold.began if hold else None)

    async def ok() -> None:
        await taps.answer(step.id, "ok")

    async def defect() -> None:
        await taps.answer(step.id, "defect")

    if view.peek:
        return ft.Row([])
    height = LOW_TOUCH if view.device.low else TOUCH
    if hold is None or hold.void or hold.ended == "settling":
        word = "Hold again" if hold else "Start the minute"
        start_zone = answer_zone(
            word,
            ft.Icons.TIMER,
            colours.accent,
            colours.on_accent,
            start,
            key="start_hold",
            height=height,
        )
        return ft.Row([start_zone])
    again = answer_zone(
        "Hold again",
        ft.Icons.REPLAY,
        colours.other,
        colours.on_other,
        start,
        key="again_hold",
        height=height,
        line=colours.line,
    )
    if hold.over():
        found = defect_zone(colours, defect, height=height)
    else:
        found = ok_zone(colours, ok, height=height)
    return ft.Row([again, found], spacing=GAP)
