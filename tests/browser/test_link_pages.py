"""Several pages at one walk: tabs, another device, and a second phone in the cab."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Browser
from support.english import ENGLISH

from browser.onewalk import OneWalk
from browser.phone import Phone, in_hand
from browser.serving import Served
from walkaround.timing import Timing
from walkaround.words.cab import cab_words

pytestmark = pytest.mark.browser

# Clicks the button of this name at this moment of the computer's clock.
_CLICK_AT = """([name, at_ms]) => {
  const all = [...document.querySelectorAll("flt-semantics[role=button]")];
  const button = all.find((each) => each.textContent.trim() === name);
  setTimeout(() => button.click(), at_ms - Date.now());
}"""


@pytest.fixture
def timing() -> Timing:
    """Waits as for people."""
    return Timing()


@contextmanager
def _another_tab(phone: Phone) -> Iterator[Phone]:
    """The browser's "Duplicate tab": the copy has all that the page kept of its session."""
    with phone.page.expect_popup() as opened:
        phone.page.evaluate("window.open(location.href)")
    tab = Phone(opened.value)
    tab.wake()
    yield tab
    tab.page.close()


def test_answers_alternate_between_two_tabs_and_each_follows_the_other(
    walk: OneWalk, app: Served, phone: Phone
) -> None:
    phone.open(app.address, walk.path)
    phone.at(walk.place)
    with _another_tab(phone) as tab:
        for done in range(4):
            answering, following = (phone, tab) if done % 2 else (tab, phone)
            answering.page.bring_to_front()
            answering.at(walk.place + done)
            answering.answer("OK")
            following.at(walk.place + done + 1)
    assert walk.answered() == walk.next_steps(4)


def test_double_taps_in_two_tabs_at_the_same_moment_are_one_answer(
    walk: OneWalk, app: Served, phone: Phone, chromium: Browser
) -> None:
    with in_hand(chromium) as other:
        for page in (phone, other):
            page.open(app.address, walk.path)
            page.at(walk.place)
        for done in range(3):
            phone.page.wait_for_timeout(1000 * Timing().dead_s + 200)
            at_ms = 1000 * time.time() + 300
            for page in (phone, other):
                for _ in range(2):
                    page.page.evaluate(_CLICK_AT, ["OK", at_ms])
            for page in (phone, other):
                page.at(walk.place + done + 1)
        for page in (phone, other):
            page.settled()
    assert walk.answered() == walk.next_steps(3)


def test_another_device_goes_on_from_the_first_screen_and_the_first_one_follows(
    walk: OneWalk, app: Served, phone: Phone, chromium: Browser
) -> None:
    phone.open(app.address, walk.path)
    phone.answer("OK")
    phone.at(walk.place + 1)
    with in_hand(chromium, "tablet") as other:
        other.open(app.address)
        other.tap("Continue")
        other.at(walk.place + 1)
        other.answer("OK")
        other.at(walk.place + 2)
        phone.at(walk.place + 2)
    phone.answer("OK")
    phone.at(walk.place + 3)
    assert walk.answered() == walk.next_steps(3)


def test_a_phone_in_the_cab_shows_what_to_switch_and_follows(
    walk: OneWalk, app: Served, phone: Phone, chromium: Browser
) -> None:
    phone.open(app.address, walk.path)
    phone.at(walk.place)
    with in_hand(chromium) as cab:
        cab.open(app.address, f"cab/{walk.id}")
        for done in range(4):
            told = cab_words(app.parts.open_walks.walk(walk.id), ENGLISH)
            assert told.lines
            for line in (told.head, *told.lines):
                cab.sees(line)
            cab.sees(f"{walk.place - 1 + done} of {len(walk.steps)} answered")
            assert not cab.button("OK").count()
            phone.at(walk.place + done)
            phone.answer("OK")
            phone.at(walk.place + done + 1)
        cab.sees(f"{walk.place + 3} of {len(walk.steps)} answered")
    assert walk.answered() == walk.next_steps(4)
