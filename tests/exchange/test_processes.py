"""Work spread over processes comes out as if all of it were done in this one."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Generator, Iterator
from itertools import count
from pathlib import Path

import pytest
from support.manywalks import write_shared
from support.shops import Shop, rewritten

from walkaround.exchange import file_walks, processes
from walkaround.exchange.processes import usable_processes, work_in_processes
from walkaround.exchange.shop_key import ShopKey

BATCHES = [[number] * 50_000 for number in range(7)]
"""Each more than a pipe holds."""
SUMS = [50_000 * number for number in range(7)]


def totals(processes_used: int) -> list[int]:
    results = [*work_in_processes(sum, BATCHES, processes_used)]
    assert [batch for batch, _ in results] == BATCHES
    return [total for _, total in results]


def test_results_come_in_the_order_of_their_batches() -> None:
    assert totals(3) == SUMS


def test_no_more_batches_are_asked_for_than_there_are_processes() -> None:
    asked = list[int]()

    def batches() -> Iterator[list[int]]:
        for number in range(9):
            asked.append(number)
            yield [number]

    ahead = [len(asked) - done for done, _ in enumerate(work_in_processes(sum, batches(), 2))]
    assert max(ahead) == 3


def test_whoever_stops_asking_need_not_wait() -> None:
    results = work_in_processes(sum, ([number] for number in count()), 2)
    assert isinstance(results, Generator)
    assert next(results) == ([0], 0)
    results.close()


@pytest.mark.parametrize(
    "serve",
    [
        pytest.param("raise SystemExit", id="at once"),
        pytest.param(
            "import pickle, sys; inp, out = sys.stdin.buffer, sys.stdout.buffer;"
            "work = pickle.load(inp); pickle.dump(work(pickle.load(inp)), out)",
            id="after one batch",
        ),
        pytest.param("print('no pickle', flush=True); input()", id="and says what is no result"),
    ],
)
def test_what_a_process_that_ends_leaves_is_done_here(
    serve: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(processes, "_SERVE", serve)
    assert totals(2) == SUMS


def test_where_no_process_can_be_started_all_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "executable", "/nowhere/python3")
    assert totals(2) == SUMS


def test_an_app_that_has_python_inside_starts_none(monkeypatch: pytest.MonkeyPatch) -> None:
    for command in ("/opt/walkaround/walkaround", "", None):
        monkeypatch.setattr(sys, "executable", command)
        assert usable_processes() == 1
    monkeypatch.setattr(sys, "executable", "/usr/bin/python3.11")
    monkeypatch.setattr(sys, "frozen", True, raising=False)
    assert usable_processes() == 1


def test_a_process_ends_when_whoever_asks_has_gone() -> None:
    command = [sys.executable, "-c", processes._SERVE]
    assert (
        subprocess.run(command, stdin=subprocess.DEVNULL, timeout=60, check=False).returncode == 0
    )


def test_a_large_file_leaves_the_same_walks_and_refuses_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "north.zip"
    write_shared(file, 210, 60, ShopKey.of(tmp_path / "north"))
    changes = {
        "walks.ndjson": lambda data: data.replace(b'"answer":"defect"', b'"answer":"ok"', 2),
        "signature.json": lambda _: None,
    }
    forged = rewritten(file, tmp_path / "forged.zip", changes)
    here = Shop(tmp_path / "here").merge(forged)
    monkeypatch.setattr(file_walks, "FEW_BYTES", 0)
    monkeypatch.setattr(file_walks, "usable_processes", lambda: 2)
    assert Shop(tmp_path / "spread").merge(forged) == here
    assert (len(here.added), len(here.refused)) == (208, 2)
    assert kept(tmp_path / "here") == kept(tmp_path / "spread")


def kept(data: Path) -> dict[Path, bytes]:
    return {path.relative_to(data): path.read_bytes() for path in (data / "walks").rglob("*.json")}
