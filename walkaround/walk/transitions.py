"""What a walk allows: which event may follow what, and what it must satisfy besides.

The first is one table. The second is one small function for each kind of event, returning a
sentence where it refuses and nothing where it allows.
"""

from __future__ import annotations

from collections.abc import Mapping

from walkaround.plan.steps import Step
from walkaround.rules.checklist import PARTS
from walkaround.walk.events import (
    AirTemperature,
    Answered,
    Event,
    Finished,
    GaugesTold,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    Measured,
    Noted,
    ReadingTaken,
    Revisited,
    TimerBegan,
)
from walkaround.walk.measured import outcome
from walkaround.walk.state import FAULTS, Phase, Walk
from walkaround.walk.timers import running_since, stopwatch_trouble, waited

# Events about the step being asked, and no other.
_AtStep = (
    Answered | HoldBegan | ReadingTaken | HoldEnded | HoldVoided
    | AirTemperature | GaugesTold | TimerBegan | Measured
)  # fmt: skip

TRANSITIONS: Mapping[Phase, Mapping[str, Phase]] = {
    "unstarted": {"began": "stepping"},
    "stepping": {
        "answered": "stepping",
        "noted": "stepping",
        "revisited": "stepping",
        "hold_began": "holding",
        "air_temperature": "stepping",
        "gauges_told": "stepping",
        "timer_began": "stepping",
        "measured": "stepping",
        "paused": "paused",
        "finished": "finished",
    },
    "holding": {
        "reading_taken": "holding",
        "noted": "holding",
        "hold_ended": "stepping",
        "hold_voided": "stepping",
    },
    "paused": {"resumed": "stepping"},
    "finished": {"noted": "finished"},
}
"""What may follow what. An empty cell is a refusal; `finished` leads nowhere."""


def refusal(walk: Walk, event: Event) -> str:
    """Why this event may not happen now; empty if it may."""
    if event.kind not in TRANSITIONS[walk.phase]:
        return f"A walk that is {walk.phase} takes no event '{event.kind}'."
    if event.seq != len(walk.events):
        return f"Event {event.seq} does not follow event {len(walk.events) - 1}."
    match event:
        case Noted():
            known = walk.plan and walk.plan.step(event.step)
            return "" if known else f"This walk has no step '{event.step}'."
        case Revisited():
            return _hold_left_open(walk) or _revisit(walk, event)
        case Finished():
            return _hold_left_open(walk)
        case _ if isinstance(event, _AtStep):
            step = walk.here
            if step is None or is_late(walk, event):
                return f"Step '{event.step}' is not the one being asked."
            return _at_step(walk, step, event)
        case _:
            return ""


def is_late(walk: Walk, event: Event) -> bool:
    """Whether the event is about a step that is not the one being asked."""
    if not isinstance(event, _AtStep):
        return False
    return walk.here is None or walk.here.id != event.step


def _at_step(walk: Walk, step: Step, event: Event) -> str:
    match event:
        case Answered():
            return _answer(step, event) or _measured_answer(walk, step, event)
        case HoldBegan():
            return "" if step.hold else f"Step '{step.id}' is no air hold."
        case ReadingTaken():
            return _reading(walk, event)
        case HoldEnded():
            return _hold_end(walk, event)
        case AirTemperature():
            hold = walk.holds.get(step.id)
            return "" if hold and hold.ended else "There is no air hold to correct."
        case GaugesTold():
            return "" if step.kind == "gauges" else f"Step '{step.id}' asks for no gauges."
        case TimerBegan():
            timed = step.measure is not None and step.measure.quantity == "s"
            return "" if timed else f"Step '{step.id}' has no stopwatch."
        case Measured():
            return _value(step, event) or _stopped(walk, step, event)
        case _:
            return ""


def _answer(step: Step, event: Answered) -> str:
    if step.must and event.answer != "ok":
        return f"Step '{step.id}' cannot be skipped."
    if (event.answer == "not_checked") != (event.reason is not None):
        return "A reason goes with 'not checked', and only with it."
    if event.answer not in FAULTS and set(event.seen.values()) - {"not_fitted"}:
        return "A fault seen makes the answer a defect."
    unknown = sorted(set(event.seen) - {item.id for item in step.items})
    if unknown:
        return f"Step '{step.id}' has nothing called '{unknown[0]}'."
    required = {item.id for item in step.items if item.required}
    absent = {id_ for id_, what in event.seen.items() if what == "not_fitted"}
    if absent & required:
        return "What the rules require is missing, not 'not fitted'."
    if event.answer == "not_fitted" and (required or step.kind in ("act", "hold")):
        return f"Step '{step.id}' is required, so it cannot be 'not fitted'."
    return ""


