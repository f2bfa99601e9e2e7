"""The step that asks what the walk's gauges are like, and whether they stand at zero.

What is known from the last walk is taken over with one tap.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from functools import partial
from typing import cast

import flet as ft

from walkaround.airhold.gauge import GAUGE_STEPS, Gauge
from walkaround.base.units import LengthUnit, PressureUnit, to_psi
from walkaround.bootstrap import today
from walkaround.plan.steps import Plan, Step
from walkaround.rules.limits import Line
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, stretched
from walkaround.ui.kit.scale import fitting_size as asked_px
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BODY, GAP, LOW_TOUCH, QUIET, SMALL, Tone
from walkaround.ui.kit.zones import answer_zone, choice, in_rows, ok_zone, tile
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.state import Walk
from walkaround.words.air_hold import gauge_name
from walkaround.words.leak import altitude_text, altitude_words

COARSE_PSI = 5.0
"""On marks as far apart as this, tapping as the needle crosses one tells more than a number."""
EXAMPLE_PSI = 100.0
"""The pressure by which is shown what altitude does."""
_ALTITUDES_M = (-500.0, 6000.0)
_MOVES: Mapping[LengthUnit, tuple[str, tuple[int, ...]]] = {
    "mm": ("m", (-100, -10, 10, 100)),
    "in": ("ft", (-500, -50, 50, 500)),
}
"""How far one tap moves the site, in which unit."""
_METRES_IN = {"m": 1.0, "ft": 0.3048}
_SLACK_PSI = 0.1
_ASKED_PX = 24.0
"""A question above what is chosen is drawn no larger."""

Told = Mapping[Line, Gauge]


def gauges_parts(
    view: View, taps: WalkTaps, walk: Walk, step: Step
) -> tuple[list[ft.Control], ft.Control]:
    """Tell what stands under the words of the gauges' step, and what under the thumb.

    It remembers what was told so far, so the step's screen calls it at each drawing.
    """
    plan = walk.plan
    assert plan is not None
    anew, set_anew = use_unfinished(view.unfinished, "told", cast(Told, {}))
    last = {line: view.settings.gauge(plan.vehicle, plan.air, line) for line in plan.gauges}
    before: Told = {
        line: last_gauge.gauge for line, last_gauge in last.items() if last_gauge is not None
    }
    gauges = {**(walk.told_gauges.gauges if walk.told_gauges else before), **anew}
    editing, set_editing = use_unfinished(view.unfinished, "editing", "")
    site_m, set_site = use_unfinished(view.unfinished, "site", view.settings.altitude_m)
    missing = next((line for line in plan.gauges if line not in gauges), None)
    line_asked = next((line for line in plan.gauges if line == editing), missing)

    def accept(line: Line, gauge: Gauge) -> None:
        set_anew({**anew, line: gauge})
        set_editing("")

    tiles = [
        _tile(view, line, gauges.get(line), line == line_asked, set_editing) for line in plan.gauges
    ]
    body = [in_rows(tiles, 2)]
    if view.peek:
        return body, ft.Row([])
    if line_asked is not None:
        return body, _Marks(
            view, line_asked, gauges.get(line_asked), accept, key=f"marks_{line_asked}"
        )
    body.append(_site(view, plan, gauges, site_m, set_site))
    return body, _answers(view, taps, plan, step, gauges, site_m)


def _tile(
    view: View, line: Line, gauge: Gauge | None, is_asked: bool, edit: Callable[[str], None]
) -> ft.Control:
    """Show one gauge as it was described; a tap describes it anew."""
    tone = Tone.ACCENT if is_asked else Tone.PLAIN
    figure = f"{gauge.step:g} {gauge.unit}" if gauge else "…"
    by_crossings = gauge is not None and gauge.crossing
    name = view.words(
        "gauge-by-crossings" if by_crossings else "gauge-plain", gauge=gauge_name(line)
    )
    icon = ft.Icons.EDIT if is_asked or gauge is None else ft.Icons.SPEED

    def anew() -> None:
        if not view.peek:
            edit(line)

    return tile(figure, name, icon, anew, key=f"gauge_{line}", tone=tone)


def _question(text: str) -> ft.Control:
    return label(text, size=asked_px(BODY, _ASKED_PX), bold=True)


@screen
def _Marks(
    view: View, line: Line, gauge: Gauge | None, accept: Callable[[Line, Gauge], None]
) -> ft.Control:
    """Ask for unit and marks of one gauge; of coarse marks also how it is read."""
    before = (gauge.unit, gauge.step) if gauge else (view.settings.pressure, 0.0)
    (unit, step), set_dial = ft.use_state(before)

    def chosen(mark: float) -> Tap:
        def choose() -> None:
            if is_coarse(mark, unit):
                # Another tap on it brings back the units, where they had to go.
                set_dial((unit, 0.0 if mark == step else mark))
            else:
                accept(line, Gauge(name=line, unit=unit, step=mark))

        return choose

    units: list[tuple[str, str, Tap]] = [
        (f"unit_{each}", each, partial(set_dial, (each, 0.0))) for each in GAUGE_STEPS
    ]
    marks = [
        chip(view.words, f"{mark:g}", chosen(mark), key=f"mark_{mark:g}", on=mark == step)
        for mark in GAUGE_STEPS[unit]
    ]
    dial = view.words("gauge-dial-in", gauge=gauge_name(line))
    asks_unit = [_question(dial), choice(units, f"unit_{unit}")]
    rows = [_question(view.words("gauge-finest")), grid(marks, 4)]
    crowded = view.device.low or view.device.flat or view.device.text_scale > 1
    if not (crowded and step in GAUGE_STEPS[unit]):
        rows = [*asks_unit, *rows]
    if step in GAUGE_STEPS[unit] and is_coarse(step, unit):

        def way(crossing: bool) -> Tap:
            return lambda: accept(line, Gauge(name=line, unit=unit, step=step, crossing=crossing))

        crossed, read = view.words("gauge-tap-crossing"), view.words("gauge-read-nearest")
        rows += [
            wide_button(crossed, way(True), key="crossing", height=84),
            wide_button(read, way(False), key="by_number", height=64),
        ]
    return stretched(rows, 8)


def is_coarse(step: float, unit: PressureUnit) -> bool:
    """Tell whether marks so far apart are better tapped as the needle crosses them."""
    return to_psi(step, unit) >= COARSE_PSI - _SLACK_PSI


def _site(
    view: View, plan: Plan, gauges: Told, site_m: float, set_site: Callable[[float], None]
) -> ft.Control:
    """Show how high the site is, and what that does to a gauge."""
    seen_m = seen_at_m(view, plan, gauges, site_m)

    least, most = _ALTITUDES_M

    unit, moves = _MOVES[view.settings.length]

    def moved(by: int) -> ft.Control:
        word = view.words(f"gauge-move-{unit}", by=f"{by:+d}".replace("-", "−"))
        to_m = site_m + by * _METRES_IN[unit]
        to_m = min(most, max(least, to_m))
        return chip(view.words, word, lambda: set_site(to_m), key=f"site_{by}")

    keys = [moved(by) for by in moves]
    site = view.words("gauge-site", altitude=altitude_text(site_m))
    rows: list[ft.Control] = [
        label(site, bold=True, key="site"),
        grid(keys, 4),
    ]
    from_m = 0.0 if seen_m is None else seen_m
    if from_m != site_m:
        told_of = altitude_words(EXAMPLE_PSI, from_m, site_m, view.words)
        rows.append(label(told_of, QUIET, SMALL, key="altitude"))
    return card(ft.Column(rows, spacing=8))


def seen_at_m(view: View, plan: Plan, gauges: Told, site_m: float) -> float | None:
    """Return how high every gauge's zero was seen, m, the furthest from here; None if not all."""
    altitudes: list[float] = []
    for line, gauge in gauges.items():
        last_gauge = view.settings.gauge(plan.vehicle, plan.air, line)
        if last_gauge is None or last_gauge.gauge != gauge or last_gauge.zero_at_m is None:
            return None
        altitudes.append(last_gauge.zero_at_m)
    return max(altitudes, key=lambda at_m: abs(at_m - site_m), default=None)


