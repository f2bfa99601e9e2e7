"""A sheet over the lower part of a screen, and what is chosen on it: lists, grids, steps.

The screen underneath stays as it was, and where it was scrolled to.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import flet as ft

from walkaround.ui.kit.buttons import Tap, icon_button, surface
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import BODY, COLUMN_PX, GAP, RADIUS, SMALL, SMALL_TOUCH, flet_theme
from walkaround.ui.page.view import View

_CHIP_TEXT = 18
QUESTION_PX = 330
"""Height of a sheet with a question and two answers."""
_SHARE = 0.86
"""How much of the page's height a sheet takes at most."""


def sheet(
    view: View, title: str, body: Sequence[ft.Control], close: Tap, *, height: float = math.inf
) -> ft.BottomSheet:
    """What is asked, over the screen; it closes when the screen beside it is tapped, too.

    Args:
        height: how high it is, px, unless the page is too low for that.
    """
    colours = view.palette
    top = ft.Row(
        [
            ft.Container(heading(title, colours), expand=True),
            icon_button(ft.Icons.CLOSE, "Close", colours, close, key="close_sheet"),
        ]
    )
    column = ft.Column(
        [top, *body],
        spacing=GAP,
        tight=True,
        scroll=ft.ScrollMode.AUTO,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )
    return ft.BottomSheet(
        content=ft.Container(
            column,
            padding=ft.Padding.only(left=16, right=16, top=8, bottom=20),
            theme=flet_theme(colours),
            theme_mode=ft.ThemeMode.DARK if colours.dark else ft.ThemeMode.LIGHT,
        ),
        bgcolor=colours.page,
        scrollable=True,
        shape=ft.RoundedRectangleBorder(radius=RADIUS),
        size_constraints=ft.BoxConstraints(
            max_width=COLUMN_PX, max_height=min(height, _SHARE * view.device.height)
        ),
        on_dismiss=close,
    )


def option_line(
    view: View, word: str, tap: Tap, *, key: str, on: bool = False, about: str = ""
) -> ft.Control:
    """One option of a list, with a line about it; `on` is the one chosen."""
    colours = view.palette
    ground, ink = (colours.accent, colours.on_accent) if on else (colours.other, colours.on_other)
    icon = ft.Icons.RADIO_BUTTON_CHECKED if on else ft.Icons.RADIO_BUTTON_UNCHECKED
    lines: list[ft.Control] = [words(word, ink, BODY, bold=True)]
    if about:
        lines.append(words(about, ink, SMALL))
    text = ft.Column(lines, spacing=2, tight=True, expand=True)
    return ft.Button(
        content=ft.Row([ft.Icon(icon, size=26, color=ink), text], spacing=12),
        bgcolor=ground,
        color=ink,
        elevation=0,
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=RADIUS),
            side=ft.BorderSide(1, colours.line),
            padding=ft.Padding.symmetric(horizontal=14, vertical=15),
        ),
        on_click=tap,
        key=key,
    )


def chip(
    view: View,
    word: str,
    tap: Tap,
    *,
    key: str,
    on: bool = False,
    icon: ft.IconData | None = None,
    name: str = "",
) -> ft.Control:
    """One of several in a grid; `on` is chosen; `name` is said where the word is too short."""
    colours = view.palette
    ground, ink = (colours.accent, colours.on_accent) if on else (colours.other, colours.on_other)
    shown = ft.Icons.CHECK if on else icon
    label = words(word, ink, _CHIP_TEXT, bold=True, max_lines=2)
    label.text_align = ft.TextAlign.CENTER
    if name or on:
        label.semantics_label = f"{name or word}{', chosen' if on else ''}"
    parts: list[ft.Control] = [ft.Icon(shown, size=20, color=ink)] if shown else []
    face = ft.Row(
        [*parts, ft.Container(label, expand=not parts and None)],
        spacing=4,
        tight=True,
        alignment=ft.MainAxisAlignment.CENTER,
    )
    height = SMALL_TOUCH + 4
    return surface(face, ground, ink, tap, key=key, height=height, line=colours.line)


def grid(chips: Sequence[ft.Control], columns: int) -> ft.Control:
    """Chips side by side, so many in a row."""
    rows = [list(chips[at : at + columns]) for at in range(0, len(chips), columns)]
    if rows:
        rows[-1] += [ft.Container(expand=True) for _ in range(columns - len(rows[-1]))]
    return ft.Column([ft.Row(row, spacing=8) for row in rows], spacing=8)
