"""A tap on a screen drawn without a browser, and the walk as it is after it."""

from __future__ import annotations

from browser.seeds import answer
from support.app import App
from support.flet_harness import Screen

from walkaround.walk.state import Walk


def walk_of(depot: App, walk_id: str) -> Walk:
    """The walk as it is now."""
    return depot.parts.open_walks.walk(walk_id)


async def tap(depot: App, screen: Screen, walk_id: str, key: str) -> None:
    """Tap what makes an event of the walk, and wait for it."""
    before = len(walk_of(depot, walk_id).events)
    await screen.click(key)
    await screen.until(lambda: len(walk_of(depot, walk_id).events) > before)
    await screen.settle()


async def with_a_dark_stop_lamp(depot: App, screen: Screen, walk_id: str) -> None:
    """Everything is well but the left stop lamp, with its circuit on alone.

    What comes before is answered by another page.
    """
    while (here := walk_of(depot, walk_id).here) and here.id != "stop_rear":
        answer(depot.parts, walk_id, here)
    assert here is not None
    await screen.until(lambda: screen.has(str(here.title)))
    await screen.click("defect")
    await screen.click("item_rear_left")
    await screen.click("seen_dark")
    await tap(depot, screen, walk_id, "record_fault")
