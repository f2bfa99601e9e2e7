"""What holds words and buttons together: cards, cautions, notices, the bar, the page's column."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from walkaround.ui.kit.buttons import Tap, icon_button
from walkaround.ui.kit.text import words
from walkaround.ui.kit.theme import BODY, GAP, RADIUS, SMALL, Palette


def card(
    content: ft.Control, colours: Palette, *, tap: Tap | None = None, key: str | None = None
) -> ft.Control:
    """Something that belongs together."""
    return ft.Container(
        content,
        bgcolor=colours.card,
        border=ft.Border.all(1, colours.line),
        border_radius=RADIUS,
        padding=16,
        on_click=tap,
        ink=tap is not None,
        key=key,
    )


def caution(text: str, colours: Palette, size: int = BODY, *, key: str | None = None) -> ft.Control:
    """A warning that stands beside the words of a step, never instead of them."""
    return ft.Container(
        ft.Row(
            [
                ft.Icon(ft.Icons.WARNING_ROUNDED, size=28, color=colours.on_caution),
                ft.Column([words(text, colours.on_caution, size, bold=True)], expand=True),
            ],
            spacing=10,
            vertical_alignment=ft.CrossAxisAlignment.START,
        ),
        bgcolor=colours.caution,
        border_radius=RADIUS,
        padding=12,
        key=key,
    )


def notice(text: str, colours: Palette, *, key: str = "notice") -> ft.Control:
    """One plain sentence about the app itself: no sound, not saved."""
    return ft.Container(
        ft.Row(
            [
                ft.Icon(ft.Icons.INFO_OUTLINE, size=24, color=colours.on_other),
                ft.Column([words(text, colours.on_other, SMALL)], expand=True),
            ],
            spacing=8,
        ),
        bgcolor=colours.other,
        border=ft.Border.all(1, colours.line),
        border_radius=RADIUS,
        padding=10,
        key=key,
    )


def top_bar(
    title: str,
    colours: Palette,
    *,
    back: Tap | None = None,
    below: ft.Control | None = None,
    actions: Sequence[ft.Control] = (),
) -> ft.Control:
    """The bar on top: where you are, and the way back."""
    left = (
        icon_button(ft.Icons.ARROW_BACK, "Back", colours, back, key="back")
        if back
        else ft.Container(width=0)
    )
    middle: list[ft.Control] = [words(title, colours.ink, BODY, bold=True, max_lines=1)]
    if below is not None:
        middle.append(below)
    return ft.Row(
        [left, ft.Column(middle, spacing=4, tight=True, expand=True), *actions],
        spacing=4,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )


def page_column(
    top: ft.Control, body: Sequence[ft.Control], bottom: Sequence[ft.Control] = ()
) -> ft.Control:
    """A screen: the bar, what scrolls, and what stays under the thumb."""
    return ft.Column(
        [
            top,
            ft.Column(
                list(body),
                spacing=GAP,
                expand=True,
                scroll=ft.ScrollMode.AUTO,
                horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
            ),
            *bottom,
        ],
        spacing=GAP,
        expand=True,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )
