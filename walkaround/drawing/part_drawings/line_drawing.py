"""The line drawing that belongs to a step, if one does, as a document that stands alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Literal

from walkaround.base.message import Message, message
from walkaround.drawing import svg
from walkaround.drawing.palette import Palette
from walkaround.drawing.part_drawings.air import dial, drain, gladhand, spring_chamber
from walkaround.drawing.part_drawings.brakes import abs_lamp, chock, slack_adjuster, stroke
from walkaround.drawing.part_drawings.sheet import LineSheet
from walkaround.plan.steps import Step

_ROUND_PX = 16.0
Subject = Literal[
    "dial", "gladhand", "slack-adjuster", "stroke", "drain", "chock", "spring-chamber", "abs-lamp"
]
SUBJECTS: Mapping[Subject, Callable[[LineSheet], None]] = {
    "dial": dial,
    "gladhand": gladhand,
    "slack-adjuster": slack_adjuster,
    "stroke": stroke,
    "drain": drain,
    "chock": chock,
    "spring-chamber": spring_chamber,
    "abs-lamp": abs_lamp,
}
_BY_STEP: tuple[tuple[str, Subject], ...] = (
    ("chock", "chock"),
    ("lines_on", "gladhand"),
    ("lines_off", "gladhand"),
    ("water_drained", "drain"),
    ("gauges", "dial"),
    ("needles_steady", "dial"),
    ("rods_marked", "slack-adjuster"),
    ("stroke_", "stroke"),
    ("brakes_set", "spring-chamber"),
    ("abs_", "abs-lamp"),
)
"""How ids of steps begin, and what is drawn for them."""


def drawn_part(step: Step) -> Subject | None:
    """Tell which part is drawn for a step; None if none is."""
    return next((subject for begin, subject in _BY_STEP if step.id.startswith(begin)), None)


def line_drawing(
    subject: Subject,
    palette: Palette,
    width: float,
    height: float,
    read: Callable[[Message], str] = str,
) -> str:
    """Draw a part on a card of this size, px; `read` puts a message into words."""
    sheet = LineSheet(palette, width, height)
    SUBJECTS[subject](sheet)
    card = svg.rectangle((0, 0), (width, height), fill=palette.card, radius=_ROUND_PX)
    return svg.document(width, height, read(subject_words(subject)), [card, *sheet.pieces])


def subject_words(subject: Subject) -> Message:
    """Say what is drawn, for those who hear the screen."""
    return message(f"drawn-{subject}")
