"""One walk: events in, state out. Nothing here does I/O or knows the time.

`allowed.py` says what may happen; this says what it changes. A refused event raises
`NotNowError` and changes nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import TypeVar

from walkaround.allowed import TRANSITIONS, is_late, refusal
from walkaround.errors import LateError, NotNowError
from walkaround.events import (
    Answered,
    Began,
    Event,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    Noted,
    ReadingTaken,
    Revisited,
)
from walkaround.holds import Hold
from walkaround.state import FAULTS, Defect, Walk

_V = TypeVar("_V")


def advance(walk: Walk, event: Event) -> Walk:
    """The walk after one more event.

    Raises:
        LateError: it is about a step that is not the one being asked.
        NotNowError: the event is not allowed now.
    """
    why_not = refusal(walk, event)
    if why_not:
        raise (LateError if is_late(walk, event) else NotNowError)(why_not)
    after = TRANSITIONS[walk.phase][event.kind]
    return replace(_changed(walk, event), phase=after, events=(*walk.events, event))


def fold(events: Iterable[Event]) -> Walk:
    """The walk that these events lead to.

    Raises:
        NotNowError: one of them was not allowed where it stands.
    """
    walk = Walk()
    for event in events:
        walk = advance(walk, event)
    return walk


def _changed(walk: Walk, event: Event) -> Walk:
    match event:
        case Began():
            return replace(walk, id=event.walk, plan=event.plan)
        case Answered():
            return _answered(walk, event)
        case Noted():
            return replace(walk, notes=_with(walk.notes, event.step, event.text))
        case Revisited():
            return _revisited(walk, event)
        case HoldBegan():
            return _hold_began(walk, event)
        case ReadingTaken():
            hold = walk.holds[event.step].with_reading(event.gauge, event.at_s, event.psi)
            return _hold(walk, event.step, hold)
        case HoldEnded():
            return _hold(walk, event.step, replace(walk.holds[event.step], ended=True))
        case HoldVoided():
            return _hold(walk, event.step, replace(walk.holds[event.step], void=event.why))
        case _:
            return walk


def _revisited(walk: Walk, event: Revisited) -> Walk:
    """A recheck of an air hold starts from nothing: the old hold stays in the events only."""
    holds = walk.holds
    if event.purpose == "recheck":
        holds = MappingProxyType({key: hold for key, hold in holds.items() if key != event.step})
    return replace(walk, revisiting=event.step, purpose=event.purpose, holds=holds)


def _answered(walk: Walk, event: Answered) -> Walk:
    return replace(
        walk,
        answers=_with(walk.answers, event.step, event),
        defects=_defects_after(walk, event),
        revisiting="",
        purpose="change",
    )


def _defects_after(walk: Walk, event: Answered) -> Mapping[str, Defect]:
    """A fault opens a defect. Only OK in a recheck clears one; a changed answer withdraws it.

    What an air hold measured is no mistaken tap: giving the hold up leaves its defect open.
    """
    if event.answer in FAULTS:
        return _with(walk.defects, event.step, Defect(event.step, event, "open"))
    defect = walk.defects.get(event.step)
    if defect is None or defect.state != "open":
        return walk.defects
    gives_up_hold = event.answer != "ok" and walk.here is not None and walk.here.hold is not None
    if walk.purpose == "change" and not gives_up_hold:
        return _with(walk.defects, event.step, replace(defect, state="withdrawn"))
    if event.answer == "ok":
        return _with(walk.defects, event.step, replace(defect, state="rechecked"))
    return walk.defects


def _hold_began(walk: Walk, event: HoldBegan) -> Walk:
    step = walk.here
    assert step is not None
    assert step.hold is not None
    return _hold(walk, event.step, Hold(rule=step.hold, began=event.at))


def _hold(walk: Walk, step: str, hold: Hold) -> Walk:
    return replace(walk, holds=_with(walk.holds, step, hold))


def _with(known: Mapping[str, _V], key: str, value: _V) -> Mapping[str, _V]:
    return MappingProxyType({**known, key: value})
