"""What is wrong with what a checklist measures: air holds, values, waits, limits, choices."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from walkaround.base.checks import Flaw, above, standing_twice, unknown
from walkaround.base.message import message
from walkaround.rules.checklist import Checklist, StepRule
from walkaround.rules.limits import MOST_HOLD_S, MOST_PSI, MeasureRule

# The table that goes with each kind of step that measures.
_TABLES = ("hold", "measure", "wait")
# Nobody waits for longer than a day.
MOST_WAIT_S = 86_400.0
# As much as an event takes, in any unit.
MOST_VALUE = 5_000.0

_OUT = message("problem-take-it-out")
_HALVED = message("problem-add-a-bound")


def tables_go_with_kinds(checklist: Checklist) -> Iterator[Flaw]:
    """Check that a step that holds, measures or waits has the table of its kind, others none."""
    for step in checklist.steps:
        for name in _TABLES:
            key, there = f"step {step.id}.{name}", getattr(step, name) is not None
            if step.kind == name and not there:
                mend = message("problem-add-the-table-or-change-kind", table=name)
                yield Flaw(key, message("problem-is-missing"), mend)
            if step.kind != name and there:
                what = message("problem-stands-in-kind", kind=step.kind)
                yield Flaw(key, what, message("problem-take-it-out-or-set-kind", kind=name))


def holds_can_be_run(checklist: Checklist) -> Iterator[Flaw]:
    """Check that an air hold asks for no longer time or higher pressure than a reading allows."""
    for step in checklist.steps:
        if (hold := step.hold) is not None:
            key = f"step {step.id}.hold"
            # The minute starts with the first readings, which may come late.
            yield from above([(f"{key}.seconds", hold.seconds, MOST_HOLD_S / 2)])
            yield from above([(f"{key}.limit_psi_per_min", hold.limit_psi_per_min, MOST_PSI)])
            pressures = hold.set_psi.items()
            yield from above((f"{key}.set_psi.{gauge}", psi, MOST_PSI) for gauge, psi in pressures)


def holds_can_be_left(checklist: Checklist) -> Iterator[Flaw]:
    """Check that no hold, value, wait or gauge is a must: it may have to be given up."""
    for step in checklist.steps:
        if step.must and step.kind in (*_TABLES, "gauges"):
            what = message(f"trouble-no-must-{step.kind}")
            yield Flaw(f"step {step.id}.must", what, message("problem-set-must-false"))


def limits_bound_something(checklist: Checklist) -> Iterator[Flaw]:
    """Check that a limit row has a bound and its own id, and stands where something is limited."""
    for step in checklist.steps:
        yield from standing_twice(f"step {step.id}.limit {row.id}" for row in step.limits)
        for row in step.limits:
            key = f"step {step.id}.limit {row.id}"
            if row.at_least is None and row.at_most is None:
                yield Flaw(key, message("problem-bounds-nothing"), message("problem-add-a-bound"))
            if row.at_least is not None and row.at_most is not None and row.at_least > row.at_most:
                what = message("problem-above-at-most", value=f"{row.at_least:g}")
                yield Flaw(f"{key}.at_least", what, message("problem-write-the-lower-bound"))
            if step.hold is not None and (row.at_most is None or row.at_most <= 0):
                mend = message("problem-write-a-loss")
                yield Flaw(f"{key}.at_most", message("problem-is-no-loss"), mend)
        if step.limits and step.hold is None and step.measure is None:
            what = message("problem-stands-in-kind", kind=step.kind)
            yield Flaw(f"step {step.id}.limit", what, _OUT)


def halves_are_of_a_pressure(checklist: Checklist) -> Iterator[Flaw]:
    """Check that a limit by half of another pressure bounds one below and names the step."""
    pressures = {s.id for s in checklist.steps if s.measure and s.measure.quantity == "psi"}
    for step in checklist.steps:
        for row in step.limits:
            if not row.or_half_of:
                continue
            key = f"step {step.id}.limit {row.id}"
            if row.or_half_of not in pressures - {step.id}:
                what = message("trouble-unknown-other-step", name=row.or_half_of)
                yield unknown(f"{key}.or_half_of", what, row.or_half_of, pressures - {step.id})
            if row.at_least is None or step.id not in pressures:
                yield Flaw(f"{key}.at_least", message("problem-is-missing"), _HALVED)


def values_are_named(checklist: Checklist) -> Iterator[Flaw]:
    """Check that pressures, and nothing else, are read off gauges, each gauge once."""
    for key, _, measure in _measures(checklist):
        pressure = measure.quantity == "psi"
        if pressure and not measure.of:
            mend = message("problem-name-the-gauges")
            yield Flaw(f"{key}.of", message("problem-is-missing"), mend)
        if not pressure and measure.of:
            yield Flaw(f"{key}.of", message("problem-is-read-off-no-gauge"), _OUT)
        if len(set(measure.of)) < len(measure.of):
            what, mend = message("problem-names-a-gauge-twice"), message("problem-name-each-once")
            yield Flaw(f"{key}.of", what, mend)
        if not pressure and measure.drop:
            yield Flaw(f"{key}.drop", message("problem-is-no-drop"), _OUT)


def strokes_are_of_wheel_ends(checklist: Checklist) -> Iterator[Flaw]:
    """Check that a length is a stroke at one wheel end, against its chamber's limit."""
    for key, step, measure in _measures(checklist):
        length = measure.quantity == "in"
        if length != (measure.limits_from == "strokes"):
            mend = message("problem-write-strokes" if length else "problem-set-quantity-in")
            yield Flaw(f"{key}.limits_from", message("problem-goes-with-a-length"), mend)
        elif length and not step.per_end:
            what = message("problem-is-of-one-wheel-end")
            yield Flaw(f"{key}.limits_from", what, message("problem-set-true", key="per_end"))
        if measure.limits_from and step.limits:
            what = message("problem-stands-beside-limits-from")
            yield Flaw(f"step {step.id}.limit", what, _OUT)


