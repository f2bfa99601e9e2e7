"""Answers as odd as a walk allows: faults, notes, readings and values at their limits."""

from __future__ import annotations

from random import Random
from typing import Any, get_args

from support.strangedata import lines, text
from support.walks import FakeClock

from walkaround.airhold.gauge import COARSEST_PSI, GAUGE_STEPS
from walkaround.base.units import from_psi
from walkaround.bootstrap import Parts
from walkaround.plan.steps import Plan, Step
from walkaround.records.open_walks import Change
from walkaround.rules.limits import MOST_PSI
from walkaround.rules.measure_checks import MOST_VALUE
from walkaround.walk.answers import answer_for, faults_for
from walkaround.walk.events import (
    AirTemperature,
    Answered,
    GaugesTold,
    HoldBegan,
    HoldEnded,
    Measured,
    Noted,
    ReadingTaken,
    Reason,
    TimerBegan,
)
from walkaround.walk.measured_values import outcome
from walkaround.walk.state import Walk

LONGEST_NOTE, LONGEST_WHO = 500, 80


def name(chance: Random) -> str:
    """Who signs an event; longer than the app itself lets anybody be called."""
    return text(chance, LONGEST_WHO)


def note(chance: Random, step: Step) -> Change:
    """A note: five hundred characters, some lines of them, or nothing but pictures."""
    long = text(chance, LONGEST_NOTE), lines(chance, LONGEST_NOTE), "\U0001f69b" * LONGEST_NOTE
    return Noted, {"step": step.id, "text": chance.choice(long)}


def begun_hold(step: Step) -> list[Change]:
    """An air hold that runs, its first readings in."""
    assert step.hold is not None
    began: list[Change] = [(HoldBegan, {"step": step.id})]
    return began + [_reading(step, line, 0.0, psi) for line, psi in step.hold.set_psi.items()]


def ended_hold(chance: Random, step: Step) -> list[Change]:
    """The rest of it: nothing lost, everything, or more air than there was, evenly."""
    rule = step.hold
    assert rule is not None
    gained = chance.choice((-1.0, -0.5, 0.0, 1.0))
    readings = [
        _reading(step, line, at_s, min(MOST_PSI, psi * (1 + gained * at_s / rule.seconds)))
        for at_s in (rule.seconds / 2, rule.seconds)
        for line, psi in rule.set_psi.items()
    ]
    end: Change = (HoldEnded, {"step": step.id, "how": "early", "at_s": rule.seconds})
    air: Change = (AirTemperature, {"step": step.id, "start_c": -60.0, "end_c": 80.0})
    return [*readings, end, *([air] if chance.random() < 0.5 else [])]


def _reading(step: Step, line: str, at_s: float, psi: float) -> Change:
    return ReadingTaken, {"step": step.id, "gauge": line, "at_s": at_s, "psi": psi}


def told(chance: Random, parts: Parts, walk: Walk, step: Step) -> list[Change]:
    """What a step asks for before it can be answered."""
    assert walk.plan is not None
    if step.kind == "gauges" and walk.plan.gauges:
        return [_gauges(chance, walk.plan, step)]
    if step.wait and isinstance(parts.clock, FakeClock):
        parts.clock.wait(step.wait.seconds + 1.0)
    if step.measure is None:
        return []
    unit = {"psi": ("psi", "kPa", "bar"), "in": ("in", "mm"), "s": ("s",)}[step.measure.quantity]
    taken: list[Change] = [(TimerBegan, {"step": step.id})] if unit == ("s",) else []
    for value in step.measure.values:
        amount = chance.choice((0.0, MOST_VALUE, value.at_most or 1.5, value.at_least or 1.0))
        body = {"value_id": value.id, "value": amount, "unit": chance.choice(unit)}
        if chance.random() < 0.9:
            taken.append((Measured, {"step": step.id, **body}))
    return taken


def _gauges(chance: Random, plan: Plan, step: Step) -> Change:
    gauges = {}
    for line in plan.gauges:
        unit = chance.choice([*GAUGE_STEPS])
        marks = 0.01, round(from_psi(COARSEST_PSI, unit) - 0.01, 2), *GAUGE_STEPS[unit]
        gauges[line] = {
            "name": text(chance, 40),
            "unit": unit,
            "step": chance.choice(marks),
            # Taps at marks need a needle on them; the readings of these walks are anywhere.
            "crossing": False,
        }
    altitude_m = chance.choice((-500.0, 0.0, 6000.0))
    body = {"gauges": gauges, "altitude_m": altitude_m, "at_zero": chance.random() < 0.5}
    return GaugesTold, {"step": step.id, **body}


def answer(chance: Random, walk: Walk, step: Step) -> Change:
    """An answer that the step takes as the walk stands."""
    body: dict[str, Any] = {"step": step.id, "reason": None, "seen": {}}
    leave = {**body, "answer": "not_checked", "reason": chance.choice(get_args(Reason))}
    bad, good = {**body, "answer": "defect"}, {**body, "answer": "ok"}
    if step.choices:
        good["choice"] = chance.choice(step.choices).id
    if step.must:
        return Answered, good
    if step.hold:
        hold = walk.holds.get(step.id)
        if hold is None or not hold.ended:
            return Answered, leave
        return Answered, bad if hold.over() else chance.choice((good, bad))
    if step.measure:
        found = outcome(step.measure, walk.measured.get(step.id, {}))
        can = {"within": (good, bad, leave), "outside": (bad,)}.get(found, (bad, leave))
        return Answered, chance.choice(can)
    if step.kind == "gauges" and walk.told_gauges is None:
        return Answered, leave
    if step.items and chance.random() < 0.7:
        items = chance.sample(step.items, chance.randint(1, len(step.items)))
        seen = {
            item.id: chance.choice(faults_for(item, step.expect.get(item.id, "steady")))
            for item in items
        }
        return Answered, {**body, "seen": seen, "answer": answer_for(step, seen)}
    return Answered, chance.choice((good, good, bad, leave))


def answered(chance: Random, parts: Parts, walk_id: str, who: str, step: Step) -> None:
    """Everything that one step asks, done to its walk; where it is under way it is gone on with."""
    open_walks = parts.open_walks
    walk = open_walks.walk(walk_id)
    if step.hold and walk.phase == "holding":
        walk = open_walks.do(walk_id, who, *ended_hold(chance, step))
    elif step.hold and step.id not in walk.holds and chance.random() < 0.8:
        walk = open_walks.do(walk_id, who, *begun_hold(step), *ended_hold(chance, step))
    changes = told(chance, parts, walk, step) if step.id not in walk.measured else []
    walk = open_walks.do(walk_id, who, *changes) if changes else walk
    noted = [note(chance, step)] if chance.random() < 0.5 else []
    open_walks.do(walk_id, who, *noted, answer(chance, walk, step))