def _answers(
    view: View, taps: WalkTaps, plan: Plan, step: Step, gauges: Told, site_m: float
) -> ft.Control:
    seen_m = seen_at_m(view, plan, gauges, site_m)

    now = today(view.parts.clock)
    still = view.settings.gauges_at_zero(plan.vehicle, plan.air, site_m, now)

    def tells(zero_at_m: float, zero_on: date | None) -> Tap:
        return tapped(taps.value_taps.record_gauges, step.id, gauges, site_m, zero_at_m, zero_on)

    question, word = view.words("gauge-zero-asked"), view.words("gauge-at-zero")
    zero_at_m = site_m
    if seen_m is not None and gauges.items() <= still.items():
        question = view.words("gauge-zero-seen", altitude=altitude_text(seen_m))
        word, zero_at_m = view.words("gauge-as-last-time"), seen_m
    right = ok_zone(
        view.words,
        tells(zero_at_m, now),
        word=word,
        height=LOW_TOUCH,
        autofocus=True,
        across=2 if view.device.flat else 1,
    )
    off, icon, tap = view.words("gauge-not-at-zero"), ft.Icons.REPORT, tells(site_m, None)
    question_label = label(question, size=asked_px(BODY, _ASKED_PX), bold=True, key="zero")
    if view.device.flat:
        wrong = answer_zone(off, icon, tap, key="defect", tone=Tone.BAD, height=LOW_TOUCH, across=2)
        return stretched([question_label, ft.Row([wrong, right], spacing=GAP)], tight=True)
    wrong = wide_button(off, tap, key="defect", icon=icon, bad=True, height=64)
    return stretched([question_label, wrong, ft.Row([right])], tight=True)
