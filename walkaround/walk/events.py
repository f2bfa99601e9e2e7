"""What happened in a walk: immutable events, each sealed by a digest (see `seals.py`).

The present state is folded from these (see `advance.py`); undo, correction and audit come free.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Ending
from walkaround.base.clock import Moment
from walkaround.base.message import Message
from walkaround.base.signing import SignedFor, Strokes
from walkaround.base.units import LengthUnit, PressureUnit
from walkaround.plan.steps import Plan
from walkaround.rules.limits import Line

Answer = Literal["ok", "defect", "missing", "not_fitted", "not_checked"]
Reason = Literal["no_power", "no_air", "cannot_reach", "in_the_way", "no_tool", "no_time", "other"]
Purpose = Literal["change", "recheck"]
By = Literal["tap", "key", "voice"]
"""How an answer was given; `key` is one of anything that acts as a keyboard, such as a pedal."""
Seen = Literal[
    "dark", "dim", "flickers", "steady", "flashing", "stays_on", "wrong_lamp", "wrong_colour",
    "built_so", "broken", "loose", "missing", "not_fitted", "no_movement", "leak", "worn",
    "differs", "dead", "other", "too_bright", "cracked", "dirty", "glows", "some_out", "pulses",
    "flashes_fast", "flashes_slow",
]  # fmt: skip
NO_FAULT: frozenset[Seen] = frozenset({"not_fitted", "built_so"})
"""What may be said of an item that is no fault: it lights with another wire, as it was built."""


class Happened(BaseModel):
    """What every event has."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    seq: int = Field(ge=0)
    id: str = Field(pattern=r"^[0-9a-f]{32}$")
    at: Moment
    who: str = Field(max_length=80)
    digest: str = Field(pattern=r"^[0-9a-f]{64}$")


class _StepEvent(Happened):
    step: str = Field(pattern=r"^[a-z0-9_]+$")


class Began(Happened):
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

    `choice` says in which way it was done, where the step has choices. Older records do not say
    with what it was answered: by a tap.
    """

    kind: Literal["answered"] = "answered"
    answer: Answer
    reason: Reason | None = None
    seen: Mapping[str, Seen] = Field(default_factory=dict)
    choice: str = Field(default="", pattern=r"^[a-z0-9_]*$", max_length=60)
    by: By = "tap"


MOST_NOTE_CHARS = 500


class Noted(_StepEvent):
    """A short note on a step; the last one stands."""

    kind: Literal["noted"] = "noted"
    text: str = Field(max_length=MOST_NOTE_CHARS)


MOST_PHOTOS = 12
"""How many photos one walk may have."""
MOST_ODOMETER = 9_999_999


class Photographed(_StepEvent):
    """A photo taken at a step; `photo` is the SHA-256 digest of its file, beside the walk's."""

    kind: Literal["photographed"] = "photographed"
    photo: str = Field(pattern=r"^[0-9a-f]{64}$")


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


class ReadingMended(_StepEvent):
    """A reading of the running hold was entered wrong: what its gauge showed at that time.

    Without `psi` the needle had not crossed a mark that was tapped.
    """

    kind: Literal["reading_mended"] = "reading_mended"
    gauge: str = Field(pattern=r"^[a-z0-9_]+$")
    at_s: float = Field(ge=0, le=3600, allow_inf_nan=False)
    psi: float | None = Field(ge=0, le=300, allow_inf_nan=False)
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


class Tried(Happened):
    """What came out of a trial; ids as `walkaround.causes` has them, and `walkaround.leaks`."""

    kind: Literal["tried"] = "tried"
    trial: str = Field(pattern=r"^[a-z0-9_]+(:[a-z0-9_@+]*)*$", max_length=150)
    outcome: str = Field(pattern=r"^[a-z_]+$", max_length=40)


class TakenBack(Happened):
    """It did not come out so: the thing counts as not done."""

    kind: Literal["taken_back"] = "taken_back"
    trial: str = Field(pattern=r"^[a-z0-9_]+(:[a-z0-9_@+]*)*$", max_length=150)


class Heard(_StepEvent):
    """Where air was heard with the brakes as in the air hold of this step; the last one stands.

    Attributes:
        places: ids, as `walkaround.leaks` has them, or "nothing"; without any nobody listened.
    """

    kind: Literal["heard"] = "heard"
    places: tuple[Annotated[str, Field(pattern=r"^[a-z0-9_]+$")], ...] = Field(max_length=20)


class Repaired(_StepEvent):
    """The defect of this step was repaired.

    Attributes:
        done: what was done, as `walkaround.repairs` has it.
        what: the same for the record.
        again: the answered steps that this can have changed, to be looked at again in that order.
    """

    kind: Literal["repaired"] = "repaired"
    done: str = Field(pattern=r"^[a-z0-9_]+(:[a-z0-9_@+]*)*$", max_length=150)
    what: Message
    again: tuple[str, ...] = Field(min_length=1, max_length=200)


class TimerBegan(_StepEvent):
    """The stopwatch of this step runs from now."""

    kind: Literal["timer_began"] = "timer_began"


class Measured(_StepEvent):
    """A value of this step, in the unit in which it was read; the last one stands.

    Older records do not say with what it was entered: by taps.
    """

    kind: Literal["measured"] = "measured"
    value_id: str = Field(pattern=r"^[a-z0-9_]+$")
    value: float = Field(ge=0, le=5000, allow_inf_nan=False)
    unit: PressureUnit | LengthUnit | Literal["s"]
    by: By = "tap"


class HoldVoided(_StepEvent):
    """The hold does not count; `why` is a message, in older records a sentence as it was told."""

    kind: Literal["hold_voided"] = "hold_voided"
    why: Annotated[str, Field(min_length=1, max_length=300)] | Message


class Signed(Happened):
    """Somebody answers for something by name, and with a signature if there are `strokes`."""

    kind: Literal["signed"] = "signed"
    what: SignedFor
    name: str = Field(min_length=1, max_length=80)
    strokes: Strokes = ()


class OdometerRead(Happened):
    """What the vehicle's odometer, or a trailer's hub odometer, showed; the last one stands."""

    kind: Literal["odometer_read"] = "odometer_read"
    value: int = Field(ge=0, le=MOST_ODOMETER)
    unit: Literal["mi", "km"]


class Paused(Happened):
    """Left for later."""

    kind: Literal["paused"] = "paused"


class Resumed(Happened):
    """Taken up again."""

    kind: Literal["resumed"] = "resumed"


class Finished(Happened):
    """The record is closed; steps still open were not checked."""

    kind: Literal["finished"] = "finished"


Event = (
    Began | Answered | Noted | Photographed | Revisited | HoldBegan | ReadingTaken | ReadingMended
    | HoldEnded | HoldVoided | AirTemperature | GaugesTold | ChamberTold | Tried | TakenBack | Heard
    | Repaired | Signed | OdometerRead | TimerBegan | Measured | Paused | Resumed | Finished
)  # fmt: skip
