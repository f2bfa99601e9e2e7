"""What came of a practice: what was found, what was missed, what was none, and why."""

from __future__ import annotations

from collections.abc import Iterator

import flet as ft

from walkaround.base.message import Text
from walkaround.practice.marks import Marked, Marks, marks
from walkaround.practice.reasons import fault_words
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, notice, page_column, top_bar
from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, FIGURE, GOOD, QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.page_location import PRACTICE
from walkaround.ui.practice.start import LEVELS, practice_tap
from walkaround.ui.taps.walk import WalkTaps
from walkaround.words.language import capital

_MARKS_PX = 60.0
"""How many things were found is drawn no larger."""


@screen
def practice_end(view: View, taps: WalkTaps) -> ft.Control:
    """Tell what there was, thing by thing, with its cause; then once more, or harder."""
    vehicle, walk = view.practice, view.walk
    words = view.words
    assert walk.plan is not None
    real_vehicle = walk.plan.vehicle
    bar = top_bar(words, real_vehicle.name, back=view.to(PRACTICE))
    if vehicle is None or walk.plan.practice is None:
        return page_column(bar, [notice(words("practice-none"))])
    results = marks(vehicle, walk.answers)
    level = walk.plan.practice.level
    why = [label(capital(words.text(text))) for text in fault_words(vehicle)]
    body = [
        label(
            words("practice-full", full=results.full, due=results.due),
            size=fitting_size(FIGURE, _MARKS_PX),
            bold=True,
        ),
        heading(words("practice-cause")),
        card(ft.Column(list(why), spacing=8)),
        heading(words("practice-what-came")),
        *_every(view, results),
        label(words("practice-kept-apart"), QUIET, SMALL),
    ]
    again_tap = practice_tap(view, taps, real_vehicle, level)
    bottom = [wide_button(words("practice-again"), again_tap, key="again", icon=ft.Icons.REPLAY)]
    levels = list(LEVELS)
    if level != levels[-1]:
        other, icon = view.to(f"{PRACTICE}/{real_vehicle.id}"), ft.Icons.SCHOOL
        bottom.append(wide_button(words("practice-other-level"), other, key="levels", icon=icon))
    # On a low page what was wrong comes before what may be done next.
    return page_column(bar, [*body, *bottom]) if view.device.low else page_column(bar, body, bottom)


def _every(view: View, results: Marks) -> Iterator[ft.Control]:
    for number, each in enumerate(results.every):
        yield card(ft.Column(list(_rows(view, each)), spacing=4), key=f"marked_{number}")


def _rows(view: View, fault_result: Marked) -> Iterator[ft.Control]:
    right = fault_result.result == "found"
    name: Text = fault_result.item.name if fault_result.item else fault_result.step.title
    result = view.words(f"practice-{fault_result.result.replace('_', '-')}")
    yield label(result, GOOD if right else BAD, bold=True)
    yield label(capital(view.words.text(name)), bold=True)
    if fault_result.item:
        yield label(view.words.text(fault_result.step.title), QUIET, SMALL)
