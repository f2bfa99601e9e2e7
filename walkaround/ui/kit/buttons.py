"""What is tapped: large answer zones, buttons of second rank, one of several."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from functools import cache
from typing import ParamSpec

import flet as ft

from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import ANSWER, LINE, RADIUS, SMALL, SMALL_TOUCH, TITLE, TOUCH, Tone
from walkaround.words.language import Words, capital

_ROW_CHARS = 32
"""So many characters of options in all are read side by side on the smallest phone."""
Tap = Callable[[], Awaitable[None]] | Callable[[], None]
P = ParamSpec("P")


def tapped(work: Callable[P, Awaitable[object]], *args: P.args, **kwargs: P.kwargs) -> Tap:
    """Make a tap that does this work with what is said here, as it was when it was drawn."""

    async def tap() -> None:
        await work(*args, **kwargs)

    return tap


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
        # Where it is the same all around, one number takes fewer bytes than four.
        padding=across
        if across == down
        else ft.Padding.symmetric(horizontal=across, vertical=down),
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


def stacked(*parts: ft.Control) -> ft.Control:
    """Put what stands on a button one above the other."""
    middle = ft.CrossAxisAlignment.CENTER
    return ft.Column(list(parts), spacing=0, tight=True, horizontal_alignment=middle)


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
    face = stacked(ft.Icon(icon, size=40), label(word, size=ANSWER, bold=True, max_lines=1))
    framed = tone is Tone.PLAIN
    return surface(face, tap, key=key, height=height, tone=tone, framed=framed, autofocus=autofocus)


def ok_zone(
    language: Words, tap: Tap, *, word: str = "", height: int = TOUCH, autofocus: bool = False
) -> ft.Control:
    """Make the answer that all is well."""
    word, icon = word or language("answer-ok"), ft.Icons.CHECK_CIRCLE
    return answer_zone(
        word, icon, tap, key="ok", tone=Tone.GOOD, height=height, autofocus=autofocus
    )


def defect_zone(language: Words, tap: Tap, *, height: int = TOUCH) -> ft.Control:
    """Make the answer that something is wrong."""
    return answer_zone(
        language("answer-defect"), ft.Icons.REPORT, tap, key="defect", tone=Tone.BAD, height=height
    )


def choice_zone(word: str, tap: Tap, *, key: str, height: int = TOUCH) -> ft.Control:
    """Make one of several answers of equal rank: its words, as large as any answer."""
    face = label(word, bold=True, max_lines=4)
    face.text_align = ft.TextAlign.CENTER
    return surface(face, tap, key=key, height=height, tone=Tone.ACCENT, padding=(8, 4))


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
    face = stacked(ft.Icon(icon, size=26), label(word, size=SMALL, bold=True, max_lines=1))
    tone = Tone.ACCENT if on else Tone.PLAIN
    zone = surface(face, tap, key=key, height=SMALL_TOUCH + 4, tone=tone, padding=(2, 2))
    zone.url = _download(url)
    return zone


def choice(options: Sequence[tuple[str, str, Tap]], chosen: str) -> ft.Control:
    """Put options side by side, one of them chosen: (key, word, tap) each.

    Where there are too many to be read in one row, they stand in several.
    """
    zones = [
        small_answer(word, radio_icon(key == chosen), tap, key=key, on=key == chosen)
        for key, word, tap in options
    ]
    longest = max(len(word) for _, word, _ in options)
    return in_rows(
        zones, max(2, min(len(options), _ROW_CHARS // longest)) if len(options) > 3 else 3
    )


def radio_icon(on: bool) -> ft.IconData:
    """Choose the picture of one of several, the one chosen or another."""
    return ft.Icons.RADIO_BUTTON_CHECKED if on else ft.Icons.RADIO_BUTTON_UNCHECKED


def tile(
    figure: str, name: str, icon: ft.IconData, tap: Tap, *, key: str, tone: Tone
) -> ft.Control:
    """Show something that was told, to be told anew with a tap: a figure above its name."""
    marked = [ft.Icon(icon, size=24), label(figure, size=TITLE, bold=True, max_lines=1)]
    named = label(capital(name), size=SMALL, max_lines=1)
    face = stacked(ft.Row(list(marked), spacing=6, tight=True), named)
    return surface(face, tap, key=key, height=68, tone=tone)


def in_rows(zones: Sequence[ft.Control], across: int) -> ft.Control:
    """Put zones side by side, so many in a row; those of a shorter last row are wider."""
    starts = range(0, len(zones), across)
    rows = [ft.Row(list(zones[at : at + across]), spacing=8) for at in starts]
    return rows[0] if len(rows) == 1 else ft.Column(list(rows), spacing=8)


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
