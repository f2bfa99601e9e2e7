"""An air hold before and after its minute: start it, then see what it showed and answer."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from walkaround.airhold import Assessment
from walkaround.prompts import hold_bounds, hold_result
from walkaround.state import Walk
from walkaround.steps import Step
from walkaround.ui.buttons import answer_zone, defect_zone, ok_zone
from walkaround.ui.parts import card, caution
from walkaround.ui.text import words
from walkaround.ui.theme import ANSWER, GAP, SMALL
from walkaround.ui.view import View
from walkaround.ui.walker import Walker


def hold_body(view: View, walk: Walk, step: Step) -> Sequence[ft.Control]:
    """What stands under the step's words: why a hold was void, or its result."""
    hold = walk.holds.get(step.id)
    if hold is None or hold.running:
        return []
    if hold.void:
        return [caution(hold.void, view.palette)]
    limit = hold.rule.limit_psi_per_min
    return [_result(view, gauge, found, limit) for gauge, found in hold.results().items()]


def _result(view: View, gauge: str, found: Assessment, limit: float) -> ft.Control:
    colours = view.palette
    within = found.rule_verdict == "within"
    colour = colours.ok if within else colours.bad
    icon = ft.Icons.CHECK_CIRCLE if within else ft.Icons.REPORT
    rate = f"{found.rule_rate_psi_per_min:.1f} psi/min"
    return card(
        ft.Column(
            [
                ft.Row(
                    [
                        ft.Icon(icon, size=40, color=colour),
                        words("Within" if within else "Over", colour, ANSWER, bold=True),
                        words(rate, colours.ink, ANSWER, bold=True),
                    ],
                    spacing=10,
                    wrap=True,
                ),
                words(hold_result(gauge, found, limit), colours.ink),
                words(hold_bounds(found), colours.quiet_ink, SMALL),
            ],
            spacing=4,
        ),
        colours,
        key=f"result_{gauge}",
    )


def hold_answers(view: View, walker: Walker, walk: Walk, step: Step) -> ft.Control:
    """Start; or, once there is a result, the one answer it allows and the way to hold again."""
    colours = view.palette
    hold = walk.holds.get(step.id)

    async def start() -> None:
        await walker.begin_hold(step.id)

    async def ok() -> None:
        await walker.answer(step.id, "ok")

    async def defect() -> None:
        await walker.answer(step.id, "defect")

    if view.peek:
        return ft.Row([])
    if hold is None or hold.void:
        word = "Hold again" if hold else "Start the minute"
        start_zone = answer_zone(
            word, ft.Icons.TIMER, colours.accent, colours.on_accent, start, key="start_hold"
        )
        return ft.Row([start_zone])
    again = answer_zone(
        "Hold again",
        ft.Icons.REPLAY,
        colours.other,
        colours.on_other,
        start,
        key="again_hold",
        line=colours.line,
    )
    found = defect_zone(colours, defect) if hold.over() else ok_zone(colours, ok)
    return ft.Row([again, found], spacing=GAP)
