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

# Tests make much that dies at once: looking for circles in it as often as Python does by itself
# takes a tenth of their time.
gc.set_threshold(100_000, 50, 100)

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


def pytest_configure(config: pytest.Config) -> None:
    """Have each worker begin to collect elsewhere: what one has compiled the others only read."""
    worker = getattr(config, "workerinput", None)
    if worker is not None and config.args == config.getini("testpaths"):
        places = sorted(str(path) for path in Path(__file__).parent.iterdir())
        start = len(places) * int(worker["workerid"].removeprefix("gw")) // worker["workercount"]
        config.args[:] = places[start:] + places[:start]


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    browser = {item.path for item in items if item.get_closest_marker("browser")}
    here = Path(__file__).parent
    longest = {here / name: place for place, name in enumerate(LONGEST)}
    assert all(path.exists() for path in longest), "LONGEST names a file that is not there."
    last = len(longest)
    # By path besides, as each worker collected in an order of its own.
    items.sort(key=lambda i: (i.path not in browser, longest.get(i.path, last), i.path))


def pytest_collection_finish() -> None:
    """Spare the garbage collector ten thousand tests, which all live to the end."""
    gc.freeze()
