"""Builders that several test modules share: a small plan with every kind of step, a clock, walks.

Vehicle, steps and sources are invented; nothing here is a trade fact.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from itertools import count
from typing import Any

import pytest

from walkaround.base.clock import Moment
from walkaround.base.errors import NotNowError
from walkaround.plan.steps import Item, Mark, Plan, Scope, Step
from walkaround.rules.limits import HoldRule
from walkaround.vehicle.model import Axle, Brakes, Electrical, Vehicle
from walkaround.walk.advance import advance, fold
from walkaround.walk.events import (
    Answered,
    Began,
    Event,
    Finished,
    HoldBegan,
    HoldEnded,
    Noted,
    Paused,
    ReadingTaken,
    Revisited,
)
from walkaround.walk.seals import seal
from walkaround.walk.state import Phase, Walk

WALK_ID = "20261125_081502_4f3a9c"
HOLD = "supply_hold"
BEGAN = datetime(2026, 11, 25, 8, 15, 2, tzinfo=UTC)


@dataclass
class FakeClock:
    """A clock that moves only when told to, except `step_s` at each look."""

    mono_s: float = 1000.0
    boot: str = "boot_a"
    asleep_s: float = 0.0
    step_s: float = 0.0
    began: datetime = BEGAN
    _start_s: float = field(default=1000.0, init=False)

    def __call__(self) -> Moment:
        moment = Moment(
            utc=self.began + timedelta(seconds=self.mono_s - self._start_s),
            mono_s=self.mono_s,
            boot=self.boot,
            asleep_s=self.asleep_s,
        )
        self.mono_s += self.step_s
        return moment

    def wait(self, seconds: float) -> None:
        self.mono_s += seconds


def new_ids() -> Callable[[], str]:
    """32 hex digits at each call, never the same twice, the same ones in each test."""
    numbers = count(1)
    return lambda: f"{next(numbers) * 0x9E3779B97F4A7C15 % 2**128:032x}"


def vehicle(id_: str = "pump_trailer_3") -> Vehicle:
    return Vehicle(
        id=id_,
        kind="semitrailer",
        made=date(2014, 5, 1),
        width_mm=2591.0,
        length_mm=12000.0,
        electrical=Electrical(volts=12, connector="sae_j560"),
        brakes=Brakes(system="air", axles=(Axle(spring=True),)),
        name="Pump trailer 3",
    )


def step(id_: str, part: str, kind: str, **more: Any) -> Step:
    fields: dict[str, Any] = {"spot": "rear", "source": "invented", "provenance": "memory"}
    return Step.model_validate(
        {"id": id_, "part": part, "kind": kind, "title": id_, **fields, **more}
    )


def hold_rule(**gauges_psi: float) -> HoldRule:
    return HoldRule.model_validate(
        {
            "set_psi": gauges_psi or {"supply": 110.0},
            "limit_psi_per_min": 2.0,
            "limit_source": "invented",
            "limit_provenance": "memory",
        }
    )


def lamp_item(id_: str, **more: Any) -> Item:
    return Item(id=id_, name=id_.replace("_", " "), kind="tail", lamps=(id_,), **more)


STEPS: tuple[Step, ...] = (
    step("chocks", "secure", "act", must=True),
    step(
        "tail_rear",
        "lamps",
        "lamp",
        power=True,
        circuits_on=("tail",),
        expect={"tail_left": "steady", "tail_right": "steady"},
        items=(lamp_item("tail_left", required=True), lamp_item("tail_right", required=True)),
    ),
    step("backup_rear", "lamps", "lamp", power=True, items=(lamp_item("backup_centre"),)),
    step("reflectors_rear", "lamps", "look", power=True),
    step(HOLD, "supply_hold", "hold", air=True, hold=hold_rule()),
    step("leaks_axle_1", "axles", "listen", air=True, quiet=True),
    step("vent", "finish", "act"),
)
"""A must, a required lamp, one that may be absent, a look, an air hold, a listen, an act."""


def plan(
    steps: tuple[Step, ...] = STEPS, scope: Scope = "whole", recheck_of: str = "", **more: Any
) -> Plan:
    return Plan(
        vehicle=more.get("vehicle", vehicle()),
        scope=scope,
        power="box",
        rounds=1,
        steps=steps,
        marks=(Mark(id="tail_left", x_mm=12000.0, y_mm=-1100.0, colour="red"),),
        recheck_of=recheck_of,
    )


@dataclass
class Teller:
    """Seals one event after another and lets the walk take each."""

    clock: FakeClock = field(default_factory=FakeClock)
    new_id: Callable[[], str] = field(default_factory=new_ids)
    walk: Walk = field(default_factory=Walk)
    who: str = "Ana"

    @property
    def first(self) -> Began:
        event = self.walk.events[0]
        assert isinstance(event, Began)
        return event

    def sealed(self, kind: type[Any], **body: Any) -> Any:
        after = self.walk.events[-1] if self.walk.events else None
        return seal(kind, after, id=self.new_id(), at=self.clock(), who=self.who, **body)

    def tell(self, kind: type[Any], **body: Any) -> Walk:
        self.walk = advance(self.walk, self.sealed(kind, **body))
        return self.walk

    def begin(self, a_plan: Plan | None = None, walk_id: str = WALK_ID, number: int = 0) -> Walk:
        return self.tell(Began, walk=walk_id, plan=a_plan or plan(), number=number)

    def ok(self, *steps: str) -> Walk:
        for id_ in steps:
            self.tell(Answered, step=id_, answer="ok")
        return self.walk

    def found(self, step_id: str, answer: str = "defect", **seen: str) -> Walk:
        return self.tell(Answered, step=step_id, answer=answer, seen=seen)

    def back(self, step_id: str, purpose: str = "change") -> Walk:
        return self.tell(Revisited, step=step_id, purpose=purpose)

    def hold(self, step_id: str = HOLD, end_psi: float = 109.0) -> Walk:
        """A whole air hold of one minute, from 110 psi down to `end_psi`."""
        self.tell(HoldBegan, step=step_id)
        for at_s, psi in ((0.0, 110.0), (60.0, end_psi)):
            self.tell(ReadingTaken, step=step_id, gauge="supply", at_s=at_s, psi=psi)
        return self.tell(HoldEnded, step=step_id)


def begun(a_plan: Plan | None = None, walk_id: str = WALK_ID) -> Teller:
    """A walk that has just begun."""
    teller = Teller()
    teller.begin(a_plan, walk_id)
    return teller


def some_events(walk_id: str = WALK_ID) -> tuple[Began, *tuple[Event, ...]]:
    """A few events, with text beyond ASCII and a fault seen."""
    teller = begun(walk_id=walk_id)
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dim")
    teller.tell(Answered, step="backup_rear", answer="not_fitted")
    return (teller.first, *teller.walk.events[1:])


def small_events() -> tuple[Event, ...]:
    """Four events of a walk whose plan is small, so that every byte can be damaged in turn."""
    teller = begun(plan((STEPS[0], STEPS[2])))
    teller.ok("chocks")
    teller.tell(Noted, step="chocks", text="naß")
    teller.found("backup_rear", backup_centre="dim")
    return teller.walk.events


def row_spans(export_walk: bytes) -> list[tuple[int, int]]:
    """Where each event's row starts and ends in a walk's file, found line by line."""
    spans, at = [], 0
    for line in export_walk.splitlines(keepends=True):
        if b'"seq"' in line:
            spans.append((at + line.find(b"{"), at + line.rfind(b"}") + 1))
        at += len(line)
    return spans


def row_at(spans: list[tuple[int, int]], place: int) -> int | None:
    """The number of the row in which this byte is, if it is in one."""
    rows = (row for row, (start, end) in enumerate(spans) if start <= place < end)
    return next(rows, None)


def flipped(data: bytes, place: int, mask: int) -> bytes:
    """The bytes with the masked bits of one of them turned over."""
    return data[:place] + bytes([data[place] ^ mask]) + data[place + 1 :]


def defective(step_id: str = "tail_rear") -> Teller:
    teller = begun()
    teller.ok("chocks")
    teller.found(step_id, tail_left="dark")
    return teller


def at_the_hold(phase: Phase) -> Teller:
    """A walk in this phase whose present step is the air hold, with readings in if it runs."""
    teller = Teller()
    if phase == "unstarted":
        return teller
    teller.begin()
    teller.ok("chocks", "tail_rear", "backup_rear", "reflectors_rear")
    if phase == "holding":
        teller.tell(HoldBegan, step=HOLD)
        for at_s in (0.0, 60.0):
            teller.tell(ReadingTaken, step=HOLD, gauge="supply", at_s=at_s, psi=110.0)
    if phase == "paused":
        teller.tell(Paused)
    if phase == "finished":
        teller.tell(Finished)
    return teller


def refused(teller: Teller, kind: type[Any], **body: Any) -> str:
    """The sentence with which the event is refused; the walk must not have changed."""
    before = teller.walk
    with pytest.raises(NotNowError) as caught:
        teller.tell(kind, **body)
    assert teller.walk is before
    assert fold(before.events) == before
    return str(caught.value)
