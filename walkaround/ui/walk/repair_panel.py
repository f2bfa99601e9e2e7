"""What was done about a defect: one tap, and what it can have changed is asked again."""

from __future__ import annotations

import flet as ft

from walkaround.repairs.repair_options import axles_at, group_of
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import caution, page_column, top_bar
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.state import Defect, Walk
from walkaround.walk.transitions import recheck_stands
from walkaround.words.language import capital
from walkaround.words.measured_values import defect_words

REPAIRED = "repaired_"
"""Goes before a step's id to make the name of its panel."""


@screen
def repaired_panel(view: View, taps: WalkTaps, defect: Defect) -> ft.Control:
    """Tell what may have been done about this defect, the likely causes first."""
    walk, words = view.walk, view.words
    step = next(step for step in walk.steps if step.id == defect.step)
    finished = walk.phase == "finished"
    body: list[ft.Control] = [
        label(words.text(step.title), bold=True),
        label(capital(defect_words(walk, defect, words)), BAD, bold=True),
    ]
    if group_of(step, defect.found) in ("brake", "hold", "air"):
        body.append(caution(words("repairs-caution"), SMALL))
    if _automatic(walk, defect):
        body.append(caution(words("repairs-automatic"), SMALL))
    if step.charged and not finished:
        body.append(label(words("repairs-air-out"), size=SMALL))
    body.append(heading(words("repairs-question")))
    body += [
        wide_button(
            words.text(option.what),
            tapped(taps.repair_taps.record_repair, step.id, option),
            key=f"done_{option.id}",
        )
        for option in taps.repair_taps.options_at(walk, defect)
    ]
    if not finished and recheck_stands(walk, step.id):
        recheck = tapped(taps.revisit, step.id, "recheck")
        nothing, icon = words("repairs-nothing"), ft.Icons.REPLAY
        body.append(wide_button(nothing, recheck, key=f"recheck_{step.id}", icon=icon))
    bar = top_bar(words, words("repairs-title"), back=view.opens("" if finished else "defects"))
    return page_column(bar, body)


def _automatic(walk: Walk, defect: Defect) -> bool:
    """Tell whether it is about the stroke of an adjuster that ought to set itself."""
    step = next(step for step in walk.steps if step.id == defect.step)
    if walk.plan is None or step.kind != "measure":
        return False
    axles = walk.plan.vehicle.brakes.axles
    at = [int(axle) - 1 for axle in axles_at(step, defect.found) or axles_at(step)]
    return any(n < len(axles) and axles[n].slack == "automatic" for n in at)
