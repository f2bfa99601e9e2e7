"""Words on a screen."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.theme import BODY, TITLE

_TITLE_PX = 40.0
"""A heading is drawn no larger: a long word would not fit its line."""

FITS = 8
"""A word of at most this many letters always fits, so no rule for overflow is sent with it."""


def label(
    text: str,
    color: ft.Colors | None = None,
    size: float = BODY,
    *,
    bold: bool = False,
    max_lines: int | None = None,
    key: str | None = None,
) -> ft.Text:
    """Make text; without a color it takes the ink of the surface that it stands on."""
    most = max_lines if len(text) > FITS else None
    return ft.Text(
        text,
        size=size,
        color=color,
        weight=ft.FontWeight.W_700 if bold else ft.FontWeight.W_500,
        max_lines=most,
        overflow=ft.TextOverflow.ELLIPSIS if most else ft.TextOverflow.CLIP,
        key=key,
    )


@ft.control("Semantics")  # type: ignore[arg-type]
class _Focusable(ft.Semantics):
    """What may take the focus: Flet 1.0.5 sends `focus`, of which its page knows nothing."""

    focused: bool | None = None


def heading(
    text: str, size: int = TITLE, *, max_lines: int | None = None, focused: bool = False
) -> ft.Control:
    """Make a heading, for eyes and for screen readers; a smaller one is of the second level.

    A `focused` one takes the focus of a screen reader when it appears; keys press nothing there.
    """
    text_label = label(text, size=fitting_size(size, _TITLE_PX), bold=True, max_lines=max_lines)
    level = 1 if size >= TITLE else 2
    if focused:
        return _Focusable(
            content=text_label, heading_level=level, header=True, focusable=True, focused=True
        )
    return ft.Semantics(content=text_label, heading_level=level, header=True)
