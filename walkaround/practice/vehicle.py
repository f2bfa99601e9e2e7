"""One vehicle in practice: what is seen, heard and read at each of its steps, and what is due."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from walkaround.causes.study import Study
from walkaround.drawing.lamp_symbol import Shown
from walkaround.plan.steps import Chambers, Level, Plan, Practice, Step
from walkaround.plan.values import Value
from walkaround.practice.air import HeldAir, gauge_rates, hiss_place
from walkaround.practice.lamps import SeenLamps
from walkaround.practice.levels import PracticeFault, draw_fault, possible_faults
from walkaround.rules.limits import Line
from walkaround.vehicle.model import Axle
from walkaround.walk.chambers import axle_of, ends_of, measured_at
from walkaround.walk.events import Seen

WHOLE = ""
"""Stands for the step itself where no item of it is asked for."""
_SOUND_STROKE = 0.75
"""Of its limit, the stroke of a brake that is in adjustment."""
_TO_SAY: Mapping[tuple[str, Shown], frozenset[Seen]] = {
    ("steady", "dark"): frozenset({"dark"}),
    ("steady", "dim"): frozenset({"dim"}),
    ("steady", "flashing"): frozenset({"flashing", "flickers", "pulses"}),
    ("flashing", "dark"): frozenset({"dark"}),
    ("flashing", "steady"): frozenset({"steady"}),
    ("flashing", "dim"): frozenset({"dim", "steady"}),
    ("flashing", "dim_flashing"): frozenset({"dim"}),
}
"""What is rightly said of a lamp: how it should look, how it does."""
_WRONGLY_LIT: frozenset[Seen] = frozenset({"wrong_lamp", "flickers", "pulses"})


@dataclass(frozen=True, slots=True)
class PracticeVehicle:
    """A vehicle with a fault put in.

    Attributes:
        fault: what is wrong with it.
        air: None where it has none that is held.
    """

    plan: Plan
    study: Study
    lamps: SeenLamps
    air: HeldAir | None
    fault: PracticeFault

    def lamp_looks(self, step: Step) -> Mapping[str, Shown]:
        """Tell how each lamp of a step looks, by its housing."""
        return self.lamps.lamp_looks(step, self.fault.lamps)

    def hiss(self, step: Step) -> str:
        """Tell at which item of a step air is heard; empty where none is."""
        return hiss_place(self.air, self.fault.leak, step) if self.air else ""

    def psi(self, step: Step, gauge: Line, at_s: float) -> float:
        """Tell what a gauge shows so long into the hold of a step; the same flow falls evenly."""
        assert step.hold
        return step.hold.set_psi[gauge] - self._rates(step)[gauge] * at_s / 60

    def chamber(self, end: str) -> Chambers:
        """Tell what chamber is at a wheel end."""
        odd_chamber = self.fault.chamber
        if odd_chamber and odd_chamber.end == end:
            return odd_chamber.chamber
        axle = axle_of(self.plan, end)
        return Chambers.model_validate(axle.model_dump(include=set(Chambers.model_fields) & _AXLE))

    def reading(self, step: Step, value: Value) -> float:
        """Tell what a gauge, a rule or a clock shows for a value, in the unit of its step."""
        odd_chamber = self.fault.chamber
        if odd_chamber and odd_chamber.end == measured_at(step):
            return odd_chamber.stroke_in
        least, most = value.least, value.at_most
        if value.before:
            # What is dropped from there, in percent.
            before = next(each for each in step.values if each.id == value.before)
            return self.reading(step, before) * (1 - 0.5 * (most or 0.0) / 100)
        if measured_at(step):
            return round(16 * _SOUND_STROKE * (most or 1.5)) / 16
        if least is not None and most is not None:
            return (least + most) / 2
        if least is not None:
            return least + 5
        return 0.9 * most if most is not None else 100.0

    def due(self, step: Step) -> Mapping[str, frozenset[Seen]]:
        """Tell what has to be reported at a step: of each item what may be said of it.

        `WHOLE` is a defect of the step, whatever is said of its items.
        """
        if step.kind == "lamp":
            shown_as = self.lamp_looks(step)
            return {
                item.id: to_say
                for item in step.items
                if item.id in shown_as
                and (to_say := _faults_to_report(step.expect[item.id], shown_as[item.id]))
            }
        if step.hold:
            limit = step.hold.limit_psi_per_min
            over = any(rate > limit for rate in self._rates(step).values())
            return {WHOLE: frozenset()} if over else {}
        if heard_place := self.hiss(step):
            return {heard_place: frozenset({"leak"}), **self._chamber_due(step)}
        return self._chamber_due(step)

    def _chamber_due(self, step: Step) -> Mapping[str, frozenset[Seen]]:
        odd_chamber = self.fault.chamber
        if odd_chamber is None:
            return {}
        over = odd_chamber.end == measured_at(step) and odd_chamber.stroke_in > (
            odd_chamber.chamber.limit_in or 0.0
        )
        return {WHOLE: frozenset()} if over or odd_chamber.end in ends_of(step) else {}

    def _rates(self, step: Step) -> Mapping[Line, float]:
        assert step.hold
        if self.air is None:
            return dict.fromkeys(step.hold.gauges, 0.0)
        return gauge_rates(self.air, self.fault.leak, step)


_AXLE = frozenset(Axle.model_fields)


def practice_vehicle(
    plan: Plan, study: Study, lamps: SeenLamps, air: HeldAir | None, practice: Practice
) -> PracticeVehicle | None:
    """Put the fault of a practice into a vehicle; None where it can have none of that level."""
    among = possible_faults(practice.level, plan, lamps, air)
    return (
        PracticeVehicle(plan, study, lamps, air, draw_fault(practice.seed, among))
        if among
        else None
    )


def levels_for(plan: Plan, lamps: SeenLamps, air: HeldAir | None) -> tuple[Level, ...]:
    """List the levels that this vehicle can have, the easiest first."""
    every: tuple[Level, ...] = ("dead_lamp", "bad_ground", "crossed_turns", "leak", "odd_chamber")
    return tuple(level for level in every if possible_faults(level, plan, lamps, air))


def _faults_to_report(expected: Shown, shown: Shown) -> frozenset[Seen]:
    if expected == "dark":
        return _WRONGLY_LIT if shown != "dark" else frozenset()
    return _TO_SAY.get((expected, shown), frozenset())
