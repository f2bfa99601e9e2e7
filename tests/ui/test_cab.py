"""Two phones in one walk: one in the cab sees what to switch, one outside answers."""

from __future__ import annotations

import flet as ft
from support.app import App
from support.flet_harness import Screen
from support.walks import plan, step

from walkaround.walk.events import Answered, Paused

MARKER = step("marker", "lamps", "lamp", title="Marker", switching="Lamp switch on; all else off.")
SIDE = step("side", "lamps", "lamp", title="Marker, side")
STOP = step("stop", "lamps", "lamp", title="Stop", switching="Brake pedal down; all else off.")
RODS = step("rods", "strokes", "act", title="Rods", soft=True, air=True, caution="No valve moves.")
CHOCKS = step("chocks", "leave", "act", title="Chocks away", short="Take them away.")


def lamps(depot: App) -> str:
    return depot.parts.open_walks.begin(plan((MARKER, SIDE, STOP, RODS, CHOCKS)), "Kim")


async def tell(depot: App, cab: Screen, walk_id: str, step_id: str) -> None:
    """The other phone answers; its own words are not what is looked at here."""
    depot.parts.open_walks.do(walk_id, "Kim", (Answered, {"step": step_id, "answer": "ok"}))
    await cab.settle()


async def test_the_cab_shows_and_says_each_setting_once_and_follows_the_other_phone(
    depot: App,
) -> None:
    walk_id = lamps(depot)
    async with depot.page(f"/cab/{walk_id}") as cab:
        assert cab.find("head").value == "Switch"
        assert {"Lamp switch on", "All else off", "Marker", "Next: Marker, side"} <= {*cab.texts()}
        assert "At the switches. 0 of 5 answered" in cab.texts()
        assert depot.voice.said == ["Lamp switch on; all else off."]
        await tell(depot, cab, walk_id, "marker")
        assert "At the switches. 1 of 5 answered" in cab.texts()
        assert cab.find("outside").value == "Marker, side"
        assert len(depot.voice.said) == 1
        await tell(depot, cab, walk_id, "side")
        assert "Brake pedal down" in cab.texts()
        assert depot.voice.said[1:] == ["Brake pedal down; all else off."]
        await tell(depot, cab, walk_id, "stop")
        assert cab.find("head").value == "Hands off"
        assert depot.voice.said[2:] == ["Hands off. No valve moves."]
        await tell(depot, cab, walk_id, "rods")
        assert cab.find("head").value == "Nothing to switch"
        assert "Take them away." in cab.texts()
        assert len(depot.voice.said) == 3


async def test_nothing_can_be_answered_from_the_cab(depot: App) -> None:
    walk_id = lamps(depot)
    async with depot.page(f"/cab/{walk_id}") as cab:
        taps = {button.key for button in cab.controls(ft.Button)}
        assert taps == {"again"}
        await cab.click("again")
        assert depot.voice.said == ["Lamp switch on; all else off."] * 2
    assert len(depot.parts.open_walks.walk(walk_id).events) == 1


async def test_looking_on_from_the_cab_takes_up_no_walk_that_was_left(depot: App) -> None:
    walk_id = lamps(depot)
    depot.parts.open_walks.do(walk_id, "Kim", (Paused, {}))
    async with depot.page(f"/cab/{walk_id}") as cab:
        assert cab.find("head").value == "The walk is left for now"
    assert depot.parts.open_walks.walk(walk_id).phase == "paused"
    assert depot.voice.said == []


async def test_the_cab_is_reached_from_the_walks_menu_and_left_again(depot: App) -> None:
    walk_id = lamps(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("menu")
        await screen.click("cab")
        assert screen.find("head").value == "Switch"
        await screen.click("back")
        assert screen.has("menu")


async def test_a_cab_that_looks_at_no_walk_says_so(depot: App) -> None:
    async with depot.page("/cab/20000101_000000_000000") as cab:
        assert "This walk cannot be opened" in cab.texts()


async def test_a_cab_that_may_not_speak_is_silent(depot: App) -> None:
    walk_id = lamps(depot)
    silent = depot.parts.settings().model_copy(update={"voice": False})
    depot.parts.store.change_settings(silent.model_dump(mode="json"))
    async with depot.page(f"/cab/{walk_id}") as cab:
        await tell(depot, cab, walk_id, "marker")
    assert depot.voice.said == []


async def test_another_page_at_the_walk_follows_but_only_the_one_that_answers_speaks(
    depot: App,
) -> None:
    walk_id = lamps(depot)
    async with depot.page(f"/walk/{walk_id}") as other, depot.page(f"/walk/{walk_id}") as rear:
        said = len(depot.voice.said)
        await rear.click("ok")
        await other.until(lambda: "Marker, side" in other.texts())
        assert len(depot.voice.said) == said + 1
