"""A vehicle file chosen in the browser: a huge one is refused unsent, a small one is taken in."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import WebSocket

from browser.phone import Phone
from browser.seeds import SEMITRAILER
from browser.serving import Served
from walkaround.vehicle.to_toml import vehicle_toml

pytestmark = pytest.mark.browser

IMPORT = "Import a vehicle file"


def _choose(phone: Phone, file: Path) -> None:
    phone.stays(IMPORT)
    with phone.page.expect_file_chooser() as chooser:
        phone.button(IMPORT).tap()
    chooser.value.set_files(file)


def test_30_mb_are_refused_with_a_sentence_and_the_page_goes_on(
    app: Served, phone: Phone, tmp_path: Path
) -> None:
    huge, good = tmp_path / "huge.toml", tmp_path / "tanker.toml"
    huge.write_bytes(b"#" * 30_000_000)
    vehicle = app.parts.own_vehicles.vehicle(SEMITRAILER)
    assert vehicle is not None
    named = vehicle.model_copy(update={"id": "tanker", "name": "Tanker 9"})
    good.write_text(vehicle_toml(named), encoding="utf-8")
    phone.open(app.address, "vehicles")
    sockets: list[WebSocket] = []
    phone.page.on("websocket", lambda socket: sockets.append(socket))
    _choose(phone, huge)
    phone.sees(re.compile("has 30.0 MB, but a vehicle file has 100 kB at most"))
    _choose(phone, good)
    phone.page.wait_for_url("**/vehicle/tanker")
    assert app.parts.own_vehicles.vehicle("tanker") == named
    assert not sockets
