"""How large the words of a step may be: as large as the room that its picture and answers leave.

What a text takes is reckoned, not measured: the page tells no height of text before it is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from walkaround.ui.kit.theme import BODY, SMALL, TITLE

LARGEST, PLAIN = 32, BODY + 2
SIZES = (LARGEST, 28, 25, PLAIN)
"""Sizes of the words, px; the smallest one also where they must be scrolled."""
_EM = 0.54
"""Mean width of a character in sizes, of Roboto a little more than its 0.5 (from memory)."""
_LINE = 1.4
"""Height of a line in sizes."""
_AROUND_PX = 96.0
"""What bar, gaps and margins take besides."""
_CAUTION_SIDE_PX, _CAUTION_MORE_PX = 76.0, 32.0
"""The sign beside a caution and its card's margins."""
_SMALL_ROW_PX = 72.0


def text_px(text: str, size: float, width: float) -> float:
    """Reckon the height of a text in lines of this width, px."""
    return max(1, ceil(len(text) * _EM * size / width)) * size * _LINE


def words_size(
    words: str,
    title: str,
    cautions: Sequence[str],
    *,
    lines: int,
    width: float,
    height: float,
    taken: float,
) -> int:
    """Choose the largest size at which a step's words need no scrolling, px.

    Args:
        words, title, cautions: what stands among them.
        lines: how many lines of a list stand below.
        width, height: of the page's column.
        taken: what picture and answers take of its height, and what else lies over it.
    """
    room = height - taken - _AROUND_PX - _SMALL_ROW_PX
    room -= text_px(title, TITLE, width) + lines * SMALL * _LINE * 1.3
    for each in cautions:
        room -= text_px(each, BODY, width - _CAUTION_SIDE_PX) + _CAUTION_MORE_PX
    fits = (size for size in SIZES if text_px(words, size, width) <= room)
    return next(fits, PLAIN)
