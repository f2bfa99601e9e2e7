"""One tap, one answer: bouncing fingers and two phones never answer a step unseen."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from playwright.sync_api import TimeoutError as TookTooLong

from browser.phone import SOUND, Phone, in_hand
from browser.seeds import SEMITRAILER, place_of, plan_for, walked
from browser.serving import Served
from walkaround.records.reader import WalkReader
from walkaround.timing import Timing
from walkaround.walk.events import Answered

pytestmark = pytest.mark.browser

Fingers = Callable[[Phone, tuple[float, float]], None]
STEP = "tail_rear"


def _double_click(phone: Phone, at: tuple[float, float]) -> None:
    phone.page.mouse.dblclick(*at)


def _three_clicks(phone: Phone, at: tuple[float, float]) -> None:
    for _ in range(3):
        phone.page.mouse.click(*at)


def _three_touches(phone: Phone, at: tuple[float, float]) -> None:
    for _ in range(3):
        phone.page.touchscreen.tap(*at)


FINGERS = pytest.mark.parametrize("fingers", [_double_click, _three_clicks, _three_touches])


def _answered(data: Path, walk_id: str) -> list[str]:
    """The steps answered so far, in order, as they stand on the disk."""
    events = WalkReader(data).load(walk_id).events
    return [event.step for event in events if isinstance(event, Answered)]


@FINGERS
def test_fast_taps_answer_one_step(app: Served, phone: Phone, data: Path, fingers: Fingers) -> None:
    plan, walk_id = plan_for(app.parts, SEMITRAILER), walked(app.parts, SEMITRAILER, STEP)
    place, before = place_of(plan, STEP), _answered(data, walk_id)
    phone.open(app.address, f"walk/{walk_id}")
    phone.at(place)
    phone.page.wait_for_timeout(1000 * Timing().dead_s)
    fingers(phone, phone.box("OK").middle)
    phone.at(place + 1)
    phone.settled()
    phone.at(place + 1)
    assert _answered(data, walk_id) == [*before, STEP]


@FINGERS
def test_fast_taps_on_a_page_without_a_screen_reader_answer_one_step(
    app: Served, phone: Phone, chromium: Browser, data: Path, fingers: Fingers
) -> None:
    """Most pages never ask for semantics; their taps take another way through the browser."""
    plan, walk_id = plan_for(app.parts, SEMITRAILER), walked(app.parts, SEMITRAILER, STEP)
    place, before = place_of(plan, STEP), _answered(data, walk_id)
    phone.open(app.address, f"walk/{walk_id}")
    ok, note = phone.box("OK").middle, phone.box("Note").middle
    with in_hand(chromium) as plain:
        with plain.page.expect_response(SOUND):
            plain.page.goto(f"{app.address}walk/{walk_id}")
        plain.page.wait_for_timeout(1000 * Timing().dead_s)
        fingers(plain, ok)
        phone.at(place + 1)
        _opens_a_note(plain, note)
    phone.at(place + 1)
    assert _answered(data, walk_id) == [*before, STEP]


def _opens_a_note(plain: Phone, at: tuple[float, float]) -> None:
    """Once the field of a note is there, everything tapped before has been answered.

    A tap that falls between two drawings of the page is lost, so it is tried again if need be.
    """
    for _ in range(5):
        plain.page.touchscreen.tap(*at)
        try:
            plain.page.wait_for_selector("textarea", state="attached", timeout=3000)
        except TookTooLong:
            continue
        return
    pytest.fail("No note can be written.")


def test_two_phones_at_one_walk_show_the_same_step(
    app: Served, phone: Phone, chromium: Browser, data: Path
) -> None:
    plan, walk_id = plan_for(app.parts, SEMITRAILER), walked(app.parts, SEMITRAILER, STEP)
    place, before = place_of(plan, STEP), _answered(data, walk_id)
    with in_hand(chromium) as other:
        for each in (phone, other):
            each.open(app.address, f"walk/{walk_id}")
            each.at(place)
        phone.answer("OK")
        other.at(place + 1)
        other.answer("OK")
        phone.at(place + 2)
    phone.answer("OK")
    phone.at(place + 3)
    assert _answered(data, walk_id)[len(before) :] == [s.id for s in plan.steps[place - 1 :][:3]]
