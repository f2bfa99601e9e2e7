"""The list of all walks."""

from __future__ import annotations

from functools import partial

import flet as ft

from walkaround.records.walk_line import WalkLine, original_id
from walkaround.ui.kit.buttons import button, wide_button
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
    walks = view.parts.store.overview()
    lines = walks.lines
    body: list[ft.Control] = [notice(view.words.text(text), key="unread") for text in walks.unread]
    body += [
        _record_line(view, line, several=original_id(line.id) in walks.copies)
        for line in lines[:shown]
    ]
    if not body:
        body = [label(view.words("records-none"))]
    if len(lines) > shown:
        word = view.words("records-older", count=len(lines) - shown)
        more = partial(set_shown, shown + AT_ONCE)
        body.append(wide_button(word, more, key="older", icon=ft.Icons.EXPAND_MORE))
    top = top_bar(view.words, view.words("records-title"), back=view.to("/"))
    sharing = button(
        view.words("sharing-title"),
        view.to("/sharing"),
        key="sharing",
        icon=ft.Icons.SWAP_HORIZ,
        expand=True,
    )
    return page_column(top, body, [ft.Row([sharing])])


def _record_line(view: View, line: WalkLine, *, several: bool) -> ft.Control:
    going, count = line.phase != "finished", len(line.open_defects)
    ended = "partial" if line.partial else "whole"
    state = view.words("record-closed", count=count, ended=ended)
    if going:
        state = view.words("record-going", answered=line.answered, steps=line.steps)
    color = BAD if count else None
    rows: list[ft.Control] = [
        label(line.vehicle_name or line.id, bold=True),
        label(f"{line.began.astimezone():%Y-%m-%d %H:%M}", QUIET, SMALL),
        label(state, color, bold=bool(count)),
    ]
    if several:
        rows.append(label(view.words("record-other-copy"), BAD, SMALL, bold=True))
    if line.trouble:
        rows.append(caution(line.trouble))
    tap = view.to(f"/{'walk' if going else 'record'}/{line.id}")
    return card(ft.Column(rows, spacing=2), tap=tap, key=f"record_{line.id}")
