"""The board: tagged vehicles, open defects by age, walks under way; each leads to its vehicle."""

from __future__ import annotations

import asyncio
from datetime import datetime
from functools import partial

import flet as ft

from walkaround.board.defect_details import read_fault_texts
from walkaround.board.page import going_state
from walkaround.board.rows import BoardRow, FaultTexts, age_days, board_of
from walkaround.records.walk_line import WalkLine
from walkaround.ui.board.history import history_screen
from walkaround.ui.board.retention import retention_screen
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, caution, notice, page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, QUIET, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View

AT_ONCE = 30
"""How many vehicles are drawn; each tap on the button below them draws as many more."""


def board_screens(view: View, head: str, vehicle_id: str) -> ft.Control:
    """Draw the retention screen, the history of a vehicle, or without one the board."""
    if head == "keeping":
        return retention_screen(view, key="keeping")
    vehicle = view.parts.own_vehicles.vehicle(vehicle_id)
    if vehicle is not None:
        return history_screen(view, vehicle, key=f"history_{vehicle_id}")
    return board_screen(view, key="board")


@screen
def board_screen(view: View) -> ft.Control:
    """Show what the next shift has to know."""
    shown_count, set_shown = ft.use_state(AT_ONCE)
    words, walks = view.words, view.parts.store.overview()
    board = ft.use_memo(lambda: board_of(walks), [walks])
    now = view.parts.clock().utc
    body: list[ft.Control] = [notice(words.text(text), key="unread") for text in walks.unread]
    rows = board.vehicles
    unseen: FaultTexts = {}
    seen_faults, see = ft.use_state(unseen)

    async def look() -> None:
        see(await asyncio.to_thread(read_fault_texts, rows[:shown_count], view.parts.store, words))

    effect(view, look, [walks, shown_count])
    body.append(heading(words("board-open")))
    body += [_vehicle(view, row, seen_faults, now) for row in rows[:shown_count]]
    if not rows:
        body.append(label(words("board-none-open")))
    if len(rows) > shown_count:
        word, more = (
            words("board-older", count=len(rows) - shown_count),
            partial(set_shown, shown_count * 2),
        )
        body.append(wide_button(word, more, key="more", icon=ft.Icons.EXPAND_MORE))
    body.append(heading(words("board-going")))
    body += [_walk_under_way(view, line) for line in board.going[:AT_ONCE]]
    if not board.going:
        body.append(label(words("board-none-going")))
    printed = button(
        words("board-print"),
        key="print",
        icon=ft.Icons.PRINT,
        url=f"/printed/board.pdf?language={words.language}",
        expand=True,
        height=64,
    )
    top = top_bar(words, words("board-title"), back=view.to("/records"))
    return page_column(top, body, [ft.Row([printed])])


def _vehicle(view: View, row: BoardRow, seen_faults: FaultTexts, now: datetime) -> ft.Control:
    words = view.words
    rows: list[ft.Control] = [label(row.line.vehicle_name, bold=True)]
    if row.line.plate:
        rows.append(label(row.line.plate, QUIET, SMALL))
    if row.tag:
        rows.append(caution(words("board-tag", day=_day(row.tag)), SMALL))
    for defect in row.defects:
        age = words("board-age", days=age_days(defect.since, now))
        seen = seen_faults.get((defect.walk, defect.step), "")
        step = words("report-found", step=defect.title, what=seen) if seen else defect.title
        rows.append(label(words("board-row", step=step, age=age), BAD, bold=True))
    tap = view.to(f"/vehicle/{row.line.vehicle}")
    return card(ft.Column(rows, spacing=4), tap=tap, key=f"board_{row.line.vehicle}")


def _walk_under_way(view: View, line: WalkLine) -> ft.Control:
    words = view.words
    rows = [
        label(line.vehicle_name, bold=True),
        label(_day(line), QUIET, SMALL),
        label(words("board-by", who=words.row(line.who)), size=SMALL),
        label(going_state(line, words)),
    ]
    tap = view.to(f"/vehicle/{line.vehicle}")
    return card(ft.Column(list(rows), spacing=2), tap=tap, key=f"going_{line.id}")


def _day(line: WalkLine) -> str:
    return f"{line.began.astimezone():%Y-%m-%d %H:%M}"
