"""What a walk asks: its steps, the things to look at in each, and where they are on the vehicle.

A `Plan` is all that a walk needs to know of its vehicle. It is stored whole with the walk, so
that a record never changes its meaning when a checklist does. `plan_walk.py` makes plans. A
text for people is a message, said in the reader's language and units; in the plan of an older
record it is a string, shown as it is.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

from walkaround.airhold.gauge import Gauge
from walkaround.base.message import Text
from walkaround.plan.values import Measure, Value
from walkaround.rounds.power_source import Look as Look
from walkaround.rules.checklist import PARTS, Part, Spoken, Station, StepKind
from walkaround.rules.limits import (
    Air,
    HoldRule,
    Line,
    Provenance,
    ShopFigures,
    WaitRule,
)
from walkaround.vehicle.model import Vehicle

Scope = Literal["whole", "lamps", "brakes", "recheck"]

Level = Literal["dead_lamp", "bad_ground", "crossed_turns", "leak", "odd_chamber"]
"""How hard a practice is."""

CHECKED_KINDS = frozenset({"lamp", "look", "listen", "hold", "measure", "chambers", "wait"})
"""Kinds that find something out; the others, `act` and `gauges`, get things ready for them."""

WHEEL_END = re.compile(r"axle_(?P<axle>\d+)_(?P<side>left|right)")
"""Id of one end of an axle; axles are counted from the front."""

OTHERS = "others"
"""The item that stands for every lamp at a spot that ought to be dark."""

ANYTHING_ELSE = "anything_else"
"""The item that stands for whatever else is seen wrong at a spot, asked at the last look there."""

UNPLACED = frozenset({"others", "anything_else", "contact"})
"""Kinds of item that no plan of the vehicle can mark."""


class Item(BaseModel):
    """One thing to look at in a step: a lamp housing, a reflector, a wheel end.

    Attributes:
        id: the housing (or wheel end); a plan mark has the same id.
        name: as shown, with the side that it is on.
        said: as it is said among others, without a side; empty where the name is said.
        side: where it is one of several.
        mark: id of its mark, where several items are at one place; else the item's own.
        lamps: ids of the lamps in it that this step is about.
        required: a rule demands it, so that it can be missing but not simply "not fitted".
        what, why: for the new hire; what right looks like and why it matters.
        taught: an earlier step of the walk says these.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    name: Text
    said: Text = ""
    side: Literal["left", "centre", "right", ""] = ""
    kind: str = ""
    lamps: tuple[str, ...] = ()
    required: bool = False
    what: Text = ""
    why: Text = ""
    taught: bool = False
    mark: str = ""

    @property
    def place(self) -> str:
        """Id of the mark that shows where it is."""
        return self.mark or self.id

    @property
    def is_row(self) -> bool:
        """Whether it is one of several things at a place or at none: the plan numbers it not."""
        row_of_brakes = self.kind == "wheel_end" and WHEEL_END.fullmatch(self.id) is None
        return row_of_brakes or self.kind == "contact"


class Choice(BaseModel):
    """One of the ways in which an act was done, where the record must say which."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    text: Text


class Chambers(BaseModel):
    """Chambers that may be found at a wheel end, and the limit that their stroke is held against.

    Attributes:
        limit_in: inches; None where no table has one.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    actuator: str
    type: str
    long_stroke: bool = False
    rated_stroke_in: float | None = None
    limit_in: float | None = None
    source: str = ""


