"""Lost air on screen: what is heard where, the likely parts, what is tried, what is left then."""

from __future__ import annotations

from support.app import App
from support.flet_harness import Screen
from support.lampcases import VEHICLES
from support.screens_holding import hold_of, hold_through, tap, walk_of
from support.walks import HOLD, hold_rule, plan, step

from walkaround.airhold.gauge import Gauge
from walkaround.walk.events import Answered, GaugesTold

LOSES = [110, 106, 102, 100, 98, 96, 94]


def at_a_hold_of_the_semitrailer(depot: App) -> str:
    """A walk of a shipped trailer on shop air that asks for its released hold now."""
    rule = hold_rule(supply=110.0)
    steps = (
        step("gauges", "secure", "gauges"),
        step(HOLD, "supply_hold", "hold", title="Air hold", short="Hold.", air=True, hold=rule),
        step("vent", "finish", "act"),
    )
    vehicle = VEHICLES["sandbag_semitrailer_7"]
    walk_id = depot.parts.open_walks.begin(plan(steps, vehicle=vehicle), "Kim")
    told = {"supply": Gauge(name="supply").model_dump()}
    body = {"step": "gauges", "gauges": told, "altitude_m": 0.0, "at_zero": True}
    ok = {"step": "gauges", "answer": "ok"}
    depot.parts.open_walks.do(walk_id, "Kim", (GaugesTold, body), (Answered, ok))
    return walk_id


def likeliest(screen: Screen) -> str:
    """The first cause that is told: it stands before the first share."""
    texts = screen.texts()
    return texts[next(at for at, text in enumerate(texts) if text.endswith("% likely")) - 1]


async def test_a_hold_over_its_limit_asks_where_it_is_heard_and_tells_the_part(depot: App) -> None:
    walk_id = at_a_hold_of_the_semitrailer(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, LOSES)
        assert hold_of(depot, walk_id).over()
        await screen.click("leaks")
        assert any("Hands off rods" in text for text in screen.texts())
        assert not screen.has("outcome_nothing")
        await tap(depot, screen, walk_id, "heard_red_gladhand")
        assert walk_of(depot, walk_id).heard == {HOLD: ("red_gladhand",)}
        assert likeliest(screen).startswith("Seal of the red gladhand.")
        await tap(depot, screen, walk_id, "heard_red_gladhand")
        assert walk_of(depot, walk_id).heard == {}
        await screen.click("back")
        assert screen.has("defect")


async def test_a_chamber_that_is_heard_asks_for_its_wheel(depot: App) -> None:
    walk_id = at_a_hold_of_the_semitrailer(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, LOSES)
        await screen.click("leaks")
        assert not screen.has("heard_chamber_axle_2_right")
        await tap(depot, screen, walk_id, "heard_chamber")
        await tap(depot, screen, walk_id, "heard_chamber_axle_2_right")
        assert walk_of(depot, walk_id).heard == {HOLD: ("chamber_axle_2_right",)}
        assert likeliest(screen).startswith("Spring brake diaphragm, axle 2, right end.")
        await tap(depot, screen, walk_id, "heard_nothing")
        assert walk_of(depot, walk_id).heard == {HOLD: ("nothing",)}


async def test_what_is_tried_is_kept_shown_and_taken_back(depot: App) -> None:
    walk_id = at_a_hold_of_the_semitrailer(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, LOSES)
        await tap(depot, screen, walk_id, "defect")
        await screen.click("defects")
        await screen.click("leaks")
        await tap(depot, screen, walk_id, "heard_nothing")
        assert any("spray soap on" in text for text in screen.texts())
        out = "outcome_none"
        before = screen.texts()
        await tap(depot, screen, walk_id, out)
        [(trial, outcome)] = walk_of(depot, walk_id).tried.items()
        assert f"outcome_{outcome}" == out
        assert screen.texts() != before
        await tap(depot, screen, walk_id, f"back_{trial}")
        assert walk_of(depot, walk_id).tried == {}
        assert not screen.has(f"back_{trial}")


async def test_a_hold_within_its_limit_asks_nothing(depot: App) -> None:
    walk_id = at_a_hold_of_the_semitrailer(depot)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await hold_through(depot, screen, walk_id, [110, 110, 110])
        assert not screen.has("leaks")
