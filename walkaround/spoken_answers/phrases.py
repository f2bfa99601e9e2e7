"""The phrases that can be said, and which of them a step accepts now.

Of many phrases with the same meaning, these are the ones that the model recognizes best in noise
and confuses least with each other. All of them are scored at every press, so that a phrase that is
not accepted now is not taken for another.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Literal, get_args

from walkaround.key_answers.key_presses import Place, tap_needed
from walkaround.plan.steps import Step
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
"""The phrase for each meaning, as the speech model writes it: with a capital, without a comma."""

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
"""Sentences that sound like an answer, but mean the contrary or ask. They are scored too, so that
they are not taken for an answer, and do nothing. "Nothing is wrong" is not among them: with it, a
fifth of the defects told in noise would be missed, and taken for one it only opens a list."""
SCORED = (*PHRASES.values(), *RIVALS)

_BY_PLACE: Mapping[Place, frozenset[Meaning]] = {
    "step": frozenset({"again", "explain", "back", "note"}),
    "looking_back": frozenset({"again", "explain", "back", "note", "on"}),
    "faults": frozenset({"next", "take", "again", "back"}),
    "end": frozenset({"again", "back"}),
    "elsewhere": frozenset(),
}
"""Meanings that change nothing in the walk, or only move through what the screen offers."""


def meaning_of(text: str) -> Meaning | None:
    """Return what a phrase means; None if it means nothing."""
    return next((meaning for meaning, phrase in PHRASES.items() if phrase == text), None)


def accepted_meanings(
    walk: Walk, step: Step | None, place: Place, *, question_open: bool
) -> Collection[Meaning]:
    """List what can be said now, the answers first.

    Args:
        walk: the walk.
        step: the step on screen; None at the end.
        place: what is on the screen.
        question_open: whether the app has asked if it heard something right.
    """
    if question_open:
        return ("yes", "back")
    if step is not None and step.quiet:
        # The person listens for leaks at this step, so talking is not possible.
        return ()
    accepted = set(_BY_PLACE[place])
    if step is not None and place == "step":
        accepted |= _answers(walk, step)
    return [meaning for meaning in MEANINGS if meaning in accepted]


def _answers(walk: Walk, step: Step) -> set[Meaning]:
    """List what answers the current step; see `tap_needed` for the answers that take a tap."""
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
