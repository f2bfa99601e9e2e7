"""An air hold on the screen, on the test's clock: what is tapped, and waited for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from support.app import App
from support.flet_harness import Screen
from support.walks import HOLD, plan, step

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold
from walkaround.rules.limits import HoldRule, Line
from walkaround.walk.events import Answered, GaugesTold
from walkaround.walk.state import Walk


def walk_of(depot: App, walk_id: str) -> Walk:
    return depot.parts.open_walks.walk(walk_id)


def hold_of(depot: App, walk_id: str) -> Hold:
    return walk_of(depot, walk_id).holds[HOLD]


def at_the_hold(depot: App, rule: HoldRule, gauges: Mapping[Line, Gauge]) -> str:
    """A walk of three steps whose gauges are told of and that asks for its air hold now."""
    steps = (
        step("gauges", "secure", "gauges"),
        step(HOLD, "supply_hold", "hold", title="Air hold", short="Hold.", air=True, hold=rule),
        step("vent", "finish", "act"),
    )
    walk_id = depot.parts.open_walks.begin(plan(steps), "Kim")
    told = {line: gauge.model_dump() for line, gauge in gauges.items()}
    body = {"step": "gauges", "gauges": told, "altitude_m": 0.0, "at_zero": True}
    ok = {"step": "gauges", "answer": "ok"}
    depot.parts.open_walks.do(walk_id, "Kim", (GaugesTold, body), (Answered, ok))
    return walk_id


async def start(depot: App, screen: Screen, walk_id: str) -> None:
    """Start the minute."""
    await screen.click("start_hold")
    await screen.until(lambda: walk_of(depot, walk_id).phase == "holding")
    await screen.settle()


async def tap(depot: App, screen: Screen, walk_id: str, key: str) -> None:
    """Tap something that is saved, and wait until it is."""
    before = len(walk_of(depot, walk_id).events)
    await screen.until(lambda: screen.has(key))
    await screen.click(key)
    await screen.until(lambda: len(walk_of(depot, walk_id).events) > before)
    await screen.settle()


async def read(depot: App, screen: Screen, walk_id: str, *labels: int | str) -> None:
    """One number for each gauge that is due, in the order they are asked for."""
    for label in labels:
        await tap(depot, screen, walk_id, f"read_{label}")


async def hold_through(
    depot: App, screen: Screen, walk_id: str, readings: Sequence[int | str]
) -> None:
    """A hold of one gauge: these readings at 0, 30 and 60 s, then every 15 s until it ends."""
    await start(depot, screen, walk_id)
    for number, label in enumerate(readings):
        if walk_of(depot, walk_id).phase != "holding":
            break
        depot.clock.wait(0 if number == 0 else 30 if number <= 2 else 15)
        await read(depot, screen, walk_id, label)


async def hold(depot: App, screen: Screen, walk_id: str) -> None:
    """Walk one air hold of any vehicle through, without a loss."""
    asked = walk_of(depot, walk_id).here
    assert asked is not None
    assert asked.hold is not None
    await start(depot, screen, walk_id)
    for mark in (0, 30, 30):
        depot.clock.wait(mark)
        await read(depot, screen, walk_id, *(round(psi) for psi in asked.hold.set_psi.values()))
    await screen.until(lambda: walk_of(depot, walk_id).phase == "stepping")
    await screen.settle()
