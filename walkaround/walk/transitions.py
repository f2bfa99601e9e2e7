"""What a walk allows: which event may follow what, and what it must satisfy besides.

The first is one table, `TRANSITIONS`. A walk is in one of five phases:

    unstarted --began--> stepping <--> holding      an air hold runs
                         stepping <--> paused       left, then resumed
                         stepping --finished--> finished

Stepping is the phase in which steps are asked and answered. While an air hold runs nothing can be
answered, left or closed: its clock decides, and an answer given meanwhile would be about a hold
that nobody has seen the end of. A walk that is left takes nothing but being resumed, so that every
answer stands between two moments at which somebody was there. A finished one takes notes, photos,
signatures, the odometer, and what was repaired since. Phase and kind of event that have no cell
together are refused; no other rule need know of it.

The second is one small function for each kind of event, which returns why it refuses, or None. Two
rules run through all of them: only the step being asked can be answered (`is_late` tells a second
tap or a page that lagged from a mistake), and what a gauge, a rule or a clock showed decides the
answer, not the thumb.
"""

from __future__ import annotations

from collections.abc import Mapping

from walkaround.airhold.correction import correction_refusal
from walkaround.base.message import Message, message
from walkaround.plan.steps import Step
from walkaround.rules.checklist import PARTS
from walkaround.walk.air_holds import (
    hold_answer_refusal,
    hold_end_refusal,
    reading_refusal,
    unanswered_hold,
)
from walkaround.walk.chambers import chambers_match, ends_of, stroke_taken
from walkaround.walk.events import (
    MOST_PHOTOS,
    NO_FAULT,
    AirTemperature,
    Answered,
    ChamberTold,
    Event,
    Finished,
    GaugesTold,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    Measured,
    Noted,
    Photographed,
    ReadingMended,
    ReadingTaken,
    Repaired,
    Revisited,
    TimerBegan,
)
from walkaround.walk.measured_values import outcome
from walkaround.walk.state import FAULTS, Phase, Walk
from walkaround.walk.timers import running_since, stopwatch_trouble, wait_left_s

BOX = "box"
"""The source of power that is held in the hand: nobody sits at pedal and gear."""

# Events about the step being asked, and no other.
_AtStep = (
    Answered | HoldBegan | ReadingTaken | ReadingMended | HoldEnded | HoldVoided
    | AirTemperature | GaugesTold | ChamberTold | TimerBegan | Measured
)  # fmt: skip

TRANSITIONS: Mapping[Phase, Mapping[str, Phase]] = {
    "unstarted": {"began": "stepping"},
    "stepping": {
        "answered": "stepping",
        "noted": "stepping",
        "photographed": "stepping",
        "revisited": "stepping",
        "hold_began": "holding",
        "air_temperature": "stepping",
        "gauges_told": "stepping",
        "chamber_told": "stepping",
        "tried": "stepping",
        "taken_back": "stepping",
        "heard": "stepping",
        "repaired": "stepping",
        "signed": "stepping",
        "odometer_read": "stepping",
        "timer_began": "stepping",
        "measured": "stepping",
        "paused": "paused",
        "finished": "finished",
    },
    "holding": {
        "reading_taken": "holding",
        "reading_mended": "holding",
        "noted": "holding",
        "photographed": "holding",
        "hold_ended": "stepping",
        "hold_voided": "stepping",
    },
    "paused": {"resumed": "stepping"},
    "finished": {
        "noted": "finished",
        "photographed": "finished",
        "repaired": "finished",
        "signed": "finished",
        "odometer_read": "finished",
    },
}
"""What may follow what. An empty cell is a refusal; `finished` leads nowhere."""


def refusal(walk: Walk, event: Event) -> Message | None:
    """Tell why this event may not happen now; None if it may."""
    if event.kind not in TRANSITIONS[walk.phase]:
        return message("refused-phase", phase=walk.phase, kind=event.kind)
    if event.seq != len(walk.events):
        return message("refused-order", number=event.seq, last=len(walk.events) - 1)
    match event:
        case Noted() | Photographed():
            return _besides(walk, event)
        case Repaired():
            return _repair(walk, event)
        case Revisited():
            return unanswered_hold(walk) or _revisit(walk, event)
        case Finished():
            return unanswered_hold(walk)
        case _ if isinstance(event, _AtStep):
            step = walk.here
            if step is None or is_late(walk, event):
                return message("refused-late", step=event.step)
            return _at_step(walk, step, event)
        case _:
            return None


def is_late(walk: Walk, event: Event) -> bool:
    """Tell whether the event is about a step that is not the one being asked."""
    if not isinstance(event, _AtStep):
        return False
    return walk.here is None or walk.here.id != event.step


def _besides(walk: Walk, event: Noted | Photographed) -> Message | None:
    if walk.plan is None or walk.plan.step(event.step) is None:
        return message("refused-no-step", step=event.step)
    if isinstance(event, Photographed) and event.photo in walk.photos_taken:
        return message("refused-same-photo")
    full = isinstance(event, Photographed) and len(walk.photos_taken) >= MOST_PHOTOS
    return message("refused-more-photos", most=MOST_PHOTOS) if full else None


