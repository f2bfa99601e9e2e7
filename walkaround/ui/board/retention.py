"""How long walks are kept, and the removal of those that need not be: listed, then asked."""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Mapping
from datetime import date
from functools import partial

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.board.retention import deletable_walks
from walkaround.bootstrap import today
from walkaround.records.prune.prune import photos_of, prune
from walkaround.records.walk_line import WalkLine
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, top_bar
from walkaround.ui.kit.sheet import QUESTION_PX, sheet
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View

MOST_LISTED = 100
"""How many walks are listed and removed at once."""
LEFT = "left"
"""The name, among the data folder's settings, of the days on which vehicles left."""


@screen
def retention_screen(view: View) -> ft.Control:
    """Show the rule, the vehicles that are gone, and the walks that may go."""
    words, parts = view.words, view.parts
    none: Mapping[str, int] = {}
    photos, count = ft.use_state(none)
    asking, ask = ft.use_state(False)
    walks, now = parts.store.overview(), today(parts.clock)
    left_on = _left(view)
    going = deletable_walks(walks, left_on, now)[:MOST_LISTED]

    async def look() -> None:
        count(await asyncio.to_thread(_photos, view, going))

    effect(view, look, [tuple(line.id for line in going)])

    async def delete() -> None:
        ask(False)
        ids = [line.id for line in going]
        await view.saved(lambda: prune(parts.store, parts.open_walks, parts.photos, walks, ids))

    ft.use_dialog(_question(view, going, photos, delete, partial(ask, False)) if asking else None)
    vehicle_ids = {vehicle.id for vehicle in parts.library.vehicles}
    names = {line.vehicle: line.vehicle_name for line in reversed(walks.lines)}
    body: list[ft.Control] = [label(words("report-keep")), label(words("keeping-never"), QUIET)]
    body += [notice(words.text(text), key="unread") for text in walks.unread]
    body.append(heading(words("keeping-vehicles")))
    gone = [id_ for id_ in names if id_ and (id_ not in vehicle_ids or id_ in left_on)]
    body += [_vehicle(view, id_, names[id_], left_on.get(id_), now) for id_ in gone]
    if not gone:
        body.append(label(words("keeping-no-vehicle")))
    body.append(heading(words("keeping-may-go")))
    body += [_line(view, line, photos.get(line.id)) for line in going]
    bottom: list[ft.Control] = []
    if going:
        word = words("keeping-delete", count=len(going))
        bottom.append(wide_button(word, partial(ask, True), key="prune", bad=True, height=64))
    else:
        body.append(label(words("keeping-none")))
    return page_column(
        top_bar(words, words("keeping-title"), back=view.to("/records")), body, bottom
    )


def _left(view: View) -> dict[str, date]:
    saved = view.parts.store.load_settings().get(LEFT)
    rows = saved if isinstance(saved, dict) else {}
    return {str(id_): date.fromisoformat(day) for id_, day in rows.items() if day}


def _photos(view: View, going: tuple[WalkLine, ...]) -> dict[str, int]:
    counts = {}
    for line in going:
        try:
            counts[line.id] = len(photos_of(view.parts.store, line.id))
        except WalkaroundError:
            continue
    return counts


def _vehicle(view: View, id_: str, name: str, left_on: date | None, now: date) -> ft.Control:
    words = view.words

    async def mark(day: str) -> None:
        await view.saved(lambda: view.parts.store.change_settings({LEFT: {id_: day}}))

    left_text = words("keeping-left", day=f"{left_on}") if left_on else words("keeping-removed")
    word = words("keeping-not-gone" if left_on else "keeping-gone")
    tap = tapped(mark, "" if left_on else f"{now}")
    rows = [
        label(name, bold=True),
        label(left_text, QUIET, SMALL),
        button(word, tap, key=f"gone_{id_}"),
    ]
    return card(ft.Column(rows, spacing=6))


def _line(view: View, line: WalkLine, photos: int | None) -> ft.Control:
    words = view.words
    text = words(
        "keeping-walk", day=f"{line.began.astimezone():%Y-%m-%d %H:%M}", photos=photos or 0
    )
    rows = [label(line.vehicle_name, bold=True), label(text, QUIET, SMALL)]
    return card(ft.Column(list(rows), spacing=2), tap=view.to(f"/record/{line.id}"))


def _question(
    view: View,
    going: tuple[WalkLine, ...],
    photos: Mapping[str, int],
    delete: Tap,
    close: Callable[[], None],
) -> ft.BottomSheet:
    words = view.words
    body = [
        label(words("keeping-means", count=len(going), photos=sum(photos.values()))),
        button(words("keeping-keep"), close, key="keep", height=64),
        wide_button(
            words("keeping-delete", count=len(going)), delete, key="prune_yes", bad=True, height=64
        ),
    ]
    page_px = view.device.height
    return sheet(words, words("keeping-question"), body, close, page_px=page_px, height=QUESTION_PX)
