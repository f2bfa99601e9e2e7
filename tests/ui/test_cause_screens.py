"""Likely causes on screen: what was seen at the lamps, what is tried, and what is left then."""

from __future__ import annotations

import re

import pytest
from browser.seeds import answer
from support.app import App
from support.flet_harness import Screen
from support.tapping import tap, walk_of, with_a_dark_stop_lamp

SEMITRAILER = "sandbag_semitrailer_7"


async def test_a_dark_lamp_has_likely_causes_and_a_next_thing_whose_result_is_kept(
    depot: App,
) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await with_a_dark_stop_lamp(depot, screen, walk_id)
        await screen.click("defects")
        assert any("bulb burnt out" in text.lower() for text in screen.texts())
        await screen.click("causes")
        [likeliest] = [text for text in screen.texts() if "% likely" in text]
        assert re.match(r"\d\d % likely, this or what looks the same: \w+", likeliest)
        assert any("Pierce no wire" in text for text in screen.texts())
        [cured] = [key for key in ("outcome_cured", "outcome_full") if screen.has(key)][:1]
        before = screen.texts()
        await tap(depot, screen, walk_id, cured)
        assert screen.texts() != before
    assert walk_of(depot, walk_id).tried
    assert list(walk_of(depot, walk_id).tried.values()) == [cured.removeprefix("outcome_")]


async def test_what_was_tried_counts_no_more_once_the_repair_is_rechecked(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await with_a_dark_stop_lamp(depot, screen, walk_id)
        await screen.click("defects")
        await screen.click("causes")
        [one] = [key for key in ("outcome_cured", "outcome_full") if screen.has(key)][:1]
        await tap(depot, screen, walk_id, one)
        await screen.click("back")
        await screen.click("repaired_stop_rear")
        await tap(depot, screen, walk_id, "done_lamp")
        assert walk_of(depot, walk_id).tried == {}
        await tap(depot, screen, walk_id, "ok")
        assert not walk_of(depot, walk_id).open_defects


async def test_a_trial_is_taken_back_and_asked_for_again(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await with_a_dark_stop_lamp(depot, screen, walk_id)
        await screen.click("defects")
        await screen.click("causes")
        before = screen.texts()
        [one] = [key for key in ("outcome_cured", "outcome_full") if screen.has(key)][:1]
        await tap(depot, screen, walk_id, one)
        [trial] = walk_of(depot, walk_id).tried
        await tap(depot, screen, walk_id, f"back_{trial}")
        assert walk_of(depot, walk_id).tried == {}
        assert screen.texts() == before


async def test_what_makes_eyes_err_counts_beside_the_open_defects_too(depot: App) -> None:
    def shares() -> list[str]:
        return [text for text in screen.texts() if "% likely" in text]

    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await with_a_dark_stop_lamp(depot, screen, walk_id)
        await screen.click("defects")
        [clear] = shares()
        await screen.click("causes")
        for what in ("sun", "rain", "dirty_lenses"):
            await screen.click(f"erring_{what}")
        told = shares()[0]
        await screen.click("back")
        assert shares() == [told]
        assert told != clear


async def test_a_defect_that_is_of_no_lamp_has_no_causes(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await tap(depot, screen, walk_id, "ok")
        await screen.click("defect")
        await screen.click("item_seal")
        await screen.click("seen_worn")
        await tap(depot, screen, walk_id, "record_fault")
        await screen.click("defects")
        assert screen.has("repaired_lines_on")
        assert not screen.has("causes")


async def to_the_end_of_the_lamps(depot: App, screen: Screen, walk_id: str) -> None:
    """Everything is well but the left rear lamp, and that only with all of them lit."""
    while (here := walk_of(depot, walk_id).here) and here.id != "load_rear":
        answer(depot.parts, walk_id, here)
    await screen.until(lambda: screen.has("defect"))
    await screen.click("defect")
    await screen.click("item_rear_left")
    await screen.click("seen_dark")
    await tap(depot, screen, walk_id, "record_fault")
    await screen.until(lambda: screen.has("skip"))


@pytest.mark.parametrize("key", ["outcome_lit", "skip"])
async def test_after_the_last_look_one_more_is_asked_for_that_may_be_left_out(
    depot: App, key: str
) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps", power="cab", together=True)
    async with depot.page(f"/walk/{walk_id}") as screen:
        await to_the_end_of_the_lamps(depot, screen, walk_id)
        [asked] = [text for text in screen.texts() if "on, alone" in text]
        await (screen.click(key) if key == "skip" else tap(depot, screen, walk_id, key))
        await screen.until(lambda: not screen.has("skip"))
        assert asked not in screen.texts()
    assert list(walk_of(depot, walk_id).tried.values()) == ([] if key == "skip" else ["lit"])


async def test_the_end_of_a_walk_leads_to_the_likely_causes_and_its_record_tells_them(
    depot: App,
) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        await with_a_dark_stop_lamp(depot, screen, walk_id)
        while here := walk_of(depot, walk_id).here:
            answer(depot.parts, walk_id, here)
        await screen.until(lambda: screen.has("finish"))
        assert any(text.startswith("Bulb of the left stop lamp") for text in screen.texts())
        await screen.click("causes")
        assert screen.has("outcome_full") or screen.has("outcome_cured")
        await screen.click("back")
        await screen.click("back")
        await screen.click("finish")
        await screen.until(lambda: screen.has("likely_lamps"))
        assert any(text.startswith("Bulb of the left stop lamp") for text in screen.texts())
        assert not screen.has("causes")
