"""What is said of an answer that was not tapped, and of a round that is over."""

from __future__ import annotations

from walkaround.plan.steps import Step
from walkaround.walk.events import Answered
from walkaround.walk.state import FAULTS, Walk
from walkaround.words.answers import given_word, seen_words
from walkaround.words.language import Words


def echo_words(step: Step, given: Answered, words: Words) -> str:
    """Say what an answer was taken for: "OK", "Defect: left stop lamp dark"."""
    word = given_word(step, given, words)
    if not given.seen:
        return words("untapped-echo", answer=word)
    return words("untapped-echo-seen", answer=word, seen=seen_words(step, given.seen, words))


def round_words(walk: Walk, answered: Step, words: Words) -> str:
    """Sum up the round that this answer ended; nothing if it ended none.

    Where the walk itself is at its end, that is summed up instead.
    """
    steps = [step for step in walk.steps if step.round == answered.round]
    last, place = max(steps, key=walk.steps.index), walk.place
    if not answered.round or place is None or answered.id != last.id or place.id == last.id:
        return ""
    if walk.revisiting or any(step.id not in walk.answers for step in steps):
        return ""
    given = {step.id: walk.answers[step.id] for step in steps}
    bad = [
        words("untapped-round-defect", step=step.title, seen=seen)
        if (seen := seen_words(step, given[step.id].seen, words))
        else words.text(step.title)
        for step in steps
        if given[step.id].answer in FAULTS
    ]
    left = sum(each.answer == "not_checked" for each in given.values())
    assert walk.plan is not None
    return words(
        "untapped-round-over",
        number=answered.round,
        rounds=walk.plan.rounds,
        count=len(bad),
        defects=words.row(bad),
        left=left,
    )
