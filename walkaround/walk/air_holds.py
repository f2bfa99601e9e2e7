"""What a walk allows of an air hold: its readings, its end, and which answer may follow it."""

from __future__ import annotations

from walkaround.airhold.hold import Hold
from walkaround.airhold.verdict import JUDGED_BY
from walkaround.base.message import Message, message
from walkaround.walk.events import Answered, HoldEnded, ReadingTaken
from walkaround.walk.state import FAULTS, Walk


def reading_refusal(walk: Walk, event: ReadingTaken) -> Message | None:
    """Say why a reading may not be taken now; None if it may."""
    hold = walk.holds[event.step]
    if event.gauge not in hold.rule.gauges:
        return message("refused-no-reading", gauge=event.gauge)
    if trouble := hold.time_trouble(event.at):
        return trouble
    if any(r.gauge == event.gauge and r.at_s >= event.at_s for r in hold.readings):
        gauge, at_s = message(f"gauge-{event.gauge}"), f"{event.at_s:g}"
        return message("refused-read-already", gauge=gauge, seconds=at_s)
    return None


def hold_end_refusal(walk: Walk, event: HoldEnded) -> Message | None:
    """Say why a hold may not end so now; None if it may."""
    hold = walk.holds[event.step]
    if trouble := hold.time_trouble(event.at):
        return trouble
    if not hold.minute_in(event.at_s):
        return message("refused-minute")
    if event.judged_by != JUDGED_BY:
        return None
    if event.how == "early":
        return None if hold.may_end_early(event.at_s) else message("refused-misread")
    return None if hold.ending(event.at_s) == event.how else message("refused-not-ended")


def hold_answer_refusal(walk: Walk, event: Answered) -> Message | None:
    """Say why the step of a hold may not be answered so; None if it may."""
    hold = walk.holds.get(event.step)
    ended = hold is not None and hold.ended != ""
    if hold and ended and _is_over(hold) and event.answer not in FAULTS:
        return message("refused-over")
    if event.answer != "not_checked" and not ended:
        return message("refused-hold-unread")
    if hold and hold.ended == "settling" and event.answer == "ok":
        return message("refused-settling")
    return None


def _is_over(hold: Hold) -> bool:
    """Tell whether it was over its limit, if this version of the rule judged it."""
    return hold.judged_by == JUDGED_BY and hold.over()


def unanswered_hold(walk: Walk) -> Message | None:
    """Say why nobody may walk away now: an air hold was over its limit, and nobody has said so."""
    step = walk.here
    hold = walk.holds.get(step.id) if step else None
    if step is None or hold is None or not hold.ended or not _is_over(hold):
        return None
    answered = walk.answers.get(step.id)
    has_fault = answered is not None and answered.answer in FAULTS
    return None if has_fault else message("refused-left-over", step=step.id)
