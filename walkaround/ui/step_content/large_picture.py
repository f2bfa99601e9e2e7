"""The picture of a step as large as the page: the part itself, or where it is."""

from __future__ import annotations

import flet as ft

from walkaround.drawing.part_drawings.line_drawing import drawn_part
from walkaround.drawing.plan_svg import PictureStyle
from walkaround.plan.steps import Step
from walkaround.ui.kit.parts import page_column, top_bar
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.pictures.part import part_view
from walkaround.ui.pictures.plan import plan_control
from walkaround.ui.practice.observations import seen_picture
from walkaround.ui.taps.walk import WalkTaps

_AROUND_PX, _SQUARE = 140.0, 1.3
"""What bar and margins take; a picture is at most so much higher than it is wide."""


@screen
def large_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:  # noqa: ARG001
    """Show the picture as large as the page, and go back by the arrow."""
    plan = view.walk.plan
    assert plan is not None
    width = (view.device.width if view.device.wide else view.device.column_px) - 24
    height = min(view.device.height - _AROUND_PX, _SQUARE * width)
    look, subject = PictureStyle(round(width), round(height), view.dark), drawn_part(step)
    if subject:
        picture = part_view(subject, look, view.words)
    elif view.practice:
        picture = seen_picture(view, view.practice, step, look)
    else:
        picture = plan_control(plan, step, look, view.words)
    bar = top_bar(view.words, view.words.text(step.title), back=view.opens(""))
    return page_column(bar, [picture])
