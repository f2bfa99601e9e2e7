"""The words of a step as this phone tells it: for its screen, for its voice and for what fits."""

from __future__ import annotations

from walkaround.plan.steps import Step
from walkaround.ui.page.view import View
from walkaround.walk.leaving import as_left
from walkaround.walk.state import Walk
from walkaround.words.prompts import Prompt, prompt

_KEPT = 16
"""So many prompts a page remembers: a tap needs those of two steps, several times each."""


def told_of(view: View, walk: Walk, step: Step) -> Prompt:
    """Put a step into words as this phone shows and says them; once for all who ask."""
    assert walk.plan is not None
    words, wording, power = view.words, view.settings.wording, walk.plan.power
    anew, left = walk.revisiting == step.id, as_left(walk, step)
    key = (id(left), power, wording, words.language, words.units, anew)
    if key not in view.prompts:
        if len(view.prompts) >= _KEPT:
            del view.prompts[next(iter(view.prompts))]
        # With its step, so that no other one gets the number of this one meanwhile.
        view.prompts[key] = left, prompt(left, power, wording, words, anew=anew)
    return view.prompts[key][1]
