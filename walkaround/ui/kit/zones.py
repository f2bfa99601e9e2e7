"""What is tapped to answer or to choose: large zones, and smaller ones side by side."""

from __future__ import annotations

from collections.abc import Collection, Sequence

import flet as ft

from walkaround.ui.kit.buttons import download
from walkaround.ui.kit.scale import (
    fitting_size,
    fitting_size_in_row,
    small_words_size,
    tall,
    text_scale,
)
from walkaround.ui.kit.surface import Tap, surface
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import ANSWER, BODY, SMALL, SMALL_TOUCH, TITLE, TOUCH, Tone
from walkaround.words.language import Words, capital

_ANSWER_PX, _CHOICE_PX, _FIGURE_PX, _SMALL_PX = 40.0, 24.0, 36.0, 26.0
"""Words on an answer, on a choice, on a tile and on a small button are drawn no larger."""
_ONE_LINE, _TWO_LINES_PX = 10, 24.0
"""An answer with more characters than these takes two lines in half a row, no larger than that."""
_ROW_CHARS = 32
"""Options with at most this many characters in all fit in one row on the smallest phone."""
_TWO_ACROSS = 1.3
_BRIEF = 3
"""At a larger scale than this no more than two options with more characters share a row."""


def stacked(*parts: ft.Control) -> ft.Control:
    """Put what stands on a button one above the other."""
    middle = ft.CrossAxisAlignment.CENTER
    return ft.Column(list(parts), spacing=0, tight=True, horizontal_alignment=middle)


def answer_zone(
    word: str,
    icon: ft.IconData,
    tap: Tap,
    *,
    key: str,
    tone: Tone = Tone.ACCENT,
    height: int = TOUCH,
    autofocus: bool = False,
    across: int = 1,
) -> ft.Control:
    """Make a large zone to hit with a glove: icon above, word below; one of `across` in its row."""
    chars, most_px, lines = len(word), _ANSWER_PX, 1
    if across > 1 and chars > _ONE_LINE:
        chars, most_px, lines = max(chars // 2 + 1, *map(len, word.split())), _TWO_LINES_PX, 2
    size = fitting_size_in_row(chars, ANSWER, across, most_px)
    word_label = label(word, size=size, bold=True, max_lines=lines)
    if lines > 1:
        word_label.text_align = ft.TextAlign.CENTER
    face = stacked(ft.Icon(icon, size=40), word_label)
    framed = tone is Tone.PLAIN
    return surface(face, tap, key=key, height=height, tone=tone, framed=framed, autofocus=autofocus)


def choice_zone(word: str, tap: Tap, *, key: str, height: int = TOUCH) -> ft.Control:
    """Make one of several answers of equal rank: its words, as large as any answer."""
    face = label(word, size=fitting_size(BODY, _CHOICE_PX), bold=True, max_lines=4)
    face.text_align = ft.TextAlign.CENTER
    return surface(face, tap, key=key, height=height, tone=Tone.ACCENT, padding=(8, 4))


def ok_zone(
    language: Words,
    tap: Tap,
    *,
    word: str = "",
    height: int = TOUCH,
    autofocus: bool = False,
    across: int = 2,
) -> ft.Control:
    """Make the answer that all is well; one of `across` in its row."""
    word, icon = word or language("answer-ok"), ft.Icons.CHECK_CIRCLE
    return answer_zone(
        word, icon, tap, key="ok", tone=Tone.GOOD, height=height, autofocus=autofocus, across=across
    )


def defect_zone(language: Words, tap: Tap, *, height: int = TOUCH) -> ft.Control:
    """Make the answer that something is wrong; one of two in its row."""
    word, icon = language("answer-defect"), ft.Icons.REPORT
    return answer_zone(word, icon, tap, key="defect", tone=Tone.BAD, height=height, across=2)


def small_answer(
    word: str,
    icon: ft.IconData,
    tap: Tap | None = None,
    *,
    key: str,
    on: bool = False,
    url: str | ft.Url | None = None,
    beside: Collection[str],
    across: int = 0,
) -> ft.Control:
    """Make one of several in a row: icon above, word below; `on` is the one chosen.

    With `url` a tap downloads from there; with an address as `new_page` makes it, it opens that.
    Where a word does not fit into its share of the row, the picture stands alone, and the word is
    spoken. One that has a row for itself takes two small lines, cut off where that is too little.

    Args:
        beside: the words of the whole row, or of several rows: all are drawn in one size.
        across: how many share a row; as many as there are words if left out.
    """
    across = across or len(beside)
    size = small_words_size(beside, across, _SMALL_PX)
    lines = 1
    if small_words_size([word], across, _SMALL_PX):
        face = stacked(ft.Icon(icon, size=26), label(word, size=size, bold=True, max_lines=1))
    elif across == 1:
        lines, size = 2, fitting_size(SMALL, SMALL)
        face = stacked(ft.Icon(icon, size=26), label(word, size=size, bold=True, max_lines=lines))
    else:
        face = ft.Icon(icon, size=38, semantics_label=word)
    tone = Tone.ACCENT if on else Tone.PLAIN
    height = tall(SMALL_TOUCH + 4, size, lines, 36)
    zone = surface(face, tap, key=key, height=height, tone=tone, padding=(2, 2))
    zone.url = url if isinstance(url, ft.Url) else download(url)
    return zone


def choice(options: Sequence[tuple[str, str, Tap]], chosen: str) -> ft.Control:
    """Put options side by side, one of them chosen: (key, word, tap) each.

    Where there are too many to be read in one row, they stand in several.
    """
    words = [word for _, word, _ in options]
    longest = max(map(len, words))
    across = min(3, len(options))
    if len(options) > 3:
        across = max(2, min(len(options), _ROW_CHARS // longest))
    if text_scale() > _TWO_ACROSS and longest > _BRIEF:
        across = min(2, across)
    while across > 1 and not all(small_words_size([word], across, _SMALL_PX) for word in words):
        across -= 1
    zones = [
        small_answer(
            word,
            radio_icon(key == chosen),
            tap,
            key=key,
            on=key == chosen,
            beside=words,
            across=across,
        )
        for key, word, tap in options
    ]
    return in_rows(zones, across)


def radio_icon(on: bool) -> ft.IconData:
    """Choose the picture of one of several, the one chosen or another."""
    return ft.Icons.RADIO_BUTTON_CHECKED if on else ft.Icons.RADIO_BUTTON_UNCHECKED


def tile(
    figure: str, name: str, icon: ft.IconData, tap: Tap, *, key: str, tone: Tone
) -> ft.Control:
    """Show something that was told, to be told anew with a tap: a figure above its name."""
    size = fitting_size(SMALL, _SMALL_PX)
    large = label(figure, size=fitting_size(TITLE, _FIGURE_PX), bold=True, max_lines=1)
    figure_row = [ft.Icon(icon, size=24), large]
    name_label = label(capital(name), size=size, max_lines=1)
    face = stacked(ft.Row(list(figure_row), spacing=6, tight=True), name_label)
    return surface(face, tap, key=key, height=tall(68, size, 1, 50), tone=tone)


def in_rows(zones: Sequence[ft.Control], across: int) -> ft.Control:
    """Put zones side by side in rows; those of a shorter last row are wider."""
    starts = range(0, len(zones), across)
    rows = [ft.Row(list(zones[at : at + across]), spacing=8) for at in starts]
    return rows[0] if len(rows) == 1 else ft.Column(list(rows), spacing=8)
