"""No step can be answered before what it asks was whole on the screen, at any size of page or text.

At every size caution, title and what is asked are in sight, or the answers are not there; nothing
is smaller than 16 px, and what is asked is at least 24 px wherever 120 px are free. On a phone of
usual size at its usual text no step with keys or choices of its own asks for a tap more.

Every step of every shipped vehicle is drawn in each of the sights: no two are taken for alike,
since a word more can be a line more. There is a phone for each size of page and text, all at one
walk: what takes the time is waiting, and so they are waited for together. All turn dark and light
again; a step is first drawn in the colors that the one before was drawn in last.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence, Set
from contextlib import ExitStack, contextmanager
from datetime import date

import pytest
from playwright.sync_api import Browser, Error
from support.voices import SilentVoice

from browser.allsizes import SIGHTS, Sight, Watched, never_read, watching, wear, worn, wrong_with
from browser.phone import Phone, in_hand
from browser.seeds import SEMITRAILER, answer, plan_for
from browser.serving import Served
from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.steps import Plan, Step
from walkaround.ui.page.view import View

pytestmark = pytest.mark.browser
VEHICLES = [each.id for each in load_library(shipped(), today=date(2026, 1, 1)).vehicles]
FEW = (Sight(360, 640, "light", 100), Sight(915, 412, "light", 100), Sight(360, 640, "light", 200))
STEPS = frozenset(
    {"chocks_on", "tail_rear", "marker_right_side", "rods_back", "gauges", "stroke_1_right"}
)
"""An act, lamps at an end and on a side, a look with nothing to find, choices, and keys."""
SIZES = tuple(sight for sight in SIGHTS if sight.scheme == "light")
MOST_CRASHES = 10
"""So many pages of one walk may be opened anew."""
ANSWERS_MS = 10_000.0
"""A page that says nothing for so long hangs."""
MOST_PERCENT = 200
"""At text so large words are read on until the answers come."""


@pytest.fixture
def voice() -> SilentVoice:
    return SilentVoice()


Phones = Mapping[Sight, Phone]


@contextmanager
def phones(chromium: Browser, sizes: Sequence[Sight]) -> Iterator[Phones]:
    """A phone for each of these."""
    with ExitStack() as held:
        made = {size: in_hand(chromium, dead_s=0.0, sharp=True) for size in sizes}
        yield {size: held.enter_context(phone) for size, phone in made.items()}


class Sizes:
    """One walk on a phone for each size of page and text; all turn dark and light together."""

    def __init__(self, app: Served, by_size: Phones, walk_id: str, opened: Sequence[View]) -> None:
        """Open the walk on these phones; `opened` gets each page of the app that opens."""
        self._app, self._walk_id, self._opened = app, walk_id, opened
        self._crashes = 0
        self.seen = {size: self._on(phone, size) for size, phone in by_size.items()}

    def _on(self, phone: Phone, size: Sight) -> Watched:
        phone.open(self._app.address, f"walk/{self._walk_id}")
        wear(phone.page, size)
        return Watched(phone, self._opened[-1])

    def turn(self) -> None:
        """Turn from light to dark, or back."""
        self.seen = {size.turned(): watched for size, watched in self.seen.items()}
        for size, watched in self.seen.items():
            watched.phone.page.emulate_media(color_scheme=size.scheme)

    def mended(self) -> bool:
        """Open anew what crashed, and tell whether that may be gone on with.

        A page of Chromium 156 crashes or hangs once in thousands of draws, in what it compiled.
        """
        crashed = [size for size, each in self.seen.items() if not _answers(each.phone)]
        self._crashes += len(crashed)
        for size in crashed:
            page = self.seen[size].phone.page.context.new_page()
            self.seen[size] = self._on(Phone(page, dead_s=0.0), size)
        return bool(crashed) and self._crashes <= MOST_CRASHES

    def wrong_at(self, place: int, step: Step) -> list[str]:
        """Tell what is wrong with the step that they show, in both colors."""
        for watched in self.seen.values():
            assert _answers(watched.phone)
            watched.phone.at(place)
        wrong = _wrong_now(self.seen, step)
        self.turn()
        wrong += _wrong_now(self.seen, step)
        if step.kind == "wait":
            # It has no answer to come to before its time is over.
            return wrong
        at_most = {size: each for size, each in self.seen.items() if size.percent == MOST_PERCENT}
        return wrong + [f"{step.id}, {size}: no answer comes" for size in never_read(at_most)]


def _answers(phone: Phone) -> bool:
    """Whether a page neither crashed nor hangs; what it is asked directly waits without an end."""
    try:
        phone.page.locator("body").evaluate("() => true", timeout=ANSWERS_MS)
    except Error:
        return False
    return True


def wrong_in(app: Served, by_size: Phones, plan: Plan, asked: Set[str]) -> list[str]:
    """What is wrong with these steps of a walk that is planned so, in both colors."""
    assert asked
    assert asked <= {step.id for step in plan.steps}
    walk_id = app.parts.open_walks.begin(plan, "Ana")
    wrong = []
    with watching() as opened:
        sizes = Sizes(app, by_size, walk_id, opened)
        for place, step in enumerate(plan.steps, 1):
            while step.id in asked:
                try:
                    wrong += sizes.wrong_at(place, step)
                    break
                except (Error, AssertionError):
                    if not sizes.mended():
                        raise
            answer(app.parts, walk_id, step)
    return wrong


def _wrong_now(seen: Mapping[Sight, Watched], step: Step) -> list[str]:
    worn(seen)
    wrong = []
    for sight, watched in seen.items():
        assert _answers(watched.phone)
        for scrolls in (*[False] * 8, True):
            now_wrong = wrong_with(watched, step, sight, scrolls=scrolls)
            if not now_wrong:
                break
            watched.phone.at_rest(150)
        wrong += [f"{step.id}, {sight}: {what}" for what in now_wrong]
    return wrong


@pytest.mark.soak
def test_few_steps_at_few_sizes(app: Served, chromium: Browser) -> None:
    with phones(chromium, FEW) as by_size:
        assert wrong_in(app, by_size, plan_for(app.parts, SEMITRAILER), STEPS) == []


@pytest.mark.soak
@pytest.mark.parametrize("vehicle_id", VEHICLES)
def test_every_step_at_every_size(app: Served, chromium: Browser, vehicle_id: str) -> None:
    plan = plan_for(app.parts, vehicle_id)
    ids = {step.id for step in plan.steps}
    together = plan_for(app.parts, vehicle_id, together=True)
    only_together = {step.id for step in together.steps} - ids
    with phones(chromium, SIZES) as by_size:
        wrong = wrong_in(app, by_size, plan, ids)
    # Others: a page that crashed at the end of a walk opens no more.
    with phones(chromium, SIZES) as by_size:
        assert wrong + wrong_in(app, by_size, together, only_together) == []
