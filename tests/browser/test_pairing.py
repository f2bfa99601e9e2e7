"""Another device: not paired, paired by the link, and dropped again; over http and https."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

import numpy as np
import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Browser, expect
from support.voices import SilentVoice
from support.walks import FakeClock

from browser.chromium import lan_address
from browser.phone import PATIENCE_MS, SIZES, Phone
from browser.seeds import NAMES, PUMP_TRAILER
from browser.serving import Command, served
from walkaround.web.addresses import HERE

pytestmark = pytest.mark.browser

CDN = "https://cdn.jsdelivr.net/"
"""Flet asks for an animation runtime there, with or without a network; it never gets it."""


@contextmanager
def other_device(chromium: Browser) -> Iterator[Phone]:
    """A phone that has never been here, and takes a certificate that vouches for itself."""
    width, height = SIZES["phone"]
    context = chromium.new_context(
        viewport={"width": width, "height": height}, has_touch=True, ignore_https_errors=True
    )
    try:
        yield Phone(context.new_page())
    finally:
        context.close()


def lan() -> list[str]:
    """The flags that open to the network; on a machine without one, to an address of its own."""
    return ["--lan", *(["--host", "127.0.0.2"] if lan_address() == HERE else [])]


@contextmanager
def started(data: Path, *more: str) -> Iterator[Command]:
    command = Command(data, *lan(), *more)
    command.start()
    try:
        yield command
    finally:
        command.stop()


def home(link: str) -> str:
    return link.partition("?")[0]


def not_paired(phone: Phone) -> None:
    heading = phone.page.get_by_role("heading", name="This device is not paired")
    expect(heading).to_be_visible(timeout=PATIENCE_MS)


def paired(phone: Phone, link: str) -> None:
    phone.page.goto(link)
    assert phone.page.url == home(link)
    phone.wake()


def walked_one_step(phone: Phone) -> str:
    phone.press(phone.card(NAMES[PUMP_TRAILER]))
    phone.tap("Start the walk")
    phone.at(1)
    phone.answer()
    phone.at(2)
    return phone.walk_id


def test_a_device_pairs_by_the_link_walks_and_is_dropped_by_a_new_key(
    chromium: Browser, data: Path
) -> None:
    with (
        started(data) as command,
        other_device(chromium) as phone,
        other_device(chromium) as stranger,
        other_device(chromium) as second,
    ):
        console: list[str] = []
        link, address = command.address, home(command.address)
        stranger.page.goto(f"{address}records")
        not_paired(stranger)
        assert stranger.page.locator("script").count() == 0
        phone.page.on("console", lambda line: console.append(line.text))
        paired(phone, link)
        walk_id = walked_one_step(phone)
        phone.page.wait_for_function("window.heard.some(h => h.what === 'playing')")
        with phone.page.expect_download() as download:
            phone.page.evaluate(f"location.href = '/files/{walk_id}.json'")
        assert walk_id in Path(download.value.path()).read_text(encoding="utf-8")
        refused = [line for line in console if "Content Security Policy" in line]
        assert [line for line in refused if CDN not in line] == []

        paired(second, link)
        second.tap("Settings")
        second.tap("Other devices")
        second.stays("New key")
        second.page.get_by_label("Code of the address").first.wait_for()
        second.at_rest()
        picture = Image.open(io.BytesIO(second.page.screenshot())).convert("L")
        assert [code.text for code in zxingcpp.read_barcodes(np.asarray(picture))] == [link]
        second.tap("New key")
        second.tap("Drop all")
        for dropped in (second, phone):
            not_paired(dropped)
        phone.page.goto(link)
        not_paired(phone)
        new = command.line()
        assert new != link
        paired(phone, new.split()[-1])


def test_over_https_a_phone_has_what_browsers_give_to_secure_pages_only(
    chromium: Browser, data: Path
) -> None:
    with started(data, "--https") as command, other_device(chromium) as phone:
        assert urlsplit(command.address).scheme == "https"
        phone.page.goto(home(command.address))
        not_paired(phone)
        paired(phone, command.address)
        assert phone.page.evaluate("isSecureContext && 'wakeLock' in navigator") is True
        walked_one_step(phone)
        cookie = phone.page.context.cookies()[0]
        assert (cookie["secure"], cookie["httpOnly"], cookie["sameSite"]) == (True, True, "Lax")
        assert phone.page.evaluate("document.cookie") == ""


def test_a_page_of_another_site_gets_nothing_from_an_app_without_a_key(
    chromium: Browser, data: Path
) -> None:
    """The browser of this machine shows both."""
    with served(data, FakeClock(), SilentVoice()) as app, other_device(chromium) as phone:
        phone.open(app.address)
        phone.page.goto("about:blank")
        tried = """address => new Promise(resolve => {
          const socket = new WebSocket(address.replace("http", "ws") + "ws");
          socket.onopen = () => resolve("open");
          socket.onerror = () => resolve("refused");
        })"""
        assert phone.page.evaluate(tried, app.address) == "refused"
        asked = "address => fetch(address).then(() => 'read', () => 'refused')"
        assert phone.page.evaluate(asked, app.address) == "refused"
        framed = """address => new Promise(resolve => {
          const frame = document.createElement("iframe");
          frame.onload = () => resolve(frame.contentDocument ? "read" : "refused");
          frame.src = address;
          document.body.append(frame);
        })"""
        assert phone.page.evaluate(framed, app.address) == "refused"
