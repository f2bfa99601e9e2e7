"""The face of a connector on a screen, with words on what is seen and how far to trust it."""

from __future__ import annotations

from collections.abc import Collection
from math import ceil

import flet as ft

from walkaround.drawing.connector_face import Looking, advice, caption, face_words, layout_of
from walkaround.drawing.connector_svg import connector_svg
from walkaround.drawing.palette import Palette
from walkaround.lamps.connector import Connector
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import CARD, GAP, QUIET, RADIUS, SMALL
from walkaround.words.language import Words

_PAD = 10.0
_TEXT_PX = 172.0
"""Least width for the words beside a face; where there is less they stand below it."""
_ROWS_WIDER = 1.6
"""Contacts in rows take a box this much wider than high."""
_LINE_PX = 24.0
_LETTER_PX = 8.6
"""Height of a line of words, and width of a letter, on average and rather more."""


def pin_view(
    connector: Connector,
    palette: Palette,
    width_px: float,
    height_px: float,
    strong: Collection[str],
    words: Words,
    looking: Looking = "socket",
) -> ft.Control:
    """Show the face of this connector in a box of this size; made for boxes from 320 by 140 px.

    Args:
        strong: the contacts that this step is about.
        words: in which it is told.
        looking: into the vehicle's socket, or into the plug that goes in there.
    """
    texts = words.text(caption(connector, looking)), words.text(advice(connector))
    width, height = width_px - 2 * _PAD, height_px - 2 * _PAD
    is_beside = width - height - GAP >= _TEXT_PX
    if is_beside:
        wide = height if layout_of(connector) else _ROWS_WIDER * height
        face_px = min(wide, width - GAP - _TEXT_PX), height
    else:
        face_px = width, height - GAP - sum(_lines(text, width) for text in texts) * _LINE_PX
    face = ft.Image(
        src=connector_svg(connector, palette, *face_px, strong, looking, words.text),
        width=face_px[0],
        height=face_px[1],
    )
    text = ft.Column(
        [label(texts[0], size=SMALL, bold=True), label(texts[1], QUIET, SMALL)],
        spacing=4,
        alignment=ft.MainAxisAlignment.CENTER,
        expand=is_beside,
    )
    return ft.Semantics(
        label=words.text(face_words(connector, strong, looking)),
        image=True,
        exclude_semantics=True,
        content=ft.Container(
            width=width_px,
            height=height_px,
            bgcolor=CARD,
            border_radius=RADIUS,
            padding=_PAD,
            clip_behavior=ft.ClipBehavior.ANTI_ALIAS,
            content=(ft.Row if is_beside else ft.Column)([face, text], spacing=GAP),
        ),
    )


def _lines(text: str, width_px: float) -> int:
    """Return the number of lines that a text takes at this width."""
    return ceil(len(text) * _LETTER_PX / width_px)
