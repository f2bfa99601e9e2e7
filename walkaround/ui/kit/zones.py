"""What is tapped to answer or to choose: large zones, and smaller ones side by side."""

from __future__ import annotations

from collections.abc import Sequence

import flet as ft

from walkaround.ui.kit.buttons import download
from walkaround.ui.kit.surface import Tap, surface
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import ANSWER, SMALL, SMALL_TOUCH, TITLE, TOUCH, Tone
from walkaround.words.language import Words, capital

_ROW_CHARS = 32
"""So many characters of options in all are read side by side on the smallest phone."""


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
) -> ft.Control:
    """Make a large zone to hit with a glove: icon above, word below."""
    face = stacked(ft.Icon(icon, size=40), label(word, size=ANSWER, bold=True, max_lines=1))
    framed = tone is Tone.PLAIN
    return surface(face, tap, key=key, height=height, tone=tone, framed=framed, autofocus=autofocus)


def choice_zone(word: str, tap: Tap, *, key: str, height: int = TOUCH) -> ft.Control:
    """Make one of several answers of equal rank: its words, as large as any answer."""
    face = label(word, bold=True, max_lines=4)
    face.text_align = ft.TextAlign.CENTER
    return surface(face, tap, key=key, height=height, tone=Tone.ACCENT, padding=(8, 4))


def ok_zone(
    language: Words, tap: Tap, *, word: str = "", height: int = TOUCH, autofocus: bool = False
) -> ft.Control:
    """Make the answer that all is well."""
    word, icon = word or language("answer-ok"), ft.Icons.CHECK_CIRCLE
    return answer_zone(
        word, icon, tap, key="ok", tone=Tone.GOOD, height=height, autofocus=autofocus
    )


def defect_zone(language: Words, tap: Tap, *, height: int = TOUCH) -> ft.Control:
    """Make the answer that something is wrong."""
    return answer_zone(
        language("answer-defect"), ft.Icons.REPORT, tap, key="defect", tone=Tone.BAD, height=height
    )


def small_answer(
    word: str,
    icon: ft.IconData,
    tap: Tap | None = None,
    *,
    key: str,
    on: bool = False,
    url: str | ft.Url | None = None,
) -> ft.Control:
    """Make one of several in a row: icon above, word below; `on` is the one chosen.

    With `url` a tap downloads from there; with an address as `new_page` makes it, it opens that.
    """
    face = stacked(ft.Icon(icon, size=26), label(word, size=SMALL, bold=True, max_lines=1))
    tone = Tone.ACCENT if on else Tone.PLAIN
    zone = surface(face, tap, key=key, height=SMALL_TOUCH + 4, tone=tone, padding=(2, 2))
    zone.url = url if isinstance(url, ft.Url) else download(url)
    return zone


def choice(options: Sequence[tuple[str, str, Tap]], chosen: str) -> ft.Control:
    """Put options side by side, one of them chosen: (key, word, tap) each.

    Where there are too many to be read in one row, they stand in several.
    """
    zones = [
        small_answer(word, radio_icon(key == chosen), tap, key=key, on=key == chosen)
        for key, word, tap in options
    ]
    longest = max(len(word) for _, word, _ in options)
    return in_rows(
        zones, max(2, min(len(options), _ROW_CHARS // longest)) if len(options) > 3 else 3
    )


def radio_icon(on: bool) -> ft.IconData:
    """Choose the picture of one of several, the one chosen or another."""
    return ft.Icons.RADIO_BUTTON_CHECKED if on else ft.Icons.RADIO_BUTTON_UNCHECKED


def tile(
    figure: str, name: str, icon: ft.IconData, tap: Tap, *, key: str, tone: Tone
) -> ft.Control:
    """Show something that was told, to be told anew with a tap: a figure above its name."""
    marked = [ft.Icon(icon, size=24), label(figure, size=TITLE, bold=True, max_lines=1)]
    named = label(capital(name), size=SMALL, max_lines=1)
    face = stacked(ft.Row(list(marked), spacing=6, tight=True), named)
    return surface(face, tap, key=key, height=68, tone=tone)


def in_rows(zones: Sequence[ft.Control], across: int) -> ft.Control:
    """Put zones side by side, so many in a row; those of a shorter last row are wider."""
    starts = range(0, len(zones), across)
    rows = [ft.Row(list(zones[at : at + across]), spacing=8) for at in starts]
    return rows[0] if len(rows) == 1 else ft.Column(list(rows), spacing=8)
