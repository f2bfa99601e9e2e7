"""The differences between two walks of one vehicle, step by step."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from walkaround.airhold.hold import Hold
from walkaround.base.units import to_in
from walkaround.comparison.agreement import Agreement, agreement
from walkaround.plan.steps import Step
from walkaround.rules.limits import Line
from walkaround.walk.chambers import chamber_at, ends_of, in_doubt
from walkaround.walk.events import Measured
from walkaround.walk.measured_values import in_base
from walkaround.walk.state import Walk

_ROUNDING = 1e-6
NOT_CHECKED = "not_checked"


@dataclass(frozen=True, slots=True)
class Difference:
    """A step at which two walks differ.

    Attributes:
        step: the step.
        answers_differ: whether the answer, what was seen of an item, or a brake chamber differs.
        things: the ids of the items of which they said different things.
        readings_differ: whether values or air holds differ by more than the scales can show.
    """

    step: Step
    answers_differ: bool
    things: tuple[str, ...]
    readings_differ: bool


@dataclass(frozen=True, slots=True)
class Comparison:
    """The result of comparing two walks.

    Attributes:
        differences: where they differ, in the order of the steps.
        agreement: how far they agree, over each item of each step that looks at something.
    """

    differences: tuple[Difference, ...]
    agreement: Agreement


def compare(first: Walk, second: Walk) -> Comparison:
    """Compare two walks; a step that only one of them has is left out."""
    differences: list[Difference] = []
    judgments: list[tuple[str, str]] = []
    second_steps = {step.id: step for step in second.steps}
    for step in first.steps:
        if not step.looks or step.id not in second_steps:
            continue
        first_answers, second_answers = (
            _judgments(first, step),
            _judgments(second, second_steps[step.id]),
        )
        pairs = {
            thing: (first_answers[thing], second_answers.get(thing, NOT_CHECKED))
            for thing in first_answers
        }
        judgments += pairs.values()
        things = tuple(thing for thing, (left, right) in pairs.items() if left != right)
        answers = {
            answered.answer if (answered := walk.answers.get(step.id)) else NOT_CHECKED
            for walk in (first, second)
        }
        answers_differ = bool(things) or len(answers) > 1 or _chambers_differ(first, second, step)
        readings_differ = any(_values_differ(first, second, step)) or _holds_differ(
            first, second, step
        )
        if answers_differ or readings_differ:
            differences.append(Difference(step, answers_differ, things, readings_differ))
    return Comparison(tuple(differences), agreement(judgments))


def _judgments(walk: Walk, step: Step) -> dict[str, str]:
    """Return what was said of each item of a step, by its id; by the step's id if it has no items.

    A fault that names no item is said of each of them.
    """
    answered = walk.answers.get(step.id)
    answer = answered.answer if answered else NOT_CHECKED
    things = [item.id for item in step.items] or [step.id]
    seen = answered.seen if answered else {}
    other_answer = "ok" if seen else answer
    return {thing: str(seen.get(thing, other_answer)) for thing in things}


def _chambers_differ(first: Walk, second: Walk, step: Step) -> bool:
    return any(
        (chamber_at(first, end), in_doubt(first, end))
        != (chamber_at(second, end), in_doubt(second, end))
        for end in ends_of(step)
    )


def _values_differ(first: Walk, second: Walk, step: Step) -> Iterator[bool]:
    """Tell for each value of a step whether the readings differ by more than the scales can show.

    Each was read to the nearest mark, so values one mark apart on the coarser of the two scales may
    be the same.
    """
    first_values, second_values = first.measured.get(step.id, {}), second.measured.get(step.id, {})
    for value in step.values:
        first_value, second_value = first_values.get(value.id), second_values.get(value.id)
        if first_value is None or second_value is None:
            # A value that only one person read counts as a difference.
            yield first_value is not second_value
            continue
        gauges = [walk.gauge(value.gauge) for walk in (first, second)] if value.gauge else []
        scale_steps = [
            _scale_step(first_value),
            _scale_step(second_value),
            *(gauge.step_psi for gauge in gauges),
        ]
        yield abs(in_base(first_value) - in_base(second_value)) > max(scale_steps) + _ROUNDING


def _scale_step(reading: Measured) -> float:
    """Return the step of the scale a value was read from, in inches or seconds; 0 for a gauge.

    A tape is read to sixteenths of an inch or whole millimeters, a stopwatch to a second; the step
    of a gauge is part of the gauge.
    """
    match reading.unit:
        case "s":
            return 1.0
        case "in":
            return 1 / 16
        case "mm":
            return to_in(1.0, "mm")
        case _:
            return 0.0


def _holds_differ(first: Walk, second: Walk, step: Step) -> bool:
    """Tell whether the leak rates of a step's air holds differ by more than the gauges can show.

    A reading is off by half a mark at most, the drop between two of them by a mark; so a rate is
    known to a mark over the minutes from the first to the last reading.
    """
    first_hold, second_hold = first.holds.get(step.id), second.holds.get(step.id)
    if first_hold is None or second_hold is None:
        return first_hold is not second_hold
    for line in first_hold.rule.gauges:
        first_rate, second_rate = _rate(first_hold, line), _rate(second_hold, line)
        if first_rate is None or second_rate is None:
            if first_rate is not second_rate:
                return True
            continue
        if abs(first_rate[0] - second_rate[0]) > first_rate[1] + second_rate[1] + _ROUNDING:
            return True
    return False


def _rate(hold: Hold, line: Line) -> tuple[float, float] | None:
    """Return the leak rate of one gauge and its uncertainty, psi/min; None if there is no rate."""
    readings = [reading for reading in hold.readings if reading.gauge == line]
    if hold.void or len(readings) < 2 or readings[-1].at_s <= readings[0].at_s:
        return None
    minutes = (readings[-1].at_s - readings[0].at_s) / 60
    return (readings[0].psi - readings[-1].psi) / minutes, hold.gauge(line).step_psi / minutes
