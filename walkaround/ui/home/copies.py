"""Several copies of one walk that went on differently: which there are, and the way to each."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from walkaround.records.overview import Overview
from walkaround.records.walk_line import WalkLine, original_id
from walkaround.ui.kit.buttons import button
from walkaround.ui.page.view import View


def copy_buttons(
    view: View, overview: Overview, walk_id: str, *, but: str = ""
) -> Sequence[ft.Control]:
    """Show a button to each copy of a walk, but for the one that is looked at."""
    ids = overview.copies.get(original_id(walk_id), ())
    lines = [line for line in overview.lines if line.id in ids and line.id != but]
    return [_copy(view, line) for line in lines]


def _copy(view: View, line: WalkLine) -> ft.Control:
    last = line.last_answer or line.began
    word = view.words(
        "copy-button",
        until=f"{last.astimezone():%Y-%m-%d %H:%M}",
        answered=line.answered,
        steps=line.steps,
        count=len(line.open_defects),
    )
    to = view.to(f"/{'record' if line.phase == 'finished' else 'walk'}/{line.id}")
    return button(word, to, key=f"copy_{line.id}", icon=ft.Icons.CALL_SPLIT, height=64)
