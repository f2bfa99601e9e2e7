"""Keys on which one value is entered with two taps: first its coarse part, then its fine one."""

from __future__ import annotations

import math
from collections.abc import Awaitable, Callable
from typing import cast

import flet as ft

from walkaround.plan.steps import Step
from walkaround.plan.values import Value
from walkaround.ui.kit.buttons import button, icon_button
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.scale import fitting_size, fitting_size_in_row
from walkaround.ui.kit.sheet import grid
from walkaround.ui.kit.surface import Tap, surface, tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BODY, SMALL_TOUCH, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.keypad import Key, coarse_keys, fine_keys, pad_scale
from walkaround.walk.state import Walk

KEY_TEXT, _KEY_PX, _NAME_PX = 24, 30.0, 26.0
"""Size of a number on its key; the largest that it, and the name of what is read, are drawn, px."""
_COLUMNS, _FLAT_COLUMNS = 4, 6
"""Keys in a row, and beside the words on a page too low for four rows of them."""
_ROWS = 4


@screen
def keypad(
    view: View,
    taps: WalkTaps,
    walk: Walk,
    step: Step,
    value: Value,
    entered: Callable[[float, str], Awaitable[None]],
) -> ft.Control:
    """Show the keys for one value; a defect can be told instead, where there is nothing to read."""
    coarse, set_coarse = ft.use_state(cast(float | None, None))
    measure = step.measure
    assert measure is not None
    gauge = walk.gauge(value.gauge) if value.gauge else None
    scale = pad_scale(measure, gauge, view.settings.length)

    async def enter(key: Key) -> None:
        if taps.too_soon():
            return
        if coarse is None and fine_keys(measure.quantity, scale.unit, scale.step, key.value):
            taps.appear()
            set_coarse(key.value)
        else:
            await entered(key.value, scale.unit)

    def key_zone(key: Key, word: str, *, is_near: bool) -> ft.Control:
        return surface(
            label(
                word,
                size=fitting_size_in_row(len(word), KEY_TEXT, least, _KEY_PX),
                bold=True,
                max_lines=1,
            ),
            tapped(enter, key),
            key=f"key_{key.value:g}",
            height=SMALL_TOUCH,
            tone=Tone.ACCENT if is_near else Tone.PLAIN,
            padding=(2, 2),
        )

    least = _FLAT_COLUMNS if view.device.flat else _COLUMNS
    in_inches, name = scale.unit == "in", view.words.text(value.name)
    word = view.words("keypad-in", name=name, unit=scale.unit)
    if coarse is None:
        keys = coarse_keys(measure.quantity, scale.unit, scale.step, scale.most)
        nearest_key = max((key for key in keys if key.value <= scale.start), default=keys[0])
        # A whole part that the fine one is added to is followed by dots.
        after = " …" if in_inches else ""
        zones = [key_zone(key, f"{key.label}{after}", is_near=key is nearest_key) for key in keys]
        top = _top(view, word, None)
    else:
        keys = fine_keys(measure.quantity, scale.unit, scale.step, coarse)
        # The whole value; of inches the fraction, the whole ones stand above.
        whole = f"{coarse:g}"
        words = [whole if in_inches and key.label == "0" else key.label for key in keys]
        zones = [key_zone(key, text, is_near=False) for key, text in zip(keys, words, strict=True)]
        if in_inches:
            word = view.words("keypad-whole", name=name, whole=whole)
        top = _top(view, word, lambda: set_coarse(None))
    columns = max(least, math.ceil(len(zones) / _ROWS))
    return stretched([top, grid(zones, columns)], 8, tight=True)


def _top(view: View, word: str, back: Tap | None) -> ft.Control:
    """Show what is entered, and the way back to its coarse part or out to a defect."""
    title = ft.Container(
        label(word, size=fitting_size(BODY + 2, _NAME_PX), bold=True, max_lines=2), expand=True
    )
    if back is not None:
        other_keys = view.words("keypad-other-keys")
        arrow = icon_button(ft.Icons.ARROW_BACK, other_keys, back, key="coarse")
        return ft.Row([arrow, title], spacing=4)
    word, tap, icon = view.words("answer-defect"), view.opens("fault"), ft.Icons.REPORT
    defect = button(word, tap, key="defect", icon=icon, tone=Tone.BAD, height=48)
    return ft.Row([title, defect], spacing=8)
