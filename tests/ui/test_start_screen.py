"""What is told and asked before a walk: its minutes, the shop's figures, gauges that are known."""

from __future__ import annotations

import re
from typing import Any

import pytest
from support.app import App
from support.flet_harness import Screen
from support.made_up_vehicles import SEMITRAILER

from walkaround.airhold.gauge import Gauge
from walkaround.bootstrap import today
from walkaround.rules.limits import Line, ShopFigures
from walkaround.ui.kit.theme import SMALL_TOUCH
from walkaround.vehicle.model import POWER_UNITS, Brakes, Vehicle
from walkaround.walk.state import Walk

START = f"/start/{SEMITRAILER.id}"


def minutes(screen: Screen) -> int:
    told = re.fullmatch(r"About (\d+) min, (\d+) steps", screen.find("takes").value)
    assert told is not None
    return int(told[1])


def know_gauges(depot: App, vehicle: Vehicle, *lines: Line) -> None:
    told = {line: Gauge(name=line, step=2.0) for line in lines}
    known = depot.parts.settings().with_gauges(vehicle, "shop", told, 120.0, today(depot.clock))
    depot.parts.store.change_settings(known.model_dump(mode="json"))


def begun(depot: App) -> Walk:
    [line] = depot.parts.store.overview().lines
    return depot.parts.open_walks.walk(line.id)


async def test_without_air_brakes_it_promises_lamps_and_not_everything(depot: App) -> None:
    async with depot.page("/start/tool_trailer_12") as screen:
        assert "Lamps: all this app checks here" in screen.texts()
        assert "Everything" not in screen.texts()
    async with depot.page(START) as screen:
        assert "Everything" in screen.texts()


async def test_the_minutes_and_the_steps_are_told_before_it_begins(depot: App) -> None:
    async with depot.page(START) as screen:
        whole = minutes(screen)
        await screen.click("scope_lamps")
        assert 0 < minutes(screen) < whole
    slow = depot.parts.settings().model_copy(update={"wording": "long", "rate_wpm": 120})
    depot.parts.store.change_settings(slow.model_dump(mode="json"))
    async with depot.page(START) as screen:
        assert minutes(screen) > whole


async def test_the_shops_figures_are_asked_once_and_kept(depot: App) -> None:
    async with depot.page(START) as screen:
        assert screen.find("figure_supply_psi").value == "110 psi"
        assert any("common practice, no source" in text for text in screen.texts())
        await screen.click("less_supply_psi")
        await screen.click("more_applied_psi_per_min")
        assert screen.find("figure_supply_psi").value == "105 psi"
        await screen.click("figures")
        await screen.until(lambda: not screen.has("figures_card"))
        await screen.click("begin")
        await screen.until(lambda: bool(depot.parts.store.overview().lines))
    kept = depot.parts.settings().shop
    assert kept == ShopFigures(supply_psi=105.0, applied_psi_per_min=3.5, own=True)
    plan = begun(depot).plan
    assert plan is not None
    assert plan.shop == kept
    async with depot.page(START) as screen:
        assert not screen.has("figures_card")


async def test_figures_shown_are_gone_by_though_not_kept_for_the_shop(depot: App) -> None:
    async with depot.page(START) as screen:
        await screen.click("less_supply_psi")
        await screen.click("begin")
        await screen.until(lambda: bool(depot.parts.store.overview().lines))
    plan = begun(depot).plan
    assert plan is not None
    assert plan.shop == ShopFigures(supply_psi=105.0, own=True)
    assert not depot.parts.settings().shop.own


async def test_what_another_page_told_of_the_shop_counts_on_this_one(depot: App) -> None:
    async with depot.page(START) as screen:
        kept = depot.parts.settings().model_copy(
            update={"shop": ShopFigures(supply_psi=120.0, own=True)}
        )
        depot.parts.store.change_settings(kept.model_dump(mode="json"))
        await screen.click("back")
        await screen.click(f"vehicle_{SEMITRAILER.id}")
        await screen.until(lambda: screen.has("begin"))
        assert not screen.has("figures_card")


async def test_figures_half_set_are_there_again_and_are_not_kept(depot: App) -> None:
    async with depot.page(START) as cut:
        await cut.click("less_supply_psi")
    assert not depot.parts.settings().shop.own
    async with depot.page(START, back=cut) as screen:
        assert screen.find("figure_supply_psi").value == "105 psi"


@pytest.mark.parametrize("key", ["air_coupled", "scope_lamps"])
async def test_only_a_lone_trailer_whose_brakes_are_checked_has_figures(
    depot: App, key: str
) -> None:
    async with depot.page(START) as screen:
        assert screen.has("figures_card")
        await screen.click(key)
        assert not screen.has("figures_card")