class Mark(BaseModel):
    """Where an item is on the plan of the vehicle: x rearward from the front, y to the right."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    x_mm: float
    y_mm: float
    colour: str = ""


class Step(BaseModel):
    """One thing asked of the mechanic.

    Attributes:
        brisk: said to who knows the walk by heart; without it the title is.
        must: it cannot be skipped; one that looks may still find a defect.
        choices: where the record must say which, what is answered instead of done.
        quiet: the voice keeps silent once the prompt is spoken, for listening.
        soft: the voice is lowered: somebody is in at the brakes.
        vents: air blows out so loud that nothing said after the prompt would be understood.
        once: it uses up what it needs, so that it is repeated only in a walk of its own.
        hands_free: it may be answered without a tap, by a key: a plain look at which a press that
            was not meant hurts nobody.
        spoken: what else may be told of it by voice, and takes a yes: the values that it takes, or
            that its count begins.
        air, power: it needs the air lines charged, the lamp circuits fed.
        switching: how its circuits are switched on, as a sentence.
        stays: they were so switched for the step before, and nothing is to be switched.
        pins: the contacts that are fed, for those who look; they are not said.
        meter_first: why a pin that is fed here for the first time is doubtful; it is to be
            measured before. Empty where none is.
        doubt: what is uncertain about the rules that it follows, and why.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str = Field(pattern=r"^[a-z0-9_]+$")
    part: Part
    kind: StepKind
    title: Text
    short: Text = ""
    long: Text = ""
    brisk: Text = ""
    caution: Text = ""
    spot: Station
    round: int = 0
    circuits_on: tuple[str, ...] = ()
    expect: Mapping[str, Look] = Field(default_factory=dict)
    items: tuple[Item, ...] = ()
    must: bool = False
    quiet: bool = False
    soft: bool = False
    vents: bool = False
    once: bool = False
    hands_free: bool = False
    spoken: Spoken = ""
    air: bool = False
    power: bool = False
    switching: Text = ""
    stays: bool = False
    pins: Text = ""
    meter_first: Text = ""
    hold: HoldRule | None = None
    measure: Measure | None = None
    wait: WaitRule | None = None
    choices: tuple[Choice, ...] = ()
    source: str
    provenance: Provenance
    doubt: str = ""

    @property
    def looks(self) -> bool:
        """Whether it finds something out, so that a defect can be said of it."""
        return self.kind in CHECKED_KINDS

    @property
    def charged(self) -> bool:
        """Whether it is asked with air in the lines, which is let out before they are opened."""
        return self.air and PARTS.index(self.part) >= PARTS.index("charge")

    @property
    def values(self) -> tuple[Value, ...]:
        """The values that it takes."""
        return self.measure.values if self.measure else ()

    @property
    def gauges(self) -> tuple[Line, ...]:
        """The gauges that it reads, in that order."""
        of_hold = self.hold.gauges if self.hold else ()
        return of_hold + tuple(value.gauge for value in self.values if value.gauge)


def _halved(step: Step, step_id: str, gauge: str, psi: float) -> Step:
    if step.measure is None:
        return step
    values = tuple(
        value.model_copy(update={"half": psi / 2})
        if value.or_half_of == step_id and gauge in (value.gauge, "")
        else value
        for value in step.values
    )
    return step.model_copy(update={"measure": step.measure.model_copy(update={"values": values})})


class Practice(BaseModel):
    """Marks a walk that is practice: its fault is drawn from those of a level by a seed."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    level: Level
    seed: int = Field(ge=0)


class Plan(BaseModel):
    """What one walk asks, of which vehicle, in which order.

    Attributes:
        power: id of what switches the lamp circuits.
        together: circuits are lit together, in the fewest settings; else one at a time.
        rounds, why_rounds: how many times round the vehicle, and why.
        walked_m: how far the mechanic walks for the lamps, metres.
        hidden: what this source of power cannot show, a clause each.
        air, towed: where the air comes from; how many units are towed.
        gauges: the gauges that the walk reads.
        known_gauges: what those are like, where that was known and is not asked.
        altitude_m: how high above the sea the site is, where gauges are not asked.
        chambers: what the stroke tables list, for a chamber that is not as the file says.
        shop: the figures gone by for a lone trailer.
        recheck_of: the walk whose defects this one rechecks.
        double: two people walk the vehicle, each blind to the other.
        double_of: the walk of the first of them, in the plan of the second.
        practice: set where no vehicle stands there; such a walk is no record.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    vehicle: Vehicle
    scope: Scope
    power: str
    together: bool = False
    rounds: int
    why_rounds: Text = ""
    walked_m: float = 0.0
    hidden: tuple[Text, ...] = ()
    air: Air = "shop"
    towed: int = 0
    gauges: tuple[Line, ...] = ()
    known_gauges: Mapping[Line, Gauge] = Field(default_factory=dict)
    altitude_m: float = 0.0
    chambers: tuple[Chambers, ...] = ()
    shop: ShopFigures | None = None
    steps: tuple[Step, ...]
    marks: tuple[Mark, ...]
    recheck_of: str = ""
    double: bool = False
    double_of: str = ""
    practice: Practice | None = None

    def halved(self, step_id: str, gauge: str, psi: float) -> Plan:
        """Give the plan with half of a pressure of one step as a bound of those that ask for it.

        Of several gauges each value goes by its own, or by the one read last if it has none.
        """
        if all(value.or_half_of != step_id for step in self.steps for value in step.values):
            return self
        return self.model_copy(
            update={"steps": tuple(_halved(step, step_id, gauge, psi) for step in self.steps)}
        )

    def step(self, step_id: str) -> Step | None:
        """Return the step of that id, if the plan has one."""
        return next((step for step in self.steps if step.id == step_id), None)
