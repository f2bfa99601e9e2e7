"""The line drawing of a part on a screen, fetched by its address."""

from __future__ import annotations

import flet as ft

from walkaround.drawing.part_drawings.line_drawing import Subject, subject_words
from walkaround.drawing.plan_svg import PictureStyle
from walkaround.words.language import Words


def part_view(subject: Subject, look: PictureStyle, words: Words) -> ft.Control:
    """Show a part as large and in the colors that the look says."""
    return ft.Image(
        src=f"/parts/{words.language}/{subject}/{look.name}.svg",
        width=look.width,
        height=look.height,
        semantics_label=words.text(subject_words(subject)),
    )
