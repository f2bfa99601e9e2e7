"""Keys on which one value is entered with two taps: first its coarse part, then its fine one."""

from __future__ import annotations

import math
from collections.abc import Awaitable, Callable, Sequence
from typing import NamedTuple, cast

import flet as ft

from walkaround.airhold.gauge import Gauge
from walkaround.base.units import from_in, from_psi
from walkaround.plan.steps import Measure, Step, Value
from walkaround.settings import Settings
from walkaround.ui.kit.buttons import Tap, button, icon_button, surface
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BODY, SMALL_TOUCH, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.keypad import Key, PadUnit, coarse_keys, fine_keys
from walkaround.walk.state import Walk

KEY_TEXT = 24
# The largest values that need be entered: psi, inches, seconds.
_MOST_PSI = 150.0
_MOST_IN = 3.5
_MOST_S = 150.0
_COLUMNS = 4
_ROWS = 4


class _Scale(NamedTuple):
    """In what a value is entered: its unit, the marks told apart, from where to where."""

    unit: PadUnit
    step: float
    start: float
    most: float


@screen
def keypad(
    view: View,
    taps: WalkTaps,
    walk: Walk,
    step: Step,
    value: Value,
    entered: Callable[[float, str], Awaitable[None]],
) -> ft.Control:
    """The keys for one value; a defect can be told instead, where there is nothing to read."""
    coarse, set_coarse = ft.use_state(cast(float | None, None))
    measure = step.measure
    assert measure is not None
    scale = _scale(measure, walk.gauge(value.gauge) if value.gauge else None, view.settings)

    name = view.words.text(value.name)

    def first(key: Key) -> Tap:
        async def tapped() -> None:
            if taps.too_soon():
                return
            if fine_keys(measure.quantity, scale.unit, scale.step, key.value):
                taps.appear()
                set_coarse(key.value)
            else:
                await entered(key.value, scale.unit)

        return tapped

    def second(key: Key) -> Tap:
        async def tapped() -> None:
            if not taps.too_soon():
                await entered(key.value, scale.unit)

        return tapped

    if coarse is None:
        keys = coarse_keys(measure.quantity, scale.unit, scale.step, scale.most)
        near = max((key for key in keys if key.value <= scale.start), default=keys[0])
        rows = _rows([(key, _coarse_word(scale, key), first(key)) for key in keys], near)
        top = _top(view, view.words("keypad-in", name=name, unit=scale.unit), None)
    else:
        keys = fine_keys(measure.quantity, scale.unit, scale.step, coarse)
        rows = _rows([(key, _fine_word(scale, key), second(key)) for key in keys], None)
        if scale.unit == "in":
            word = view.words("keypad-whole", name=name, whole=f"{coarse:g}")
        else:
            word = view.words("keypad-in", name=name, unit=scale.unit)
        top = _top(view, word, lambda: set_coarse(None))
    return stretched([top, *rows], 8, tight=True)


def _scale(measure: Measure, gauge: Gauge | None, settings: Settings) -> _Scale:
    if gauge is not None:
        start, most = from_psi(measure.start, gauge.unit), from_psi(_MOST_PSI, gauge.unit)
        return _Scale(gauge.unit, gauge.step, start, most)
    if measure.quantity == "in":
        unit = settings.length
        return _Scale(unit, 1.0, from_in(measure.start, unit), from_in(_MOST_IN, unit))
    return _Scale("s", 1.0, measure.start, _MOST_S)


def _coarse_word(scale: _Scale, key: Key) -> str:
    """A whole part that the fine one is added to is followed by dots."""
    return f"{key.label} …" if scale.unit == "in" else key.label


def _fine_word(scale: _Scale, key: Key) -> str:
    """The whole value; of inches the fraction, the whole ones stand above."""
    return f"{key.value:g}" if scale.unit == "in" and key.label == "0" else key.label


def _rows(keys: Sequence[tuple[Key, str, Tap]], near: Key | None) -> list[ft.Control]:
    columns = max(_COLUMNS, math.ceil(len(keys) / _ROWS))
    drawn = [_key(key, word, tap, key is near) for key, word, tap in keys]
    rows = [drawn[at : at + columns] for at in range(0, len(drawn), columns)]
    rows[-1] += [ft.Container(expand=True) for _ in range(columns - len(rows[-1]))]
    return [ft.Row(list(row), spacing=8) for row in rows]


def _key(key: Key, word: str, tap: Tap, near: bool) -> ft.Control:
    return surface(
        label(word, size=KEY_TEXT, bold=True, max_lines=1),
        tap,
        key=f"key_{key.value:g}",
        height=SMALL_TOUCH,
        tone=Tone.ACCENT if near else Tone.PLAIN,
        padding=(2, 2),
    )


def _top(view: View, word: str, back: Tap | None) -> ft.Control:
    """What is entered, and the way back to its coarse part or out to a defect."""
    title = label(word, size=BODY + 2, bold=True, max_lines=2)
    if back is not None:
        arrow = icon_button(
            ft.Icons.ARROW_BACK, view.words("keypad-other-keys"), back, key="coarse"
        )
        return ft.Row([arrow, ft.Container(title, expand=True)], spacing=4)
    defect = button(
        view.words("answer-defect"),
        view.opens("fault"),
        key="defect",
        icon=ft.Icons.REPORT,
        tone=Tone.BAD,
        height=48,
    )
    return ft.Row([ft.Container(title, expand=True), defect], spacing=8)
