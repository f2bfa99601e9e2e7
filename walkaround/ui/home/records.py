"""The list of all walks."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

import flet as ft

from walkaround.board.page import going_state
from walkaround.records.walk_line import WalkLine, original_id
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, caution, notice, page_column, top_bar
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BAD, QUIET, SMALL
from walkaround.ui.kit.zones import choice
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.search import search_field

AT_ONCE = 30
"""How many records are drawn; each tap on the button below them draws as many more."""


_KINDS: Mapping[str, Callable[[WalkLine], bool]] = {
    "all": lambda _: True,
    "with-defects": lambda line: bool(line.open_defects),
    "unfinished": lambda line: line.phase != "finished",
}
"""Which records are shown."""


@screen
def records_screen(view: View) -> ft.Control:
    """Show every walk, the one begun last first."""
    shown_count, set_shown = ft.use_state(AT_ONCE)
    typed, change = use_unfinished(view.unfinished, "search", "")
    kind_shown, keep = use_unfinished(view.unfinished, "kept", "all")
    words, walks = view.words, view.parts.store.overview()
    field = ft.use_memo(lambda: search_field(words("records-search"), typed, change), [])
    kind = [line for line in walks.lines if _KINDS[kind_shown](line)]
    lines = view.parts.search.find(kind, typed, words.text)
    body: list[ft.Control] = [notice(words.text(text), key="unread") for text in walks.unread]
    if walks.lines:
        kinds = [(f"kept_{key}", words(f"records-{key}"), partial(keep, key)) for key in _KINDS]
        body += [field, choice(kinds, f"kept_{kind_shown}")]
    body += [
        _record_line(
            view,
            line,
            several=original_id(line.id) in walks.copies,
            blind=line.id in walks.blind,
        )
        for line in lines[:shown_count]
    ]
    if walks.lines:
        body.append(wide_button(words("keeping-title"), view.to("/keeping"), key="keeping"))
    if not lines and (walks.lines or not walks.unread):
        body.append(label(words("records-none-such" if walks.lines else "records-none")))
    if len(lines) > shown_count:
        word = view.words("records-older", count=len(lines) - shown_count)
        more = partial(set_shown, shown_count + AT_ONCE)
        body.append(wide_button(word, more, key="older", icon=ft.Icons.EXPAND_MORE))
    top = top_bar(view.words, view.words("records-title"), back=view.to("/"))
    sharing = button(
        view.words("sharing-title"),
        view.to("/sharing"),
        key="sharing",
        icon=ft.Icons.SWAP_HORIZ,
        expand=True,
    )
    board = button(
        view.words("board-title"),
        view.to("/board"),
        key="board",
        icon=ft.Icons.FORMAT_LIST_BULLETED,
        expand=True,
    )
    return page_column(top, body, [ft.Row([board]), ft.Row([sharing])])


def _record_line(view: View, line: WalkLine, *, several: bool, blind: bool) -> ft.Control:
    going, count = line.phase != "finished", len(line.open_defects)
    ended = "partial" if line.partial else "whole"
    state = view.words("record-closed", count=count, ended=ended)
    if going:
        state = going_state(line, view.words)
    elif blind:
        # What it found is not counted yet, and no defect is not to be read here.
        state = view.words("double-under-way")
    color = BAD if count else None
    rows: list[ft.Control] = [
        label(line.vehicle_name or line.id, bold=True),
        label(_day(line), QUIET, SMALL),
        label(state, color, bold=bool(count)),
    ]
    if several:
        rows.append(label(view.words("record-other-copy"), BAD, SMALL, bold=True))
    if line.trouble:
        rows.append(caution(line.trouble))
    tap = view.to(f"/{'walk' if going else 'record'}/{line.id}")
    return card(ft.Column(rows, spacing=2), tap=tap, key=f"record_{line.id}")


def _day(line: WalkLine) -> str:
    return f"{line.began.astimezone():%Y-%m-%d %H:%M}"
