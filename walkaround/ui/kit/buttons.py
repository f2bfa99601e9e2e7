"""Buttons of second rank: with words, with a picture alone, as wide as the page."""

from __future__ import annotations

from math import ceil

import flet as ft

from walkaround.ui.kit.scale import fitting_size, fitting_size_in_row, tall, text_scale
from walkaround.ui.kit.surface import Tap, style, surface
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import ANSWER, BODY, SMALL_TOUCH, Tone

_WORD_PX = 32.0
"""Words on a button of second rank are drawn no larger."""
_IN_LINE = 14
"""So many characters as large as that go into a line of the narrowest phone."""
_SIDES = 3
"""Its sides take as much of a row as so many characters."""
_ONE_LINE = 18
"""A word of fewer characters takes one line of a button."""


def button(
    word: str,
    tap: Tap | None = None,
    *,
    key: str,
    icon: ft.IconData | None = None,
    tone: Tone = Tone.PLAIN,
    expand: bool | None = None,
    height: int = SMALL_TOUCH,
    url: str | None = None,
    across: int = 1,
) -> ft.Control:
    """Make a button of second rank, still easy to hit; with `url` it downloads from there.

    As one of `across` in its row it has two lines, of words that fit.
    """
    face: list[ft.Control] = [ft.Icon(icon, size=24)] if icon else []
    size, lines = fitting_size(BODY, _WORD_PX), 1 if len(word) < _ONE_LINE else 2
    if across > 1:
        chars = max(len(word) // 2, *map(len, word.split())) + _SIDES
        size, lines = fitting_size_in_row(chars, BODY, across, _WORD_PX), 2
    face.append(label(word, size=size, bold=True, max_lines=2))
    # A long word ends in dots where the page does, not beyond it.
    face[-1].expand, face[-1].expand_loose = True, not (icon and expand)
    return ft.Button(
        content=ft.Row(face, spacing=8, tight=not expand, alignment=ft.MainAxisAlignment.CENTER),
        elevation=0,
        style=style(tone, (14, 6)),
        height=tall(height, size, lines, 12),
        expand=expand,
        on_click=tap,
        url=download(url),
        key=key,
    )


def download(url: str | None) -> ft.Url | None:
    """Make the address of a file that a tap downloads."""
    return ft.Url(url, target=ft.UrlTarget.SELF) if url else None


def new_page(url: str) -> ft.Url:
    """Make the address of a page that a tap opens beside the app."""
    return ft.Url(url, target=ft.UrlTarget.BLANK)


def icon_button(icon: ft.IconData, name: str, tap: Tap, *, key: str) -> ft.Control:
    """Make a round button that is only a picture; its name is spoken by screen readers."""
    return ft.IconButton(
        icon=ft.Icon(icon, size=30, color=ft.Colors.ON_SURFACE, semantics_label=name),
        tooltip=name,
        width=SMALL_TOUCH,
        height=SMALL_TOUCH,
        on_click=tap,
        key=key,
    )


def wide_button(
    word: str,
    tap: Tap,
    *,
    key: str,
    icon: ft.IconData | None = None,
    bad: bool = False,
    on: bool = False,
    height: int = 80,
) -> ft.Control:
    """Make a button as wide as the page, its word at the left; `on` is the one pointed at."""
    size = fitting_size(ANSWER - 6, _WORD_PX + 4)
    lines = max(2, ceil(len(word) / _IN_LINE)) if text_scale() > 1 else 2
    face = label(word, size=size, bold=True, max_lines=lines)
    face.expand = True
    shown_icon, tone = (
        ft.Icons.RADIO_BUTTON_CHECKED if on else icon,
        Tone.BAD if bad else Tone.PLAIN,
    )
    zone = surface(
        ft.Row([face, ft.Icon(shown_icon, size=30)] if shown_icon else [face]),
        tap,
        key=key,
        height=tall(height, size, lines, 16),
        tone=Tone.ACCENT if on else tone,
        padding=(18, 8),
    )
    return ft.Row([zone])
