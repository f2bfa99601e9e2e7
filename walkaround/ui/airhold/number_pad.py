"""A pad with the marks of a gauge: one tap for a near one, one more for those that are not."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from functools import partial

import flet as ft

from walkaround.airhold.correction import MOST_FALL_MARKS, MOST_RISE_MARKS
from walkaround.airhold.gauge import Gauge
from walkaround.base.units import from_psi, nearest_whole, to_psi
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.scale import fitting_size_in_row
from walkaround.ui.kit.surface import surface, tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import ANSWER, BODY, GAP, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View

SPACING_PX = 8
_KEYS_PX, _LOW_KEYS_PX = 64, 54
"""Height of a number to tap; on a low phone."""
_HEAD_PX, _HEAD_GROWS_PX = 62, 20
"""Height of what stands above the numbers; how much more it is at twice the scale."""
_FIGURE_SHARE = 0.58
"""Size of a number, of the height of its key."""
_WORD_PX = 26.0
"""Largest size of a word on a key."""
_AT_ONCE = MOST_RISE_MARKS + 1 + MOST_FALL_MARKS
"""How many numbers are in sight; none of them jumps far enough to be asked about."""


def key_px(view: View) -> int:
    """Return the height of one key on this phone, px."""
    return _LOW_KEYS_PX if view.device.low else _KEYS_PX


def pad_px(view: View) -> int:
    """Return the height of the whole pad, px."""
    grows = round(_HEAD_GROWS_PX * (view.device.text_scale - 1))
    return 3 * key_px(view) + 4 * SPACING_PX + _HEAD_PX + grows


def mark_of(gauge: Gauge, psi: float) -> int:
    """Return the number of the mark nearest to a pressure, counted from zero."""
    return nearest_whole(from_psi(psi, gauge.unit) / gauge.step)


def psi_of(gauge: Gauge, mark: int) -> float:
    """Return the pressure at the mark of this number, psi."""
    return to_psi(mark * gauge.step, gauge.unit)


@screen
def number_pad(
    view: View,
    gauge: Gauge,
    around_psi: float,
    head: Sequence[ft.Control],
    pick: Callable[[float], Awaitable[None]],
    above: int = MOST_RISE_MARKS,
) -> ft.Control:
    """Show the marks near a pressure, which is marked itself; `pick` gets the one tapped, in psi.

    So many of the marks are `above` it, the others below.
    """
    shift, set_shift = ft.use_state(0)
    around = mark_of(gauge, around_psi)

    def number(below: int) -> ft.Control:
        mark = around + above + shift - below
        if mark < 0:
            return ft.Container(expand=True)

        psi = psi_of(gauge, mark)
        mark_label, tone = gauge.label(psi), Tone.GOOD if mark == around else Tone.PLAIN
        size = fitting_size_in_row(len(mark_label), ANSWER, 3, _FIGURE_SHARE * key_px(view))
        face = label(mark_label, size=size, bold=True, max_lines=1)
        tap = tapped(pick, psi)
        return surface(face, tap, tone=tone, key=f"read_{mark_label}", height=key_px(view))

    def shifted(key: str, by: int) -> ft.Control:
        tap, word = partial(set_shift, shift + by), view.words(f"hold-{key}")
        face = label(
            word, size=fitting_size_in_row(len(word), BODY, 3, _WORD_PX), bold=True, max_lines=1
        )
        return surface(face, tap, key=key, height=key_px(view))

    rows: list[list[ft.Control]] = [
        [number(0), number(1), number(2)],
        [number(3), number(4), number(5)],
        [shifted("higher", _AT_ONCE), number(6), shifted("lower", -_AT_ONCE)],
    ]
    return stretched([*head, *(ft.Row(row, spacing=GAP) for row in rows)], SPACING_PX)