async def test_a_trailer_without_air_brakes_has_none(depot: App) -> None:
    unbraked = SEMITRAILER.model_copy(update={"id": "", "name": "Unbraked", "brakes": Brakes()})
    id_ = depot.parts.own_vehicles.save(unbraked)
    async with depot.page(f"/start/{id_}") as screen:
        assert screen.has("begin")
        assert not screen.has("figures_card")


async def test_the_figures_are_set_again_in_the_settings(depot: App) -> None:
    async with depot.page("/settings") as screen:
        less: Any = screen.find("less_service_psi")
        assert min(less.width, less.height) >= SMALL_TOUCH
        await screen.click("less_service_psi")
        await screen.click("figures")
        await screen.until(lambda: screen.has("figures_kept"))
        await screen.click("more_service_psi")
        assert screen.has("figures")
    assert depot.parts.settings().shop == ShopFigures(service_psi=85.0, own=True)


async def test_gauges_told_today_are_not_asked_unless_that_is_wanted(depot: App) -> None:
    know_gauges(depot, SEMITRAILER, "supply", "service")
    async with depot.page(START) as screen:
        assert any("supply: psi, marks of 2" in text for text in screen.texts())
        few = screen.find("takes").value
        await screen.click("ask_gauges")
        assert not screen.has("known_gauges")
        assert screen.find("takes").value != few
        await screen.click("begin")
        await screen.until(lambda: bool(depot.parts.store.overview().lines))
    walk = begun(depot)
    assert walk.plan is not None
    assert walk.plan.step("gauges") is not None


async def test_a_walk_begun_with_known_gauges_reads_them_as_they_are(depot: App) -> None:
    know_gauges(depot, SEMITRAILER, "supply", "service")
    async with depot.page(START) as screen:
        await screen.click("begin")
        await screen.until(lambda: bool(depot.parts.store.overview().lines))
    walk = begun(depot)
    assert walk.plan is not None
    assert walk.plan.step("gauges") is None
    assert walk.gauge("service").step == 2.0
    assert walk.altitude_m == 120.0
    async with depot.page(f"/record/{walk.id}") as screen:
        assert any("Gauges as remembered" in text for text in screen.texts())


async def test_the_day_after_and_behind_a_tow_unit_they_are_asked(depot: App) -> None:
    know_gauges(depot, SEMITRAILER, "supply", "service")
    async with depot.page(START) as screen:
        assert screen.has("known_gauges")
        await screen.click("air_coupled")
        assert not screen.has("known_gauges")
    depot.clock.wait(24 * 3600)
    async with depot.page(START) as screen:
        assert not screen.has("known_gauges")


async def test_a_box_in_hand_is_offered_for_what_is_towed_and_not_for_a_power_unit(
    depot: App,
) -> None:
    """At a power unit's rear socket it would feed back into the harness."""
    async with depot.page(START) as screen:
        assert screen.has("power_box")
    for vehicle in depot.parts.library.vehicles:
        if vehicle.kind in POWER_UNITS:
            async with depot.page(f"/start/{vehicle.id}") as screen:
                assert screen.has("power_cab")
                assert not screen.has("power_box")


async def test_a_walk_that_was_left_is_offered_before_another_one_begins(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER.id)
    async with depot.page(START) as screen:
        assert f"Unfinished, at step 1 of {len(begun(depot).steps)}" in screen.texts()
        await screen.click(f"go_on_{walk_id}")
        await screen.until(lambda: "Level, held, two wheels chocked" in screen.texts())
    async with depot.page("/start/pump_trailer_3") as screen:
        assert not screen.has(f"go_on_{walk_id}")


async def test_what_an_earlier_walk_found_and_is_still_open_is_told(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER.id, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        while (here := begun(depot).here) and here.id != "tail_rear":
            await screen.until(lambda: screen.has("ok"))
            await screen.click("ok")
            await screen.until(lambda here=here: here.id in begun(depot).answers)
            await screen.settle()
        await screen.click("defect")
        await screen.click("item_rear_left")
        await screen.click("seen_dark")
        await screen.click("record_fault")
        await screen.until(lambda: bool(begun(depot).open_defects))
        await screen.settle()
        await screen.click("menu")
        await screen.click("end")
        await screen.click("end_yes")
        await screen.until(lambda: begun(depot).phase == "finished")
    async with depot.page(START) as screen:
        assert "1 defect is still open from an earlier walk" in screen.texts()
        await screen.click(f"found_in_{walk_id}")
        await screen.until(lambda: screen.has("recheck"))
