"""Walks of every kind for the page that is handed over, walked on shipped vehicles."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, datetime
from functools import cache
from typing import Any

from support.values import good_values
from support.walks import BEGAN, FakeClock, Teller

from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Scope, Step
from walkaround.walk.events import (
    Answered,
    Finished,
    GaugesTold,
    HoldBegan,
    HoldEnded,
    Measured,
    Noted,
    ReadingTaken,
    Revisited,
)
from walkaround.walk.state import Walk

SEMITRAILER = "sandbag_semitrailer_7"
VIN = "1M8GDM9AXKP042788"
"""A published example with a check digit of X, in tests/standards/vin_examples.csv."""


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


def planned(vehicle_id: str = SEMITRAILER, scope: Scope = "whole", **of_vehicle: Any) -> Plan:
    """The plan of a shipped vehicle, changed as said."""
    vehicle = next(each for each in library().vehicles if each.id == vehicle_id)
    vehicle = vehicle.model_copy(update={"vin": VIN, **of_vehicle})
    return plan_walk(vehicle, library().rules, scope=scope, day=date(2026, 11, 25))


@dataclass
class Walker:
    """Walks a plan as a mechanic would: every step OK but those told otherwise.

    Attributes:
        bad: by step, what was seen of its items.
        drops: by step, psi that its air hold loses in the minute.
        strokes: by step, inches.
        notes: by step.
        rechecked: by step, who repaired what was wrong there, and found it OK at once.
        upto: the step before which the walk ends early; empty for a whole one.
    """

    plan: Plan
    bad: Mapping[str, Mapping[str, str]] = field(default_factory=dict)
    drops: Mapping[str, float] = field(default_factory=dict)
    strokes: Mapping[str, float] = field(default_factory=dict)
    notes: Mapping[str, str] = field(default_factory=dict)
    skipped: Mapping[str, str] = field(default_factory=dict)
    rechecked: Mapping[str, str] = field(default_factory=dict)
    upto: str = ""
    who: str = "Ana"
    began: datetime = BEGAN
    number: int = 0

    def walked(self) -> Teller:
        """The walk as it stands before its record is closed."""
        teller = Teller(clock=FakeClock(step_s=5.0, began=self.began), who=self.who)
        teller.begin(self.plan, f"{self.began:%Y%m%d_%H%M%S}_4f3a9c", self.number)
        for step in self.plan.steps:
            if step.id == self.upto:
                break
            self.answer(teller, step)
            if who := self.rechecked.get(step.id):
                teller.who = who
                teller.tell(Revisited, step=step.id, purpose="recheck")
                Walker(self.plan).answer(teller, step)
                teller.who = self.who
        return teller

    def closed(self) -> Walk:
        """The walk with its record closed."""
        return self.walked().tell(Finished)

    def answer(self, teller: Teller, step: Step) -> None:
        """Do what the step asks and answer it."""
        if reason := self.skipped.get(step.id):
            teller.tell(Answered, step=step.id, answer="not_checked", reason=reason)
            return
        if step.wait:
            teller.clock.wait(step.wait.seconds)
        over = False
        if step.hold:
            over = self._held(teller, step)
        if step.kind == "gauges":
            gauges = {line: {"name": line} for line in self.plan.gauges}
            teller.tell(GaugesTold, step=step.id, gauges=gauges, altitude_m=100.0, at_zero=True)
        if step.measure:
            over = self._measured(teller, step) or over
        seen = self.bad.get(step.id, {})
        more = {"choice": step.choices[0].id} if step.choices and not seen else {}
        if note := self.notes.get(step.id):
            teller.tell(Noted, step=step.id, text=note)
        answer = "defect" if seen or over else "ok"
        if set(seen.values()) == {"missing"}:
            answer = "missing"
        teller.tell(Answered, step=step.id, answer=answer, seen=seen, **more)

    def _held(self, teller: Teller, step: Step) -> bool:
        assert step.hold
        drop = self.drops.get(step.id, 0.0)
        teller.tell(HoldBegan, step=step.id)
        for at_s in (0.0, 30.0, 60.0):
            for line, psi in step.hold.set_psi.items():
                read = round(psi - drop * at_s / 60)
                teller.tell(ReadingTaken, step=step.id, gauge=line, at_s=at_s, psi=read)
        how = teller.walk.holds[step.id].ending(60.0) or "early"
        teller.tell(HoldEnded, step=step.id, how=how, at_s=60.0)
        return drop > step.hold.limit_psi_per_min

    def _measured(self, teller: Teller, step: Step) -> bool:
        assert step.measure
        told = self.strokes.get(step.id)
        for value, good in good_values(step.measure):
            read = good if told is None else told
            unit = step.measure.quantity
            teller.tell(Measured, step=step.id, value_id=value.id, value=read, unit=unit)
        return told is not None


def whole() -> Walk:
    """Everything, with nothing wrong."""
    return Walker(planned()).closed()


def with_findings() -> Walk:
    """Lamps dark and dim, one hold that is over and one undecided, a stroke over its limit."""
    return Walker(
        planned(),
        bad={
            "look_2_rear": {"rear_left": "dark", "identification_rear_centre": "dim"},
            "look_1_right_side": {"side_marker_middle_right": "broken"},
            "lines_on": {"red_hose": "worn"},
        },
        drops={"supply_hold": 2.0, "applied_hold": 6.0},
        strokes={"stroke_2_left": 2.75},
        notes={
            "look_2_rear": "Lens cracked at the lower edge; harness chafed behind the crossmember.",
            "cable_on": "Socket lid spring weak.",
        },
        skipped={"abs_left_side": "in_the_way", "abs_by_stop_left_side": "no_time"},
        rechecked={"look_1_right_side": "Bohdan"},
    ).closed()


def ended_early() -> Walk:
    return Walker(
        planned(), bad={"look_1_front": {"clearance_front_left": "dark"}}, upto="supply_hold"
    ).closed()


def partial() -> Walk:
    return Walker(planned(scope="lamps"), bad={"look_3_rear": {"rear_right": "dark"}}).closed()


def going() -> Walk:
    """Still under way."""
    return Walker(planned(), upto="look_1_rear").walked().walk


def recheck() -> Walk:
    """A walk of its own for what was left open, in which one thing is still wrong."""
    before = with_findings()
    assert before.plan is not None
    plan = plan_walk(
        before.plan.vehicle,
        library().rules,
        day=date(2026, 11, 25),
        scope="recheck",
        only=[defect.step for defect in before.open_defects],
        recheck_of=before.id,
        former=before.plan,
    )
    return Walker(plan, bad={"look_2_rear": {"rear_left": "dim"}}).closed()


NAMES = {
    "long": "Very long name of a trailer that somebody typed as far as the form lets it go, 60",
    "polish": "Naczepa powodziowa 7: zażółć gęślą jaźń",
    "vietnamese": "Rơ moóc bơm nước số 3, Đặng Quỳnh",
    "cyrillic": "Прицеп-насос № 3, Щёголев їжак",
}


def lettered(kind: str) -> Walk:
    """A walk whose vehicle, people and notes are written in these letters."""
    text = NAMES[kind]
    return Walker(
        planned(scope="lamps", name=text, plate="АВ 1234", notes=text),
        bad={"look_2_rear": {"rear_left": "dark"}},
        notes={"look_2_rear": f"{text}. " * 4, "look_1_front": text},
        who=text[:80],
    ).closed()


def everything_wrong(vehicle_id: str = SEMITRAILER, note: str = "") -> Walk:
    """Every lamp dark and every other thing broken, with a note at each step."""
    plan = planned(vehicle_id)
    bad = {
        step.id: {
            item.id: "dark" if step.kind == "lamp" else "broken"
            for item in step.items
            if item.kind not in ("others", "anything_else", "contact")
        }
        for step in plan.steps
        if step.looks
    }
    notes = {step.id: note for step in plan.steps} if note else {}
    return Walker(plan, bad={key: seen for key, seen in bad.items() if seen}, notes=notes).closed()
