"""Ten phones at one server, each in its own walk; and more walks than a phone can draw."""

from __future__ import annotations

import asyncio
from pathlib import Path

from support.app import App, app

from walkaround.records.reader import WalkReader
from walkaround.ui.home import home, records
from walkaround.walk.events import Answered

PHONES = 10
TAPS = 8
VEHICLE = "high_water_truck_1"
"""It has more steps than taps, and each takes one tap."""


async def _walk(depot: App, walk_id: str, all_done: asyncio.Barrier) -> None:
    async with depot.page(f"/walk/{walk_id}") as screen:
        for tap in range(1, TAPS + 1):
            tapped = screen.target("ok")
            await screen.tap(tapped)
            await screen.until(
                lambda tap=tap: len(depot.parts.open_walks.walk(walk_id).answers) == tap
            )
            await screen.until(lambda old=tapped: screen.target("ok") is not old)
        # The end of a page ends what belongs to the others too.
        await all_done.wait()


async def test_every_answer_of_ten_phones_at_once_is_stored_once(tmp_path: Path) -> None:
    all_done = asyncio.Barrier(PHONES)
    async with app(tmp_path / "data") as depot:
        walks = [depot.begin(VEHICLE, scope="lamps") for _ in range(PHONES)]
        await asyncio.gather(*(_walk(depot, walk_id, all_done) for walk_id in walks))
        steps = [step.id for step in depot.parts.open_walks.walk(walks[0]).steps][:TAPS]
    for walk_id in walks:
        events = WalkReader(tmp_path / "data").load(walk_id).events
        assert [event.step for event in events if isinstance(event, Answered)] == steps


async def test_of_many_walks_the_latest_are_drawn_and_the_others_at_a_tap(tmp_path: Path) -> None:
    """A hundred thousand cards would keep a phone busy for minutes."""
    async with app(tmp_path / "data") as depot:
        walks = [depot.begin(VEHICLE, scope="lamps") for _ in range(records.AT_ONCE + 5)]
        async with depot.page("/records") as screen:
            drawn = [walk for walk in walks if screen.has(f"record_{walk}")]
            assert drawn == walks[5:]
            await screen.click("older")
            assert all(screen.has(f"record_{walk}") for walk in walks)
            assert not screen.has("older")
        async with depot.page() as screen:
            offered = [walk for walk in walks if screen.has(f"go_on_{walk}")]
            assert offered == walks[-home.GOING_SHOWN :]
            assert f"{len(walks) - home.GOING_SHOWN} more are under Records." in screen.texts()
