"""What is tapped: large answer zones, buttons of second rank, one of several."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from functools import cache

import flet as ft

from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import ANSWER, LINE, RADIUS, SMALL, SMALL_TOUCH, TITLE, TOUCH, Tone
from walkaround.words.language import Words

_ROW_CHARS = 32
"""So many characters of options in all are read side by side on the smallest phone."""
Tap = Callable[[], Awaitable[None]] | Callable[[], None]


@cache
def style(
    tone: Tone = Tone.PLAIN, padding: tuple[int, int] = (4, 4), *, framed: bool = True
) -> ft.ButtonStyle:
    """Say what a button of this kind looks like.

    Args:
        tone: its color and that of its words.
        padding: px left and right of its words, and above and below them.
        framed: whether a line runs around it, for a color that is faint against the page.
    """
    across, down = padding
    return ft.ButtonStyle(
        bgcolor=tone.ground,
        color=tone.ink,
        shape=ft.RoundedRectangleBorder(radius=RADIUS),
        # A focused one is framed, not tinted: a tint would cost its words contrast.
        overlay_color={
            ft.ControlState.FOCUSED: ft.Colors.TRANSPARENT,
            ft.ControlState.HOVERED: ft.Colors.TRANSPARENT,
        },
        side={
            ft.ControlState.FOCUSED: ft.BorderSide(3, tone.ink),
            ft.ControlState.DEFAULT: ft.BorderSide(1, LINE if framed else tone.ground),
        },
        padding=ft.Padding.symmetric(horizontal=across, vertical=down),
    )


def surface(
    content: ft.Control,
    tap: Tap | None,
    *,
    key: str,
    height: int,
    tone: Tone = Tone.PLAIN,
    padding: tuple[int, int] = (4, 4),
    framed: bool = True,
    autofocus: bool = False,
) -> ft.Button:
    """Make something to tap, in one color, as wide as its row allows."""
    return ft.Button(
        content=content,
        elevation=0,
        style=style(tone, padding, framed=framed),
        height=height,
        expand=True,
        on_click=tap,
        key=key,
        autofocus=autofocus,
    )


def _stacked(icon: ft.IconData, icon_size: int, word: str, size: int) -> ft.Control:
    """An icon above a word."""
    return ft.Column(
        [ft.Icon(icon, size=icon_size), label(word, size=size, bold=True, max_lines=1)],
        spacing=0,
        tight=True,
        alignment=ft.MainAxisAlignment.CENTER,
        horizontal_alignment=ft.CrossAxisAlignment.CENTER,
    )


def answer_zone(
    word: str,
    icon: ft.IconData,
    tap: Tap,
    *,
    key: str,
    tone: Tone = Tone.ACCENT,
    height: int = TOUCH,
    autofocus: bool = False,
) -> ft.Control:
    """Make a large zone to hit with a glove: icon above, word below."""
    face = _stacked(icon, 40, word, ANSWER)
    framed = tone is Tone.PLAIN
    return surface(face, tap, key=key, height=height, tone=tone, framed=framed, autofocus=autofocus)


def ok_zone(
    language: Words, tap: Tap, *, word: str = "", height: int = TOUCH, autofocus: bool = False
) -> ft.Control:
    """Make the answer that all is well."""
    icon = ft.Icons.CHECK_CIRCLE
    return answer_zone(
        word or language("answer-ok"),
        icon,
        tap,
        key="ok",
        tone=Tone.GOOD,
        height=height,
        autofocus=autofocus,
    )


def defect_zone(language: Words, tap: Tap, *, height: int = TOUCH) -> ft.Control:
    """Make the answer that something is wrong."""
    return answer_zone(
        language("answer-defect"), ft.Icons.REPORT, tap, key="defect", tone=Tone.BAD, height=height
    )


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
) -> ft.Control:
    """Make a button of second rank, still easy to hit; with `url` it downloads from there."""
    face: list[ft.Control] = [ft.Icon(icon, size=24)] if icon else []
    face.append(label(word, bold=True, max_lines=2))
    # A long word ends in dots where the page does, not beyond it.
    face[-1].expand, face[-1].expand_loose = True, not (icon and expand)
    return ft.Button(
        content=ft.Row(face, spacing=8, tight=not expand, alignment=ft.MainAxisAlignment.CENTER),
        elevation=0,
        style=style(tone, (14, 6)),
        height=height,
        expand=expand,
        on_click=tap,
        url=_download(url),
        key=key,
    )


def _download(url: str | None) -> ft.Url | None:
    return ft.Url(url, target=ft.UrlTarget.SELF) if url else None


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


def small_answer(
    word: str,
    icon: ft.IconData,
    tap: Tap | None = None,
    *,
    key: str,
    on: bool = False,
    url: str | None = None,
) -> ft.Control:
    """Make one of several in a row: icon above, word below; `on` is the one chosen."""
    face = _stacked(icon, 26, word, SMALL)
    tone = Tone.ACCENT if on else Tone.PLAIN
    zone = surface(face, tap, key=key, height=SMALL_TOUCH + 4, tone=tone, padding=(2, 2))
    zone.url = _download(url)
    return zone


def choice(options: Sequence[tuple[str, str, Tap]], chosen: str) -> ft.Control:
    """Put options side by side, one of them chosen: (key, word, tap) each.

    Where there are too many to be read in one row, they stand in several.
    """

    def option(key: str, word: str, tap: Tap) -> ft.Control:
        on = key == chosen
        icon = ft.Icons.RADIO_BUTTON_CHECKED if on else ft.Icons.RADIO_BUTTON_UNCHECKED
        return small_answer(word, icon, tap, key=key, on=on)

    zones = [option(*each) for each in options]
    longest = max(len(word) for _, word, _ in options)
    across = max(2, min(len(options), _ROW_CHARS // longest)) if len(options) > 3 else 3
    rows = [zones[at : at + across] for at in range(0, len(zones), across)]
    return ft.Column([ft.Row(row, spacing=8) for row in rows], spacing=8)


def tile(
    figure: str, name: str, icon: ft.IconData, tap: Tap, *, key: str, tone: Tone
) -> ft.Control:
    """Show something that was told, to be told anew with a tap: a figure above its name."""
    figure_row = ft.Row(
        [ft.Icon(icon, size=24), label(figure, size=TITLE, bold=True, max_lines=1)],
        spacing=6,
        tight=True,
    )
    face = ft.Column(
        [figure_row, label(name[:1].upper() + name[1:], size=SMALL, max_lines=1)],
        spacing=0,
        tight=True,
        alignment=ft.MainAxisAlignment.CENTER,
        horizontal_alignment=ft.CrossAxisAlignment.CENTER,
    )
    return surface(face, tap, key=key, height=68, tone=tone)


def in_pairs(tiles: Sequence[ft.Control]) -> ft.Control:
    """Put tiles two by two."""
    rows = [list(tiles[at : at + 2]) for at in range(0, len(tiles), 2)]
    return ft.Column([ft.Row(row, spacing=8) for row in rows], spacing=8)


def wide_button(
    word: str,
    tap: Tap,
    *,
    key: str,
    icon: ft.IconData | None = None,
    bad: bool = False,
    height: int = 80,
) -> ft.Control:
    """Make a button as wide as the page, its word at the left."""
    face = label(word, size=ANSWER - 6, bold=True, max_lines=2)
    face.expand = True
    zone = surface(
        ft.Row([face, ft.Icon(icon, size=30)] if icon else [face]),
        tap,
        key=key,
        height=height,
        tone=Tone.BAD if bad else Tone.PLAIN,
        padding=(18, 8),
    )
    return ft.Row([zone])
