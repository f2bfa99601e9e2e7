"""What the tests of screens share."""

from __future__ import annotations

from collections.abc import AsyncIterator
from pathlib import Path

import pytest
from support.app import PATIENT, App, app


@pytest.fixture
async def depot(tmp_path: Path) -> AsyncIterator[App]:
    """The whole app on an empty data folder, without a browser."""
    async with app(tmp_path / "data") as opened:
        # Somebody has given a name, so that no walk asks for it.
        opened.parts.store.change_settings({"who": "Kim"})
        yield opened


@pytest.fixture
async def patient(tmp_path: Path) -> AsyncIterator[App]:
    """The same, but a tap too soon after the last counts for nothing."""
    async with app(tmp_path / "data", PATIENT) as opened:
        # Somebody has given a name, so that no walk asks for it.
        opened.parts.store.change_settings({"who": "Kim"})
        yield opened
