"""Flashing lamps blink: how often, where in the picture, and only where any flashes."""

from __future__ import annotations

import io
from datetime import date
from math import dist

import numpy as np
import pytest
from PIL import Image, ImageSequence

from walkaround.disk.locations import shipped
from walkaround.drawing.plan_svg import PictureStyle, seen_symbols
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Step
from walkaround.web.blinking_picture import blinking_webp

LIBRARY = load_library(shipped(), today=date(2026, 1, 1))
PLANS = [plan_walk(vehicle, LIBRARY.rules) for vehicle in LIBRARY.vehicles]
FLASHING = [
    (plan, step) for plan in PLANS for step in plan.steps if "flashing" in step.expect.values()
]
LOOK = PictureStyle(388, 247, dark=False)


def frames(picture: bytes) -> tuple[list[np.ndarray], list[int]]:
    """The frames, RGBA, and how long each is shown, ms."""
    moving = Image.open(io.BytesIO(picture))
    shown = [
        (np.asarray(f.convert("RGBA")), f.info["duration"]) for f in ImageSequence.Iterator(moving)
    ]
    return [each for each, _ in shown], [ms for _, ms in shown]


# SAE J590: 60 to 120 flashes a minute (from memory). WCAG 2.2, success criterion 2.3.1: no more
# than three flashes in any second.
def test_lamps_flash_as_often_as_the_standard_has_it_and_never_thrice_a_second() -> None:
    picture = blinking_webp(*FLASHING[0], LOOK)
    assert picture is not None
    _, shown_ms = frames(picture)
    assert len(shown_ms) == 2
    assert 60 <= 60_000 / sum(shown_ms) <= 120
    assert 1000 / sum(shown_ms) < 3


@pytest.mark.parametrize(("plan", "step"), FLASHING, ids=[step.id for _, step in FLASHING])
def test_only_what_flashes_goes_dark(plan: Plan, step: Step) -> None:
    picture = blinking_webp(plan, step, LOOK)
    assert picture is not None
    # What the page fetches with a step's plan, once; nothing is sent for a flash.
    assert len(picture) < 6000
    (lit, dark), _ = frames(picture)
    assert not lit[..., 3].any()
    covered = dark[..., 3] > 0
    symbols = seen_symbols(plan, step, LOOK)
    for symbol in symbols:
        x, y = (round(2 * px) for px in symbol.center)
        # Beside its number, inside the ring.
        at = y - round(1.5 * symbol.radius), x
        assert covered[at] == (symbol.look == "flashing")
    ys, xs = np.nonzero(covered)
    flashing = [symbol for symbol in symbols if symbol.look == "flashing"]
    assert flashing
    for x, y in zip(xs[::50], ys[::50], strict=True):
        assert any(dist((x / 2, y / 2), each.center) <= each.radius + 1 for each in flashing)


def test_where_nothing_flashes_nothing_blinks() -> None:
    steps = [(plan, step) for plan in PLANS for step in plan.steps if step.expect]
    steady = next(each for each in steps if "flashing" not in each[1].expect.values())
    assert blinking_webp(*steady, LOOK) is None