def _measured_answer(walk: Walk, step: Step, event: Answered) -> str:
    """What a gauge, a rule or a clock showed decides the answer, not the thumb."""
    if step.hold:
        return _hold_answer(walk, event)
    if step.measure:
        found = outcome(step.measure, walk.measured.get(step.id, {}))
        if found == "outside" and event.answer not in FAULTS:
            return "A value lies outside its limit: that is a defect."
        if event.answer == "ok" and found != "within":
            return "The step is OK only when every value is in and within its limit."
    if step.kind == "gauges" and event.answer == "ok" and walk.told_gauges is None:
        return "The gauges have not been told of yet."
    if step.wait and event.answer == "ok":
        left_s = waited(walk, step, event.at)
        return "" if left_s <= 0 else f"{left_s:.0f} s are still to go."
    return ""


def _value(step: Step, event: Measured) -> str:
    known = {value.id for value in step.measure.values} if step.measure else set()
    if event.value_id not in known:
        return f"Step '{step.id}' takes no value called '{event.value_id}'."
    assert step.measure is not None
    units = {"psi": ("psi", "kPa", "bar"), "in": ("in", "mm"), "s": ("s",)}
    if event.unit not in units[step.measure.quantity]:
        return f"Step '{step.id}' takes no value in {event.unit}."
    return ""


def _stopped(walk: Walk, step: Step, event: Measured) -> str:
    began = running_since(walk, step)
    return stopwatch_trouble(began, event.at) if began else ""


def _hold_end(walk: Walk, event: HoldEnded) -> str:
    hold = walk.holds[event.step]
    if trouble := hold.time_trouble(event.at):
        return trouble
    if not hold.minute_in(event.at_s):
        return "The last reading of the minute is not in yet."
    if event.how != "early" and hold.ending(event.at_s) != event.how:
        return "The hold has not come to that yet."
    return ""


def _hold_answer(walk: Walk, event: Answered) -> str:
    hold = walk.holds.get(event.step)
    ended = hold is not None and hold.ended != ""
    if hold and ended and hold.over() and event.answer not in FAULTS:
        return "The air hold lost more than its limit: that is a defect."
    if event.answer != "not_checked" and not ended:
        return "An air hold is answered after its last reading."
    if hold and hold.ended == "settling" and event.answer == "ok":
        return "The air was still settling: hold again."
    return ""


def _hold_left_open(walk: Walk) -> str:
    """Nobody walks away from an air hold that was over its limit without saying so."""
    step = walk.here
    hold = walk.holds.get(step.id) if step else None
    if step is None or hold is None or not hold.ended or not hold.over():
        return ""
    answered = walk.answers.get(step.id)
    told = answered is not None and answered.answer in FAULTS
    return "" if told else f"The air hold lost more than its limit: answer step '{step.id}' first."


def _revisit(walk: Walk, event: Revisited) -> str:
    if event.step not in walk.answers:
        return f"Step '{event.step}' has no answer yet to go back to."
    if event.purpose == "change":
        return ""
    if not any(defect.step == event.step for defect in walk.open_defects):
        return f"Step '{event.step}' has no open defect to recheck."
    if not recheck_stands(walk, event.step):
        return "The vehicle is no longer as that step needs it: recheck it in a walk of its own."
    return ""


def recheck_stands(walk: Walk, step_id: str) -> bool:
    """Whether the vehicle still is as this step needs it.

    An air step needs the pressures of its own part of the walk; a lamp step only that the
    vehicle is still chocked and connected.
    """
    step = next(step for step in walk.steps if step.id == step_id)
    later = PARTS[PARTS.index(step.part) + 1 :] if step.air else ("leave",)
    return not any(other.part in later and other.id in walk.answers for other in walk.steps)


def _reading(walk: Walk, event: ReadingTaken) -> str:
    hold = walk.holds[event.step]
    if event.gauge not in hold.rule.gauges:
        return f"This hold reads no gauge '{event.gauge}'."
    if trouble := hold.time_trouble(event.at):
        return trouble
    if any(r.gauge == event.gauge and r.at_s >= event.at_s for r in hold.readings):
        return f"The {event.gauge} gauge was already read at or after {event.at_s:g} s."
    return ""
