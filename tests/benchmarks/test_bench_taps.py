"""From a tap to what it brings, as a ratio to the barest page of the same toolkit.

A bare page counts its taps, shows another screen at each, or plays one sound a tap. Beside it a
tap in the app also checks the answer, writes it to the disk, draws the next step and finds the
sound. All are served from this process in the same run and timed inside the page, from the finger
to the words or the sound. What a step costs the server, and what it sends, is measured without a
browser, beside the same counter.
"""

from __future__ import annotations

import asyncio
import re
import shutil
import statistics
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from functools import partial
from itertools import takewhile
from pathlib import Path
from time import perf_counter, process_time
from typing import Any, NamedTuple

import flet as ft
import flet.canvas as cv
import flet_audio
import pytest
from benchmarks.conftest import Rounds
from browser.chromium import launched
from browser.phone import RIGHT, Phone, in_hand
from browser.seeds import SEMITRAILER, place_of, plan_for, walked
from browser.serving import running, served
from playwright.sync_api import Browser
from support import app, flet_harness
from support.flet_harness import Screen

from walkaround.bootstrap import Parts, system_clock
from walkaround.plan.steps import Plan, Step
from walkaround.timing import Timing
from walkaround.voice.clips import RenderedVoice

FIRST = "marker_front"
"""From here on, step after step takes one tap."""
MOST_BYTES = 6000
"""What one step may send to the page."""
WARM = 13
"""Taps on each page before those that count, so that the browser has compiled what they run."""
LINES, SMALL, SHAPES = 12, 4, 60
"""What a step of a walk shows: lines of words, small buttons, shapes of the plan."""
_TIME_WORDS = """
words => {
  window.shown_ms = null;
  const watcher = new MutationObserver(() => {
    if (!document.body.textContent.includes(words)) return;
    window.shown_ms = performance.now() - window.tapped_ms;
    watcher.disconnect();
  });
  watcher.observe(document.body, { subtree: true, childList: true, characterData: true });
  window.addEventListener(
    "pointerdown", () => { window.tapped_ms = performance.now(); }, { capture: true, once: true }
  );
}
"""
_PLAYED_SINCE = "at => window.heard.find(h => h.what === 'playing' && h.at_ms > at)?.at_ms ?? null"


@pytest.fixture(scope="module")
def chromium() -> Iterator[Browser]:
    with launched() as browser:
        yield browser


@contextmanager
def _bare(main: Callable[[ft.Page], Awaitable[None]], assets: Path) -> Iterator[str]:
    app = ft.run(main, export_asgi_app=True, no_cdn=True, assets_dir=str(assets))
    with running(app) as address:
        yield address


def _words_ms(phone: Phone, button: str | re.Pattern[str], words: str) -> float:
    """Milliseconds from a tap on the button until these words are on the screen."""
    phone.page.evaluate(_TIME_WORDS, words)
    phone.tap(button)
    # A function: the page's policy allows no text to be run as a program.
    phone.page.wait_for_function("() => window.shown_ms !== null")
    return float(phone.page.evaluate("window.shown_ms"))


def _sound_ms(phone: Phone) -> float:
    """Milliseconds from the last timed tap until the sound that came of it was playing."""
    tapped_ms = phone.page.evaluate("window.tapped_ms")
    phone.page.wait_for_function(f"at => ({_PLAYED_SINCE})(at) !== null", arg=tapped_ms)
    return float(phone.page.evaluate(_PLAYED_SINCE, tapped_ms)) - tapped_ms


async def _counter(page: ft.Page) -> None:
    count = 0
    shown = ft.Text("none yet")

    def add() -> None:
        nonlocal count
        count += 1
        shown.value = f"count {count} of many"
        page.update()

    page.add(shown, ft.Button("Add", on_click=add, height=120))


