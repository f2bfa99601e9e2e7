"""A small model of a vehicle's air, engine and brakes, through which a walk's orders are folded.

It knows what each order does and what must be so before it: which valve is open, which line is
charged, whether springs or air hold the brakes, whether an engine runs, whether somebody is in at
the wheels. It is written from what the words of each order say, apart from the code that plans
them, so an order that is new or says something else must be entered here too. What it holds as
unsafe: common practice, no source, but chocks first (29 CFR 1910.178(k)(1) as background) and
strokes at 80 to 90 psi with the engine off (49 CFR part 396 App. A 1.a(5)).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field

from walkaround.plan.steps import Plan, Step
from walkaround.vehicle.model import POWER_UNITS

STARTS = re.compile(r"start the engine", re.IGNORECASE)


class UnsafeError(AssertionError):
    """An order that could hurt somebody, or that the state before it cannot give."""


@dataclass
class Plumbing:
    """How one vehicle stands. Pressures are psi; `red` is its supply, `service` its application.

    Attributes:
        springs: spring brakes hold as long as there is no supply; without them air must.
        parked: the parking brake of the unit with the cab is set; of what stands without one,
            it says nothing.
        inside: somebody may be in at the wheels; cleared by a call that is answered.
    """

    plan: Plan
    chocked: bool = False
    parked: bool = False
    coupled: bool = False
    rear_shut: bool = False
    source_open: bool = False
    engine: bool = False
    released: bool = False
    reverse: bool = False
    propped: bool = False
    plugged: bool = False
    cable: bool = False
    red: float = 0.0
    service: float = 0.0
    locked: bool = False
    steady: bool = False
    inside: bool = False
    done: list[str] = field(default_factory=list)

    @property
    def power_unit(self) -> bool:
        return self.plan.vehicle.kind in POWER_UNITS

    @property
    def has_cab(self) -> bool:
        return self.power_unit or self.plan.air == "coupled"

    @property
    def springs(self) -> bool:
        return any(axle.spring for axle in self.plan.vehicle.brakes.axles)

    def must(self, holds: bool, step: Step, why: str) -> None:
        if not holds:
            raise UnsafeError(f"{step.id}: {why}; after {self.done[-4:]}")

    def valve_moves(self, step: Step) -> None:
        self.must(self.chocked, step, "air moves before the chocks are in")
        self.must(not self.inside, step, "a valve moves while somebody may be in")

    def charge(self, step: Step, psi: float = 110.0) -> None:
        self.valve_moves(step)
        self.red = psi
        self.released = True

    def run_engine(self, step: Step) -> None:
        """Start it: only with the gear asked for before, in the spoken words and the long ones."""
        for text in (str(step.short), str(step.long)):
            begins = STARTS.search(text)
            self.must(begins is not None, step, "the engine runs and no words start it")
            assert begins is not None
            before = text[: begins.start()].lower()
            self.must("out of gear" in before, step, "started before it was out of gear")
        if self.propped:
            self.must("prop out" in str(step.short).lower(), step, "started on a propped pedal")
        self.propped = False
        self.reverse = False
        self.service = 0.0
        self.valve_moves(step)
        self.engine = True

    def stop_engine(self, step: Step) -> None:
        self.must("engine off" in str(step.short).lower(), step, "the engine is left running")
        self.engine = False

    def apply(self, step: Step) -> None:
        """A full application: never over set spring brakes."""
        self.valve_moves(step)
        said = f"{step.short} {step.caution}".lower()
        self.must("everybody out" in said, step, "applied before everybody was asked out")
        self.must("over set spring brakes" in str(step.long), step, "does not warn of set springs")
        self.must(self.released or not self.springs, step, "full service over set spring brakes")
        self.must(self.red >= 60, step, "nothing to apply with")
        self.service, self.locked, self.steady = min(self.red, 90.0), True, False

    def go_in(self, step: Step) -> None:
        self.must(self.chocked, step, "in without chocks")
        self.must(not self.engine, step, "in while an engine runs")
        self.must(step.soft, step, "loud while somebody is in")
        self.inside = True

    def follow(self, step: Step) -> None:
        """Do what the step says.

        Raises:
            UnsafeError: it must not be done as the vehicle stands.
            KeyError: the model does not know the step.
        """
        if step.kind == "lamp":
            self._lamps(step)
        elif step.part == "lamps":
            self.must(self.chocked, step, "a look before the chocks are in")
            if step.id.startswith("out_of_reverse"):
                self.reverse = False
            if step.id == "all_off":
                self.propped = False
        else:
            ORDERS[re.sub(r"_\d+(_left|_right)?$", "", step.id)](self, step)
        self.done.append(step.id)

    def _lamps(self, step: Step) -> None:
        self.must(self.chocked, step, "a lamp step before the chocks are in")
        self.must(self.cable or self.power_unit, step, "lamps before the cable")
        said = str(step.switching).lower()
        if self.plan.power == "box":
            return
        if step.switching:
            # A new setting: what is not named in it is off.
            self.propped = "pedal down" in said
            self.reverse = "reverse" in said
        if "pedal down" in said:
            self.must(not self.inside, step, "a pedal while somebody may be in")
            self.must("just far enough" in said, step, "more pedal than lamps need")


def _chocks_on(v: Plumbing, s: Step) -> None:
    v.must(s.must and not v.done, s, "chocks come first and cannot be skipped")
    v.chocked = True
    v.parked = "parking brake set" in str(s.short).lower()
    v.must(v.parked or not v.has_cab, s, "nothing holds it besides the chocks")


def _looked_at(v: Plumbing, s: Step) -> None:
    v.must(v.chocked, s, "a look before the chocks are in")


def _lines_on(v: Plumbing, s: Step) -> None:
    v.must(v.chocked and not v.red and not v.source_open, s, "lines coupled under pressure")
    v.coupled = True


def _rear_shut(v: Plumbing, s: Step) -> None:
    v.must(v.chocked and not v.red, s, "rear lines shut under pressure")
    v.rear_shut = True


def _drained(v: Plumbing, s: Step) -> None:
    v.valve_moves(s)
    unsprung = not v.springs and not v.power_unit
    v.must(not unsprung or "releases the brakes" in str(s.caution), s, "draining unsaid")
    v.red, v.released = 0.0, False


def _gauges(v: Plumbing, s: Step) -> None:
    v.must(not (v.source_open or v.service or v.red), s, "zero is asked under pressure")
    v.must((s.spot == "cab") == v.has_cab, s, "no such gauges there")


def _supply_charged(v: Plumbing, s: Step) -> None:
    v.must(v.coupled, s, "charged before the lines are on")
    behind = v.plan.vehicle.kind in ("full trailer", "converter dolly")
    v.must(v.rear_shut or not behind, s, "charged into an open rear line")
    v.must("shut the source" in str(s.short).lower(), s, "lamps are walked with the source open")
    v.charge(s)


def _charged_coupled(v: Plumbing, s: Step) -> None:
    v.must(v.coupled and v.parked, s, "charged before the lines are on and the tow unit parked")
    v.run_engine(s)
    v.charge(s, 120.0)
    v.stop_engine(s)


def _started(v: Plumbing, s: Step) -> None:
    v.run_engine(s)
    v.red = 120.0


def _running(v: Plumbing, s: Step) -> None:
    v.must(v.engine, s, "the engine does not run")


def _engine_off(v: Plumbing, s: Step) -> None:
    _running(v, s)
    v.stop_engine(s)


def _source_shut(v: Plumbing, s: Step) -> None:
    said = str(s.short).lower()
    opens, shuts = said.find("open the source"), said.rfind("shut the source")
    v.must(0 <= opens < shuts, s, "topped up from a shut source, or left open")
    v.must(v.service == 0, s, "blue is not empty")
    v.charge(s)


def _released_again(v: Plumbing, s: Step) -> None:
    v.run_engine(s)
    v.charge(s, 120.0)
    v.parked = False
    v.stop_engine(s)


def _charged_parked(v: Plumbing, s: Step) -> None:
    """The engine fills the tanks and the parking brake stays set."""
    v.must("parking brake set" in str(s.short).lower(), s, "released by a step that only charges")
    v.run_engine(s)
    v.red, v.parked, v.released = 120.0, True, False
    v.stop_engine(s)


def _released_hold(v: Plumbing, s: Step) -> None:
    v.must(not v.source_open and not v.engine, s, "something feeds the hold")
    v.must(v.red >= 100 and v.service == 0, s, "not charged, or brakes applied")
    v.must(v.released or not v.springs, s, "spring brakes are set")
    v.must(not v.inside, s, "somebody may be in")


def _marked(v: Plumbing, s: Step) -> None:
    v.must(not v.source_open and not v.service, s, "marked with a line fed or brakes applied")
    v.must(v.released or not v.springs, s, "marked with spring brakes set")
    v.must(v.red >= 90, s, "air alone holds the springs back, and there is too little")
    v.must("stay out" in str(s.short) or v.inside, s, "in before the needles were looked at")
    v.go_in(s)


def _out(v: Plumbing, s: Step) -> None:
    """An order that begins by asking everybody out."""
    v.must("everybody out" in str(s.short).lower(), s, "nobody was asked out")
    v.inside = False


def _service_applied(v: Plumbing, s: Step) -> None:
    _out(v, s)
    said = str(s.short).lower()
    v.must("open the source" in said, s, "air is asked of a shut source")
    v.must(said.index("red") < said.index("blue"), s, "blue before red releases the springs")
    v.charge(s)
    v.apply(s)
    v.must("shut both" in said, s, "the hold would be fed")
    v.source_open = False


def _pedal_applied(v: Plumbing, s: Step) -> None:
    _out(v, s)
    v.must("engine off" in str(s.short).lower() and not v.engine, s, "applied with engine on")
    v.red = min(v.red, 95.0) if "95" in str(s.short) else v.red
    v.apply(s)
    v.propped = True
    # The tow vehicle's own order has the needles looked at as well.
    v.steady = "needles still" in str(s.short).lower()


def _applied_hold(v: Plumbing, s: Step) -> None:
    v.must(v.service > 0 and v.locked, s, "brakes are not applied")
    v.must(not v.source_open and not v.engine, s, "something feeds the hold")


def _pedal_held(v: Plumbing, s: Step) -> None:
    v.must(v.propped and v.service > 0, s, "the pedal is not held")


def _needles_steady(v: Plumbing, s: Step) -> None:
    v.must(s.must and v.service > 0 and v.locked, s, "brakes are not applied and locked")
    v.must(not v.inside, s, "a valve moves while somebody may be in")
    v.source_open = v.plan.air == "shop"
    v.must(not v.source_open or "open the source" in str(s.short).lower(), s, "source is shut")
    v.steady = True


def _stroke(v: Plumbing, s: Step) -> None:
    v.must(80 <= v.service <= 90, s, "not at 80 to 90 psi")
    v.must(v.locked and v.steady, s, "in before the needles were seen to stand")
    v.go_in(s)


def _clear(v: Plumbing, s: Step) -> None:
    v.must(s.must, s, "the call can be skipped")
    v.inside = False


def _air_through(v: Plumbing, s: Step) -> None:
    v.must(v.service > 0 and v.red > 0, s, "no air to come out")
    v.valve_moves(s)
    v.must("shut both" in str(s.short).lower(), s, "a rear cock is left open")


def _application_released(v: Plumbing, s: Step) -> None:
    v.must(v.service > 0, s, "nothing to release")
    v.valve_moves(s)
    v.service, v.locked, v.steady, v.propped = 0.0, False, False, False


def _rods_back(v: Plumbing, s: Step) -> None:
    v.must(v.service == 0 and not v.inside, s, "brakes are still applied")


def _source_bled(v: Plumbing, s: Step) -> None:
    _out(v, s)
    said = str(s.short).lower()
    v.must("source open" in said or v.source_open, s, "charged from a shut source")
    v.must(v.service == 0, s, "service brakes are still on")
    v.charge(s)
    v.source_open = False


def _full_coupled(v: Plumbing, s: Step) -> None:
    _out(v, s)
    _released_again(v, s)


def _tow_unit_parked(v: Plumbing, s: Step) -> None:
    said = str(s.short).lower()
    v.must("everybody clear" in said and "parking brake set" in said, s, "not parked")
    v.must(s.must, s, "can be skipped")
    v.valve_moves(s)
    v.parked = True


def _breakaway(v: Plumbing, s: Step) -> None:
    v.must(v.red >= 100, s, "nothing to dump")
    v.must(not v.source_open and not v.engine and not v.service, s, "something feeds it")
    said = str(s.short).lower()
    v.must("everybody clear" in said, s, "nobody was asked clear")
    knob = "pull the supply knob" in said
    v.must(knob == (v.plan.air == "coupled"), s, "there is no such valve")
    v.must(knob or "never at a gladhand" in said, s, "a gladhand may be pulled under pressure")
    v.valve_moves(s)
    v.red, v.released = 0.0, False


def _lines_off(v: Plumbing, s: Step) -> None:
    v.must(s.must and v.red == 0 and not v.source_open and not v.service, s, "under pressure")
    v.must(v.parked or not v.has_cab, s, "the tow unit stands on its chocks alone")
    v.coupled = False


def _plugged(v: Plumbing, s: Step) -> None:
    v.must(v.service == 0, s, "plugged under pressure")
    v.plugged = True


def _hand_valve(v: Plumbing, s: Step) -> None:
    v.must(v.plugged and v.red >= 60 and not v.inside, s, "air into an open gladhand, or none")


def _drain_one(v: Plumbing, s: Step) -> None:
    """A tank is drained until the warning comes on: from above 60 psi, and shut again."""
    said = str(s.short).lower()
    v.must(not v.engine and v.red >= 60, s, "no air to fall from")
    v.must("parking brake set" in said, s, "out of the cab on the chocks alone")
    v.valve_moves(s)
    v.parked, v.released = True, False
    v.must("shut the drain" in said, s, "the drain is left open")


def _pumped(v: Plumbing, s: Step) -> None:
    v.must(not v.engine and v.red >= 20, s, "no air to pump down")
    v.valve_moves(s)
    v.must("not to the floor" in str(s.short).lower(), s, "full strokes over springs that set")
    v.red = 30.0


def _supply_pops(v: Plumbing, s: Step) -> None:
    said = str(s.short).lower()
    v.must("knobs in" in said and "everybody clear" in said, s, "knobs are pushed in unasked")
    v.must(v.plugged, s, "supply knob in with open gladhands")
    _pumped(v, s)
    v.parked, v.released = False, True


def _springs_set(v: Plumbing, s: Step) -> None:
    v.must("parking knob in" in str(s.short).lower(), s, "a knob that is out cannot pop out")
    _pumped(v, s)
    v.parked, v.released = True, False


def _parked(v: Plumbing, s: Step) -> None:
    said = str(s.short).lower()
    v.inside = v.inside and "everybody clear" not in said
    v.valve_moves(s)
    v.must("parking brake set" in said and "out of gear" in said, s, "not parked")
    v.must("prop out" in said and s.must, s, "left with a propped pedal")
    v.engine = v.released = v.propped = v.reverse = False
    v.parked = True
    v.service = v.red = 0.0


def _plugs_off(v: Plumbing, s: Step) -> None:
    v.must(v.red == 0 and s.must, s, "plugs taken off under pressure")
    v.plugged = False


def _cable_on(v: Plumbing, s: Step) -> None:
    v.must(v.chocked and s.must, s, "wiring and voltage can be skipped")
    metered = v.plan.step("doubtful_pins")
    v.must(metered is None or metered.id in v.done, s, "fed before the pin was metered")
    v.cable = True


def _cable_off(v: Plumbing, s: Step) -> None:
    v.must(v.cable, s, "no cable is in")
    v.cable = False


def _chocks_last(v: Plumbing, s: Step) -> None:
    v.must(s.id == v.plan.steps[-1].id and s.must, s, "chocks are not last")
    v.must(not v.inside and not v.engine and not v.cable and not v.reverse, s, "not put back")
    v.must(not (v.service or v.coupled or v.plugged or v.propped), s, "air is still on")
    v.must(v.parked or not v.has_cab, s, "nothing holds the unit with the cab")
    v.must(len(s.choices) == 2, s, "the record would not say how it stands")


ORDERS: dict[str, Callable[[Plumbing, Step], None]] = {
    "chocks_on": _chocks_on,
    "compressor_seen": _looked_at,
    "lines_seen_tow": _looked_at,
    "abs_dash": _looked_at,
    "lines_on": _lines_on,
    "rear_lines_shut": _rear_shut,
    "lift_down": _looked_at,
    "lift_down_tow": _looked_at,
    "water_drained": _drained,
    "water_drained_unsprung": _drained,
    "water_drained_tow": _drained,
    "gauges": _gauges,
    "gauges_tow": _gauges,
    "gauges_coupled": _gauges,
    "doubtful_pins": _looked_at,
    "cable_on": _cable_on,
    "supply_charged": _supply_charged,
    "charged_coupled": _charged_coupled,
    "charged_cut_out": _started,
    "rebuild_time": _running,
    "cut_out": _running,
    "cut_in": _running,
    "engine_off": _engine_off,
    "source_shut": _source_shut,
    "released_coupled": _released_again,
    "engine_off_released": _released_again,
    "engine_off_charged": _charged_parked,
    "supply_hold": _released_hold,
    "supply_hold_coupled": _released_hold,
    "released_hold": _released_hold,
    "rods_marked": _marked,
    "linings_marked": _marked,
    "service_applied": _service_applied,
    "applied_coupled": _pedal_applied,
    "reserve": _pedal_applied,
    "applied_hold": _applied_hold,
    "applied_hold_coupled": _applied_hold,
    "applied_hold_tow": _applied_hold,
    "pedal_applied": _pedal_applied,
    "blue_quiet": _pedal_held,
    "booster_seen": _pedal_held,
    "full_application": _pedal_applied,
    "needles_steady": _needles_steady,
    "full_application_coupled": _pedal_applied,
    "stroke": _stroke,
    "lining_move": _stroke,
    "clear_called": _clear,
    "air_through": _air_through,
    "application_released": _application_released,
    "application_released_tow": _application_released,
    "application_released_coupled": _application_released,
    "pedal_released": _application_released,
    "rods_back": _rods_back,
    "source_bled": _source_bled,
    "reservoirs_full_coupled": _full_coupled,
    "brakes_set": _breakaway,
    "brakes_set_coupled": _breakaway,
    "emergency_set": _breakaway,
    "emergency_set_coupled": _breakaway,
    "tow_unit_parked": _tow_unit_parked,
    "lines_off": _lines_off,
    "trailer_supply_on": _plugged,
    "low_pressure_warning": _drain_one,
    "fan_down": _charged_parked,
    "hand_valve": _hand_valve,
    "low_pressure_secondary": _drain_one,
    "protection_valve": _supply_pops,
    "spring_brakes_apply": _springs_set,
    "engine_off_parked": _parked,
    "parking_seen": _rods_back,
    "blanks_off": _plugs_off,
    "emergency_stays": _looked_at,
    "emergency_stays_coupled": _looked_at,
    "cable_off": _cable_off,
    "chocks_off": _chocks_last,
    "chocks_off_lever": _chocks_last,
    "chocks_stay": _chocks_last,
}
"""What each written order does, by its id without axle and side."""


def followed(plan: Plan, steps: Iterable[Step] | None = None) -> Plumbing:
    """Follow these steps of a plan, all of them if not said, from a vehicle that just arrived."""
    vehicle = Plumbing(plan)
    for step in plan.steps if steps is None else steps:
        vehicle.follow(step)
    return vehicle
