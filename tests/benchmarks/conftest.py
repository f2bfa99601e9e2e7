"""Every benchmark also runs ordinarily, with few rounds, so that none of them rots.

`-m benchmark` runs them alone, with as many rounds as a figure worth reading needs.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from support.sockets import _sockets_of_ended_servers as _sockets_of_ended_servers

Rounds = Callable[[int, int], int]


def _many(config: pytest.Config) -> bool:
    return str(config.option.markexpr).strip() == "benchmark"


# Before pytest takes out what `-m` did not ask for.
@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    for item in items:
        if _many(config) and item.path.is_relative_to(Path(__file__).parent):
            item.add_marker(pytest.mark.benchmark)


@pytest.fixture(scope="session")
def rounds(request: pytest.FixtureRequest) -> Rounds:
    """How often to do something: so many times when asked for figures, else so few."""
    many = _many(request.config)
    return lambda often, few: often if many else few
