"""The pieces that every screen is made of: words, buttons, boxes. They know colours, not walks."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence

import flet as ft

from walkaround.ui.theme import ANSWER, BODY, GAP, RADIUS, SMALL, SMALL_TOUCH, TITLE, TOUCH, Palette

Tap = Callable[[], Awaitable[None]] | Callable[[], None]


def words(
    text: str,
    colour: str,
    size: int = BODY,
    *,
    bold: bool = False,
    max_lines: int | None = None,
    key: str | None = None,
) -> ft.Text:
    """Text in one colour and size."""
    return ft.Text(
        text,
        size=size,
        color=colour,
        weight=ft.FontWeight.W_700 if bold else ft.FontWeight.W_500,
        max_lines=max_lines,
        overflow=ft.TextOverflow.ELLIPSIS if max_lines else ft.TextOverflow.CLIP,
        key=key,
    )


def heading(text: str, colours: Palette, size: int = TITLE) -> ft.Control:
    """A heading, for eyes and for screen readers."""
    return ft.Semantics(
        content=words(text, colours.ink, size, bold=True), heading_level=1, header=True
    )


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
            side=ft.BorderSide(1, line) if line else None,
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


def caution(text: str, colours: Palette, size: int = BODY) -> ft.Control:
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
    height: int = 72,
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
