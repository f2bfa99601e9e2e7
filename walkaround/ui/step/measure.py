"""A step that takes values: off a gauge or a rule by two taps, or a time by stopwatch.

Its own part of the step screen: what is read and the limit among the words, and under the thumb
the keys, then the answers that the values allow.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import flet as ft

from walkaround.plan.steps import Step
from walkaround.plan.values import Measure, Value
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import caution, notice, stretched
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import ANSWER, BAD, GAP, GOOD, QUIET, SMALL, Tone
from walkaround.ui.kit.zones import defect_zone, in_rows, ok_zone, tile
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.step.keypad import keypad
from walkaround.ui.step.timed import running_time, start_zone, stop_zone
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.measured_values import judge_value, outcome
from walkaround.walk.state import Walk
from walkaround.walk.timers import running_since
from walkaround.walk.transitions import recheck_stands
from walkaround.words.measured_values import (
    apart_at,
    apart_text,
    judged_text,
    limit_text,
    next_value,
    reading_order,
    value_text,
    within_text,
)


def measure_parts(
    view: View, taps: WalkTaps, walk: Walk, step: Step
) -> tuple[list[ft.Control], ft.Control]:
    """Tell what stands under the words of a step that takes values, and what under the thumb.

    It remembers which value is entered again, so a step's screen calls it at each drawing.
    """
    measure = step.measure
    assert measure is not None
    again_id, set_again = use_unfinished(view.unfinished, "again", "")
    readings = walk.measured.get(step.id, {})
    began = running_since(walk, step)
    anew = next((value for value in measure.values if value.id == again_id), None)
    value_asked = anew or next_value(measure, readings)
    order = reading_order(measure) if readings else []
    tiles = [_tile(view, walk, step, value, value is value_asked, set_again) for value in order]
    body = [*([in_rows(tiles, 2)] if tiles else []), *_limits(view, walk, measure)]

    if view.peek:
        outcome_rows = _outcome_rows(view, walk, step)
        return [*outcome_rows, *body], _looking_back(view, taps, walk, step)
    if began is not None:
        return [*body, running_time(view, began)], stop_zone(view, taps, step, began)
    if value_asked is None:
        answers = _answers(view, taps, walk, step, set_again)
        return [*_outcome_rows(view, walk, step), *body], answers
    if measure.quantity == "s" and not again_id:
        return body, start_zone(view, taps, step)

    async def entered(value: float, unit: str) -> None:
        if await taps.value_taps.record_value(
            step, value_asked.id, value, unit, before=readings.get(value_asked.id)
        ):
            set_again("")

    return body, keypad(view, taps, walk, step, value_asked, entered, key=f"pad_{value_asked.id}")


def _limits(view: View, walk: Walk, measure: Measure) -> list[ft.Control]:
    """Write the limit, and what else is published, in the unit that is read."""
    units = view.settings.units
    if gauge := measure.values[0].gauge:
        units = units._replace(pressure=walk.gauge(gauge).unit)
    words = view.words.shown_in(units)
    text = limit_text(measure, words)
    if not measure.known:
        return [notice(text, key="limit")]
    also = [label(words("measure-also", also=other), QUIET, SMALL) for other in measure.also]
    return [*([label(text, bold=True, key="limit")] if text else []), *also]


def _tile(
    view: View, walk: Walk, step: Step, value: Value, is_asked: bool, enter: Callable[[str], None]
) -> ft.Control:
    """Show a value that is in, to be entered again with a tap, or one still missing."""
    readings = walk.measured.get(step.id, {})
    assert step.measure is not None
    verdict = judge_value(step.measure, value, readings)
    outside = verdict in ("over", "under")
    tone = Tone.ACCENT if is_asked else Tone.PLAIN
    if outside and not is_asked:
        tone = Tone.BAD
    icon = ft.Icons.EDIT
    if not is_asked and verdict not in ("unbounded", "unmeasured"):
        icon = ft.Icons.REPORT if outside else ft.Icons.CHECK_CIRCLE
    figure = value_text(readings[value.id]) if value.id in readings else "…"

    def enter_again() -> None:
        if not view.peek:
            enter(value.id)

    name = view.words.text(value.name)
    return tile(figure, name, icon, enter_again, key=f"value_{value.id}", tone=tone)


def _bounds(measure: Measure) -> str:
    """Tell whether its values have a lower bound, an upper one, or both."""
    low = any(value.at_least is not None for value in measure.values)
    high = any(value.at_most is not None for value in measure.values)
    return "both" if low and high else "low" if low else "high"


def _outcome_rows(view: View, walk: Walk, step: Step) -> list[ft.Control]:
    """Show what all values together come to: large, then each in words, then what to do."""
    measure, readings = step.measure, walk.measured.get(step.id, {})
    assert measure is not None
    rows = list[ft.Control]()
    verdict = outcome(measure, readings)
    if verdict in ("within", "outside"):
        within = verdict == "within"
        color = GOOD if within else BAD
        icon = ft.Icons.CHECK_CIRCLE if within else ft.Icons.REPORT
        outside = view.words("measure-outside", bounds=_bounds(measure))
        word = within_text(measure, readings, view.words) if within else outside
        outcome_label = label(word, color, ANSWER, bold=True, key="outcome")
        outcome_label.expand = True
        rows.append(ft.Row([ft.Icon(icon, size=40, color=color), outcome_label], spacing=10))
    several = len(measure.values) > 1
    for value in measure.values:
        if value.id in readings:
            text = judged_text(measure, value, readings, view.words)
            if several:
                text = view.words("measure-value", name=value.name, judged=text)
            rows.append(label(text))
    if verdict == "outside" and measure.advice:
        rows.append(caution(view.words.text(measure.advice), SMALL + 1))
    if apart := apart_at(walk, step):
        text = apart_text(apart, view.words)
        rows.append(caution(text, SMALL + 1) if apart.much else label(text, QUIET, SMALL))
    return rows


def _answers(
    view: View, taps: WalkTaps, walk: Walk, step: Step, enter: Callable[[str], None]
) -> ft.Control:
    """Offer OK if within; a defect or measuring again if outside; else not checked."""
    measure, readings = step.measure, walk.measured.get(step.id, {})
    assert measure is not None
    height = view.device.answer_px
    verdict = outcome(measure, readings)
    if verdict == "outside":
        # The first value that lies outside its bounds is the one to measure again.
        judgements = ((value.id, judge_value(measure, value, readings)) for value in measure.values)
        first = next(id_ for id_, each in judgements if each in ("over", "under"))
        timed = measure.quantity == "s"
        again_tap = (
            tapped(taps.value_taps.start_stopwatch, step, None) if timed else partial(enter, first)
        )
        word, icon, key = view.words("measure-again"), ft.Icons.REPLAY, "again_measure"
        other = wide_button(word, again_tap, key=key, icon=icon, height=72)
        zone = defect_zone(view.words, taps.answers(step.id, "defect"), height=height)
        return stretched([other, ft.Row([zone])], tight=True)
    zone = defect_zone(view.words, view.opens("fault"), height=height)
    if verdict == "within":
        right = ok_zone(view.words, taps.answers(step.id, "ok"), height=height)
        return ft.Row([zone, right], spacing=GAP)
    not_checked = taps.answers(step.id, "not_checked", reason="other")
    word = view.words("answer-not-checked")
    other = wide_button(word, not_checked, key="not_checked", icon=ft.Icons.BLOCK, height=72)
    return stretched([other, ft.Row([zone])], tight=True)


def _looking_back(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """Offer to measure again, as long as the vehicle still stands as it must."""
    if step.id not in walk.answers:
        return ft.Row([])
    if not recheck_stands(walk, step.id):
        return notice(view.words("measure-too-late"))
    again_tap = tapped(taps.revisit, step.id, "change")
    return wide_button(view.words("measure-again"), again_tap, key="reopen", icon=ft.Icons.REPLAY)
