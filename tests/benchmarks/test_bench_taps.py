"""From a tap to what it brings, as a ratio to the barest page of the same toolkit.

A bare page counts its taps, shows another screen at each, or plays one sound a tap. Beside it a
tap in the app also checks the answer, writes it to the disk, draws the vehicle and finds the
sound. All are served from this process in the same run and timed inside the page, from the finger
to the words or the sound.
"""

from __future__ import annotations

import shutil
import statistics
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import flet as ft
import flet.canvas as cv
import flet_audio
import pytest
from browser.chromium import launched
from browser.phone import Phone, in_hand
from browser.seeds import SEMITRAILER, plan_for, walked
from browser.serving import running, served
from playwright.sync_api import Browser

from walkaround.bootstrap import system_clock
from walkaround.timing import Timing
from walkaround.voice.rendered import RenderedVoice

pytestmark = [pytest.mark.benchmark, pytest.mark.browser]

TAPS = 20
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


def _words_ms(phone: Phone, button: str, words: str) -> float:
    """Milliseconds from a tap on the button until these words are on the screen."""
    phone.page.evaluate(_TIME_WORDS, words)
    phone.tap(button)
    phone.page.wait_for_function("window.shown_ms !== null")
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


def _walked_taps(chromium: Browser, folder: Path) -> tuple[list[float], list[float], list[Path]]:
    """Taps through a walk: milliseconds to the words, to the sound, and the sounds."""
    words, sounds = [], []
    voice = RenderedVoice(folder / "speech")
    with served(folder / "data", system_clock, voice) as app, in_hand(chromium) as phone:
        total = len(plan_for(app.parts, SEMITRAILER).steps)
        phone.open(app.address, f"walk/{walked(app.parts, SEMITRAILER, 'chocks_on')}")
        for place in range(2, TAPS + 2):
            phone.at(place)
            # Long enough for the mechanic to look, and for the next sounds to be rendered.
            phone.page.wait_for_timeout(1000 * Timing().dead_s + 400)
            button = "OK" if phone.button("OK").count() else "Done"
            words.append(_words_ms(phone, button, f"{place + 1} of {total}"))
            sounds.append(_sound_ms(phone))
    return words, sounds, sorted((folder / "speech").glob("*.wav"))


def test_a_tap_shows_and_says_the_next_step_about_as_fast_as_a_bare_page(
    chromium: Browser, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    words, sounds, clips = _walked_taps(chromium, tmp_path)
    assets = tmp_path / "assets"
    assets.mkdir()
    for number, clip in enumerate(clips):
        shutil.copyfile(clip, assets / f"{number}.wav")
    with _bare(_counter, assets) as address, in_hand(chromium) as phone:
        phone.open(address)
        bare_words = [_words_ms(phone, "Add", f"count {n} of many") for n in range(1, TAPS + 1)]
    with _bare(_screens, assets) as address, in_hand(chromium) as phone:
        phone.open(address)
        counts = range(2, TAPS + 2)
        bare_screens = [_words_ms(phone, "Next", f"screen {n} of many") for n in counts]
    bare_sounds = []
    with _bare(_player(len(clips)), assets) as address, in_hand(chromium) as phone:
        phone.open(address)
        for number in range(1, TAPS + 1):
            _words_ms(phone, "Play", f"clip {number} of many")
            bare_sounds.append(_sound_ms(phone))
    with capsys.disabled():
        print(f"\n{_line('tap to the next step on screen', words, bare_words, 'counter')}")
        print(_line("tap to the next step on screen", words, bare_screens, "change of screen"))
        print(_line("tap to its sound playing", sounds, bare_sounds, "player"))


def _line(what: str, ours: list[float], bare: list[float], than: str) -> str:
    one, other = statistics.median(ours), statistics.median(bare)
    return f"{what}: {one / other:.2f} times a bare {than} ({one:.0f} ms, {other:.0f} ms)"