def stopwatches_say_when(checklist: Checklist) -> Iterator[Flaw]:
    """Check that a time, and nothing else, says what is tapped at its start and end."""
    for key, _, measure in _measures(checklist):
        timed = measure.quantity == "s"
        for name, text in {"begin": measure.begin, "end": measure.end}.items():
            if timed != bool(text.strip()):
                what, mend = message("problem-no-time-is-taken", value=text), _OUT
                if timed:
                    what, mend = (
                        message("problem-is-missing"),
                        message("problem-write-what-is-tapped"),
                    )
                yield Flaw(f"{key}.{name}", what, mend)


def waits_wait_for_a_step(checklist: Checklist) -> Iterator[Flaw]:
    """Check that a wait counts from another step of the same file."""
    ids = {step.id for step in checklist.steps}
    for step in checklist.steps:
        if step.wait is not None and step.wait.after not in ids - {step.id}:
            what = message("trouble-unknown-other-step", name=step.wait.after)
            yield unknown(f"step {step.id}.wait.after", what, step.wait.after, ids - {step.id})


def numbers_can_be_met(checklist: Checklist) -> Iterator[Flaw]:
    """Check that a wait ends within a day, and no value or limit is beyond what can be entered."""
    for step in checklist.steps:
        key = f"step {step.id}"
        if step.wait is not None:
            yield from above([(f"{key}.wait.seconds", step.wait.seconds, MOST_WAIT_S)])
        if step.measure is not None:
            yield from above([(f"{key}.measure.start", step.measure.start, MOST_VALUE)])
        # The loss of an air hold is told up to as much, for two more towed units too.
        most = MOST_PSI / 3 if step.hold is not None else MOST_VALUE
        yield from above(
            (f"{key}.limit {row.id}.{name}", getattr(row, name), most)
            for row in step.limits
            for name in ("at_least", "at_most", "per_extra_towed")
        )


def choices_are_there(checklist: Checklist) -> Iterator[Flaw]:
    """Tell what is chosen for a step of the same file is one of its limits."""
    limits = {step.id: [row.id for row in step.limits] for step in checklist.steps}
    for step_id, chosen in checklist.chosen.items():
        if step_id in limits and chosen not in limits[step_id]:
            what = message("trouble-unknown-limit", name=chosen)
            yield unknown(f"chosen.{step_id}", what, chosen, limits[step_id])


def _measures(checklist: Checklist) -> Iterator[tuple[str, StepRule, MeasureRule]]:
    """Yield each step that takes values, with the key of its table."""
    for step in checklist.steps:
        if step.measure is not None:
            yield f"step {step.id}.measure", step, step.measure


MEASURE_CHECKS: list[Callable[[Checklist], Iterable[Flaw]]] = [
    tables_go_with_kinds,
    holds_can_be_run,
    holds_can_be_left,
    limits_bound_something,
    halves_are_of_a_pressure,
    values_are_named,
    strokes_are_of_wheel_ends,
    stopwatches_say_when,
    waits_wait_for_a_step,
    numbers_can_be_met,
    choices_are_there,
]