async def _screens(page: ft.Page) -> None:
    """At each tap another screen of as many controls and shapes as a step has, all of them new."""
    count = 0

    def drawing() -> cv.Canvas:
        shapes = [cv.Circle(5 * n, 3 * n, 4 + count % 2, key=f"{count}_{n}") for n in range(SHAPES)]
        return cv.Canvas(list(shapes), width=380, height=240)

    def screen() -> ft.Control:
        lines = [ft.Text(f"line {n} of screen {count}") for n in range(LINES)]
        small = [ft.Button(ft.Row([ft.Text("Again")]), expand=True) for _ in range(SMALL)]
        body = ft.Column([drawing(), ft.Text(f"screen {count} of many"), *lines], expand=True)
        next_ = ft.Button("Next", on_click=show, height=120)
        return ft.Column([body, next_, ft.Row(list(small))], expand=True)

    def show() -> None:
        nonlocal count
        count += 1
        page.controls = [screen()]
        page.update()

    show()


def _player(clips: int) -> Callable[[ft.Page], Awaitable[None]]:
    async def main(page: ft.Page) -> None:
        played = 0
        audio = flet_audio.Audio(
            src="/0.wav", autoplay=True, release_mode=flet_audio.ReleaseMode.STOP
        )
        shown = ft.Text("none yet")

        def play() -> None:
            nonlocal played
            played += 1
            shown.value = f"clip {played} of many"
            audio.src = f"/{played % clips}.wav?{played}"
            page.update()

        page.add(shown, ft.Button("Play", on_click=play, height=120))

    return main


def _plain_steps(parts: Parts) -> list[Step]:
    """The steps from the first one on that each take one tap."""
    steps = plan_for(parts, SEMITRAILER).steps
    start = next(at for at, step in enumerate(steps) if step.id == FIRST)
    kinds = ("lamp", "look", "listen", "act")
    return list(takewhile(lambda step: step.kind in kinds, steps[start:]))


def _walked_taps(
    chromium: Browser, folder: Path, count: int
) -> tuple[list[float], list[float], list[Path]]:
    """Taps through walks: milliseconds to the words, to the sound, and the sounds."""
    words, sounds = [], []
    voice = RenderedVoice(folder / "speech")
    with (
        served(folder / "data", system_clock, voice) as app_,
        in_hand(chromium, smooth=True) as phone,
    ):
        total, steps = len(plan_for(app_.parts, SEMITRAILER).steps), _plain_steps(app_.parts)
        first = place_of(plan_for(app_.parts, SEMITRAILER), FIRST)
        while len(words) < count:
            phone.open(app_.address, f"walk/{walked(app_.parts, SEMITRAILER, FIRST)}")
            for place in range(first, first + min(len(steps) - 1, count - len(words))):
                phone.at(place)
                # Long enough for the mechanic to look, and for the next sounds to be rendered.
                phone.page.wait_for_timeout(1000 * Timing().dead_s + 400)
                words.append(_words_ms(phone, RIGHT, f"{place + 1} of {total}"))
                sounds.append(_sound_ms(phone))
    return words, sounds, sorted((folder / "speech").glob("*.wav"))


# Before any test of this file in a browser, which keeps an event loop running in this thread.
async def test_a_step_sends_few_bytes_and_takes_the_server_little_time(
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    rounds: Rounds,
) -> None:
    sent: list[int] = []
    encoded = flet_harness.encoded

    def counted(body: Any) -> bytes:
        data = encoded(body)
        sent.append(len(data))
        return data

    monkeypatch.setattr(flet_harness, "encoded", counted)
    costs: list[_Cost] = []
    async with app.app(tmp_path / "data") as ours:
        steps = _plain_steps(ours.parts)
        for _ in range(rounds(8, 1)):
            walk_id = walked(ours.parts, SEMITRAILER, FIRST)
            async with ours.page(f"/walk/{walk_id}") as screen:
                for after in steps[1:]:
                    costs.append(
                        await _cost(screen, "ok", partial(_at, ours, walk_id, after), sent)
                    )
        told = walked(ours.parts, SEMITRAILER, _before(plan_for(ours.parts, SEMITRAILER), "gauges"))
        async with ours.page(f"/walk/{told}") as screen:
            costs.append(await _cost(screen, "ok", partial(screen.has, "gauge_supply"), sent))
    counter: list[_Cost] = []
    async with flet_harness.running(_counter) as screen:
        for number in range(1, len(costs) + 1):
            words = f"count {number} of many"
            counter.append(await _cost(screen, "Add", partial(screen.has, words), sent))
    most = max(cost.sent for cost in costs)
    with capsys.disabled():
        print(
            f"\na step sends {statistics.median(c.sent for c in costs):.0f} bytes, {most} at most"
        )
        for what in ("server_ms", "answered_ms"):
            one, other = ([getattr(cost, what) for cost in each] for each in (costs, counter))
            print(_line(f"a step, {what.replace('_ms', '')}", one, other, "counter"))
    assert most <= MOST_BYTES


