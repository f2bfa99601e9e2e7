"""Lit, flashing and dark lamps, told apart by an eye that sees no color, or not sharply.

Each lamp is taken from the page as the browser draws it, turned to gray, blurred by 2 px, or seen
as without red or green receptors (Vienot, Brettel and Mollon 1999: the linear maps, from memory).
Only lamps of one color are compared, without their number, so that nothing but the look differs.
"""

from __future__ import annotations

import io
import time
from itertools import combinations
from typing import Literal

import numpy as np
import pytest
from PIL import Image, ImageFilter
from playwright.sync_api import Browser

from browser.phone import PATIENCE_MS, Phone
from browser.seeds import SEMITRAILER, walked
from browser.serving import Served
from walkaround.drawing import svg
from walkaround.drawing.lamp_symbol import Symbol, symbol_svg
from walkaround.drawing.palette import DARK, LIGHT, Palette
from walkaround.plan.steps import Look

pytestmark = pytest.mark.browser

CELL = 60
LOOKS: tuple[Look, ...] = ("steady", "flashing", "dark")
COLORS = ("red", "amber", "white", "blackout", "amber or red")
# What is left of linear red, green and blue.
WITHOUT = {
    "red": ((0.11238, 0.88762, 0.0), (0.11238, 0.88762, 0.0), (0.00401, -0.00401, 1.0)),
    "green": ((0.29275, 0.70725, 0.0), (0.29275, 0.70725, 0.0), (-0.02234, 0.02234, 1.0)),
}
LEAST = 0.04
"""Mean difference of lightness over the lamp's cell, of 1: at least what a ring 3 px wide makes."""


def drawn(chromium: Browser, palette: Palette, radius: float, reach: float) -> Image.Image:
    """A row for each color, a column for each look, on the surface that plans lie on."""
    pieces = [svg.rectangle((0, 0), (CELL * len(LOOKS), CELL * len(COLORS)), fill=palette.body)]
    for row, color in enumerate(COLORS):
        for column, look in enumerate(LOOKS):
            center = ((column + 0.5) * CELL, (row + 0.5) * CELL)
            symbol = Symbol(8, color, center, radius, reach, look)
            pieces += list(symbol_svg(symbol, palette))[:-1]
    width, height = CELL * len(LOOKS), CELL * len(COLORS)
    page = chromium.new_page(viewport={"width": width, "height": height})
    page.set_content(f"<style>body{{margin:0}}</style>{svg.document(width, height, '', pieces)}")
    shot = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
    page.close()
    return shot


def lightness(shot: Image.Image) -> np.ndarray:
    """Perceived lightness, 0 to 1, by the luminance of sRGB (IEC 61966-2-1)."""
    linear = linear_of(shot)
    return np.cbrt(linear @ np.array([0.2126, 0.7152, 0.0722]))


def linear_of(shot: Image.Image) -> np.ndarray:
    part = np.asarray(shot, dtype=float) / 255
    return np.where(part <= 0.04045, part / 12.92, ((part + 0.055) / 1.055) ** 2.4)


def cells(image: np.ndarray) -> dict[tuple[str, Look], np.ndarray]:
    return {
        (color, look): image[row * CELL : (row + 1) * CELL, column * CELL : (column + 1) * CELL]
        for row, color in enumerate(COLORS)
        for column, look in enumerate(LOOKS)
    }


def apart(image: np.ndarray) -> dict[tuple[str, Look, Look], float]:
    at = cells(image)
    return {
        (color, one, other): float(np.abs(at[color, one] - at[color, other]).mean())
        for color in COLORS
        for one, other in combinations(LOOKS, 2)
    }


@pytest.mark.parametrize(("radius", "reach"), [(17.0, 8.0), (11.5, 6.0)])
@pytest.mark.parametrize("palette", [LIGHT, DARK], ids=["light", "dark"])
def test_looks_differ_in_gray_blurred_and_without_red_or_green(
    chromium: Browser, palette: Palette, radius: float, reach: float
) -> None:
    shot = drawn(chromium, palette, radius, reach)
    share = (2 * (radius + reach) / CELL) ** 2
    gray = apart(lightness(shot.filter(ImageFilter.GaussianBlur(2))))
    assert {key: round(far, 3) for key, far in gray.items() if far < LEAST * share} == {}
    for left in WITHOUT.values():
        seen = np.clip(linear_of(shot) @ np.array(left).T, 0, 1)
        far_apart = apart(np.cbrt(seen @ np.array([0.2126, 0.7152, 0.0722])))
        assert {key: round(far, 3) for key, far in far_apart.items() if far < LEAST * share} == {}


def test_the_measure_calls_two_lamps_of_one_look_the_same(chromium: Browser) -> None:
    once, again = (cells(lightness(drawn(chromium, LIGHT, 17.0, 8.0))) for _ in range(2))
    assert np.abs(once["red", "steady"] - again["red", "steady"]).mean() < 0.001
    # Two colors of one look differ by less than two looks of one color.
    color_only = np.abs(once["red", "steady"] - once["amber", "steady"]).mean()
    assert (
        0
        < color_only
        < apart(lightness(drawn(chromium, LIGHT, 17.0, 8.0)))["red", "steady", "dark"]
    )


@pytest.mark.parametrize("motion", ["no-preference", "reduce"])
def test_a_flashing_lamp_blinks_on_the_page_or_is_said_to_flash(
    app: Served, phone: Phone, motion: Literal["no-preference", "reduce"]
) -> None:
    walk_id = walked(app.parts, SEMITRAILER, "left_turn_rear")
    phone.page.emulate_media(reduced_motion=motion)
    phone.open(app.address, f"walk/{walk_id}")
    if motion == "reduce":
        phone.sees("Lamps with an arc on both sides flash.")
        assert not [each for each in phone.responses if "/blinking/" in each.url]
        return
    deadline_s = time.monotonic() + PATIENCE_MS / 1000
    # Each way twice: it goes on by itself, with nothing sent for it.
    changes, last = 0, b""
    while changes < 4:
        assert time.monotonic() < deadline_s, "It does not blink."
        now = phone.page.screenshot(clip={"x": 12, "y": 80, "width": 388, "height": 240})
        changes, last = changes + (now != last), now
    assert len([each for each in phone.responses if "/blinking/" in each.url]) == 1
