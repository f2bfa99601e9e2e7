"""How high words come out, and in which sizes the words of a step are drawn.

What a text takes is reckoned, not measured: the page tells no height of text before it is drawn.
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
"""A title is drawn no larger."""


def plain_px(scale: float) -> float:
    """Give the size of words that must be scrolled, at this scale."""
    return max(PLAIN, BODY * scale)


def text_px(text: str, size: float, width: float) -> float:
    """Reckon the height of a text in lines of this width, px: words go to a line while they fit."""
    lines, taken = 1, 0.0
    for word in text.split(" "):
        wide = size * word_em(word)
        taken += wide + (size * word_em(" ") if taken else 0.0)
        if taken > width and taken > wide:
            lines, taken = lines + 1, wide
    return lines * size * _LINE


def title_px(title: str, scale: float, width: float) -> float:
    """Reckon the height of a title, px."""
    return text_px(title, min(_TITLE_MOST_PX, TITLE * scale), width)


def caution_px(text: str, scale: float, width: float, *, low: bool) -> float:
    """Reckon the height of a caution with its card; on a low page it is smaller, px."""
    size = (SMALL + 1 if low else BODY) * scale
    return text_px(text, size, width - _CAUTION_SIDE_PX) + _CAUTION_MORE_PX


def line_px(scale: float) -> float:
    """Give the height of a line of a list below the words, px."""
    return SMALL * scale * _LINE * 1.3
