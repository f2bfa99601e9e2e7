"""What can be said, and what of it a step takes now.

The phrases are plain words of ours. They were chosen by ear of the machine: of many that mean the
same, those that are heard best in noise and that are furthest from each other. Every one of them is
scored at every press, so that one that is said where it does not count is taken for no other.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Literal, get_args

from walkaround.plan.steps import Step
from walkaround.untapped.key_presses import Place, tap_needed
from walkaround.walk.answers import may_be_left_out
from walkaround.walk.state import Walk

Meaning = Literal[
    "ok", "defect", "not_checked", "not_fitted", "again", "explain", "back", "note", "start", "yes",
    "next", "take", "on",
]  # fmt: skip
MEANINGS: tuple[Meaning, ...] = get_args(Meaning)

PHRASES: Mapping[Meaning, str] = {
    "ok": "All is well here",
    "defect": "Something is wrong",
    "not_checked": "This was not possible",
    "not_fitted": "Not on this vehicle",
    "again": "Say it again please",
    "explain": "Please explain this",
    "back": "I want to go back",
    "note": "Make a note of this",
    "start": "I am ready to begin",
    "yes": "Yes that is right",
    "next": "Next one please",
    "take": "I mean that one",
    "on": "Please go on now",
}
"""How each is said; as the model of speech writes it, with a capital and without a comma."""

RIVALS = (
    "All is bad here",
    "All is not well here",
    "Not all is well here",
    "It is on this vehicle",
    "I am not ready to begin",
    "Are you ready to begin",
    "This was possible",
    "I do not mean that one",
    "Yes that is wrong",
    "That is not right",
)
"""What sounds like a phrase that answers, and means the contrary or asks. They are scored too, so
that they are taken for none; they themselves mean nothing. Not among them is "Nothing is wrong":
it costs a fifth of the defects that are told in noise, and taken for one it only opens a list."""
SCORED = (*PHRASES.values(), *RIVALS)

_BY_PLACE: Mapping[Place, frozenset[Meaning]] = {
    "step": frozenset({"again", "explain", "back", "note"}),
    "looking_back": frozenset({"again", "explain", "back", "note", "on"}),
    "faults": frozenset({"next", "take", "again", "back"}),
    "end": frozenset({"again", "back"}),
    "elsewhere": frozenset(),
}
"""What changes nothing in the walk, or only goes through what its buttons offer."""


def meaning_of(text: str) -> Meaning | None:
    """Say what a phrase means."""
    return next((meaning for meaning, phrase in PHRASES.items() if phrase == text), None)


def offered(
    walk: Walk, step: Step | None, place: Place, *, question_open: bool
) -> Collection[Meaning]:
    """Say what counts now, the answers first.

    Args:
        walk: the walk.
        step: the step on screen; None at the end.
        place: what is on the screen.
        question_open: it was asked whether something was heard right.
    """
    if question_open:
        return ("yes", "back")
    if step is not None and step.quiet:
        # One listens for air there, and so does nobody else.
        return ()
    counts = set(_BY_PLACE[place])
    if step is not None and place == "step":
        counts |= _answers(walk, step)
    return [meaning for meaning in MEANINGS if meaning in counts]


def _answers(walk: Walk, step: Step) -> set[Meaning]:
    """What answers the step that is asked; see `tap_needed` for what never does."""
    if step.spoken == "count":
        hold = walk.holds.get(step.id)
        idle = hold is None or bool(hold.void) or hold.ended == "settling"
        return {"start"} if idle else set()
    answers: set[Meaning] = set()
    if tap_needed(walk, step, ok=False) is None:
        answers.add("defect")
    if tap_needed(walk, step, ok=True) is None:
        answers |= {"ok", "not_checked"}
        if may_be_left_out(step):
            answers.add("not_fitted")
    return answers
