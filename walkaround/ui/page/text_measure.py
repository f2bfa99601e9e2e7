"""How large a page draws its text, by a line that nobody sees."""

from __future__ import annotations

import flet as ft

from walkaround.ui.page.view import View

_MEASURE_PX = 100
"""Height of the line that is measured, at a scale of 1."""


def text_measure(view: View) -> ft.Control:
    """Make an unseen line, by whose height the page tells how large it draws text."""

    def measured(event: ft.LayoutSizeChangeEvent[ft.LayoutControl]) -> None:
        if view.device.enlarge(round(event.height / _MEASURE_PX, 2)):
            view.redraw()

    line = ft.Text(
        "",
        size=_MEASURE_PX,
        style=ft.TextStyle(height=1.0),
        max_lines=1,
        on_size_change=measured,
    )
    return ft.Container(line, left=0, top=0, opacity=0, ignore_interactions=True)
