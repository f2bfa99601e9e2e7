"""Ten phones at one server, each in its own walk, tapping as fast as each step comes."""

from __future__ import annotations

import asyncio
from pathlib import Path

import pytest
from app import App, app

from walkaround.events import Answered
from walkaround.reader import WalkReader
from walkaround.ui import walker

PHONES = 10
TAPS = 20
VEHICLE = "high_water_truck_1"
"""It has more steps than taps, and each takes one tap."""


async def _walk(depot: App, walk_id: str, all_done: asyncio.Barrier) -> None:
    async with depot.page(f"/walk/{walk_id}") as screen:
        for tap in range(1, TAPS + 1):
            tapped = screen.target("ok")
            await screen.tap(tapped)
            await screen.until(lambda tap=tap: len(depot.parts.desk.walk(walk_id).answers) == tap)
            await screen.until(lambda old=tapped: screen.target("ok") is not old)
        # The end of a page ends what belongs to the others too.
        await all_done.wait()


async def test_every_answer_of_ten_phones_at_once_is_stored_once(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(walker, "DEAD_S", 0.0)
    all_done = asyncio.Barrier(PHONES)
    async with app(tmp_path / "data") as depot:
        walks = [depot.begin(VEHICLE, scope="lamps") for _ in range(PHONES)]
        await asyncio.gather(*(_walk(depot, walk_id, all_done) for walk_id in walks))
        steps = [step.id for step in depot.parts.desk.walk(walks[0]).steps][:TAPS]
    for walk_id in walks:
        events = WalkReader(tmp_path / "data").load(walk_id).events
        assert [event.step for event in events if isinstance(event, Answered)] == steps
