"""Every step at every size: what of it is on the screen, how large, and whether it can be answered.

Where words and buttons are is read in the browser; how large they are drawn is read off the
controls that were sent to it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from typing import Any, Literal, NamedTuple

import flet as ft
import pytest
from playwright.sync_api import Page
from playwright.sync_api import TimeoutError as TookTooLong
from support.english import ENGLISH

from browser.looks import pieces_in_sight
from browser.phone import RIGHT, Box, Phone
from walkaround.plan.steps import Step
from walkaround.ui.page.view import View
from walkaround.ui.step_content.words import OWN_KINDS
from walkaround.walk.leaving import leaving_step
from walkaround.words.prompts import Prompt, prompt

READ_ON = "Read on"
USUAL = (412, 915)
"""Width and height of a phone's page on which nothing has to be read on before keys."""
MOST_PAGES = 40
"""So many taps on it must bring anybody to the end of the words."""
MOST_WAITS, WAIT_MS, REST_MS, SCROLLED_MS = 100, 20.0, 70.0, 300.0
WHEEL_PX, EDGE_PX = 60.0, 3.0
"""How far a wheel scrolls; what may be hidden of the space under a line."""
TAP_MS = 4000.0
SMALLEST_PX, LARGE_PX, FREE_PX = 16.0, 24.0, 120.0
"""No text is smaller; where so much is free, what is asked is as large as that."""
_ALL_WORDS = """() => [...document.querySelectorAll("flt-semantics")]
  .filter((node) => node.getAttribute("role") !== "button" && [...node.childNodes].some(
    (child) => (child.nodeType === 3 || child.tagName === "SPAN") && child.textContent.trim()))
  .map((node) => node.getBoundingClientRect())
  .map(({ x, y, width, height }) => ({ x, y, width, height }))"""
_HIDDEN = """() => [...document.querySelectorAll("flt-semantics[role=button]")]
  .filter((node) => node.parentElement.closest("[role=group]") === null)
  .filter((node) => {
    const box = node.getBoundingClientRect();
    return [[box.left + 3, box.top + 3], [box.right - 3, box.top + 3],
      [box.left + 3, box.bottom - 3], [box.right - 3, box.bottom - 3]].some(([x, y]) => {
      const hit = document.elementFromPoint(x, y);
      return hit === null || !(node === hit || node.contains(hit) || hit.contains(node));
    });
  }).map((node) => node.textContent || node.getAttribute("aria-label"))"""
"""Buttons that do not scroll, of which a part is off the page or under something else."""
_SCROLLED = """() => [...document.querySelectorAll("flt-semantics[role=group] > *")].map((node) => {
  const { top, height } = node.getBoundingClientRect();
  const window = node.parentElement.getBoundingClientRect();
  return { words: node.textContent, height, hidden: top < window.top };
})"""
"""What stands in a window that scrolls: its height in sight, and whether its top is hidden."""
_SMALL_ROW = re.compile("^(Again|Explain|Shorter|Note|Other|Back|More)$")


class Sight(NamedTuple):
    """How a phone shows its page."""

    width: int
    height: int
    scheme: Literal["light", "dark"]
    percent: int

    def __str__(self) -> str:
        return f"{self.width}x{self.height} {self.scheme} at {self.percent} %"

    def turned(self) -> Sight:
        """The same in the other colors."""
        return self._replace(scheme="dark" if self.scheme == "light" else "light")


SIGHTS = tuple(
    Sight(width, height, scheme, percent)
    for width, height in ((360, 640), (412, 915), (915, 412), (820, 1180))
    for percent in (100, 200)
    for scheme in ("light", "dark")
)


class Watched(NamedTuple):
    """A phone, and its page as the server knows it."""

    phone: Phone
    view: View

    def texts(self) -> Iterator[ft.Text]:
        """The texts of the page, in the order of its tree."""
        page: Any = self.view._page
        todo: list[Any] = [page.views[-1]]
        while todo:
            control = todo.pop(0)
            if isinstance(control, ft.Text):
                yield control
            body = getattr(control, "_b", None)
            todo = [*([body] if body is not None else []), *_inside(control), *todo]

    def has(self, sight: Sight) -> bool:
        """Whether the server has heard of all that the phone wears."""
        device = self.view.device
        now = (device.width, device.height, device.dark, device.text_scale)
        return now == (sight.width, sight.height, sight.scheme == "dark", sight.percent / 100)


def _inside(control: Any) -> list[Any]:
    held = [getattr(control, name, None) for name in ("controls", "content")]
    return [each for one in held for each in (one if isinstance(one, list) else [one]) if each]


@contextmanager
def watching() -> Iterator[list[View]]:
    """Collect each page that the app of this process opens from here on."""
    opened: list[View] = []

    def keep(*args: Any) -> View:
        opened.append(View(*args))
        return opened[-1]

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("walkaround.ui.app.View", keep)
        yield opened


def wear(page: Page, sight: Sight) -> None:
    """Give the phone this size, these colors and text this large."""
    page.set_viewport_size({"width": sight.width, "height": sight.height})
    page.emulate_media(color_scheme=sight.scheme)
    px = f"{16 * sight.percent / 100}px"
    page.evaluate("px => { document.documentElement.style.fontSize = px; }", px)


def worn(seen: Mapping[Sight, Watched]) -> None:
    """Wait until the server has heard of all that these phones wear and has nothing more to say."""
    phones = [phone for phone, _ in seen.values()]
    for _ in range(MOST_WAITS):
        if all(watched.has(sight) for sight, watched in seen.items()):
            break
        phones[0].page.wait_for_timeout(WAIT_MS)
    at_rest(phones, REST_MS)


