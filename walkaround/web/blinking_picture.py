"""The animated picture of flashing lamps that is laid over the plan of a vehicle.

A page plays it by itself, so that no flash needs a message. Flutter (Flet 1.0.5) animates WebP, but
not SVG.
"""

from __future__ import annotations

import io
from functools import cache

from PIL import Image, ImageDraw, ImageFont

from walkaround.disk import locations
from walkaround.drawing.lamp_symbol import RING, Symbol, number_px
from walkaround.drawing.plan_svg import PictureStyle, seen_symbols
from walkaround.plan.steps import Plan, Step

FLASHES_PER_MINUTE = 90
"""SAE J590 (from memory) has turn signals flash 60 to 120 times a minute; WCAG 2.2, success
criterion 2.3.1, nothing more than three times a second."""
_PIXEL_RATIO = 2
"""Pixels of the picture for each logical pixel of the page, as on phones."""
_SHADES = 24
_OVERSAMPLING = 2
"""How many times larger it is drawn at first, since Pillow does not antialias shapes."""


def blinking_webp(plan: Plan, step: Step, look: PictureStyle) -> bytes | None:
    """Draw the flashing lamps of a step, dark and transparent in turn, as an animated WebP.

    Args:
        plan: the plan of the walk.
        step: one of its steps.
        look: the size and colors of the picture that it is laid over.

    Returns:
        None if no lamp of the step flashes.
    """
    flashing = [symbol for symbol in seen_symbols(plan, step, look) if symbol.look == "flashing"]
    if not flashing:
        return None
    size = look.width * _PIXEL_RATIO, look.height * _PIXEL_RATIO
    lit_frame, dark_drawing = (
        Image.new("RGBA", size),
        Image.new("RGBA", [px * _OVERSAMPLING for px in size]),
    )
    draw = ImageDraw.Draw(dark_drawing)
    for symbol in flashing:
        _dark_lamp(draw, symbol, look)
    file = io.BytesIO()
    half_ms = round(60_000 / FLASHES_PER_MINUTE / 2)
    # With few shades it takes half the bytes.
    dark_frame = dark_drawing.resize(size).quantize(_SHADES).convert("RGBA")
    frames = {"save_all": True, "append_images": [dark_frame], "duration": half_ms}
    lit_frame.save(file, "WEBP", lossless=True, method=6, loop=0, **frames)
    return file.getvalue()


def _dark_lamp(draw: ImageDraw.ImageDraw, symbol: Symbol, look: PictureStyle) -> None:
    """Draw a hollow ring with its number, as `lamp_symbol` draws a dark lamp."""
    scale, palette = _PIXEL_RATIO * _OVERSAMPLING, look.palette
    (x, y), radius = symbol.center, symbol.radius * scale
    x, y = x * scale, y * scale
    box = (x - radius, y - radius, x + radius, y + radius)
    draw.ellipse(box, fill=palette.card, outline=palette.ink, width=round(RING * scale))
    font = _font(round(number_px(symbol) * scale))
    draw.text((x, y), str(symbol.number), fill=palette.ink, font=font, anchor="mm")


@cache
def _font(px: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(locations.assets() / "fonts/DejaVuSansCondensed-Bold.ttf"), px)
