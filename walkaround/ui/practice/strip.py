"""The strip that stands over every screen of practice, in a color that nothing else has."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import RADIUS, SMALL
from walkaround.ui.page.view import View

GROUND, INK = "#5E2A84", "#FFFFFF"
"""Violet, day and night; white on it contrasts 10:1 (WCAG 2.2, 1.4.6 asks 7:1)."""

_STRIP_PX = 22.0
"""Its words are drawn no larger: they take one line of a narrow phone."""


def practice_strip(view: View) -> list[ft.Control]:
    """Say that this is practice; nothing on other screens."""
    if not view.practices:
        return []
    words = view.words("practice-strip")
    strip_label = label(words, size=fitting_size(SMALL, _STRIP_PX), bold=True)
    strip_label.color = INK
    box = ft.Padding.symmetric(horizontal=12, vertical=4)
    return [
        ft.Container(
            strip_label, bgcolor=GROUND, border_radius=RADIUS / 2, padding=box, key="strip"
        )
    ]