def at_rest(phones: Sequence[Phone], moment_ms: float) -> None:
    """Wait until the server has had nothing to say to any of them for a moment."""
    before = -1
    while before != (now := sum(phone.frames for phone in phones)):
        before = now
        phones[0].page.wait_for_timeout(moment_ms)


def told(view: View, step: Step) -> Prompt:
    """What a page shows of a step in words."""
    walk = view.walk
    assert walk.plan is not None
    shown = leaving_step(walk, step)
    return prompt(shown, walk.plan.power, view.settings.wording, ENGLISH)


def wrong_with(watched: Watched, step: Step, sight: Sight, *, scrolls: bool) -> list[str]:
    """What is wrong with this step on a page that is at rest.

    With `scrolls` words that seem cut are scrolled to see whether they are; that may read them to
    their end, so what is live on a page that still changes must have been looked at before.
    """
    phone, view = watched
    words = told(view, step)
    pieces = pieces_in_sight(phone.page)
    buttons = [piece for piece in pieces if piece.button]
    seen = " ".join(piece.words for piece in pieces)
    wrong = [
        f"'{piece.words}' is cut off at the edge: {piece.box}"
        for piece in buttons
        if not piece.box.inside(sight.width, sight.height)
    ]
    wrong += [f"'{name}' is partly hidden" for name in phone.page.evaluate(_HIDDEN)]
    live = all(piece.words != READ_ON for piece in buttons)
    if not live and step.kind in OWN_KINDS and sight[:2] == USUAL and sight.percent == 100:
        wrong.append("its keys wait, though they have room")
    must = [words.title, words.caution, words.switch, words.see]
    # A wait that still runs was read when it began, and takes no OK.
    runs = step.kind == "wait" and not any(RIGHT.match(piece.words) for piece in buttons)
    begun = view.walk.holds.get(step.id) or step.id in view.walk.measured
    if live and not (runs or begun):
        hidden = [text for text in must if text not in seen]
        if hidden and scrolls and (whole := _ending_with_window(phone.page, sight)):
            hidden = [text for text in hidden if text not in whole]
        wrong += [f"answers are live while '{text}' is out of sight" for text in hidden]
    zones = [piece for piece in buttons if not _SMALL_ROW.match(piece.words)]
    if not zones:
        wrong.append("there is nothing to answer with")
    wrong += _sizes(watched, sight)
    wrong += _room(watched, words, [p.box for p in zones], words_on(phone.page))
    return wrong


def _ending_with_window(page: Page, sight: Sight) -> str:
    """Words that end just where their window does: no more of them comes in sight by scrolling."""
    before = {found["words"]: found["height"] for found in page.evaluate(_SCROLLED)}
    page.mouse.move(sight.width / 4, sight.height / 2)
    page.mouse.wheel(0, WHEEL_PX)
    page.wait_for_timeout(SCROLLED_MS)
    after = [found for found in page.evaluate(_SCROLLED) if not found["hidden"]]
    page.mouse.wheel(0, -WHEEL_PX)
    page.wait_for_timeout(SCROLLED_MS)
    return " ".join(
        found["words"]
        for found in after
        if found["height"] <= before.get(found["words"], 0) + EDGE_PX
    )


def words_on(page: Page) -> list[Box]:
    """Where words are that are no buttons, also those of which only a part is in sight."""
    return [Box(**found) for found in page.evaluate(_ALL_WORDS)]


def _sizes(watched: Watched, sight: Sight) -> Iterator[str]:
    scale = sight.percent / 100
    if watched.view.device.text_scale != scale:
        yield f"the page is taken to draw text at {watched.view.device.text_scale}"
    for text in watched.texts():
        drawn = (text.size or 0) * scale
        if text.value and drawn < SMALLEST_PX - 0.01:
            yield f"'{text.value}' is {drawn:.1f} px"


def _room(watched: Watched, words: Prompt, zones: list[Box], texts: list[Box]) -> Iterator[str]:
    """What is asked is large wherever there is room between the last line and the answers."""
    sizes = [text.size or 0 for text in watched.texts() if text.value and text.value == words.see]
    if not zones or not sizes:
        return
    drawn = sizes[0] * watched.view.device.text_scale
    top, left = min(box.y for box in zones), min(box.x for box in zones)
    above = [box for box in texts if box.y < top and left - 30 < box.x < left + 300]
    last = max((box.y + box.height for box in above), default=top)
    if drawn < LARGE_PX and top - last >= FREE_PX:
        yield f"what is asked is {drawn:.0f} px with {top - last:.0f} px free"


def never_read(seen: Mapping[Sight, Watched]) -> list[Sight]:
    """Tap on pages at rest until all words were on the screen; those where no answer comes by it.

    They are scrolled on smoothly, and answers may come at any moment of that.
    """
    for _ in range(MOST_PAGES):
        waiting = {sight: each for sight, each in seen.items() if not each.view.words_seen.live}
        if not waiting:
            break
        for phone, _ in waiting.values():
            # It may be gone by the time that it is tapped.
            with suppress(TookTooLong):
                phone.button(READ_ON).tap(timeout=TAP_MS)
        at_rest([phone for phone, _ in waiting.values()], SCROLLED_MS)
    return [sight for sight, each in seen.items() if not each.view.words_seen.live]
