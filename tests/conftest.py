"""What holds for all tests: neither how fast a machine is nor chance decides any of them.

What hypothesis draws is the same in each run; `--hypothesis-profile anew` draws something else,
and more of it. `no_shrinking` is for runs of which only the result counts.
Messages read as English wherever a test turns them into text. What takes longest comes first, so
that no worker is left alone with it at the end: tests in a browser, then the longest other files.
"""

import gc
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, settings
from support.english import ENGLISH as ENGLISH

# How long drawing takes says how busy the machine is, and nothing about the code.
BUSY = (HealthCheck.too_slow,)
settings.register_profile("anew", deadline=None, suppress_health_check=BUSY)
settings.register_profile(
    "same", max_examples=40, deadline=None, derandomize=True, suppress_health_check=BUSY
)
settings.register_profile(
    "no_shrinking",
    settings.get_profile("same"),
    phases=(Phase.explicit, Phase.generate),
    report_multiple_bugs=False,
)
settings.load_profile("same")

LONGEST = (
    "test_cli.py",
    "ui/test_screens.py",
    "ui/test_leak_screens.py",
    "report/test_page.py",
    "airhold/test_verdict.py",
    "standards/test_speech_understood.py",
    "test_mutants.py",
    "library/test_strangers.py",
    "standards/test_spanish_understood.py",
    "records/test_walk_file.py",
    "ui/test_finding_screens.py",
    "ui/test_pseudo_screens.py",
    "test_style.py",
    "causes/test_truth.py",
    "rounds/test_plan_rounds.py",
    "plan/test_safe_orders.py",
    "words/test_pseudo_language.py",
    "test_packaging.py",
    "ui/test_vehicle_screens.py",
)
"""The files without a browser that take longest, as `--durations` told, longest first."""


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    browser = {item.path for item in items if item.get_closest_marker("browser")}
    here = Path(__file__).parent
    longest = {here / name: place for place, name in enumerate(LONGEST)}
    assert all(path.exists() for path in longest), "LONGEST names a file that is not there."
    items.sort(key=lambda item: (item.path not in browser, longest.get(item.path, len(longest))))


def pytest_collection_finish() -> None:
    """Spare the garbage collector ten thousand tests, which all live to the end."""
    gc.freeze()
