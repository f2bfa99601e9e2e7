"""What happened in a walk: immutable events, each sealed by a digest chained to the one before.

The present state is folded from these (see `advance.py`); undo, correction and audit come free.

The seal of an event is the SHA-256 digest (FIPS 180-4) of the seal before it and of the event's own
fields as JSON with sorted keys. So a byte that changed, an event left out, put in or moved, by a
disk or by hand, is found: its seal, or that of the next one, does not fit any more. What follows
cannot be told from an invention, so the first event that does not fit ends what is known to be
good.

What the seals cannot show: events missing at the end, since nothing comes after them; and who wrote
them. There is no key in them: whoever rewrites every event from the first change on can seal them
anew. Only a copy that somebody else has kept shows that.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from typing import Annotated, Any, Literal, TypeVar, cast

from pydantic import BaseModel, ConfigDict, Field, TypeAdapter

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Ending
from walkaround.airhold.verdict import JUDGED_BY
from walkaround.base.clock import Moment
from walkaround.base.message import Message
from walkaround.base.plaintext import one_line, some_lines
from walkaround.base.units import LengthUnit, PressureUnit
from walkaround.plan.steps import Plan
from walkaround.rules.limits import Line

Answer = Literal["ok", "defect", "missing", "not_fitted", "not_checked"]
Reason = Literal["no_power", "no_air", "cannot_reach", "in_the_way", "no_tool", "no_time", "other"]
Purpose = Literal["change", "recheck"]
Seen = Literal[
    "dark", "dim", "flickers", "steady", "flashing", "stays_on", "wrong_lamp", "wrong_colour",
    "broken", "loose", "missing", "not_fitted", "no_movement", "leak", "worn", "differs", "dead",
    "other",
]  # fmt: skip

GENESIS = "0" * 64
"""What the first event of every walk is chained to."""


class _Event(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")

    seq: int = Field(ge=0)
    id: str = Field(pattern=r"^[0-9a-f]{32}$")
    at: Moment
    who: str = Field(max_length=80)
    digest: str = Field(pattern=r"^[0-9a-f]{64}$")


class _StepEvent(_Event):
    step: str = Field(pattern=r"^[a-z0-9_]+$")


class Began(_Event):
    """The walk starts: what vehicle, what is asked of it, in which order.

    `number` is its place in the order in which the walks of this data folder began, from 1, so
    that a clock set back cannot reorder them; 0 where that is not known.
    """

    kind: Literal["began"] = "began"
    walk: str = Field(pattern=r"^[0-9a-z_]+$")
    number: int = Field(default=0, ge=0)
    plan: Plan


class Answered(_StepEvent):
    """One step answered; `seen` says what was seen of each faulty housing or wheel end.

    `choice` says in which way it was done, where the step has choices.
    """

    kind: Literal["answered"] = "answered"
    answer: Answer
    reason: Reason | None = None
    seen: Mapping[str, Seen] = Field(default_factory=dict)
    choice: str = Field(default="", pattern=r"^[a-z0-9_]*$", max_length=60)


MOST_NOTE_CHARS = 500


class Noted(_StepEvent):
    """A short note on a step; the last one stands."""

    kind: Literal["noted"] = "noted"
    text: str = Field(max_length=MOST_NOTE_CHARS)


class Revisited(_StepEvent):
    """Back to a step: to change a mistaken tap, or to recheck after a repair."""

    kind: Literal["revisited"] = "revisited"
    purpose: Purpose


class HoldBegan(_StepEvent):
    """The air hold of this step starts now."""

    kind: Literal["hold_began"] = "hold_began"


class ReadingTaken(_StepEvent):
    """A gauge was read: `at_s` is when it was looked at, seconds into the hold.

    `psi` is what the needle showed, `shown` the same in the gauge's own `unit`; without `shown`
    the gauge was in psi.
    """

    kind: Literal["reading_taken"] = "reading_taken"
    gauge: str = Field(pattern=r"^[a-z0-9_]+$")
    at_s: float = Field(ge=0, le=3600, allow_inf_nan=False)
    psi: float = Field(ge=0, le=300, allow_inf_nan=False)
    shown: float | None = Field(default=None, ge=0, le=3000, allow_inf_nan=False)
    unit: PressureUnit = "psi"


class HoldEnded(_StepEvent):
    """The hold is over, `at_s` seconds into it.

    Holds recorded before they could go on past the minute went by the plain rule. `judged_by` is
    the version of the judgement that ended it, which older records do not name.
    """

    kind: Literal["hold_ended"] = "hold_ended"
    how: Ending = "early"
    at_s: float = Field(default=60.0, ge=0, le=3600, allow_inf_nan=False)
    judged_by: int = Field(default=1, ge=1)


class AirTemperature(_StepEvent):
    """The air's temperature at the start and the end of this step's hold, degrees Celsius."""

    kind: Literal["air_temperature"] = "air_temperature"
    start_c: float = Field(ge=-60, le=80, allow_inf_nan=False)
    end_c: float = Field(ge=-60, le=80, allow_inf_nan=False)


class GaugesTold(_StepEvent):
    """What the gauges of this walk are like, and how high above the sea their zero was seen."""

    kind: Literal["gauges_told"] = "gauges_told"
    gauges: Mapping[Line, Gauge] = Field(min_length=1)
    altitude_m: float = Field(ge=-500, le=6000, allow_inf_nan=False)
    at_zero: bool


class ChamberTold(_StepEvent):
    """The chamber at one wheel end, read off it; without this event it is as the file says.

    Attributes:
        end: the wheel end, such as "axle_1_left".
        actuator, type: as in vehicle files; an empty type is one that could not be read.
        long_stroke: None where it could not be told.
    """

    kind: Literal["chamber_told"] = "chamber_told"
    end: str = Field(pattern=r"^axle_[0-9]{1,2}_(left|right)$")
    actuator: Literal["clamp", "bolt", "roto", "dd3", "other"]
    type: str = Field(default="", pattern=r"^[A-Za-z0-9]*$", max_length=10)
    long_stroke: bool | None = None
    rated_stroke_in: float | None = Field(default=None, ge=1, le=5, allow_inf_nan=False)


class Tried(_Event):
    """What came out of a thing that was done to tell the likely causes of lamps apart.

    Attributes:
        trial, outcome: ids, as `walkaround.causes` has them.
    """

    kind: Literal["tried"] = "tried"
    trial: str = Field(pattern=r"^[a-z0-9_]+(:[a-z0-9_@+]*)*$", max_length=150)
    outcome: str = Field(pattern=r"^[a-z_]+$", max_length=40)


class TimerBegan(_StepEvent):
    """The stopwatch of this step runs from now."""

    kind: Literal["timer_began"] = "timer_began"


class Measured(_StepEvent):
    """A value of this step, in the unit in which it was read; the last one stands."""

    kind: Literal["measured"] = "measured"
    value_id: str = Field(pattern=r"^[a-z0-9_]+$")
    value: float = Field(ge=0, le=5000, allow_inf_nan=False)
    unit: PressureUnit | LengthUnit | Literal["s"]


class HoldVoided(_StepEvent):
    """The hold does not count; `why` is a sentence for the mechanic and the record.

    Older records hold a sentence as it was told; since then it is a message.
    """

    kind: Literal["hold_voided"] = "hold_voided"
    why: Annotated[str, Field(min_length=1, max_length=300)] | Message


class Paused(_Event):
    """Left for later."""

    kind: Literal["paused"] = "paused"


class Resumed(_Event):
    """Taken up again."""

    kind: Literal["resumed"] = "resumed"


class Finished(_Event):
    """The record is closed; steps still open were not checked."""

    kind: Literal["finished"] = "finished"


Event = (
    Began | Answered | Noted | Revisited | HoldBegan | ReadingTaken | HoldEnded | HoldVoided
    | AirTemperature | GaugesTold | ChamberTold | Tried | TimerBegan | Measured
    | Paused | Resumed | Finished
)  # fmt: skip

_EVENT: TypeAdapter[Event] = TypeAdapter(Annotated[Event, Field(discriminator="kind")])
_E = TypeVar("_E", bound=_Event)


def seal(kind: type[_E], after: Event | None, *, id: str, at: Moment, who: str, **body: Any) -> _E:
    """The event that follows `after`, with its number and digest.

    Args:
        kind: the event's class.
        after: the event before it, None for the first.
        id: 32 hex digits, new for each event.
        at: when it happened.
        who: who did it.
        body: the other fields of `kind`.

    What people typed is sealed without the characters in it that are not seen.
    """
    if kind is Noted and isinstance(body.get("text"), str):
        body["text"] = some_lines(body["text"])
    if kind is HoldEnded:
        body.setdefault("judged_by", JUDGED_BY)
    seq = after.seq + 1 if after else 0
    row = kind(seq=seq, id=id, at=at, who=one_line(who), digest=GENESIS, **body).model_dump(
        mode="json"
    )
    row["digest"] = _digest(row, after)
    # Made anew from the row, so that every field of it is set, and `plain` gives them all.
    return kind.model_validate(row)


def plain(event: Event) -> dict[str, Any]:
    """The event as JSON values: exactly what was sealed.

    Of an event that an earlier version sealed these are the fields which that version knew, so
    that the digest fits what is handed on as it fits what is stored.
    """
    return event.model_dump(mode="json", exclude_unset=True)


def good_events(rows: Iterable[object], after: Event | None = None) -> tuple[Event, ...]:
    """The longest run of stored events that parse, follow and fit their digest.

    Args:
        rows: events as stored.
        after: the event that the first of them follows; None if it begins the walk.
    """
    good: list[Event] = []
    before = after
    for row in rows:
        event = _parsed(row)
        if event is None or event.seq != (before.seq + 1 if before else 0):
            break
        if event.digest != _digest(cast(Mapping[str, Any], row), before):
            break
        good.append(event)
        before = event
    return tuple(good)


def _parsed(row: object) -> Event | None:
    try:
        return _EVENT.validate_python(row)
    except ValueError:
        return None


def _digest(row: Mapping[str, Any], before: _Event | None) -> str:
    """Sealed is what was stored, not what today's models make of it.

    A field that a later version adds with a default must not break the seal of older records.
    """
    body = {key: value for key, value in row.items() if key != "digest"}
    text = json.dumps(body, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    link = before.digest if before else GENESIS
    return hashlib.sha256(f"{link}\n{text}".encode()).hexdigest()
