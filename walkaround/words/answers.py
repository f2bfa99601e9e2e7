"""What answers, reasons and faults are called, on screen, in speech and in the record; the echo."""

from __future__ import annotations

from collections.abc import Mapping

from walkaround.plan.steps import Step
from walkaround.walk.events import Answer, Answered, Reason, Seen
from walkaround.walk.state import FAULTS, Walk
from walkaround.words.language import Words


def answer_text(answer: Answer, words: Words) -> str:
    """Name an answer: "Not checked"."""
    return words(f"answer-{_hyphened(answer)}")


def answer_word(step: Step, answer: Answer, words: Words) -> str:
    """Name an answer to this step: an act is done, what is looked at is OK."""
    is_done = step.kind == "act" and answer == "ok"
    return words("answer-done") if is_done else answer_text(answer, words)


def given_word(step: Step, answered: Answered, words: Words) -> str:
    """Name the answer that was given, or the way in which the step was done."""
    chosen = next((choice.text for choice in step.choices if choice.id == answered.choice), "")
    return words.text(chosen) if chosen else answer_word(step, answered.answer, words)


def reason_text(reason: Reason, words: Words) -> str:
    """Name a reason for not checking: "No power"."""
    return words(f"reason-{_hyphened(reason)}")


def seen_text(seen: Seen, words: Words) -> str:
    """Name what can be seen wrong of one thing: "flickers"."""
    return words(f"seen-{_hyphened(seen)}")


def seen_words(step: Step, seen_as: Mapping[str, Seen], words: Words) -> str:
    """Tell what was seen of which items: "left tail lamp dark, right tail lamp dim"."""
    names = {item.id: item.name for item in step.items}
    return words.row(
        words("seen-of-item", item=names.get(id_, id_), seen=seen_text(seen, words))
        for id_, seen in seen_as.items()
    )


def given_words(step: Step, answered: Answered | None, words: Words) -> str:
    """Tell how a step was answered, and when: "Answered: OK, 10:42."."""
    if answered is None:
        return words("step-not-answered")
    why = why_words(step, answered, words)
    at, answer = f"{answered.at.local():%H:%M}", given_word(step, answered, words)
    if why:
        return words("step-given-why", answer=answer, why=why, time=at)
    return words("step-given", answer=answer, time=at)


def why_words(step: Step, answered: Answered, words: Words) -> str:
    """Tell what was seen, or why it was not checked; empty where neither was told."""
    if answered.reason:
        return reason_text(answered.reason, words).lower()
    return seen_words(step, answered.seen, words)


def looking_back(step: Step, answered: Answered | None, words: Words) -> str:
    """Say of a step that is looked back at how it was answered, and nothing of what it asks."""
    looking_at = words("step-looking-back-said", step=step.title)
    return f"{looking_at} {given_words(step, answered, words)}"


def echo_words(step: Step, answered: Answered, words: Words) -> str:
    """Say what an answer was taken for: "OK", "Defect: left stop lamp dark"."""
    word = given_word(step, answered, words)
    if not answered.seen:
        return words("key-answers-echo", answer=word)
    return words("key-answers-echo-seen", answer=word, seen=seen_words(step, answered.seen, words))


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
    answer_of = {step.id: walk.answers[step.id] for step in steps}
    bad = [
        words("key-answers-round-defect", step=step.title, seen=seen)
        if (seen := seen_words(step, answer_of[step.id].seen, words))
        else words.text(step.title)
        for step in steps
        if answer_of[step.id].answer in FAULTS
    ]
    unchecked = sum(each.answer == "not_checked" for each in answer_of.values())
    assert walk.plan is not None
    return words(
        "key-answers-round-over",
        number=answered.round,
        rounds=walk.plan.rounds,
        count=len(bad),
        defects=words.row(bad),
        left=unchecked,
    )


def _hyphened(value: str) -> str:
    return value.replace("_", "-")
