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


def _medians_s(
    start: Callable[[Path], AbstractContextManager[str]], chromium: Browser, data: Path, runs: int
) -> list[float]:
    """Seconds from the start of the process to its first answer, and to the first screen."""
    times = []
    for run in range(runs):
        before = time.perf_counter()
        with start(data / str(run)) as address:
            with urllib.request.urlopen(address) as answer:
                assert answer.status == 200
            answered_s = time.perf_counter() - before
            with in_hand(chromium, sharp=True) as phone:
                phone.open(address)
                times.append((answered_s, time.perf_counter() - before))
    return [statistics.median(each) for each in zip(*times, strict=True)]


def test_the_first_page_comes_about_as_soon_as_a_bare_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], rounds: Rounds
) -> None:
    with launched() as chromium:
        ours = _medians_s(_ours, chromium, tmp_path / "ours", rounds(5, 1))
        bare = _medians_s(_bare, chromium, tmp_path, rounds(5, 1))
    with capsys.disabled():
        for what, our_s, bare_s in zip(("answer", "screen"), ours, bare, strict=True):
            print(
                f"\nstart to first {what}: {our_s:.2f} s, {our_s / bare_s:.2f} times a bare page "
                f"({bare_s:.2f} s)"
            )
