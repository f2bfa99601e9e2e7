"""The palettes keep their promises, by published formulas.

Contrast: W3C WCAG 2.2, definitions of "contrast ratio" and "relative luminance", with the levels
of success criteria 1.4.6 (text, 7:1) and 1.4.11 (shapes, 3:1).
Colour blindness: Machado, Oliveira and Fernandes, "A physiologically-based model for simulation
of color vision deficiency" (IEEE TVCG 15(6), 2009), matrices of severity 1.0 for linear RGB.
Difference: CIE 1976 L*a*b*, white point D65 (ISO/CIE 11664-4).
"""

from __future__ import annotations

import re
from dataclasses import fields

import flet as ft
import numpy as np
import pytest
from support.contrast import TEXT, contrast, linear

from walkaround.drawing.palette import DARK, LIGHT, Palette
from walkaround.ui.kit import theme
from walkaround.ui.kit.theme import flet_theme

SHAPE = 3.0

# From memory: L*a*b* calls a difference of about 2.3 just noticeable; two colours that must never
# be taken for each other at a glance are kept more than ten times as far apart.
FAR_APART = 25.0

MACHADO = {
    "protanopia": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "deuteranopia": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ],
    "tritanopia": [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ],
}
# sRGB to XYZ, IEC 61966-2-1, rows divided by the D65 white.
TO_XYZ = np.array(
    [[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]]
) / np.array([[0.9505], [1.0], [1.089]])

both = pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])


def lab(rgb: np.ndarray) -> np.ndarray:
    t = TO_XYZ @ np.clip(rgb, 0, 1)
    x, y, z = np.where(t > (6 / 29) ** 3, np.cbrt(t), t / (3 * (6 / 29) ** 2) + 4 / 29)
    return np.array([116 * y - 16, 500 * (x - y), 200 * (y - z)])


def test_contrast_of_black_on_white_is_21_as_wcag_says() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)


@both
def test_text_on_every_surface_contrasts_seven_to_one(colours: Palette) -> None:
    named = {field.name for field in fields(Palette)}
    pairs = [(f"on_{name}", name) for name in named if f"on_{name}" in named]
    assert len(pairs) == 5
    pairs += [(ink, on) for ink in ("ink", "quiet_ink") for on in ("page", "card", "body")]
    pairs += [(zone, on) for zone in ("ok", "bad", "accent") for on in ("page", "card")]
    found = {pair: contrast(getattr(colours, pair[0]), getattr(colours, pair[1])) for pair in pairs}
    assert {pair: ratio for pair, ratio in found.items() if ratio < TEXT} == {}


@both
def test_lines_and_filled_zones_contrast_three_to_one(colours: Palette) -> None:
    pairs = [
        (shape, on) for shape in ("line", "ok", "bad", "accent", "ink") for on in ("page", "card")
    ]
    pairs += [("line", "body"), ("ink", "body"), ("accent", "body")]
    found = {pair: contrast(getattr(colours, pair[0]), getattr(colours, pair[1])) for pair in pairs}
    assert {pair: ratio for pair, ratio in found.items() if ratio < SHAPE} == {}


@both
def test_the_number_on_a_lamp_of_any_colour_contrasts_seven_to_one(colours: Palette) -> None:
    drawn = [*colours.lamps.values()]
    assert min(contrast(colours.on_lamp, lamp) for lamp in drawn) >= TEXT


@both
@pytest.mark.parametrize("eyes", [*MACHADO, "full colour vision"])
def test_ok_and_defect_stay_far_apart_whatever_the_eyes(colours: Palette, eyes: str) -> None:
    matrix = np.array(MACHADO.get(eyes, np.eye(3)))
    ok, bad = (lab(matrix @ linear(colour)) for colour in (colours.ok, colours.bad))
    assert float(np.linalg.norm(ok - bad)) > FAR_APART


@both
def test_every_colour_is_written_out_in_full(colours: Palette) -> None:
    values = [getattr(colours, field.name) for field in fields(Palette)]
    written = [value for value in values if isinstance(value, str)]
    assert len(written) == 17
    assert all(re.fullmatch(r"#[0-9A-F]{6}", v) for v in [*written, *colours.lamps.values()])


def test_a_lamp_that_may_have_either_colour_is_drawn_in_both() -> None:
    assert LIGHT.lamp("amber or red") == (LIGHT.lamps["amber"], LIGHT.lamps["red"])
    assert LIGHT.lamp("red and white or white") == (LIGHT.lamps["red"], LIGHT.lamps["white"])
    assert LIGHT.lamp("Red") == (LIGHT.lamps["red"],)


def test_what_has_no_lamp_colour_gets_none() -> None:
    assert DARK.lamp("") == ()
    assert DARK.lamp("ultraviolet") == ()


def test_no_text_size_is_below_sixteen() -> None:
    sizes = (theme.TITLE, theme.BODY, theme.SMALL, theme.ANSWER, theme.FIGURE)
    assert min(sizes) >= 16
    assert theme.ANSWER >= 28


@both
def test_flet_draws_its_own_controls_in_the_same_colours(colours: Palette) -> None:
    made = flet_theme(colours)
    assert isinstance(made, ft.Theme)
    assert made.color_scheme is not None
    assert made.color_scheme.primary == colours.accent
    assert made.color_scheme.on_surface == colours.ink
    assert made.scaffold_bgcolor == colours.page
    assert made.font_family == "Roboto"
