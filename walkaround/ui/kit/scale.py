"""How large a page draws its text, against the sizes that it is asked for.

The browser, the phone and the choice made in the settings all make text larger; Flutter draws
every text so much larger by itself. What has to stay in a box of fixed size asks here how large
it may be.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

import flet as ft

from walkaround.ui.kit.theme import COLUMN_PX, SMALL

_EM = 0.6
"""Mean width of a bold character in sizes, of Roboto (from memory), with a little room."""
_LINE = 1.25
"""Height of a line in sizes."""
_SIDES_PX = 44.0
"""What margins, gaps and the insides of buttons take of a row's width."""
_MARGINS_PX, _GAP_PX, _INSIDE_PX = 24.0, 8.0, 6.0
"""What the margins take of a row of small buttons, each gap, and the inside of each button."""
_WIDTHS = {
    letter: width
    for letters, width in (
        (" ',;:ijlí|", 0.26),
        ('!.I[]()-trf{}"', 0.36),
        ("cksxyvz?/", 0.53),
        ("aehnuáéú", 0.555),
        ("EFJLSTYZ#&", 0.63),
        ("mwMW@%æ", 0.9),
    )
    for letter in letters
}
_LETTER, _CAPITAL = 0.58, 0.72
"""Widths of characters in sizes, no less than Roboto's, the font of the screens; of others."""


@dataclass
class Sight:
    """What is known of the eyes that a page is for; `page.data` of that page.

    Attributes:
        scale: how many times larger than asked for text is drawn.
        width_px: of the page, as it was told last: Flet's own `page.width` may be an older one.
    """

    scale: float = 1.0
    width_px: float = COLUMN_PX


def text_scale() -> float:
    """Tell how many times larger than asked for the page being drawn shows its text."""
    return _sight().scale


def _sight() -> Sight:
    try:
        sight = ft.context.page.data
    except RuntimeError:
        return Sight()
    return sight if isinstance(sight, Sight) else Sight()


def fitting_size(size: float, most_px: float) -> float:
    """Choose the size to ask for: this one, or less where it would be drawn larger than that."""
    return min(size, most_px / text_scale())


def fitting_size_in_row(chars: int, size: float, across: int, most_px: float) -> float:
    """Choose the size to ask for of a word that is one of several in a row, so that it fits.

    Args:
        chars: of the word, or of its longer line.
        size: at most, unscaled.
        across: how many share the row.
        most_px: the largest that it may be drawn.
    """
    room = (_column_px() - _SIDES_PX) / across
    return fitting_size(size, min(most_px, room / (_EM * max(1, chars))))


def small_words_size(words: Collection[str], across: int, most_px: float) -> float:
    """Choose the one size to ask for of all words of a row of small buttons.

    It is that of the longest one that fits its share of the row; 0 if none does.

    Args:
        words: on its buttons, or on several rows of as many.
        across: how many share a row.
        most_px: the largest that they may be drawn.
    """
    room = (_column_px() - _MARGINS_PX - _GAP_PX * (across - 1)) / across - _INSIDE_PX
    fit_px = [room / word_em(word) for word in words]
    return min((fitting_size(SMALL, min(most_px, px)) for px in fit_px if px >= SMALL), default=0.0)


def word_em(word: str) -> float:
    """Reckon how wide a word is in one line, in sizes."""
    return sum(_WIDTHS.get(each, _CAPITAL if each.isupper() else _LETTER) for each in word)


def _column_px() -> float:
    return min(_sight().width_px, COLUMN_PX)


def tall(height: int, size: float, lines: int = 1, besides: float = 0.0) -> int:
    """Choose the height of a button: as it is, or what its words need at the scale drawn.

    Args:
        height: px, at a scale of 1.
        size: of its words, as asked for.
        lines: how many of them it holds.
        besides: px that a picture and margins take.
    """
    scale = text_scale()
    return height if scale <= 1 else max(height, round(size * scale * _LINE * lines + besides))
