"""The words of a step as this phone tells it: for its screen, for its voice and for what fits."""

from __future__ import annotations

from collections.abc import Hashable
from weakref import WeakKeyDictionary

from walkaround.plan.steps import Step
from walkaround.ui.page.view import View
from walkaround.walk.leaving import leaving_step
from walkaround.walk.state import Walk
from walkaround.words.prompts import Prompt, prompt

_MOST = 16
"""How many prompts are kept for a page: a tap needs those of a few steps, several times each."""
_kept: WeakKeyDictionary[View, dict[Hashable, tuple[Step, Prompt]]] = WeakKeyDictionary()


def prompt_of(view: View, walk: Walk, step: Step) -> Prompt:
    """Put a step into words as this phone shows and says them; once for all who ask."""
    assert walk.plan is not None
    words, wording, power = view.words, view.settings.wording, walk.plan.power
    anew, left_as = walk.revisiting == step.id, leaving_step(walk, step)
    key = (id(left_as), power, wording, words.language, words.units, anew)
    prompts = _kept.setdefault(view, {})
    if key not in prompts:
        if len(prompts) >= _MOST:
            del prompts[next(iter(prompts))]
        # With its step, so that no other one gets the number of this one meanwhile.
        prompts[key] = left_as, prompt(left_as, power, wording, words, anew=anew)
    return prompts[key][1]
