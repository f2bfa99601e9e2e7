"""What holds for the long runs: each draws cases of its own."""

from collections.abc import Iterator

import pytest
from hypothesis import settings


@pytest.fixture(autouse=True)
def _anew() -> Iterator[None]:
    settings.load_profile("anew")
    yield
    settings.load_profile("same")
