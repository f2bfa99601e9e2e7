"""A sheet over the lower part of a screen, and what is chosen on it: lists, grids, steps.

The screen underneath stays as it was, and where it was scrolled to.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import flet as ft

from walkaround.ui.kit.buttons import icon_button
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.scale import fitting_size, tall
from walkaround.ui.kit.surface import Tap, style, surface
from walkaround.ui.kit.text import FITS, heading, label
from walkaround.ui.kit.theme import COLUMN_PX, RADIUS, SMALL, SMALL_TOUCH, Tone
from walkaround.ui.kit.zones import in_rows, radio_icon
from walkaround.words.language import Words

_CHIP_TEXT, _CHIP_PX = 18, 26.0
"""Size of words on a chip, and the largest that they are drawn, px."""
QUESTION_PX = 330
"""Height of a sheet with a question and two answers."""
_SHARE = 0.86
"""How much of the page's height a sheet takes at most."""


def sheet(
    words: Words,
    title: str,
    body: Sequence[ft.Control],
    close: Tap,
    *,
    page_px: float,
    height: float = math.inf,
) -> ft.BottomSheet:
    """Ask something over the screen; it closes when the screen beside it is tapped, too.

    Args:
        page_px: height of the page.
        height: how high the sheet is, px, unless the page is too low for that.
    """
    top = ft.Row(
        [
            ft.Container(heading(title), expand=True),
            icon_button(ft.Icons.CLOSE, words("close-sheet"), close, key="close_sheet"),
        ]
    )
    return ft.BottomSheet(
        content=ft.Container(
            stretched([top, *body], tight=True, scroll=True),
            padding=ft.Padding.only(left=16, right=16, top=8, bottom=20),
        ),
        bgcolor=ft.Colors.SURFACE,
        scrollable=True,
        shape=ft.RoundedRectangleBorder(radius=RADIUS),
        size_constraints=ft.BoxConstraints(
            max_width=COLUMN_PX, max_height=min(height, _SHARE * page_px)
        ),
        on_dismiss=close,
    )


def option_line(word: str, tap: Tap, *, key: str, on: bool = False, about: str = "") -> ft.Control:
    """Make one option of a list, with a line about it; `on` is the one chosen."""
    lines: list[ft.Control] = [label(word, bold=True)]
    if about:
        lines.append(label(about, size=SMALL))
    text = ft.Column(lines, spacing=2, tight=True, expand=True)
    return ft.Button(
        content=ft.Row([ft.Icon(radio_icon(on), size=26), text], spacing=12),
        elevation=0,
        style=style(Tone.ACCENT if on else Tone.PLAIN, (14, 15)),
        on_click=tap,
        key=key,
    )


def chip(
    words: Words,
    word: str,
    tap: Tap,
    *,
    key: str,
    on: bool = False,
    icon: ft.IconData | None = None,
    name: str = "",
) -> ft.Control:
    """Make one of several in a grid; `on` is chosen; `name` is said where the word is short."""
    icon_shown = ft.Icons.CHECK if on else icon
    size = fitting_size(_CHIP_TEXT, _CHIP_PX)
    word_label = label(word, size=size, bold=True, max_lines=2)
    if len(word) > FITS:
        word_label.text_align = ft.TextAlign.CENTER
    if on:
        word_label.semantics_label = words("chip-chosen", name=name or word)
    elif name:
        word_label.semantics_label = name
    face: ft.Control = word_label
    if icon_shown:
        # A long word breaks beside its picture instead of running out of the chip.
        word_label.expand, word_label.expand_loose = True, True
        row = [ft.Icon(icon_shown, size=20), word_label]
        face = ft.Row(list(row), spacing=4, tight=True, alignment=ft.MainAxisAlignment.CENTER)
    tone = Tone.ACCENT if on else Tone.PLAIN
    height = tall(SMALL_TOUCH + 4, size, 2, 10)
    return surface(face, tap, key=key, height=height, tone=tone)


def grid(chips: Sequence[ft.Control], columns: int) -> ft.Control:
    """Put chips side by side in rows of `columns`, all of the same width."""
    missing = -len(chips) % columns
    return in_rows([*chips, *(ft.Container(expand=True) for _ in range(missing))], columns)
