"""The screen of other devices: the link, the code, and a new key that is asked for twice."""

from __future__ import annotations

from collections.abc import AsyncIterator
from dataclasses import replace
from pathlib import Path

import flet as ft
import pytest
from support.app import App, app

from walkaround.access.pairing import Pairing
from walkaround.base.errors import MachineError


@pytest.fixture
async def here(tmp_path: Path) -> AsyncIterator[App]:
    """Without a key, for this device only."""
    async with app(tmp_path / "data") as made:
        yield made


@pytest.fixture
def pairing(tmp_path: Path) -> Pairing:
    return Pairing(tmp_path / "pairing" / "key", "http://192.0.2.7:8765/")


@pytest.fixture
def depot(here: App, pairing: Pairing) -> App:
    """Open to the network."""
    return replace(here, parts=replace(here.parts, pairing=pairing))


async def test_settings_lead_to_the_link_and_its_code(depot: App, pairing: Pairing) -> None:
    async with depot.page("/settings") as screen:
        await screen.click("pairing")
        assert screen.has(pairing.link)
        code = screen.controls(ft.Image)[0]
        assert code.src == f"/pairing.png?of={pairing.link_id}"
        assert pairing.key not in code.src
        await screen.click("back")
        assert screen.has("Prompts")


async def test_without_a_key_no_other_device_is_offered(here: App) -> None:
    async with here.page("/settings") as screen:
        assert not screen.has("Other devices")
    async with here.page("/pairing") as screen:
        assert "Only this device is served. Start walkaround with --lan" in screen.text
        assert not screen.controls(ft.Image)


async def test_the_key_is_changed_only_when_asked_for_twice(depot: App, pairing: Pairing) -> None:
    old = pairing.key
    async with depot.page("/pairing") as screen:
        await screen.click("new_key")
        assert "every device is dropped at once, this one too" in screen.text
        await screen.click("keep_key")
        assert screen.has(pairing.link)
        assert pairing.key == old
        await screen.click("new_key")
        await screen.click("drop_all")
        await screen.until(lambda: pairing.key != old)
        await screen.until(lambda: screen.has(pairing.link))


async def test_a_key_that_cannot_be_saved_is_told_and_stays(
    depot: App, pairing: Pairing, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> None:
        raise MachineError("There is no room left to save the key; free some space.")

    monkeypatch.setattr("walkaround.disk.durable.write_durably", fails)
    old = pairing.key
    async with depot.page("/pairing") as screen:
        await screen.click("new_key")
        await screen.click("drop_all")
        await screen.until(lambda: "There is no room left to save the key" in screen.text)
    assert pairing.key == old
