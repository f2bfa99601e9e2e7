"""Debian's Chromium without windows, driven by Playwright, with nothing that reaches out by itself.

It draws and plays as the whole browser does, and a page opens at about half the cost.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from walkaround.base.errors import MachineError
from walkaround.web.addresses import HERE, reachable_address

CHROMIUM = Path("/usr/bin/chromium-headless-shell")
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    # For each page it would draw its own suggestions under the address: a third of a page's cost.
    # Of two such flags Chromium heeds the last, so what Playwright switches off stands here too.
    "--disable-features=WebUIOmniboxPopup,WebUIOmniboxAimPopup,AimEnabled,LensOverlay,PaintHolding,"
    "HttpsUpgrades,HttpsFirstBalancedModeAutoEnable,ThirdPartyStoragePartitioning,MediaRouter,"
    "AvoidUnnecessaryBeforeUnloadCheckSync,DestroyProfileOnBrowserClose,OptimizationHints,"
    "NetworkTimeServiceQuerying,PreconnectToSearch",
)

COMPILED_ONCE = "--js-flags=--liftoff-only"
"""What draws the page is compiled once and quickly, and not once more to run faster: the page of
a test is gone before that pays. A page opens at three quarters of the cost."""


def lan_address() -> str:
    """This machine's address in its network; without one, an address that is its own anyway."""
    try:
        return reachable_address("0.0.0.0")
    except MachineError:
        return HERE


@contextmanager
def launched(*more: str) -> Iterator[Browser]:
    """A headless browser that finds no machine but this one, with more flags if need be.

    A machine without a browser fails the test with one sentence.
    """
    assert CHROMIUM.exists(), (
        f"The browser tests need Chromium at {CHROMIUM}: "
        f"install Debian's package `{CHROMIUM.name}`."
    )
    with sync_playwright() as playwright:
        # Not by asking for each request what to do with it: then Chromium keeps nothing it fetched.
        only_here = f"MAP * ~NOTFOUND , EXCLUDE 127.0.0.* , EXCLUDE {lan_address()}"
        args = [*FLAGS, *more, f"--host-resolver-rules={only_here}"]
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=args)
        try:
            yield browser
        finally:
            browser.close()
