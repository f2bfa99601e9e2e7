"""When a rule holds for a vehicle: its class, size, mass, date of make, and what is told of it.

A rule also has days between which it is in force itself, which is another thing than the dates of
make that it names: a trailer of 1990 falls under the rule of the day on which it is looked at.
"""

from __future__ import annotations

from datetime import date
from math import inf
from typing import Literal

from pydantic import Field

from walkaround.base.toml_model import Day, Number, Written
from walkaround.vehicle.model import Body, Kind, Vehicle, VehicleClass, has_abs

# Facts about a vehicle that are true or false. Each is a key of its file, but ABS follows from its
# date of make where the file says nothing.
VehicleFact = Literal[
    "abs",
    "boat",
    "double_faced_turn",
    "hides_towing_lamps",
    "living_or_office",
    "rear_guard",
    "rear_plate",
    "towed_singly",
    "towing_lamps_above_load",
]


class Span(Written):
    """A range of numbers; what is left out does not bound it."""

    from_: Number | None = Field(default=None, validation_alias="from")
    over: Number | None = None
    under: Number | None = None
    up_to: Number | None = None

    def holds(self, value: float) -> bool:
        """Tell whether the value lies in it."""
        return (
            (self.from_ is None or value >= self.from_)
            and (self.over is None or value > self.over)
            and (self.under is None or value < self.under)
            and (self.up_to is None or value <= self.up_to)
        )


class When(Written):
    """The conditions under which a rule holds for a vehicle; what is left out does not narrow it.

    A mass or cab width that nobody gave counts as large, so that no lamp is left out for it.

    Attributes:
        classes: letters of 49 CFR 393.11 Table 1.
        kinds: kinds of vehicle, where the letters do not tell them apart.
        made_from, made_before: made on that day or later; before that day.
        bodies: kinds of body.
        facts, without: what must be true of the vehicle; what must be false.
        valid_from, valid_to: the first and the last day on which the rule is in force.
    """

    classes: tuple[VehicleClass, ...] = ()
    kinds: tuple[Kind, ...] = ()
    width_mm: Span = Span()
    length_mm: Span = Span()
    cab_width_mm: Span = Span()
    gvwr_kg: Span = Span()
    made_from: Day | None = None
    made_before: Day | None = None
    bodies: tuple[Body, ...] = ()
    facts: tuple[VehicleFact, ...] = ()
    without: tuple[VehicleFact, ...] = ()
    valid_from: Day | None = None
    valid_to: Day | None = None

    def holds(self, vehicle: Vehicle, class_: VehicleClass) -> bool:
        """Tell whether all conditions hold for a vehicle of this class."""
        return (
            (not self.classes or class_ in self.classes)
            and (not self.kinds or vehicle.kind in self.kinds)
            and self._sizes_hold(vehicle)
            and (self.made_from is None or vehicle.made >= self.made_from)
            and (self.made_before is None or vehicle.made < self.made_before)
            and (not self.bodies or vehicle.body in self.bodies)
            and true_facts(vehicle).issuperset(self.facts)
            and true_facts(vehicle).isdisjoint(self.without)
        )

    def in_force(self, day: date) -> bool:
        """Tell whether the rule is in force on this day."""
        return (self.valid_from is None or day >= self.valid_from) and (
            self.valid_to is None or day <= self.valid_to
        )

    def _sizes_hold(self, vehicle: Vehicle) -> bool:
        return (
            self.width_mm.holds(vehicle.width_mm)
            and self.length_mm.holds(vehicle.length_mm)
            and self.cab_width_mm.holds(_or_large(vehicle.cab_width_mm))
            and self.gvwr_kg.holds(_or_large(vehicle.gvwr_kg))
        )


def true_facts(vehicle: Vehicle) -> frozenset[VehicleFact]:
    """List the facts that are true of a vehicle."""
    truth: dict[VehicleFact, bool] = {
        "abs": has_abs(vehicle),
        "boat": vehicle.boat,
        "double_faced_turn": vehicle.double_faced_turn,
        "hides_towing_lamps": vehicle.hides_towing_lamps,
        "living_or_office": vehicle.living_or_office,
        "rear_guard": vehicle.rear_guard,
        "rear_plate": vehicle.rear_plate,
        "towed_singly": vehicle.towed_singly,
        "towing_lamps_above_load": vehicle.towing_lamps_above_load,
    }
    return frozenset(fact for fact, is_true in truth.items() if is_true)


def _or_large(value: float | None) -> float:
    return inf if value is None else value
