"""From the command to the first page: served, and on the screen."""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest
from benchmarks.conftest import Rounds
from browser.chromium import launched
from browser.phone import in_hand
from browser.serving import Command
from playwright.sync_api import Browser

pytestmark = pytest.mark.browser

_BARE = """
import flet as ft, socket, uvicorn
async def main(page):
    page.add(ft.Button("Add"))
listening = socket.create_server(("127.0.0.1", 0))
print(f"http://127.0.0.1:{listening.getsockname()[1]}/", flush=True)
app = ft.run(main, export_asgi_app=True, no_cdn=True)
uvicorn.Server(uvicorn.Config(app, log_level="warning")).run(sockets=[listening])
"""
Use = Callable[[str], None]


@contextmanager
def _ours(data: Path) -> Iterator[str]:
    command = Command(data)
    try:
        command.start()
        yield command.address
    finally:
        command.stop()


@contextmanager
def _bare(_: Path) -> Iterator[str]:
    arguments = [sys.executable, "-c", _BARE]
    with subprocess.Popen(arguments, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        try:
            yield process.stdout.readline().strip()
        finally:
            process.kill()


def _first_answer(address: str) -> None:
    with urllib.request.urlopen(address) as answer:
        assert answer.status == 200


def _first_screen(chromium: Browser) -> Use:
    def load(address: str) -> None:
        with in_hand(chromium) as phone:
            phone.open(address)

    return load


def _median_s(
    start: Callable[[Path], AbstractContextManager[str]], use: Use, data: Path, runs: int
) -> float:
    """Seconds from the start of the process until the use of its address is over."""
    times = []
    for run in range(runs):
        before = time.perf_counter()
        with start(data / str(run)) as address:
            use(address)
            times.append(time.perf_counter() - before)
    return statistics.median(times)


def test_the_first_page_comes_about_as_soon_as_a_bare_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], rounds: Rounds
) -> None:
    with launched() as chromium:
        for what, use in (
            ("start to first answer", _first_answer),
            ("start to first screen", _first_screen(chromium)),
        ):
            ours = _median_s(_ours, use, tmp_path / what, rounds(5, 1))
            bare = _median_s(_bare, use, tmp_path, rounds(5, 1))
            with capsys.disabled():
                print(f"\n{what}: {ours:.2f} s, {ours / bare:.2f} times a bare page ({bare:.2f} s)")
