"""What holds for all tests: neither how fast a machine is nor chance decides any of them.

What hypothesis draws is the same in each run; `--hypothesis-profile anew` draws something else,
and more of it. `no_shrinking` is for runs of which only the result counts.
Messages read as English wherever a test turns them into text. What takes longest comes first, so
that no worker is left alone with it at the end. Files of tests in a browser, which wait a lot, take
turns with others, which do not.
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
    "browser/test_air_hold.py",
    "browser/test_link.py",
    "browser/test_looks.py",
    "browser/test_lost_and_found.py",
    "browser/test_whole_walk.py",
    "test_cli.py",
    "browser/test_several_walks.py",
    "browser/test_link_pages.py",
    "browser/test_taps.py",
    "airhold/test_verdict.py",
    "browser/test_brake_walk.py",
    "browser/test_pairing.py",
    "report/test_page.py",
    "test_style.py",
    "browser/test_chambers.py",
    "ui/test_pseudo_screens.py",
    "benchmarks/test_bench_many_walks.py",
    "ui/test_vehicle_screens.py",
    "causes/test_truth.py",
    "benchmarks/test_bench_taps.py",
    "plan/test_plumbing.py",
    "ui/test_screens.py",
    "test_mutants.py",
    "ui/test_hold_screens.py",
    "rounds/test_plan_rounds.py",
    "library/test_languages.py",
    "library/test_strangers.py",
    "standards/test_speech_understood.py",
)
"""The files that take longest, as `--durations` told, longest first."""


def pytest_configure(config: pytest.Config) -> None:
    """Have each worker begin to collect elsewhere: what one has compiled the others only read."""
    worker = getattr(config, "workerinput", None)
    if worker is not None and config.args == config.getini("testpaths"):
        here = Path(__file__).parent
        places = sorted(str(path) for path in here.iterdir() if path.name != "conftest.py")
        start = len(places) * int(worker["workerid"].removeprefix("gw")) // worker["workercount"]
        config.args[:] = places[start:] + places[:start]


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Sort the files, as each worker collected in an order of its own."""
    here = Path(__file__).parent
    longest = {here / name: place for place, name in enumerate(LONGEST)}
    assert all(path.exists() for path in longest), "LONGEST names a file that is not there."
    files = sorted({i.path for i in items}, key=lambda p: (longest.get(p, len(longest)), p))
    browser = {item.path for item in items if item.get_closest_marker("browser")}
    waiting, working = [p for p in files if p in browser], [p for p in files if p not in browser]
    places = {path: 2 * n for n, path in enumerate(waiting)}
    places |= {path: 2 * n + 1 for n, path in enumerate(working)}
    items.sort(key=lambda item: places[item.path])


def pytest_collection_finish() -> None:
    """Spare the garbage collector ten thousand tests, which all live to the end."""
    gc.freeze()
