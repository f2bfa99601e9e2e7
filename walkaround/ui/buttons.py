"""What is tapped: large answer zones, buttons of second rank, one of several."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence

import flet as ft

from walkaround.ui.text import words
from walkaround.ui.theme import ANSWER, BODY, RADIUS, SMALL, SMALL_TOUCH, TOUCH, Palette

Tap = Callable[[], Awaitable[None]] | Callable[[], None]


def answer_zone(
    word: str,
    icon: ft.IconData,
    ground: str,
    ink: str,
    tap: Tap,
    *,
    key: str,
    height: int = TOUCH,
    autofocus: bool = False,
    line: str = "",
) -> ft.Control:
    """A large zone to hit with a glove: icon above, word below; `line` draws a border."""
    return ft.Button(
        content=ft.Column(
            [ft.Icon(icon, size=40, color=ink), words(word, ink, ANSWER, bold=True, max_lines=1)],
            spacing=2,
            tight=True,
            alignment=ft.MainAxisAlignment.CENTER,
            horizontal_alignment=ft.CrossAxisAlignment.CENTER,
        ),
        bgcolor=ground,
        color=ink,
        elevation=0,
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=RADIUS),
            # A focused zone is framed, not tinted: a tint would cost its word contrast.
            overlay_color={
                ft.ControlState.FOCUSED: ft.Colors.TRANSPARENT,
                ft.ControlState.HOVERED: ft.Colors.TRANSPARENT,
            },
            side={
                ft.ControlState.FOCUSED: ft.BorderSide(3, ink),
                ft.ControlState.DEFAULT: ft.BorderSide(1, line or ground),
            },
            padding=4,
        ),
        height=height,
        expand=True,
        on_click=tap,
        key=key,
        autofocus=autofocus,
    )


def button(
    word: str,
    colours: Palette,
    tap: Tap,
    *,
    key: str,
    icon: ft.IconData | None = None,
    ground: str | None = None,
    ink: str | None = None,
    expand: bool | None = None,
    height: int = SMALL_TOUCH,
    url: str | None = None,
    disabled: bool = False,
) -> ft.Control:
    """A button of second rank, still easy to hit."""
    surface, on_surface = ground or colours.other, ink or colours.on_other
    label: list[ft.Control] = [ft.Icon(icon, size=24, color=on_surface)] if icon else []
    label.append(words(word, on_surface, BODY, bold=True, max_lines=2))
    if icon and expand:
        label[-1].expand = True
    return ft.Button(
        content=ft.Row(label, spacing=8, tight=not expand, alignment=ft.MainAxisAlignment.CENTER),
        bgcolor=surface,
        color=on_surface,
        elevation=0,
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=RADIUS),
            side=ft.BorderSide(1, colours.line),
            padding=ft.Padding.symmetric(horizontal=14, vertical=6),
        ),
        height=height,
        expand=expand,
        on_click=tap,
        url=ft.Url(url, target=ft.UrlTarget.SELF) if url else None,
        key=key,
        disabled=disabled,
    )


def icon_button(
    icon: ft.IconData, name: str, colours: Palette, tap: Tap, *, key: str
) -> ft.Control:
    """A round button that is only a picture; its name is spoken by screen readers."""
    return ft.IconButton(
        icon=ft.Icon(icon, size=30, color=colours.ink, semantics_label=name),
        tooltip=name,
        width=SMALL_TOUCH,
        height=SMALL_TOUCH,
        on_click=tap,
        key=key,
    )


def small_answer(
    word: str, icon: ft.IconData, colours: Palette, tap: Tap, *, key: str, on: bool = False
) -> ft.Control:
    """One of several in a row: icon above, word below; `on` is the one chosen."""
    ground = colours.accent if on else colours.other
    ink = colours.on_accent if on else colours.on_other
    return ft.Button(
        content=ft.Column(
            [
                ft.Icon(icon, size=26, color=ink),
                words(word, ink, SMALL, bold=True, max_lines=1),
            ],
            spacing=0,
            tight=True,
            alignment=ft.MainAxisAlignment.CENTER,
            horizontal_alignment=ft.CrossAxisAlignment.CENTER,
        ),
        bgcolor=ground,
        color=ink,
        elevation=0,
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=RADIUS),
            side=ft.BorderSide(1, colours.line),
            padding=2,
        ),
        height=SMALL_TOUCH + 4,
        expand=True,
        on_click=tap,
        key=key,
    )


def choice(options: Sequence[tuple[str, str, Tap]], chosen: str, colours: Palette) -> ft.Control:
    """Options side by side, one of them chosen: (key, word, tap) each; the key tells the chosen."""

    def option(key: str, word: str, tap: Tap) -> ft.Control:
        on = key == chosen
        icon = ft.Icons.RADIO_BUTTON_CHECKED if on else ft.Icons.RADIO_BUTTON_UNCHECKED
        return small_answer(word, icon, colours, tap, key=key, on=on)

    return ft.Row([option(*each) for each in options], spacing=8)


def wide_button(
    colours: Palette,
    word: str,
    tap: Tap,
    *,
    key: str,
    icon: ft.IconData | None = None,
    bad: bool = False,
    height: int = 80,
) -> ft.Control:
    """A button as wide as the page, its word at the left."""
    ground, ink = (colours.bad, colours.on_bad) if bad else (colours.other, colours.on_other)
    label = words(word, ink, ANSWER - 6, bold=True, max_lines=2)
    label.expand = True
    zone = ft.Button(
        content=ft.Row([label, ft.Icon(icon, size=30, color=ink)] if icon else [label]),
        bgcolor=ground,
        color=ink,
        elevation=0,
        height=height,
        expand=True,
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=RADIUS),
            side=ft.BorderSide(1, colours.line),
            padding=ft.Padding.symmetric(horizontal=18, vertical=8),
        ),
        on_click=tap,
        key=key,
    )
    return ft.Row([zone])
