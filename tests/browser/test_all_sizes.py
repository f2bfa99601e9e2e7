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
from playwright.sync_api import Browser
from support.voices import SilentVoice

from browser.allsizes import SIGHTS, Sight, Watched, never_read, watching, wear, worn, wrong_with
from browser.phone import Phone, in_hand
from browser.seeds import SEMITRAILER, answer, plan_for
from browser.serving import Served
from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.steps import Plan, Step

pytestmark = pytest.mark.browser
VEHICLES = [each.id for each in load_library(shipped(), today=date(2026, 1, 1)).vehicles]
FEW = (Sight(360, 640, "light", 100), Sight(915, 412, "light", 100), Sight(360, 640, "light", 200))
STEPS = frozenset(
    {"chocks_on", "tail_rear", "marker_right_side", "rods_back", "gauges", "stroke_1_right"}
)
"""An act, lamps at an end and on a side, a look with nothing to find, choices, and keys."""
SIZES = tuple(sight for sight in SIGHTS if sight.scheme == "light")
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
        yield {size: held.enter_context(in_hand(chromium, dead_s=0.0)) for size in sizes}


def wrong_in(app: Served, by_size: Phones, plan: Plan, asked: Set[str]) -> list[str]:
    """What is wrong with these steps of a walk that is planned so, in both colors."""
    assert asked
    assert asked <= {step.id for step in plan.steps}
    walk_id = app.parts.open_walks.begin(plan, "Ana")
    seen = {}
    with watching() as opened:
        for size, phone in by_size.items():
            phone.open(app.address, f"walk/{walk_id}")
            wear(phone.page, size)
            seen[size] = Watched(phone, opened[-1])
    wrong = []
    for place, step in enumerate(plan.steps, 1):
        if step.id in asked:
            for phone in by_size.values():
                phone.at(place)
            wrong += _wrong_now(seen, step)
            seen = {size.turned(): watched for size, watched in seen.items()}
            for size, watched in seen.items():
                watched.phone.page.emulate_media(color_scheme=size.scheme)
            wrong += _wrong_now(seen, step)
            at_most = {size: each for size, each in seen.items() if size.percent == MOST_PERCENT}
            wrong += [f"{step.id}, {size}: no answer comes" for size in never_read(at_most)]
        answer(app.parts, walk_id, step)
    return wrong


def _wrong_now(seen: Mapping[Sight, Watched], step: Step) -> list[str]:
    worn(seen)
    wrong = []
    for sight, watched in seen.items():
        for _ in range(8):
            now_wrong = wrong_with(watched, step, sight)
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
        assert wrong + wrong_in(app, by_size, together, only_together) == []