def _before(plan: Plan, kind: str) -> str:
    """The id of the step before the first one of this kind, which has more keys than any other."""
    at = next(at for at, step in enumerate(plan.steps) if step.kind == kind)
    return plan.steps[at - 1].id


class _Cost(NamedTuple):
    """What one tap cost: bytes sent, ms of the processor, ms until all of it was answered."""

    sent: int
    server_ms: float
    answered_ms: float


async def _cost(screen: Screen, button: str, seen: Callable[[], bool], sent: list[int]) -> _Cost:
    # What the tap before has left to do is not counted, nor is looking for the button.
    await asyncio.sleep(0.02)
    await screen.settle()
    target = screen.target(button)
    sent.clear()
    began_s, busy_s = perf_counter(), process_time()
    await screen.tap(target)
    await screen.until(seen)
    await screen.settle()
    return _Cost(sum(sent), 1000 * (process_time() - busy_s), 1000 * (perf_counter() - began_s))


def _at(ours: app.App, walk_id: str, step: Step) -> bool:
    return ours.parts.open_walks.walk(walk_id).here == step


@pytest.mark.browser
def test_a_tap_shows_and_says_the_next_step_about_as_fast_as_a_bare_page(
    chromium: Browser, tmp_path: Path, capsys: pytest.CaptureFixture[str], rounds: Rounds
) -> None:
    warm = rounds(WARM, 0)
    count = warm + rounds(40, 3)
    words, sounds, clips = _walked_taps(chromium, tmp_path, count)
    assets = tmp_path / "assets"
    assets.mkdir()
    for number, clip in enumerate(clips):
        shutil.copyfile(clip, assets / f"{number}.wav")
    with _bare(_counter, assets) as address, in_hand(chromium, smooth=True) as phone:
        phone.open(address)
        bare_words = [_words_ms(phone, "Add", f"count {n} of many") for n in range(1, count + 1)]
    with _bare(_screens, assets) as address, in_hand(chromium, smooth=True) as phone:
        phone.open(address)
        counts = range(2, count + 2)
        bare_screens = [_words_ms(phone, "Next", f"screen {n} of many") for n in counts]
    bare_sounds = []
    with _bare(_player(len(clips)), assets) as address, in_hand(chromium, smooth=True) as phone:
        phone.open(address)
        for number in range(1, count + 1):
            _words_ms(phone, "Play", f"clip {number} of many")
            bare_sounds.append(_sound_ms(phone))
    for first in (words, sounds, bare_words, bare_screens, bare_sounds):
        del first[:warm]
    with capsys.disabled():
        print(f"\n{_line('tap to the next step on screen', words, bare_words, 'counter')}")
        print(_line("tap to the next step on screen", words, bare_screens, "change of screen"))
        print(_line("tap to its sound playing", sounds, bare_sounds, "player"))


def _line(what: str, ours: list[float], bare: list[float], than: str) -> str:
    one, other = statistics.median(ours), statistics.median(bare)
    return f"{what}: {one / other:.2f} times a bare {than} ({one:.0f} ms, {other:.0f} ms)"
