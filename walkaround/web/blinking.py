"""Flashing lamps go dark and lit again on their plan: a small moving picture to lie over it.

A page plays it by itself, so that no flash is sent. Flutter draws no motion of an SVG (1.0.5 of
Flet), but of WebP.
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
_FINE = 2
"""Pixels of the picture to one of the page, as phones have them."""
_SHADES = 24
_ROUND = 2
"""How many times finer it is drawn, since Pillow does not draw half-covered pixels."""


def blinking_webp(plan: Plan, step: Step, look: PictureStyle) -> bytes | None:
    """Draw the flashing lamps of a step as they are between two flashes; None if there are none.

    Args:
        plan: of the walk.
        step: one of its steps.
        look: the size and colors of the plan that it lies over.
    """
    flashing = [symbol for symbol in seen_symbols(plan, step, look) if symbol.look == "flashing"]
    if not flashing:
        return None
    size = look.width * _FINE, look.height * _FINE
    lit, dark = Image.new("RGBA", size), Image.new("RGBA", [px * _ROUND for px in size])
    draw = ImageDraw.Draw(dark)
    for symbol in flashing:
        _dark_lamp(draw, symbol, look)
    file = io.BytesIO()
    half_ms = round(60_000 / FLASHES_PER_MINUTE / 2)
    # Half-covered pixels are of few shades: half the bytes.
    plain = dark.resize(size).quantize(_SHADES).convert("RGBA")
    frames = {"save_all": True, "append_images": [plain], "duration": half_ms}
    lit.save(file, "WEBP", lossless=True, method=6, loop=0, **frames)
    return file.getvalue()


def _dark_lamp(draw: ImageDraw.ImageDraw, symbol: Symbol, look: PictureStyle) -> None:
    """A hollow ring with its number, as `lamp_symbol` draws what is dark."""
    scale, palette = _FINE * _ROUND, look.palette
    (x, y), radius = symbol.center, symbol.radius * scale
    x, y = x * scale, y * scale
    box = (x - radius, y - radius, x + radius, y + radius)
    draw.ellipse(box, fill=palette.card, outline=palette.ink, width=round(RING * scale))
    font = _font(round(number_px(symbol) * scale))
    draw.text((x, y), str(symbol.number), fill=palette.ink, font=font, anchor="mm")


@cache
def _font(px: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(str(locations.assets() / "fonts/DejaVuSansCondensed-Bold.ttf"), px)
