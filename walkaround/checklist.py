"""What a checklist file may say: which lamps a vehicle must have, which steps are walked, and why.

A checklist is data with its source beside each rule. The models say what shape a file has; what
their shape cannot show is checked in checking.py.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Literal, get_args

from pydantic import Field

from walkaround.vehicle import BrakeSystem, Kind, Vehicle, VehicleClass
from walkaround.written import Day, Flag, Id, Number, Positive, Written

LampKind = Literal[
    "headlamp",
    "parking",
    "turn",
    "tail",
    "stop",
    "clearance",
    "identification",
    "side_marker",
    "licence_plate",
    "backup",
    "abs",
    "blackout_marker",
    "blackout_stop",
    "blackout_drive",
    "other",
    "reflector",
    "tape",
]
Provenance = Literal["read", "memory", "common practice, no source"]
# The parts of a walk, in the order walked.
Part = Literal[
    "secure",
    "connect",
    "charge",
    "lamps",
    "supply_hold",
    "applied_hold",
    "axles",
    "release",
    "finish",
    "leave",
]
PARTS: tuple[Part, ...] = get_args(Part)
# act: do it, then say done; look: eyes; listen: ears, in quiet; hold: air hold; lamp: made from
# the lamps of the vehicle, never written in a file.
StepKind = Literal["act", "look", "listen", "hold", "lamp"]
STEP_KINDS: tuple[StepKind, ...] = get_args(StepKind)
# Where to stand at the vehicle, clockwise seen from above, from the front.
Spot = Literal["front", "right_side", "rear", "left_side"]
SPOTS: tuple[Spot, ...] = get_args(Spot)
# Where a step may be done: at a spot, in a cab, or at the air or power source.
Station = Literal["front", "right_side", "rear", "left_side", "cab", "source"]
Line = Literal["supply", "service"]
# What a step needs: of the vehicle ("parked_by_itself": something else than air may hold it), of
# its wiring ("meter_first": a doubtful pin), or connected ("air", "lamps": the circuits fed).
Need = Literal[
    "air",
    "lamps",
    "spring_brakes",
    "no_spring_brakes",
    "parked_by_itself",
    "abs",
    "reservoir",
    "12v",
    "24v",
    "meter_first",
]

# What any step's texts may have filled in: of the vehicle and of its wiring.
FILLED = frozenset({"{volts}", "{connector}", "{doubtful_pins}"})
# How many lamps each spread places.
SPREADS = {"pair": 2, "three": 3, "left": 1, "right": 1, "centre": 1}


class Applies(Written):
    """Which vehicles a checklist is for; what is left empty does not narrow it."""

    kinds: tuple[Kind, ...] = ()
    volts: Literal[12, 24] | None = None
    brakes: tuple[BrakeSystem, ...] = ()
    blackout: Flag | None = None

    def matches(self, vehicle: Vehicle) -> bool:
        """Whether the checklist is for this vehicle."""
        return (
            (not self.kinds or vehicle.kind in self.kinds)
            and self.volts in (None, vehicle.electrical.volts)
            and (not self.brakes or vehicle.brakes.system in self.brakes)
            and self.blackout in (None, vehicle.electrical.blackout)
        )


class LampRule(Written):
    """One row of a lamp table: which vehicles must have these lamps, where, and why.

    `along` runs from 0 (front) to 1 (rear) for lamps on the sides, `across` is the share of the
    half width for pairs at an end. `over_length_mm` and `over_gvwr_kg` ask for more than that; a
    vehicle whose mass nobody gave counts as over, so that nothing is left out.
    """

    id: Id
    kind: LampKind
    name: str
    plural: str
    colour: tuple[str, ...]
    quantity: int = Field(ge=1, strict=True)
    classes: tuple[VehicleClass, ...] = ()
    end: Literal["front", "rear", "side"]
    along: Annotated[Number, Field(ge=0, le=1)] = 0.5
    across: Annotated[Number, Field(ge=0, le=1)] = 1.0
    spread: Literal["pair", "left", "right", "centre", "three"]
    over_length_mm: Positive | None = None
    over_gvwr_kg: Positive | None = None
    made_from: Day | None = None
    needs: Literal["", "abs", "blackout"] = ""
    required: Flag = True
    what: str
    why: str
    height: str
    source: str
    provenance: Provenance

    @property
    def reflector(self) -> bool:
        """Whether it shines by what falls on it: looked at, never switched."""
        return self.kind in ("reflector", "tape")


class HoldRule(Written):
    """An air hold: what each gauge is set to (psi), then the source shut, watched for `seconds`.

    Every gauge in `set_psi` is read, in that order, and none may lose more than the limit.
    """

    set_psi: Mapping[Line, Positive] = Field(min_length=1)
    limit_psi_per_min: Positive
    seconds: Positive = 60.0
    limit_source: str
    limit_provenance: Provenance

    @property
    def gauges(self) -> tuple[Line, ...]:
        """The gauges to read, in the order they are read."""
        return tuple(self.set_psi)


class StepRule(Written):
    """One step: `short` is said to the experienced, `long` to the new hire, `caution` to both.

    With `per_axle` the step stands once for each axle, `{axle}` in its id and texts being the
    axle's number. `quiet` mutes speech after the step's own prompt; a `must` step cannot be
    skipped nor answered not checked.
    """

    id: Annotated[str, Field(pattern=r"^([a-z0-9_]|\{axle\})+$")]
    part: Part
    kind: StepKind
    title: str
    short: str
    long: str
    caution: str = ""
    spot: Station
    per_axle: Flag = False
    hold: HoldRule | None = None
    quiet: Flag = False
    must: Flag = False
    needs: tuple[Need, ...] = ()
    source: str
    provenance: Provenance


class Checklist(Written):
    """A checklist file: [[lamp]] tables are lamp rules, [[step]] tables are steps."""

    id: Id
    title: str
    source: str
    provenance: Provenance
    applies: Applies = Applies()
    lamps: tuple[LampRule, ...] = Field(default=(), validation_alias="lamp")
    steps: tuple[StepRule, ...] = Field(default=(), validation_alias="step")
