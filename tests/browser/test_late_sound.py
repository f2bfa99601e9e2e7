"""A browser that lets sound start only at a tap, as Safari does, says what comes long after one.

Chromium told to ask for a tap has Safari's rule: an element sounds within a few seconds of a tap,
or ever after if it was loaded in them. Seen alike in WebKitGTK 2.50; HTML Standard, 6.4 Tracking
user activation (from memory), says what those seconds are.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser
from support.english import ENGLISH
from support.walks import FakeClock

from browser.chromium import CHROMIUM, FLAGS
from browser.holding import read
from browser.phone import PATIENCE_MS, Phone, in_hand
from browser.seeds import SEMITRAILER, plan_for, walked
from browser.serving import Served
from walkaround.airhold.hold import Hold
from walkaround.settings import Settings
from walkaround.words.air_hold import hold_cues

pytestmark = pytest.mark.browser

HOLD = "supply_hold"
SOUNDS = 6
"""More than the elements that the page takes in turn."""
_TAP_IS_LONG_AGO = "navigator.userActivation.hasBeenActive && !navigator.userActivation.isActive"


@pytest.fixture
def strict(chromium: Browser) -> Iterator[Phone]:
    """A phone whose browser asks for a tap before it lets a page sound."""
    flags = [*FLAGS, "--autoplay-policy=user-gesture-required"]
    browser = chromium.browser_type.launch(executable_path=CHROMIUM, args=flags)
    try:
        with in_hand(browser) as phone:
            yield phone
    finally:
        browser.close()


def _asking(phone: Phone) -> Callable[[str], None]:
    """Waits until something is true in the page; Playwright's own looks count as taps there."""
    wire = phone.page.context.new_cdp_session(phone.page)

    def wait(expression: str) -> None:
        deadline = time.monotonic() + PATIENCE_MS / 1000
        while not wire.send("Runtime.evaluate", {"expression": expression})["result"]["value"]:
            assert time.monotonic() < deadline, f"Never true in the page: {expression}"
            phone.page.wait_for_timeout(50)

    return wait


def test_an_air_hold_is_spoken_long_after_the_last_tap(
    app: Served, strict: Phone, clock: FakeClock
) -> None:
    step = plan_for(app.parts, SEMITRAILER).step(HOLD)
    assert step is not None
    assert step.hold is not None
    strict.open(app.address, f"walk/{walked(app.parts, SEMITRAILER, HOLD)}")
    began = clock()
    strict.answer("Start the minute")
    read(strict, 110)
    wait = _asking(strict)
    now_s = 0.0
    cues = [cue for cue in hold_cues(Hold(rule=step.hold, began=began), ENGLISH) if cue[0] > 0][
        :SOUNDS
    ]
    assert len({text for _, text in cues}) == SOUNDS
    for at_s, text in cues:
        wait(_TAP_IS_LONG_AGO)
        clock.wait(at_s - now_s)
        now_s = at_s
        digest = app.parts.voice.digest(ENGLISH.spoken(text), Settings().rate_wpm)
        wait(f"heard.some(h => h.what === 'playing' && h.src.includes('{digest}'))")
    wait(_TAP_IS_LONG_AGO)
