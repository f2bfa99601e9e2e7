"""What is tapped: large answer zones, buttons of second rank, one of several."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence

import flet as ft

from walkaround.ui.kit.text import words
from walkaround.ui.kit.theme import ANSWER, BODY, RADIUS, SMALL, SMALL_TOUCH, TITLE, TOUCH, Palette

_ROW_CHARS = 32
"""So many characters of options in all are read side by side on the smallest phone."""
Tap = Callable[[], Awaitable[None]] | Callable[[], None]


def surface(
    content: ft.Control,
    ground: str,
    ink: str,
    tap: Tap,
    *,
    key: str,
    height: int,
    line: str,
    padding: ft.PaddingValue = 4,
    autofocus: bool = False,
) -> ft.Control:
    """Something to tap, in one colour with a line around it, as wide as its row allows."""
    return ft.Button(
        content=content,
        bgcolor=ground,
        color=ink,
        elevation=0,
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=RADIUS),
            # A focused one is framed, not tinted: a tint would cost its words contrast.
            overlay_color={
                ft.ControlState.FOCUSED: ft.Colors.TRANSPARENT,
                ft.ControlState.HOVERED: ft.Colors.TRANSPARENT,
            },
            side={
                ft.ControlState.FOCUSED: ft.BorderSide(3, ink),
                ft.ControlState.DEFAULT: ft.BorderSide(1, line),
            },
            padding=padding,
        ),
        height=height,
        expand=True,
        on_click=tap,
        key=key,
        autofocus=autofocus,
    )


def _stacked(icon: ft.IconData, icon_size: int, word: str, size: int, ink: str) -> ft.Control:
    """An icon above a word."""
    return ft.Column(
        [ft.Icon(icon, size=icon_size, color=ink), words(word, ink, size, bold=True, max_lines=1)],
        spacing=0,
        tight=True,
        alignment=ft.MainAxisAlignment.CENTER,
        horizontal_alignment=ft.CrossAxisAlignment.CENTER,
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
    face = _stacked(icon, 40, word, ANSWER, ink)
    return surface(
        face, ground, ink, tap, key=key, height=height, line=line or ground, autofocus=autofocus
    )


def ok_zone(
    colours: Palette, tap: Tap, *, word: str = "OK", height: int = TOUCH, autofocus: bool = False
) -> ft.Control:
    """The answer that all is well."""
    return answer_zone(
        word,
        ft.Icons.CHECK_CIRCLE,
        colours.ok,
        colours.on_ok,
        tap,
        key="ok",
        height=height,
        autofocus=autofocus,
    )


def defect_zone(colours: Palette, tap: Tap, *, height: int = TOUCH) -> ft.Control:
    """The answer that something is wrong."""
    return answer_zone(
        "Defect",
        ft.Icons.REPORT,
        colours.bad,
        colours.on_bad,
        tap,
        key="defect",
        height=height,
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
    # A long word ends in dots where the page does, not beyond it.
    label[-1].expand, label[-1].expand_loose = True, not (icon and expand)
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
    ground, ink = (colours.accent, colours.on_accent) if on else (colours.other, colours.on_other)
    return surface(
        _stacked(icon, 26, word, SMALL, ink),
        ground,
        ink,
        tap,
        key=key,
        height=SMALL_TOUCH + 4,
        line=colours.line,
        padding=2,
    )


def choice(options: Sequence[tuple[str, str, Tap]], chosen: str, colours: Palette) -> ft.Control:
    """Options side by side, one of them chosen: (key, word, tap) each; the key tells the chosen.

    Where there are too many to be read in one row, they stand in several.
    """

    def option(key: str, word: str, tap: Tap) -> ft.Control:
        on = key == chosen
        icon = ft.Icons.RADIO_BUTTON_CHECKED if on else ft.Icons.RADIO_BUTTON_UNCHECKED
        return small_answer(word, icon, colours, tap, key=key, on=on)

    zones = [option(*each) for each in options]
    longest = max(len(word) for _, word, _ in options)
    across = max(2, min(len(options), _ROW_CHARS // longest)) if len(options) > 3 else 3
    rows = [zones[at : at + across] for at in range(0, len(zones), across)]
    return ft.Column([ft.Row(row, spacing=8) for row in rows], spacing=8)


def tile(
    figure: str,
    name: str,
    icon: ft.IconData,
    tap: Tap,
    *,
    key: str,
    ground: str,
    ink: str,
    line: str,
) -> ft.Control:
    """Something that was told, to be told anew with a tap: a figure above its name."""
    mark = ft.Icon(icon, size=24, color=ink)
    figure_row = ft.Row(
        [mark, words(figure, ink, TITLE, bold=True, max_lines=1)], spacing=6, tight=True
    )
    face = ft.Column(
        [figure_row, words(name[:1].upper() + name[1:], ink, SMALL, max_lines=1)],
        spacing=0,
        tight=True,
        alignment=ft.MainAxisAlignment.CENTER,
        horizontal_alignment=ft.CrossAxisAlignment.CENTER,
    )
    return surface(face, ground, ink, tap, key=key, height=68, line=line)


def in_pairs(tiles: Sequence[ft.Control]) -> ft.Control:
    """Tiles two by two."""
    rows = [list(tiles[at : at + 2]) for at in range(0, len(tiles), 2)]
    return ft.Column([ft.Row(row, spacing=8) for row in rows], spacing=8)


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
    zone = surface(
        ft.Row([label, ft.Icon(icon, size=30, color=ink)] if icon else [label]),
        ground,
        ink,
        tap,
        key=key,
        height=height,
        line=colours.line,
        padding=ft.Padding.symmetric(horizontal=18, vertical=8),
    )
    return ft.Row([zone])
