"""What holds for all tests: neither how fast a machine is nor chance decides any of them.

What hypothesis draws is the same in each run; `--hypothesis-profile anew` draws something else.
Messages read as English wherever a test turns them into text. What takes longest, tests in a
browser, comes first, so that no worker is left alone with it at the end.
"""

import pytest
from hypothesis import HealthCheck, settings
from support.english import ENGLISH as ENGLISH

# How long drawing takes says how busy the machine is, and nothing about the code.
BUSY = (HealthCheck.too_slow,)
settings.register_profile("anew", deadline=None, suppress_health_check=BUSY)
settings.register_profile("same", deadline=None, derandomize=True, suppress_health_check=BUSY)
settings.load_profile("same")


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    slow = {item.path for item in items if item.get_closest_marker("browser")}
    items.sort(key=lambda item: item.path not in slow)
