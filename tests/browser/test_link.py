"""Trouble on the way between phone and app: the walk goes on where it was, nothing twice.

What a page does whose server was killed stands in `test_lost_and_found.py`.
"""

from __future__ import annotations

import time
from collections.abc import Sequence
from itertools import pairwise
from pathlib import Path

import pytest
from playwright.sync_api import Request, expect
from support.voices import SilentVoice
from support.walks import FakeClock

from browser.cutting import OTHER_ADDRESS, Link, linked
from browser.onewalk import OneWalk, seeded
from browser.phone import PATIENCE_MS, Phone
from browser.serving import Command, Served, served
from walkaround.timing import Timing

pytestmark = pytest.mark.browser

PING_S = 1.0
"""The server of a page that sleeps asks for it so often, and waits so long for its answer."""
ASLEEP_S = 4.0
"""Longer than both."""
AWAY_MS = 1200
"""Long enough for a page to have tried in vain to connect again."""
MOST_TRIES = 7
"""To reach its server; if each came after twice the wait, the last after half a minute."""
NOT_LOCAL = "127.0.0.3"
"""An address that pages take for another machine's: they try less and less often there."""


@pytest.fixture
def timing() -> Timing:
    """Waits as for people."""
    return Timing()


def _opens(phone: Phone, address: str, walk: OneWalk) -> None:
    """The page stands at the step where the walk waits."""
    phone.open(address, walk.path)
    phone.at(walk.place)


def _goes_on(phone: Phone, walk: OneWalk, done: int = 0) -> None:
    """The page shows the step after `done` more answers, and the next answer lands there."""
    phone.settled()
    phone.at(walk.place + done)
    phone.answer("OK")
    phone.at(walk.place + done + 1)
    assert walk.answered() == walk.next_steps(done + 1)


def _impatient(phone: Phone) -> None:
    """Taps on an answer while nothing comes back."""
    ok = phone.box("OK").middle
    for _ in range(4):
        phone.page.touchscreen.tap(*ok)
        phone.page.wait_for_timeout(100)


def test_a_page_whose_connection_ended_goes_on_at_the_same_step(
    walk: OneWalk, link: Link, phone: Phone
) -> None:
    """Cut at both ends; at the phone's alone, while the server still holds the old connection and
    knows of nothing; and with a new address, by which Flet knows a session too: 127.0.0.1 counts
    as none.
    """
    _opens(phone, link.address, walk)
    link.cut()
    phone.page.wait_for_timeout(AWAY_MS)
    with phone.new_screen():
        link.mend()
    _goes_on(phone, walk)
    with phone.new_screen():
        link.strand()
    _goes_on(phone, walk, 1)
    link.source = OTHER_ADDRESS
    with phone.new_screen():
        link.strand()
    _goes_on(phone, walk, 2)
    link.source = "127.0.0.1"
    with phone.new_screen():
        link.cut()
        link.mend()
    _goes_on(phone, walk, 3)


def test_taps_made_while_cut_off_answer_nothing_twice_and_nothing_else(
    walk: OneWalk, link: Link, phone: Phone
) -> None:
    """They arrive together as soon as the server is in reach again; if another page has answered
    meanwhile, they are dropped."""
    _opens(phone, link.address, walk)
    phone.page.wait_for_timeout(1000 * Timing().dead_s)
    link.cut()
    _impatient(phone)
    with phone.new_screen():
        link.mend()
    phone.settled()
    assert walk.answered() in ((), walk.next_steps(1))
    _goes_on(phone, walk, done := len(walk.answered()))

    phone.page.wait_for_timeout(1000 * Timing().dead_s)
    link.cut()
    _impatient(phone)
    walk.answer_elsewhere()
    with phone.new_screen():
        link.mend()
    _goes_on(phone, walk, done + 2)


def test_taps_held_up_on_the_way_answer_once_and_no_step_that_came_meanwhile(
    walk: OneWalk, link: Link, phone: Phone
) -> None:
    """Out of reach for a moment: neither end is told, and what was sent comes late, at once."""
    _opens(phone, link.address, walk)
    phone.page.wait_for_timeout(1000 * Timing().dead_s)
    link.silence()
    _impatient(phone)
    link.mend()
    _goes_on(phone, walk, 1)

    phone.page.wait_for_timeout(1000 * Timing().dead_s)
    link.silence()
    _impatient(phone)
    walk.answer_elsewhere()
    link.mend()
    _goes_on(phone, walk, 3)


def test_a_network_that_went_without_a_word_is_told_and_forgotten_when_it_is_back(
    walk: OneWalk, link: Link, phone: Phone
) -> None:
    """Neither end is told, as when one walks out of reach."""
    _opens(phone, link.address, walk)
    lost = phone.page.get_by_role("alertdialog")
    expect(lost).to_be_hidden()
    link.silence()
    expect(lost).to_be_visible(timeout=PATIENCE_MS)
    phone.at(walk.place)
    link.mend()
    expect(lost).to_be_hidden(timeout=PATIENCE_MS)
    _goes_on(phone, walk)


def test_a_phone_that_slept_until_the_server_gave_it_up_goes_on(
    data: Path, clock: FakeClock, phone: Phone
) -> None:
    """Its page is frozen and nothing reaches it; meanwhile another phone answers."""
    with served(data, clock, SilentVoice(), ping_s=PING_S) as app, linked(app.address) as link:
        walk = seeded(app.parts, data)
        _opens(phone, link.address, walk)
        power = phone.page.context.new_cdp_session(phone.page)
        link.silence()
        power.send("Page.setWebLifecycleState", {"state": "frozen"})
        time.sleep(ASLEEP_S)
        walk.answer_elsewhere()
        link.mend()
        power.send("Page.setWebLifecycleState", {"state": "active"})
        _goes_on(phone, walk, 1)
        phone.page.goto("about:blank")


def _not_doubled(tries: Sequence[float]) -> bool:
    """Whether some wait from the third on was not much longer than the one before."""
    waits = [after - before for before, after in pairwise(tries)]
    return any(after < 1.5 * before for before, after in pairwise(waits[2:]))


def test_a_page_that_has_lost_its_server_keeps_asking_for_it(
    walk: OneWalk, app: Served, phone: Phone
) -> None:
    """Flet's page doubles its waits without a bound: ten minutes away would cost ten more."""
    tries: list[float] = []

    def tried(request: Request) -> None:
        if request.method == "HEAD":
            tries.append(time.monotonic())

    with linked(app.address, NOT_LOCAL) as link:
        phone.open(link.address, walk.path)
        phone.at(walk.place)
        phone.page.on("request", tried)
        link.cut()
        # A busy machine adds to any of the waits; doubled ones would be twice as long each time.
        while not (bounded := _not_doubled(tries)) and len(tries) < MOST_TRIES:
            phone.page.wait_for_timeout(100)
        assert bounded, tries
        with phone.new_screen():
            link.mend()
        _goes_on(phone, walk)


def test_a_server_stopped_and_started_again_finds_its_pages_at_the_same_step(
    data: Path, command: Command, phone: Phone
) -> None:
    walk = seeded(None, data)
    command.start()
    _opens(phone, command.address, walk)
    phone.answer("OK")
    phone.at(walk.place + 1)
    command.stop()
    with phone.new_screen():
        command.start()
    _goes_on(phone, walk, 1)
