"""What is wrong with what a checklist measures: air holds, values, waits, limits, choices.

Each check is a function (checklist, where) -> problems, as in checking.py.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator

from walkaround.base.errors import Problem
from walkaround.rules.checklist import Checklist, StepRule
from walkaround.rules.limits import MOST_HOLD_S, MOST_PSI

# The table that goes with each kind of step that measures.
_TABLES = ("hold", "measure", "wait")
# Nobody waits for longer than a day.
MOST_WAIT_S = 86_400.0
# As much as an event takes, in any unit.
MOST_VALUE = 5_000.0


def tables_go_with_kinds(checklist: Checklist, where: str) -> list[Problem]:
    """A step that holds, measures or waits has the table of its kind, and no other step has one."""
    found = []
    for step in checklist.steps:
        for name in _TABLES:
            key, there = f"step {step.id}.{name}", getattr(step, name) is not None
            if step.kind == name and not there:
                mend = f"add the {name} table or change kind"
                found.append(Problem(where, key, "is missing", mend))
            if step.kind != name and there:
                what = f"stands in a step of kind {step.kind}"
                found.append(Problem(where, key, what, f'take it out or set kind = "{name}"'))
    return found


def holds_can_be_run(checklist: Checklist, where: str) -> list[Problem]:
    """An air hold asks for no longer time and no higher pressure than a reading can have."""
    found = []
    for step in checklist.steps:
        if step.hold is None:
            continue
        # The minute starts with the first readings, which may come late.
        most = {"seconds": MOST_HOLD_S / 2, "limit_psi_per_min": MOST_PSI}
        asked = {key: getattr(step.hold, key) for key in most}
        for gauge, psi in step.hold.set_psi.items():
            most[f"set_psi.{gauge}"], asked[f"set_psi.{gauge}"] = MOST_PSI, psi
        found += [
            Problem(
                where, f"step {step.id}.hold.{key}", f"is {value:g}", f"write {most[key]:g} at most"
            )
            for key, value in asked.items()
            if value > most[key]
        ]
    return found


def holds_can_be_left(checklist: Checklist, where: str) -> list[Problem]:
    """An air hold, a value, a wait or a gauge may have to be given up, so none can be a must."""
    words = {
        "hold": "an air hold",
        "measure": "a measured step",
        "wait": "a wait",
        "gauges": "the step of the gauges",
    }
    return [
        Problem(where, f"step {step.id}.must", f"{words[step.kind]} cannot be a must", _NO_MUST)
        for step in checklist.steps
        if step.must and step.kind in words
    ]


def limits_bound_something(checklist: Checklist, where: str) -> list[Problem]:
    """A limit row has a bound and an id of its own, and stands where something is limited."""
    found = []
    for step in checklist.steps:
        for id_, count in Counter(row.id for row in step.limits).items():
            if count > 1:
                what = f"{count} limits have this id"
                found.append(Problem(where, _limit(step, id_), what, "give each its own id"))
        for row in step.limits:
            if row.at_least is None and row.at_most is None:
                mend = "add at_least or at_most"
                found.append(Problem(where, _limit(step, row.id), "bounds nothing", mend))
            if row.at_least is not None and row.at_most is not None and row.at_least > row.at_most:
                what, mend = f"is {row.at_least:g}, above at_most", "write the lower bound there"
                found.append(Problem(where, f"{_limit(step, row.id)}.at_least", what, mend))
            if step.hold is not None and (row.at_most is None or row.at_most <= 0):
                what, mend = "is no loss of pressure", "write at_most in psi/min, above 0"
                found.append(Problem(where, f"{_limit(step, row.id)}.at_most", what, mend))
        if step.limits and step.hold is None and step.measure is None:
            key, what = f"step {step.id}.limit", f"stands in a step of kind {step.kind}"
            found.append(Problem(where, key, what, _OUT))
    return found


def values_are_named(checklist: Checklist, where: str) -> list[Problem]:
    """Pressures are read off gauges, each once, and nothing else is; a drop is one of pressure."""
    found = []
    for step in checklist.steps:
        if step.measure is None:
            continue
        key, pressure = f"step {step.id}.measure", step.measure.quantity == "psi"
        if pressure and not step.measure.of:
            found.append(Problem(where, f"{key}.of", "is missing", "name the gauges that are read"))
        if not pressure and step.measure.of:
            found.append(Problem(where, f"{key}.of", "is read off no gauge", _OUT))
        if len(set(step.measure.of)) < len(step.measure.of):
            found.append(Problem(where, f"{key}.of", "names a gauge twice", "name each once"))
        if not pressure and step.measure.drop:
            found.append(Problem(where, f"{key}.drop", "is no drop of pressure", _OUT))
    return found


def strokes_are_of_wheel_ends(checklist: Checklist, where: str) -> list[Problem]:
    """A length is a stroke at one wheel end, against the limit of its chamber, and nothing else."""
    found = []
    for step in checklist.steps:
        if step.measure is None:
            continue
        key, length = f"step {step.id}.measure.limits_from", step.measure.quantity == "in"
        if length != (step.measure.limits_from == "strokes"):
            what = "goes with a length, and with nothing else"
            mend = 'write limits_from = "strokes"' if length else 'set quantity = "in"'
            found.append(Problem(where, key, what, mend))
        elif length and not step.per_end:
            what = "is the limit of one wheel end's chamber"
            found.append(Problem(where, key, what, "set per_end = true"))
        if step.measure.limits_from and step.limits:
            what = "stands beside limits_from, which counts"
            found.append(Problem(where, f"step {step.id}.limit", what, _OUT))
    return found


def stopwatches_say_when(checklist: Checklist, where: str) -> list[Problem]:
    """A time says what is tapped at its start and its end, and nothing else does."""
    found = []
    for step in checklist.steps:
        if step.measure is None:
            continue
        timed = step.measure.quantity == "s"
        for key, text in {"begin": step.measure.begin, "end": step.measure.end}.items():
            if timed != bool(text.strip()):
                what = "is missing" if timed else f"is {text}, but no time is taken"
                mend = "write what is tapped then" if timed else _OUT
                found.append(Problem(where, f"step {step.id}.measure.{key}", what, mend))
    return found


def waits_wait_for_a_step(checklist: Checklist, where: str) -> list[Problem]:
    """A wait counts from another step of the same file."""
    known = {step.id for step in checklist.steps}
    return [
        Problem(
            where,
            f"step {step.id}.wait.after",
            f"is {step.wait.after}, which is no other step of this file",
            "write the id of the step from which the time counts",
        )
        for step in checklist.steps
        if step.wait is not None and step.wait.after not in known - {step.id}
    ]


def numbers_can_be_met(checklist: Checklist, where: str) -> list[Problem]:
    """A wait ends within a day, and no value or limit is beyond what can be entered."""
    found = []
    for step in checklist.steps:
        asked: dict[str, tuple[float | None, float]] = {}
        if step.wait is not None:
            asked["wait.seconds"] = (step.wait.seconds, MOST_WAIT_S)
        if step.measure is not None:
            asked["measure.start"] = (step.measure.start, MOST_VALUE)
        # The loss of an air hold is told up to as much, for two more towed units too.
        most = MOST_PSI / 3 if step.hold is not None else MOST_VALUE
        for row in step.limits:
            for name in ("at_least", "at_most", "per_extra_towed"):
                asked[f"limit {row.id}.{name}"] = (getattr(row, name), most)
        found += [
            Problem(where, f"step {step.id}.{key}", f"is {value:g}", f"write {most:g} at most")
            for key, (value, most) in asked.items()
            if value is not None and abs(value) > most
        ]
    return found


def choices_are_there(checklist: Checklist, where: str) -> list[Problem]:
    """What is chosen for a step of the same file is one of its limits."""
    return list(_odd_choices(checklist, where))


def _odd_choices(checklist: Checklist, where: str) -> Iterator[Problem]:
    steps = {step.id: [row.id for row in step.limits] for step in checklist.steps}
    for step_id, row_id in checklist.chosen.items():
        rows = steps.get(step_id)
        if rows is not None and row_id not in rows:
            mend = f"use one of: {', '.join(rows)}" if rows else "take it out"
            what = f"is {row_id}, which is no limit of that step"
            yield Problem(where, f"chosen.{step_id}", what, mend)


def _limit(step: StepRule, id_: str) -> str:
    return f"step {step.id}.limit {id_}"


_NO_MUST = "set must = false"
_OUT = "take it out"

MEASURE_CHECKS: list[Callable[[Checklist, str], list[Problem]]] = [
    tables_go_with_kinds,
    holds_can_be_run,
    holds_can_be_left,
    limits_bound_something,
    values_are_named,
    strokes_are_of_wheel_ends,
    stopwatches_say_when,
    waits_wait_for_a_step,
    numbers_can_be_met,
    choices_are_there,
]
