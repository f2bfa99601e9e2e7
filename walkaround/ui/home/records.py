"""The list of all walks."""

from __future__ import annotations

import flet as ft

from walkaround.records.walk_line import WalkLine
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, caution, notice, page_column, top_bar
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BAD, QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View

AT_ONCE = 30
"""How many records are drawn; each tap on the button below them draws as many more."""


@screen
def records_screen(view: View) -> ft.Control:
    """Every walk, the one begun last first."""
    shown, set_shown = ft.use_state(AT_ONCE)

    def more() -> None:
        set_shown(shown + AT_ONCE)

    walks = view.parts.store.overview()
    lines = walks.lines
    body: list[ft.Control] = [notice(view.words.text(text), key="unread") for text in walks.unread]
    body += [_record_line(view, line) for line in lines[:shown]]
    if not body:
        body = [label(view.words("records-none"))]
    if len(lines) > shown:
        word = view.words("records-older", count=len(lines) - shown)
        body.append(wide_button(word, more, key="older", icon=ft.Icons.EXPAND_MORE))
    return page_column(top_bar(view.words, view.words("records-title"), back=view.to("/")), body)


def _record_line(view: View, line: WalkLine) -> ft.Control:
    going = line.phase != "finished"

    if going:
        state = view.words("record-going", answered=line.answered, steps=line.steps)
    else:
        state = _end_words(view, line)
    color = BAD if line.open_defects else None
    rows: list[ft.Control] = [
        label(line.vehicle_name or line.id, bold=True),
        label(f"{line.began.astimezone():%Y-%m-%d %H:%M}", QUIET, SMALL),
        label(state, color, bold=bool(line.open_defects)),
    ]
    if line.trouble:
        rows.append(caution(line.trouble))
    return card(
        ft.Column(rows, spacing=2),
        tap=view.to(f"/{'walk' if going else 'record'}/{line.id}"),
        key=f"record_{line.id}",
    )


def _end_words(view: View, line: WalkLine) -> str:
    ended = "partial" if line.partial else "whole"
    return view.words("record-closed", count=len(line.open_defects), ended=ended)
