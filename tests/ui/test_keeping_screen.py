"""Taking old walks out: never silently, listed first, asked, and only of a vehicle that left."""

from __future__ import annotations

from pathlib import Path

from support.app import app
from support.handed_over import Walker, planned
from support.shop import day, fill, save

from walkaround.records.store import WalkStore

OLD = "20240110_081502_4f3a9c"


def old_walk(data: Path) -> None:
    store = WalkStore(data)
    plan = planned(scope="lamps", id="sold_trailer", name="Sold trailer")
    save(store, Walker(plan, began=day(1, 10, 2024)).closed())
    store.change_settings({"left": {"sold_trailer": "2024-02-01"}})
    store.close()


async def test_a_walk_that_may_go_is_listed_and_goes_only_once_that_is_confirmed(
    tmp_path: Path,
) -> None:
    fill(tmp_path)
    old_walk(tmp_path)
    async with app(tmp_path) as depot, depot.page("/keeping") as screen:
        assert "for 1 year, and for 6 months after" in screen.text
        assert "2024-01-10" in screen.text
        await screen.click("prune")
        assert "1 walk goes for good, with no photo" in screen.text
        await screen.click("keep")
        assert any(line.id == OLD for line in depot.parts.store.overview().lines)
        await screen.click("prune")
        await screen.click("prune_yes")
        await screen.until(lambda: not screen.has("prune"))
        assert all(line.id != OLD for line in depot.parts.store.overview().lines)


async def test_a_vehicle_is_marked_as_gone_and_back_by_a_tap(tmp_path: Path) -> None:
    old_walk(tmp_path)
    async with app(tmp_path) as depot, depot.page("/keeping") as screen:
        await screen.click("gone_sold_trailer")
        await screen.until(lambda: not screen.has("prune"))
        assert "Not among the vehicles any more" in screen.text
        await screen.click("gone_sold_trailer")
        await screen.until(lambda: "Left on" in screen.text)
        assert not screen.has("prune")
