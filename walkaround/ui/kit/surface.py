"""What a tap is, and what takes one: a surface of one color with a rim."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from functools import cache
from typing import ParamSpec

import flet as ft

from walkaround.ui.kit.theme import LINE, RADIUS, Tone

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
