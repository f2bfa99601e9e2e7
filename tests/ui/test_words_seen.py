"""Whether what must be read was whole on the screen, from the heights that a page tells."""

from __future__ import annotations

from typing import Any

import flet as ft
import pytest
from browser.seeds import SEMITRAILER, walked
from support.app import App
from support.flet_harness import Screen

from walkaround.ui.page.words_seen import WordsSeen

PHONE, SMALL_PHONE = (412.0, 915.0, 1.0), (360.0, 640.0, 1.0)


def drawn(reading: WordsSeen, words_px: float, window_px: float) -> None:
    """The page tells how high the words that stand there now and their window are."""
    reading.came_out(reading.words_id, words_px)
    reading.opened(reading.words_id, window_px)


def above_keys(sight: tuple[float, ...] = SMALL_PHONE) -> WordsSeen:
    reading = WordsSeen()
    reading.begin("cut_in", sight, has_keys=True)
    return reading


def test_words_that_fit_above_keys_leave_them_live() -> None:
    reading = above_keys()
    drawn(reading, 150, 160)
    assert reading.live
    assert not reading.crowded


def test_words_above_keys_first_get_smaller_and_are_measured_anew() -> None:
    reading = above_keys()
    before = reading.words_id
    drawn(reading, 200, 160)
    assert reading.live
    assert reading.crowded
    assert reading.words_id != before
    # What is told late of the words as they were counts no more.
    reading.came_out(before, 200)
    drawn(reading, 150, 160)
    assert reading.live


def test_keys_wait_for_words_that_do_not_fit_above_them_and_not_only_until_the_keys_are_gone() -> (
    None
):
    reading = above_keys()
    drawn(reading, 200, 160)
    drawn(reading, 180, 160)
    assert not reading.live
    reading.opened(reading.words_id, 300)
    assert not reading.live
    assert reading.at_end
    reading.finish()
    assert reading.live
    # The keys are back, and leave the words less room again.
    assert not reading.opened(reading.words_id, 160)
    assert reading.live


def test_words_that_were_scrolled_to_their_end_bring_the_keys() -> None:
    reading = above_keys()
    drawn(reading, 500, 160)
    drawn(reading, 480, 160)
    reading.opened(reading.words_id, 300)
    assert not reading.scrolled(reading.words_id, 400)
    assert reading.scrolled(reading.words_id, 480)
    assert reading.live


def test_keys_that_need_more_room_later_do_not_go() -> None:
    reading = above_keys()
    drawn(reading, 150, 160)
    assert not reading.opened(reading.words_id, 60)
    assert reading.live


def test_words_that_grow_above_keys_are_measured_again() -> None:
    reading = above_keys()
    drawn(reading, 150, 160)
    reading.came_out(reading.words_id, 190)
    drawn(reading, 190, 160)
    assert not reading.live


def test_a_page_of_another_size_is_measured_anew_and_what_was_read_stays_read() -> None:
    reading = above_keys()
    drawn(reading, 200, 160)
    drawn(reading, 180, 160)
    assert not reading.live
    reading.begin("cut_in", PHONE, has_keys=True)
    assert reading.live
    drawn(reading, 180, 400)
    assert reading.live
    reading.begin("cut_in", SMALL_PHONE, has_keys=True)
    drawn(reading, 200, 160)
    drawn(reading, 180, 160)
    assert not reading.live
    reading.finish()
    reading.begin("cut_in", PHONE, has_keys=True)
    drawn(reading, 800, 400)
    assert reading.live


def test_two_answers_come_by_themselves_once_the_words_above_them_fit() -> None:
    reading = WordsSeen()
    reading.begin("chocks_on", SMALL_PHONE)
    drawn(reading, 200, 160)
    assert not reading.live
    drawn(reading, 150, 160)
    assert reading.live


def test_a_window_of_the_step_before_does_not_crowd_the_next_ones_words() -> None:
    reading = WordsSeen()
    reading.begin("rods_marked", SMALL_PHONE)
    drawn(reading, 100, 120)
    reading.begin("source_shut", SMALL_PHONE)
    reading.came_out(reading.words_id, 270)
    assert not reading.crowded
    reading.opened(reading.words_id, 450)
    assert not reading.crowded
    assert reading.live


def test_words_whose_height_is_not_yet_known_are_not_read_by_scrolling() -> None:
    reading = WordsSeen()
    reading.begin("chocks_on", SMALL_PHONE)
    reading.scrolled(reading.words_id, 90)
    drawn(reading, 200, 160)
    assert not reading.live


async def laid_out(screen: Screen, words_px: float, window_px: float) -> None:
    """The page tells the server so of what it drew last."""
    for part, px in (("must_", words_px), ("words_", window_px)):
        drawn_part: Any = next(
            control
            for control in screen.controls()
            if isinstance(control.key, str) and control.key.startswith(part)
        )
        await screen.fire(drawn_part, "size_change", {"w": 336.0, "h": px})


def at(depot: App, step_id: str) -> str:
    """A walk that stands at this step."""
    return walked(depot.parts, SEMITRAILER, step_id)


@pytest.mark.parametrize(
    ("step_id", "key"),
    [("gauges", "mark_1"), ("stroke_1_right", "key_1")],
)
async def test_keys_and_choices_go_until_words_without_room_above_them_were_read(
    depot: App, step_id: str, key: str
) -> None:
    async with depot.page(f"/walk/{at(depot, step_id)}") as screen:
        await laid_out(screen, 150, 160)
        assert screen.has(key)
    async with depot.page(f"/walk/{at(depot, step_id)}") as screen:
        await laid_out(screen, 250, 160)
        await screen.until(lambda: screen.has(key))
        await laid_out(screen, 200, 160)
        await screen.until(lambda: screen.has("Read on"))
        assert not screen.has(key)
        await laid_out(screen, 200, 300)
        assert not screen.has(key)
        await screen.click("Read on")
        await screen.until(lambda: screen.has(key))


async def test_words_whose_picture_went_for_them_are_as_large_as_the_room_it_left_allows(
    depot: App,
) -> None:
    walk_id = walked(depot.parts, "pump_trailer_3", "water_drained_unsprung")
    async with depot.page(f"/walk/{walk_id}") as screen:
        before = screen.find("words").size
        await laid_out(screen, 471, 450)
        await screen.until(lambda: not screen.controls(ft.Image))
        assert 24 <= screen.find("words").size <= before
