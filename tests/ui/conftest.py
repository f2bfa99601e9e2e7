"""What the tests of screens share."""

from __future__ import annotations

from collections.abc import AsyncIterator
from pathlib import Path

import pytest
from support.app import App, app


@pytest.fixture
async def depot(tmp_path: Path) -> AsyncIterator[App]:
    """The whole app on an empty data folder, without a browser."""
    async with app(tmp_path / "data") as opened:
        yield opened
