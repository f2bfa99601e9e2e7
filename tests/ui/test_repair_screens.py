"""What was done about a defect, on screen: one tap, then what it can have changed is asked."""

from __future__ import annotations

from support.app import App
from support.flet_harness import Screen
from support.tapping import tap, walk_of, with_a_dark_stop_lamp

SEMITRAILER = "sandbag_semitrailer_7"


async def _repairing(depot: App, screen: Screen, walk_id: str) -> None:
    """The left stop lamp is dark, and what was done about it is asked."""
    await with_a_dark_stop_lamp(depot, screen, walk_id)
    await screen.click("defects")
    await screen.click("repaired_stop_rear")


async def test_what_was_done_is_one_tap_and_all_that_hangs_on_it_is_asked_again(
    depot: App,
) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await _repairing(depot, screen, walk_id)
        assert any(text.startswith("Mended: ") for text in screen.texts())
        await tap(depot, screen, walk_id, "done_ground")
        walk = walk_of(depot, walk_id)
        assert walk.repairs["stop_rear"].done == "ground"
        assert walk.due[0] == "stop_rear"
        assert len(walk.due) > 1
        while (walk := walk_of(depot, walk_id)).due:
            assert walk.here is not None
            assert (walk.here.id, walk.purpose) == (walk.due[0], "recheck")
            await tap(depot, screen, walk_id, "ok")
        assert not walk.open_defects
        assert walk.here is not None
        assert walk.here.id not in walk.answers


async def test_a_recheck_that_is_not_ok_says_what_changed(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await _repairing(depot, screen, walk_id)
        await tap(depot, screen, walk_id, "done_lamp")
        await screen.click("defect")
        await screen.click("item_rear_left")
        await screen.click("seen_dim")
        await tap(depot, screen, walk_id, "record_fault")
        said = "Before: left stop lamp dark. Now: left stop lamp dim."
        assert any(said in text for text in screen.texts()), screen.texts()
        assert walk_of(depot, walk_id).is_open("stop_rear")


async def test_a_closed_record_takes_the_repair_and_its_recheck_asks_for_all_of_it(
    depot: App,
) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await _repairing(depot, screen, walk_id)
        await screen.click("back")
        await screen.click("back")
        await screen.click("menu")
        await screen.click("end")
        await tap(depot, screen, walk_id, "end_yes")
        await screen.click("repaired_stop_rear")
        assert not screen.has("recheck_stop_rear")
        await tap(depot, screen, walk_id, "done_ground")
        walk = walk_of(depot, walk_id)
        assert walk.phase == "finished"
        assert any("Ground mended" in text for text in screen.texts())
        await screen.click("recheck")
        await screen.until(lambda: screen.page.route.startswith("/walk/"))
        again = walk_of(depot, screen.page.route.rpartition("/")[2])
        assert set(walk.due) <= {step.id for step in again.steps}
