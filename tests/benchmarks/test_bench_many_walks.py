"""A hundred thousand stored walks beside none: a tap, the list of records, the start.

Prints medians and ratios. The walks are spread over years, and in another folder they all lie in
one month, which is looked through whole as soon as one of them changes.
"""

from __future__ import annotations

import urllib.request
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path
from statistics import median
from time import perf_counter

import pytest
from benchmarks.conftest import Rounds
from browser.chromium import launched
from browser.phone import in_hand
from browser.serving import Command
from playwright.sync_api import Browser
from support.manywalks import fill
from support.plans import shipped_plans
from support.walks import FakeClock

from walkaround.records.open_walks import OpenWalks
from walkaround.records.store import WalkStore
from walkaround.walk.events import Answered, Revisited

MANY, FEW = 100_000, 200
"""Walks in the full folder."""

pytestmark = pytest.mark.browser


@pytest.fixture(
    scope="module",
    params=[
        pytest.param(33, id="spread over years", marks=pytest.mark.benchmark),
        pytest.param(0, id="in one month"),
    ],
)
def full(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory, rounds: Rounds
) -> Path:
    """A data folder with all these walks and the kept list of them."""
    data = tmp_path_factory.mktemp("full")
    walks = rounds(MANY, FEW)
    fill(data, walks, request.param)
    store = WalkStore(data)
    began = perf_counter()
    assert len(store.overview().lines) == walks
    print(f"\n{request.node.name}: list made anew in {perf_counter() - began:.0f} s")
    store.close()
    return data


def test_a_tap_costs_the_same_however_many_walks_there_are(
    full: Path, tmp_path: Path, rounds: Rounds
) -> None:
    with ExitStack() as open_:
        taps = {
            "full": _tapping(open_.enter_context(_walks_of(full))),
            "empty": _tapping(open_.enter_context(_walks_of(tmp_path / "empty"))),
        }
        times: dict[str, list[float]] = {name: [] for name in taps}
        for _ in range(rounds(60, 3)):
            for name, tap in taps.items():
                times[name].append(tap())
    ms = {name: 1000 * median(each) for name, each in times.items()}
    print(f"\ntap to durable: {ms['full']:.2f} ms with {rounds(MANY, FEW):,} walks,")
    print(f"  {ms['empty']:.2f} ms with none; full / empty = {ms['full'] / ms['empty']:.2f}")


def test_the_list_of_records_opens_at_once(full: Path, rounds: Rounds) -> None:
    walks = rounds(MANY, FEW)
    with _walks_of(full) as open_walks:
        store, tap = open_walks._store, _tapping(open_walks)
        assert isinstance(store, WalkStore)
        times = []
        for _ in range(rounds(5, 1)):
            tap()
            began = perf_counter()
            assert len(store.overview().lines) > walks
            times.append(perf_counter() - began)
    print(f"\nlist of {walks:,} walks after a tap: {1000 * median(times):.0f} ms")


def test_the_app_starts_and_shows_records_as_soon(
    full: Path, tmp_path: Path, rounds: Rounds
) -> None:
    with launched() as chromium:
        for name, data in (("empty", tmp_path / "empty"), ("full", full)):
            runs = [_started(chromium, data) for _ in range(rounds(5, 1))]
            answer, screen, records = (median(times) for times in zip(*runs, strict=True))
            print(
                f"\n{name}: first answer {answer:.2f} s, first screen {screen:.2f} s, "
                f"records opened in {records:.2f} s"
            )


def _started(chromium: Browser, data: Path) -> tuple[float, float, float]:
    """Seconds from the start to the first answer, to the first screen, from there to the list."""
    command = Command(data)
    began = perf_counter()
    try:
        command.start()
        urllib.request.urlopen(command.address).close()
        answered = perf_counter()
        with in_hand(chromium, sharp=True) as phone:
            phone.open(command.address)
            drawn = perf_counter()
            phone.button("Records").tap()
            phone.gone("Settings")
            return answered - began, drawn - began, perf_counter() - drawn
    finally:
        command.stop()


@contextmanager
def _walks_of(data: Path) -> Iterator[OpenWalks]:
    store = WalkStore(data)
    store.overview()
    yield OpenWalks(store, FakeClock(step_s=1.0))
    store.close()


def _tapping(open_walks: OpenWalks) -> Callable[[], float]:
    """A walk of a real plan; each call answers its first step and says how long that took."""
    longest = max(shipped_plans().values(), key=lambda plan: plan.vehicle.length_mm)
    walk_id = open_walks.begin(longest, "Ana")
    first = open_walks.walk(walk_id).steps[0].id
    answer = (Answered, {"step": first, "answer": "ok"})
    open_walks.do(walk_id, "Ana", answer)

    def tap() -> float:
        open_walks.do(walk_id, "Ana", (Revisited, {"step": first, "purpose": "change"}))
        began = perf_counter()
        open_walks.do(walk_id, "Ana", answer)
        return perf_counter() - began

    return tap
