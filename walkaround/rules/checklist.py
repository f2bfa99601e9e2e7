"""What a checklist file may say: which lamps a vehicle must have, which steps are walked, and why.

A checklist is data with its source beside each rule. The models say what shape a file has; what
their shape cannot show is checked in checks.py.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Annotated, Literal, TypeVar, get_args

from pydantic import Field

from walkaround.base.provenance import Sourced
from walkaround.base.toml_model import Flag, Id, Written
from walkaround.rules.conditions import When
from walkaround.rules.lamp_rule import LampRule, Variant
from walkaround.rules.limits import LimitRow, MeasureRule, WaitRule, WrittenHold
from walkaround.vehicle.model import BrakeSystem, Kind, Rules, Vehicle

# The parts of a walk, in the order walked.
Part = Literal[
    "secure",
    "connect",
    "charge",
    "lamps",
    "supply_hold",
    "marking",
    "applied_hold",
    "axles",
    "release",
    "strokes",
    "clear",
    "reserve",
    "warning",
    "rebuild",
    "finish",
    "seen",
    "leave",
]
PARTS: tuple[Part, ...] = get_args(Part)
# act: do it, then say done; look: eyes; listen: ears, in quiet; hold: air hold; measure: values;
# gauges: what the gauges are like; chambers: which chambers an axle has; wait: time has gone by;
# lamp: made from the lamps of the vehicle, never written in a file.
StepKind = Literal["act", "look", "listen", "hold", "measure", "gauges", "chambers", "wait", "lamp"]
# What of a step may be told by voice and takes a yes: its values, or that its hold begins.
Spoken = Literal["", "value", "count"]
# How a step is told: to those who know the walk by heart, to the experienced, to the new hire.
Wording = Literal["brisk", "short", "long"]
# Where to stand at the vehicle, clockwise seen from above, from the front.
Spot = Literal["front", "right_side", "rear", "left_side"]
SPOTS: tuple[Spot, ...] = get_args(Spot)
# Where a step may be done: at a spot, in a cab, or at the air or power source.
Station = Literal["front", "right_side", "rear", "left_side", "cab", "source"]
# What a step needs: of the vehicle ("parked_by_lever": a power unit without spring brakes,
# "held_by_chocks": nothing of its own holds it, "rear_lines": air lines lead on to a unit behind),
# of its wiring ("meter_first": a doubtful pin), or connected ("air", "lamps": the circuits fed).
Need = Literal[
    "air",
    "lamps",
    "spring_brakes",
    "no_spring_brakes",
    "parked_by_lever",
    "held_by_chocks",
    "spring_axle",
    "air_at_wheels",
    "air_over_hydraulic",
    "rear_lines",
    "abs",
    "reservoir",
    "lift_axle",
    "automatic_slack",
    "manual_slack",
    "pushrod",
    "wedge",
    "coupled",
    "on_shop_air",
    "tows",
    "automatic_required",
    "several_axles",
    "trailer",
    "power_unit",
    "12v",
    "24v",
    "meter_first",
]

# What any step's texts may have filled in: of the vehicle and of its wiring.
FILLED = frozenset(
    {"volts", "connector", "doubtful_pins", "towed", "held_by", "supply_psi", "service_psi"}
)
# What a step that stands once for each axle, and for each wheel end, may have filled in too.
AXLE_FILLED = frozenset({"axle", "chamber", "stroke_limit", "lining_limit", "lining_texts"})
END_FILLED = AXLE_FILLED | {"side"}


_Row = TypeVar("_Row", bound=When)


class Applies(Written):
    """The vehicles that a checklist is for; what is left empty does not narrow it."""

    kinds: tuple[Kind, ...] = ()
    volts: Literal[12, 24] | None = None
    brakes: tuple[BrakeSystem, ...] = ()
    blackout: Flag | None = None
    rules: Rules | None = None

    def matches(self, vehicle: Vehicle) -> bool:
        """Tell whether the checklist is for this vehicle."""
        return (
            (not self.kinds or vehicle.kind in self.kinds)
            and self.volts in (None, vehicle.electrical.volts)
            and (not self.brakes or vehicle.brakes.system in self.brakes)
            and self.blackout in (None, vehicle.electrical.blackout)
            and self.rules in (None, vehicle.rules)
        )


class RowRule(Written):
    """One thing to see in a step that looks at several, such as the hose at a wheel end.

    In a step for each axle or wheel end it stands once for each end; a defect names it.
    """

    id: Id
    name: str
    needs: tuple[Need, ...] = ()


class ChoiceRule(Written):
    """One of two ways in which an act was done, where the record must say which."""

    id: Id
    text: str


class StepRule(Sourced):
    """One step: `short` is said to the experienced, `long` to the new hire, `caution` to all.

    `brisk` is said to those who know the walk by heart; without it they hear the title.

    With `per_axle` the step stands once for each axle, `{axle}` in its id and texts being the
    axle's number; with `per_end` once for each wheel end, `{side}` being left or right: where it
    stands again, `caution_again`, `brisk_again`, `short_again` and `long_again` take the place of
    what was said before.
    With `all_ends` it stands once and is about every wheel end. `quiet` mutes speech after the
    step's own prompt, `soft` lowers it: somebody is in at the brakes; at one that `vents` air blows
    out so loud that nothing said after the prompt is understood. `once` uses up what it needs,
    such as the air of a breakaway, so that it is repeated only in a walk of its own. A `must` step
    cannot be skipped nor answered not checked; one that looks may find a defect. `hands_free` is a
    plain look that may also be answered without a tap, by a key or by voice. `spoken` says what
    else may be told by voice, and takes a yes: the values of a measure, or that a hold begins.
    """

    id: Annotated[str, Field(pattern=r"^([a-z0-9_]|\{axle\}|\{side\})+$")]
    part: Part
    kind: StepKind
    title: str
    short: str
    long: str
    brisk: str = ""
    caution: str = ""
    spot: Station
    caution_again: str = ""
    brisk_again: str = ""
    short_again: str = ""
    long_again: str = ""
    per_axle: Flag = False
    per_end: Flag = False
    all_ends: Flag = False
    hold: WrittenHold | None = None
    measure: MeasureRule | None = None
    wait: WaitRule | None = None
    limits: tuple[LimitRow, ...] = Field(default=(), validation_alias="limit")
    rows: tuple[RowRule, ...] = Field(default=(), validation_alias="row")
    choices: tuple[ChoiceRule, ...] = Field(default=(), validation_alias="choice")
    quiet: Flag = False
    soft: Flag = False
    vents: Flag = False
    once: Flag = False
    must: Flag = False
    hands_free: Flag = False
    spoken: Spoken = ""
    needs: tuple[Need, ...] = ()


class Checklist(Sourced):
    """A checklist file: [[lamp]] tables are lamp rules, [[step]] tables are steps.

    [[variant]] tables are variants of every lamp rule of the file. `chosen` names, by the id of
    a step, which of its published limits counts. A row that was read and bears no day of its own
    has the file's `current`.
    """

    id: Id
    title: str
    applies: Applies = Applies()
    lamps: tuple[LampRule, ...] = Field(default=(), validation_alias="lamp")
    variants: tuple[Variant, ...] = Field(default=(), validation_alias="variant")
    steps: tuple[StepRule, ...] = Field(default=(), validation_alias="step")
    chosen: Mapping[Id, Id] = Field(default_factory=dict)

    def on(self, day: date) -> Checklist:
        """Give the checklist with the rows, variants and limits that are in force on a day."""
        lamps = [
            rule.model_copy(update={"variants": _in_force(rule.variants, day)})
            for rule in _in_force(self.lamps, day)
        ]
        steps = [
            step.model_copy(update={"limits": _in_force(step.limits, day)}) for step in self.steps
        ]
        variants = _in_force(self.variants, day)
        update = {"lamps": tuple(lamps), "variants": variants, "steps": tuple(steps)}
        return self.model_copy(update=update)


def _in_force(rows: Iterable[_Row], day: date) -> tuple[_Row, ...]:
    return tuple(row for row in rows if row.in_force(day))
