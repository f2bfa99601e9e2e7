"""Finding a vehicle or a record among many, and the first two minutes on a phone."""

from __future__ import annotations

from support.app import App
from support.flet_harness import Screen
from support.made_up_vehicles import SEMITRAILER

from walkaround.ui.vehicle.search import AT_ONCE
from walkaround.walk.events import Finished

TRAILERS = 200


def own(depot: App, count: int) -> list[str]:
    """So many vehicles of one's own; their ids."""
    return [
        depot.parts.own_vehicles.save(
            SEMITRAILER.model_copy(update={"id": "", "name": f"Trailer {number}"})
        )
        for number in range(1, count + 1)
    ]


def cards(screen: Screen) -> list[str]:
    return [text for text in screen.texts() if text.startswith("Trailer ")]


async def typed(screen: Screen, text: str) -> None:
    await screen.fill("search", text)
    await screen.settle()


async def test_of_200_vehicles_the_one_that_is_typed_is_left_and_few_are_drawn(depot: App) -> None:
    ids = own(depot, 12)
    async with depot.page() as screen:
        assert cards(screen) == [f"Trailer {number}" for number in range(1, 13)]
        await typed(screen, "trailer 12")
        assert cards(screen) == ["Trailer 12"]
        await typed(screen, "bus from nowhere")
        assert screen.has("none_found")
        await typed(screen, "12")
        await screen.click(f"vehicle_{ids[11]}")
        await screen.until(lambda: screen.has("begin"))


async def test_more_vehicles_than_a_page_holds_are_drawn_at_a_tap(depot: App) -> None:
    own(depot, AT_ONCE + 3)
    async with depot.page("/vehicles") as screen:
        assert len(cards(screen)) == AT_ONCE
        assert "3 more vehicles" in screen.texts()
        await screen.click("more_vehicles")
        assert len(cards(screen)) == AT_ONCE + 3


async def test_examples_have_their_own_heading_after_ones_own_and_are_hidden_with_one_tap(
    depot: App,
) -> None:
    own(depot, 1)
    async with depot.page() as screen:
        texts = screen.texts()
        assert texts.index("Trailer 1") < texts.index("Examples") < texts.index("Pump trailer 3")
        await screen.click("examples")
        await screen.until(lambda: "Pump trailer 3" not in screen.texts())
        assert "Trailer 1" in screen.texts()
    async with depot.page("/vehicles") as screen:
        assert "Pump trailer 3" not in screen.texts()
        await screen.click("examples")
        await screen.until(lambda: "Pump trailer 3" in screen.texts())


async def test_records_are_found_by_vehicle_and_by_what_is_left_to_do(depot: App) -> None:
    closed, going = depot.begin("pump_trailer_3"), depot.begin("sandbag_semitrailer_7")
    depot.parts.open_walks.do(closed, "Kim", (Finished, {}))
    async with depot.page("/records") as screen:
        assert screen.has(f"record_{closed}")
        await screen.click("kept_unfinished")
        assert screen.has(f"record_{going}")
        assert not screen.has(f"record_{closed}")
        await screen.click("kept_all")
        await screen.fill("search", "pump")
        await screen.settle()
        assert screen.has(f"record_{closed}")
        assert not screen.has(f"record_{going}")
        await screen.click("kept_with-defects")
        assert "No such record." in screen.texts()


async def test_lamps_only_is_one_tap_from_the_vehicle(depot: App) -> None:
    async with depot.page("/start/sandbag_semitrailer_7") as screen:
        await screen.click("begin_lamps")
        await screen.until(lambda: bool(depot.parts.store.overview().lines))
    [line] = depot.parts.store.overview().lines
    assert line.scope == "lamps"


async def test_a_first_step_is_tried_with_sound_and_nothing_is_recorded(depot: App) -> None:
    async with depot.page() as screen:
        await screen.click("first_play")
        assert depot.voice.said == ["Tail lamps on. Both tails on; rest dark."]
        await screen.click("defect")
        assert any(text.startswith("Defect: it asks which lamp") for text in screen.texts())
        await screen.click("first_done")
        await screen.until(lambda: not screen.has("first_card"))
    assert not depot.parts.store.overview().lines
    async with depot.page() as screen:
        assert not screen.has("first_card")


async def test_a_new_phone_in_a_shop_at_work_shows_its_first_step_too(depot: App) -> None:
    depot.begin("sandbag_semitrailer_7", who="Ann")
    async with depot.page() as screen:
        assert screen.has("first_card")
        assert "Continue" in screen.texts()


async def test_the_first_step_is_skipped_with_one_tap(depot: App) -> None:
    async with depot.page() as screen:
        await screen.click("first_skip")
        await screen.until(lambda: not screen.has("first_card"))
