"""One app and one page that all tests of a file use, one after the other."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

from playwright.sync_api import Browser
from support.voices import BriefVoice
from support.walks import FakeClock

from browser.phone import SIZES, Phone, in_hand
from browser.serving import Served, served
from walkaround.timing import Timing

_BETWEEN, _ONLY_THERE = "contacts", "Before a trailer is blamed"
_GO = """address => {
  history.pushState({}, "", address);
  dispatchEvent(new PopStateEvent("popstate", { state: {} }));
}"""


class StayingPhone(Phone):
    """It loads the app once; after that it goes from screen to screen."""

    def open(self, address: str, path: str = "") -> None:
        if self.address == address:
            self._go(path)
        else:
            super().open(address, path)

    def _go(self, path: str) -> None:
        """Show another screen of the app on the page that is open, as the browser's Back does.

        By way of a screen like no other, so that nothing of the one before counts as the new one.
        """
        self.page.evaluate(_GO, f"{self.address}{_BETWEEN}")
        self.sees(_ONLY_THERE)
        self.page.evaluate(_GO, f"{self.address}{path}")
        self.no_longer(_ONLY_THERE)
        self.page.get_by_role("button").first.wait_for()
        self.page.evaluate("heard.length = 0")
        self.responses.clear()


class Kept:
    """An app and the phone at it; a phone on which a test failed is not used again."""

    def __init__(self, browser: Browser, app: Served, clock: FakeClock, *, sharp: bool) -> None:
        self.app = app
        self.clock = clock
        self._browser = browser
        self._sharp = sharp
        self._held = ExitStack()
        self._phone: Phone | None = None

    def phone(self) -> Phone:
        """The phone, as large and as light as at first."""
        if self._phone is None:
            dead_s = self.app.parts.timing.dead_s
            made = in_hand(self._browser, dead_s=dead_s, sharp=self._sharp, kind=StayingPhone)
            self._phone = self._held.enter_context(made)
        width, height = SIZES["phone"]
        self._phone.page.set_viewport_size({"width": width, "height": height})
        self._phone.page.emulate_media(color_scheme="light")
        return self._phone

    def put_away(self) -> None:
        """Close the phone; the next test gets another."""
        self._phone = None
        self._held.close()


@contextmanager
def keeping(browser: Browser, folder: Path, *, sharp: bool) -> Iterator[Kept]:
    """An app with brief sounds, which takes an answer at once, on a clock that tests move."""
    clock, voice = FakeClock(), BriefVoice(folder / "speech")
    with served(folder / "data", clock, voice, timing=Timing(dead_s=0.0)) as app:
        kept = Kept(browser, app, clock, sharp=sharp)
        try:
            yield kept
        finally:
            kept.put_away()
