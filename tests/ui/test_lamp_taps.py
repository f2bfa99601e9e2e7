"""A lamp is tapped in its picture, then what is wrong with it; marks are not lost unasked."""

from __future__ import annotations

import pytest
from browser.seeds import answer
from support.app import App
from support.flet_harness import Screen

from walkaround.walk.answers import faults_for

SEMITRAILER = "sandbag_semitrailer_7"
LEFT, RIGHT = "rear_left", "rear_right"


def at_tails(depot: App) -> str:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    while (here := depot.parts.open_walks.walk(walk_id).here) and here.id != "tail_rear":
        answer(depot.parts, walk_id, here)
    return walk_id


async def mark(screen: Screen, item: str, what: str) -> None:
    await screen.click(f"item_{item}")
    await screen.click(f"seen_{what}")


async def test_a_lamp_tapped_again_is_taken_back(depot: App) -> None:
    walk_id = at_tails(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await screen.click("defect")
        await mark(screen, LEFT, "dark")
        await mark(screen, RIGHT, "dirty")
        assert any("dark" in name for name in screen.names())
        await screen.click(f"item_{LEFT}")
        assert not any(name.endswith(": dark") for name in screen.names())
        await screen.click("record_fault")
        await screen.until(lambda: "tail_rear" in depot.parts.open_walks.walk(walk_id).answers)
    assert depot.parts.open_walks.walk(walk_id).answers["tail_rear"].seen == {RIGHT: "dirty"}


async def test_going_back_asks_before_marks_are_lost(depot: App) -> None:
    async with depot.page(f"/walk/{at_tails(depot)}") as screen:
        await screen.click("defect")
        await mark(screen, LEFT, "dim")
        await screen.click("back")
        await screen.click("keep_marks")
        assert any(name.endswith(": dim") for name in screen.names())
        await screen.click("back")
        # The arrow of the question leads back to the marks.
        await screen.click("back")
        assert any(name.endswith(": dim") for name in screen.names())
        await screen.click("back")
        await screen.click("drop_marks")
        assert screen.has("ok")
        await screen.click("defect")
        assert not any(name.endswith(": dim") for name in screen.names())


async def test_going_back_without_marks_asks_nothing(depot: App) -> None:
    async with depot.page(f"/walk/{at_tails(depot)}") as screen:
        await screen.click("defect")
        await screen.click(f"item_{LEFT}")
        await screen.click("back")
        await screen.click("back")
        assert screen.has("ok")


@pytest.mark.parametrize("together", [False, True])
async def test_each_lamp_offers_what_can_be_seen_of_it(depot: App, together: bool) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps", together=together)
    for step in depot.parts.open_walks.walk(walk_id).steps:
        for item in step.items:
            look = step.expect.get(item.id)
            if step.kind != "lamp" or look is None or item.kind == "abs":
                continue
            offered = set(faults_for(item, look))
            assert {"cracked", "dirty", "loose"} <= offered
            if look != "dark":
                flash = "steady" if look == "flashing" else "flashing"
                assert {"dark", "dim", "too_bright", "wrong_colour", flash} <= offered
