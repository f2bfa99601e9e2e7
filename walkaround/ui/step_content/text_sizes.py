"""The text sizes of a step's words, and how high words come out at a size.

The height of a text is computed, not measured: the page tells none before it is drawn.
All sizes here are px as drawn, at whatever scale the phone or the settings ask for.
"""

from __future__ import annotations

from walkaround.ui.kit.scale import word_em
from walkaround.ui.kit.theme import BODY, SMALL, TITLE

LARGEST, PLAIN = 32, BODY + 2
SIZES = (LARGEST, 28, 25, PLAIN)
"""Sizes of the words at a scale of 1; the smallest one also where they must be scrolled."""
AROUND_PX = 168.0
"""What bar, small buttons, gaps and margins take."""
_LINE = 1.4
"""Height of a line in sizes."""
_CAUTION_SIDE_PX, _CAUTION_MORE_PX = 76.0, 32.0
"""The sign beside a caution and its card's margins."""
_TITLE_MOST_PX = 40.0
"""Largest size of a title."""


def plain_px(scale: float) -> float:
    """Return the size of words that must be scrolled, at this scale, px."""
    return max(PLAIN, BODY * scale)


def text_px(text: str, size: float, width: float) -> float:
    """Compute the height of a text wrapped to this width, px."""
    lines, used_width = 1, 0.0
    for word in text.split(" "):
        wide = size * word_em(word)
        used_width += wide + (size * word_em(" ") if used_width else 0.0)
        if used_width > width and used_width > wide:
            lines, used_width = lines + 1, wide
    return lines * size * _LINE


def title_px(title: str, scale: float, width: float) -> float:
    """Compute the height of a title, px."""
    return text_px(title, min(_TITLE_MOST_PX, TITLE * scale), width)


def caution_px(text: str, scale: float, width: float, *, low: bool) -> float:
    """Compute the height of a caution with its card, px; on a low page it is smaller."""
    size = (SMALL + 1 if low else BODY) * scale
    return text_px(text, size, width - _CAUTION_SIDE_PX) + _CAUTION_MORE_PX


def line_px(scale: float) -> float:
    """Return the height of a line of a list below the words, px."""
    return SMALL * scale * _LINE * 1.3
