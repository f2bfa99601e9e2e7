"""One tap, one answer: bouncing fingers and two phones never answer a step unseen.

Each touch carries a time of its own, which the test gives it, so that a busy machine makes no fast
touches slow: Chrome DevTools Protocol, Input.dispatchTouchEvent and Input.dispatchMouseEvent.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser
from playwright.sync_api import TimeoutError as TookTooLong

from browser.phone import SOUND, Phone, in_hand
from browser.seeds import SEMITRAILER, place_of, plan_for, walked
from browser.serving import Served
from walkaround.plan.steps import Plan
from walkaround.records.reader import WalkReader
from walkaround.timing import Timing
from walkaround.walk.events import Answered

pytestmark = pytest.mark.browser

Point = tuple[float, float]
Fingers = Callable[[Phone, Point], None]
STEP = "tail_rear"
BOUNCE_S = 0.12
"""From one touch of a bouncing finger to the next."""


@pytest.fixture
def timing() -> Timing:
    """Waits as for people."""
    return Timing()


def _touch(phone: Phone, at: Point, when_s: float) -> None:
    """A touch that was made at this time, seconds since 1970, whenever the page gets it."""
    devtools = phone.page.context.new_cdp_session(phone.page)
    where = [{"x": at[0], "y": at[1]}]
    for kind, points, later_s in (("touchStart", where, 0.0), ("touchEnd", [], 0.02)):
        touch = {"type": kind, "touchPoints": points, "timestamp": when_s + later_s}
        devtools.send("Input.dispatchTouchEvent", touch)
    devtools.detach()


def _click(phone: Phone, at: Point, when_s: float, count: int) -> None:
    devtools = phone.page.context.new_cdp_session(phone.page)
    for kind in ("mousePressed", "mouseReleased"):
        click = {"type": kind, "x": at[0], "y": at[1], "button": "left", "clickCount": count}
        devtools.send("Input.dispatchMouseEvent", click | {"timestamp": when_s})
    devtools.detach()


def _double_click(phone: Phone, at: Point) -> None:
    start_s = time.time()
    for number in range(2):
        _click(phone, at, start_s + number * BOUNCE_S, number + 1)


def _three_clicks(phone: Phone, at: Point) -> None:
    start_s = time.time()
    for number in range(3):
        _click(phone, at, start_s + number * BOUNCE_S, 1)


def _three_touches(phone: Phone, at: Point) -> None:
    start_s = time.time()
    for number in range(3):
        _touch(phone, at, start_s + number * BOUNCE_S)


FINGERS: tuple[Fingers, ...] = (_double_click, _three_clicks, _three_touches)


def _ids(plan: Plan, place: int, count: int) -> list[str]:
    """The steps from this number on, so many."""
    return [step.id for step in plan.steps[place - 1 :][:count]]


def _answered(data: Path, walk_id: str) -> list[str]:
    """The steps answered so far, in order, as they stand on the disk."""
    events = WalkReader(data).load(walk_id).events
    return [event.step for event in events if isinstance(event, Answered)]


def test_fast_taps_answer_one_step(app: Served, phone: Phone, data: Path) -> None:
    plan, walk_id = plan_for(app.parts, SEMITRAILER), walked(app.parts, SEMITRAILER, STEP)
    place, before = place_of(plan, STEP), _answered(data, walk_id)
    phone.open(app.address, f"walk/{walk_id}")
    phone.at(place)
    for done, fingers in enumerate(FINGERS, 1):
        phone.page.wait_for_timeout(1000 * Timing().dead_s)
        fingers(phone, phone.box("OK").middle)
        phone.at(place + done)
        phone.settled()
        phone.at(place + done)
        assert _answered(data, walk_id)[len(before) :] == _ids(plan, place, done)


def test_a_second_touch_that_a_busy_phone_hands_on_late_answers_nothing(
    app: Served, phone: Phone, data: Path
) -> None:
    """It reaches the app when the next step has long been shown, but was made before that."""
    plan, walk_id = plan_for(app.parts, SEMITRAILER), walked(app.parts, SEMITRAILER, STEP)
    place, before = place_of(plan, STEP), _answered(data, walk_id)
    phone.open(app.address, f"walk/{walk_id}")
    phone.at(place)
    phone.page.wait_for_timeout(1000 * Timing().dead_s)
    ok, first_s = phone.box("OK").middle, time.time()
    _touch(phone, ok, first_s)
    phone.at(place + 1)
    phone.page.wait_for_timeout(1000 * Timing().dead_s + 300)
    _touch(phone, ok, first_s + BOUNCE_S)
    phone.settled()
    phone.at(place + 1)
    assert _answered(data, walk_id) == [*before, STEP]
    phone.page.wait_for_timeout(1000 * Timing().dead_s + 100)
    _touch(phone, ok, time.time())
    phone.at(place + 2)
    assert _answered(data, walk_id) == [*before, STEP, plan.steps[place].id]


def test_fast_taps_on_back_go_back_one_step(app: Served, phone: Phone) -> None:
    place = place_of(plan_for(app.parts, SEMITRAILER), STEP)
    phone.open(app.address, f"walk/{walked(app.parts, SEMITRAILER, STEP)}")
    phone.at(place)
    for back, fingers in enumerate((_three_clicks, _three_touches), 1):
        phone.page.wait_for_timeout(1000 * Timing().dead_s)
        fingers(phone, phone.box("Back").middle)
        phone.at(place - back)
        phone.settled()
        phone.at(place - back)


def test_fast_taps_on_a_page_without_a_screen_reader_answer_one_step(
    app: Served, phone: Phone, chromium: Browser, data: Path
) -> None:
    """Most pages never ask for semantics; their taps take another way through the browser."""
    plan, walk_id = plan_for(app.parts, SEMITRAILER), walked(app.parts, SEMITRAILER, STEP)
    place, before = place_of(plan, STEP), _answered(data, walk_id)
    phone.open(app.address, f"walk/{walk_id}")
    phone.tap("Note")
    phone.stays("Save the note")
    back = phone.box("Back").middle
    phone.tap("Back")
    phone.gone("Save the note")
    with in_hand(chromium) as plain:
        with plain.page.expect_response(SOUND):
            plain.page.goto(f"{app.address}walk/{walk_id}")
        for done, fingers in enumerate(FINGERS, 1):
            plain.page.wait_for_timeout(1000 * Timing().dead_s)
            fingers(plain, phone.box("OK").middle)
            phone.at(place + done)
            _opens_a_note(plain, phone.box("Note").middle)
            phone.at(place + done)
            assert _answered(data, walk_id)[len(before) :] == _ids(plan, place, done)
            plain.page.wait_for_timeout(1000 * Timing().dead_s)
            plain.page.touchscreen.tap(*back)
            plain.page.wait_for_selector("textarea", state="detached")


def _opens_a_note(plain: Phone, at: Point) -> None:
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


def test_small_keys_may_be_touched_as_fast_as_anyone_likes(app: Served, phone: Phone) -> None:
    walk_id = walked(app.parts, SEMITRAILER, "stop_rear")
    phone.open(app.address, f"walk/{walk_id}")
    phone.tap("More")
    phone.stays("Faster")
    before, at, start_s = app.parts.settings(), phone.box("Faster").middle, time.time()
    for number in range(3):
        _touch(phone, at, start_s + number * 2 * BOUNCE_S)
        phone.at_rest()
    phone.sees(f"{before.faster(3).rate_wpm} words a minute")


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
