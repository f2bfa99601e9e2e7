"""One walk: events in, state out. Nothing here does I/O or knows the time.

`transitions.py` says what may happen; this says what it changes. A refused event raises
`NotNowError` and changes nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Literal, TypeVar, get_args

from walkaround.airhold.correction import with_correction
from walkaround.airhold.hold import Hold
from walkaround.base.errors import LateError, NotNowError
from walkaround.base.units import PressureUnit
from walkaround.leaks.trials import is_of_air
from walkaround.plan.steps import Plan
from walkaround.walk.chambers import with_chamber
from walkaround.walk.events import (
    AirTemperature,
    Answered,
    Began,
    ChamberTold,
    Event,
    GaugesTold,
    Heard,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    Measured,
    Noted,
    OdometerRead,
    Photographed,
    ReadingMended,
    ReadingTaken,
    Repaired,
    Revisited,
    Signed,
    TakenBack,
    TimerBegan,
    Tried,
)
from walkaround.walk.measured_values import in_base
from walkaround.walk.state import FAULTS, Defect, Walk
from walkaround.walk.transitions import TRANSITIONS, is_late, recheck_stands, refusal

_V = TypeVar("_V")


def advance(walk: Walk, event: Event) -> Walk:
    """Return the walk after one more event.

    Raises:
        LateError: it is about a step that is not the one being asked.
        NotNowError: the event is not allowed now.
    """
    why_not = refusal(walk, event)
    if why_not is not None:
        raise (LateError if is_late(walk, event) else NotNowError)(why_not)
    after = TRANSITIONS[walk.phase][event.kind]
    return replace(_changed(walk, event), phase=after, events=(*walk.events, event))


def fold(events: Iterable[Event]) -> Walk:
    """Return the walk that these events lead to.

    Raises:
        NotNowError: one of them was not allowed where it stands.
    """
    walk = Walk()
    for event in events:
        walk = advance(walk, event)
    return walk


def states(events: Iterable[Event]) -> list[Walk]:
    """List the walk after each of these events; the last one is that of `fold`.

    Raises:
        NotNowError: one of them was not allowed where it stands.
    """
    walk, after = Walk(), list[Walk]()
    for event in events:
        walk = advance(walk, event)
        after.append(walk)
    return after


def _changed(walk: Walk, event: Event) -> Walk:
    match event:
        case Began():
            return replace(walk, id=event.walk, plan=event.plan)
        case Answered():
            return _answered(walk, event)
        case Noted():
            return replace(walk, notes=_with(walk.notes, event.step, event.text))
        case Photographed():
            photos = (*walk.photos.get(event.step, ()), event.photo)
            return replace(walk, photos=_with(walk.photos, event.step, photos))
        case Revisited():
            return _revisited(walk, event)
        case HoldBegan():
            return _hold_began(walk, event)
        case ReadingTaken():
            hold = walk.holds[event.step].with_reading(event.gauge, event.at_s, event.psi)
            return _hold(walk, event.step, hold)
        case ReadingMended():
            hold = with_correction(walk.holds[event.step], event.gauge, event.at_s, event.psi)
            return _hold(walk, event.step, hold)
        case HoldEnded():
            hold = replace(
                walk.holds[event.step],
                ended=event.how,
                ended_s=event.at_s,
                judged_by=event.judged_by,
            )
            return _hold(walk, event.step, hold)
        case HoldVoided():
            return _hold(walk, event.step, replace(walk.holds[event.step], void=event.why))
        case AirTemperature():
            hold = replace(walk.holds[event.step], air_c=(event.start_c, event.end_c))
            return _hold(walk, event.step, hold)
        case GaugesTold():
            return replace(walk, told_gauges=event)
        case ChamberTold():
            return with_chamber(walk, event)
        case Tried():
            return replace(walk, tried=_with(walk.tried, event.trial, event.outcome))
        case TakenBack():
            return replace(walk, tried=_without(walk.tried, event.trial))
        case Heard():
            heard = _without(walk.heard, event.step)
            return replace(
                walk, heard=_with(heard, event.step, event.places) if event.places else heard
            )
        case Repaired():
            due = tuple(dict.fromkeys((*walk.due, *event.again)))
            return replace(walk, repairs=_with(walk.repairs, event.step, event), due=due)
        case OdometerRead():
            return replace(walk, odometer=event)
        case Signed():
            return replace(walk, signed=(*walk.signed, event))
        case TimerBegan():
            return replace(walk, timers=_with(walk.timers, event.step, event.at))
        case Measured():
            values = _with(walk.measured.get(event.step, {}), event.value_id, event)
            measured = _with(walk.measured, event.step, values)
            return replace(walk, measured=measured, plan=_halved(walk, event))
        case _:
            return walk


def _halved(walk: Walk, event: Measured) -> Plan | None:
    """Return the plan in which half of a pressure may bound what another step reads."""
    step = walk.plan.step(event.step) if walk.plan else None
    if walk.plan is None or step is None or event.unit not in get_args(PressureUnit):
        return walk.plan
    gauge = next((value.gauge for value in step.values if value.id == event.value_id), "")
    return walk.plan.halved(step.id, gauge, in_base(event))


def _subject(walk: Walk, step_id: str) -> Literal["lamps", "air", ""]:
    """Return what causes are sought for a defect of this step, if any are."""
    step = walk.plan.step(step_id) if walk.plan else None
    if step is None:
        return ""
    return "lamps" if step.kind == "lamp" else "air" if step.hold else ""


def _without_trials(walk: Walk, step_id: str) -> Walk:
    """Drop what was heard at this step, and the trials for causes of its kind."""
    of_air = {"lamps": False, "air": True}.get(_subject(walk, step_id))
    left = {id_: outcome for id_, outcome in walk.tried.items() if is_of_air(id_) != of_air}
    return replace(walk, tried=MappingProxyType(left), heard=_without(walk.heard, step_id))


def _revisited(walk: Walk, event: Revisited) -> Walk:
    if event.purpose == "change":
        return replace(walk, revisiting=event.step, purpose="change")
    return _without_old_values(walk, event.step)


def _without_old_values(walk: Walk, step_id: str) -> Walk:
    """Drop the old hold and values at a recheck, which measures anew; events keep them."""
    return replace(
        _without_trials(walk, step_id),
        revisiting=step_id,
        purpose="recheck",
        holds=_without(walk.holds, step_id),
        timers=_without(walk.timers, step_id),
        measured=_without(walk.measured, step_id),
    )


def _answered(walk: Walk, event: Answered) -> Walk:
    """Take an answer; what a repair can have changed is asked right after, while it can be."""
    looked = event.answer != "not_checked"
    after = replace(
        walk,
        answers=_with(walk.answers, event.step, event),
        defects=_defects_after(walk, event),
        due=tuple(id_ for id_ in walk.due if id_ != event.step) if looked else walk.due,
        revisiting="",
        purpose="change",
    )
    if walk.is_open(event.step) and after.defects[event.step].state == "withdrawn":
        after = _without_moot_trials(after, event.step)
    if walk.purpose != "recheck" or not looked or event.answer in FAULTS:
        return after
    following = next((id_ for id_ in after.due if recheck_stands(after, id_)), "")
    return _without_old_values(after, following) if following else after


def _without_moot_trials(walk: Walk, step_id: str) -> Walk:
    """Drop trials for a defect that was none, unless another of its kind is open."""
    subject = _subject(walk, step_id)
    others_open = any(_subject(walk, defect.step) == subject for defect in walk.open_defects)
    return walk if others_open else _without_trials(walk, step_id)


def _defects_after(walk: Walk, event: Answered) -> Mapping[str, Defect]:
    """Open a defect by a fault. Only OK in a recheck clears one; a changed answer withdraws it.

    What a gauge showed is no mistaken tap: giving the measurement up leaves its defect open.
    """
    if event.answer in FAULTS:
        return _with(walk.defects, event.step, Defect(event.step, event, "open"))
    defect = walk.defects.get(event.step)
    if defect is None or defect.state != "open":
        return walk.defects
    step = walk.here
    found_by_gauge = step is not None and (step.hold is not None or step.measure is not None)
    gives_up = event.answer != "ok" and found_by_gauge
    if walk.purpose == "change" and not gives_up:
        return _with(walk.defects, event.step, replace(defect, state="withdrawn", closed=event))
    if event.answer == "ok":
        return _with(walk.defects, event.step, replace(defect, state="rechecked", closed=event))
    return walk.defects


def _hold_began(walk: Walk, event: HoldBegan) -> Walk:
    step = walk.here
    assert step is not None
    assert step.hold is not None
    gauges = {line: walk.gauge(line) for line in step.hold.gauges}
    return _hold(walk, event.step, Hold(rule=step.hold, began=event.at, gauges=gauges))


def _hold(walk: Walk, step: str, hold: Hold) -> Walk:
    return replace(walk, holds=_with(walk.holds, step, hold))


def _with(values: Mapping[str, _V], key: str, value: _V) -> Mapping[str, _V]:
    return MappingProxyType({**values, key: value})


def _without(values: Mapping[str, _V], key: str) -> Mapping[str, _V]:
    return MappingProxyType({each: value for each, value in values.items() if each != key})
