"""Debian's Chromium, driven by Playwright, with nothing that reaches out by itself."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

CHROMIUM = Path("/usr/bin/chromium")
_FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@contextmanager
def launched() -> Iterator[Browser]:
    """A headless browser; a machine without one fails the test with one sentence."""
    assert CHROMIUM.exists(), (
        f"The browser tests need Chromium at {CHROMIUM}: install Debian's package `chromium`."
    )
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(_FLAGS))
        try:
            yield browser
        finally:
            browser.close()