def _at_step(walk: Walk, step: Step, event: Event) -> Message | None:
    match event:
        case Answered():
            return _answer(step, event) or _measured_answer(walk, step, event)
        case HoldBegan():
            return None if step.hold else message("refused-no-hold", step=step.id)
        case ReadingTaken():
            return reading_refusal(walk, event)
        case ReadingMended():
            air_hold = walk.holds[event.step]
            refused = correction_refusal(air_hold, event.gauge, event.at_s, event.psi)
            return refused or air_hold.time_trouble(event.at)
        case HoldEnded():
            return hold_end_refusal(walk, event)
        case AirTemperature():
            hold = walk.holds.get(step.id)
            return None if hold and hold.ended else message("refused-no-correction")
        case GaugesTold():
            return None if step.kind == "gauges" else message("refused-no-gauges", step=step.id)
        case ChamberTold():
            if event.end not in ends_of(step):
                return message("refused-no-end", step=step.id)
            return message("refused-stroke-taken") if stroke_taken(walk, step) else None
        case TimerBegan():
            timed = step.measure is not None and step.measure.quantity == "s"
            return None if timed else message("refused-no-stopwatch", step=step.id)
        case Measured():
            return _value(step, event) or _stopped(walk, step, event)
        case _:
            return None


def _answer(step: Step, event: Answered) -> Message | None:
    if step.must and event.answer != "ok" and not (step.looks and event.answer in FAULTS):
        return message("refused-must", step=step.id)
    if event.choice not in {choice.id for choice in step.choices} | {""}:
        return message("refused-no-choice", step=step.id, choice=event.choice)
    if step.choices and event.answer == "ok" and not event.choice:
        return message("refused-unchosen", step=step.id)
    if (event.answer == "not_checked") != (event.reason is not None):
        return message("refused-reason")
    if event.answer not in FAULTS and set(event.seen.values()) - NO_FAULT:
        return message("refused-fault")
    unknown = sorted(set(event.seen) - {item.id for item in step.items})
    if unknown:
        return message("refused-no-item", step=step.id, item=unknown[0])
    required = {item.id for item in step.items if item.required}
    absent = {id_ for id_, what in event.seen.items() if what == "not_fitted"}
    if absent & required:
        return message("refused-missing")
    if event.answer == "not_fitted" and (required or step.kind in ("act", "hold")):
        return message("refused-not-fitted", step=step.id)
    return None


def _measured_answer(walk: Walk, step: Step, event: Answered) -> Message | None:
    """Say why an answer contradicts what a gauge, a rule or a clock showed; None if not."""
    if step.hold:
        return hold_answer_refusal(walk, event)
    if step.measure:
        result = outcome(step.measure, walk.measured.get(step.id, {}))
        if result == "outside" and event.answer not in FAULTS:
            return message("refused-outside")
        if event.answer == "ok" and result != "within":
            return message("refused-not-within")
    if step.kind == "chambers" and event.answer == "ok" and not chambers_match(walk, step):
        return message("refused-unlike")
    if step.kind == "gauges" and event.answer == "ok" and walk.told_gauges is None:
        return message("refused-gauges-untold")
    if step.wait and event.answer == "ok":
        left_s = wait_left_s(walk, step, event.at)
        if left_s > 0:
            return message("refused-waiting", seconds=f"{left_s:.0f}")
    return None


def _value(step: Step, event: Measured) -> Message | None:
    value_ids = {value.id for value in step.measure.values} if step.measure else set()
    if event.value_id not in value_ids:
        return message("refused-no-value", step=step.id, value=event.value_id)
    assert step.measure is not None
    units = {"psi": ("psi", "kPa", "bar"), "in": ("in", "mm"), "s": ("s",)}
    if event.unit not in units[step.measure.quantity]:
        return message("refused-unit", step=step.id, unit=event.unit)
    return None


def _stopped(walk: Walk, step: Step, event: Measured) -> Message | None:
    began = running_since(walk, step)
    return stopwatch_trouble(began, event.at) if began else None


def _revisit(walk: Walk, event: Revisited) -> Message | None:
    if event.step not in walk.answers:
        return message("refused-unanswered", step=event.step)
    if event.purpose == "change":
        return None
    if not walk.is_open(event.step) and event.step not in walk.due:
        return message("refused-no-defect", step=event.step)
    return None if recheck_stands(walk, event.step) else message("refused-recheck")


def _repair(walk: Walk, event: Repaired) -> Message | None:
    unknown = [id_ for id_ in event.again if id_ not in walk.answers]
    if unknown:
        return message("refused-unanswered", step=unknown[0])
    return None if walk.is_open(event.step) else message("refused-no-defect", step=event.step)


def recheck_stands(walk: Walk, step_id: str) -> bool:
    """Tell whether the vehicle still is as this step needs it.

    An air step needs the pressures of its own part of the walk, and one that used them up can
    only be repeated in a walk of its own; so can one that was repaired, with the air let out. A
    lamp step needs the vehicle chocked and connected; from a cab, where a pedal or a gear may go
    with it, also that no air step followed.
    """
    step = next(step for step in walk.steps if step.id == step_id)
    if (step.once and step.id in walk.answers) or (step.charged and step.id in walk.due):
        return False
    from_cab = step.kind == "lamp" and walk.plan is not None and walk.plan.power != BOX
    later = PARTS[PARTS.index(step.part) + 1 :]
    return not any(
        other.id in walk.answers
        and other.part in later
        and (step.air or other.part == "leave" or (from_cab and other.air))
        for other in walk.steps
    )
