"""Sockets of servers that a test has ended."""

from __future__ import annotations

import gc
import warnings
from collections.abc import Iterator

import pytest


@pytest.fixture(scope="module", autouse=True)
def _sockets_of_ended_servers() -> Iterator[None]:
    """Collect them with their own file: a server ended under an open page leaves its transports."""
    yield
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", ResourceWarning)
        gc.collect()
