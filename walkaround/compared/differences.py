"""Two walks of one vehicle held against each other, step by step."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from walkaround.airhold.hold import Hold
from walkaround.base.units import to_in
from walkaround.compared.agreement import Agreement, agreement
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
        said: whether the answer differs, or what was seen of some thing, or which chamber was read.
        things: the ids of the things of which they said other things.
        read: whether values or air holds differ by more than was to be told apart.
    """

    step: Step
    said: bool
    things: tuple[str, ...]
    read: bool


@dataclass(frozen=True, slots=True)
class Comparison:
    """What came out: where the walks differ, and how far they agree.

    Attributes:
        differences: in the order of the steps.
        agreed: over each thing of each step that finds something out.
    """

    differences: tuple[Difference, ...]
    agreed: Agreement


def compared(first: Walk, second: Walk) -> Comparison:
    """Hold two walks on the same steps against each other; a step of only one is left out."""
    differences: list[Difference] = []
    judged: list[tuple[str, str]] = []
    theirs = {step.id: step for step in second.steps}
    for step in first.steps:
        if not step.looks or step.id not in theirs:
            continue
        one, other = _judged(first, step), _judged(second, theirs[step.id])
        pairs = {thing: (one[thing], other.get(thing, NOT_CHECKED)) for thing in one}
        judged += pairs.values()
        things = tuple(thing for thing, (left, right) in pairs.items() if left != right)
        answers = {
            given.answer if (given := walk.answers.get(step.id)) else NOT_CHECKED
            for walk in (first, second)
        }
        said = bool(things) or len(answers) > 1 or _chambers_differ(first, second, step)
        read = any(_values_apart(first, second, step)) or _holds_apart(first, second, step)
        if said or read:
            differences.append(Difference(step, said, things, read))
    return Comparison(tuple(differences), agreement(judged))


def _judged(walk: Walk, step: Step) -> dict[str, str]:
    """What was said of each thing of a step, by the thing's id; of a step without any by its own.

    A fault that names no thing is said of every one of them.
    """
    given = walk.answers.get(step.id)
    answer = given.answer if given else NOT_CHECKED
    things = [item.id for item in step.items] or [step.id]
    seen = given.seen if given else {}
    others = "ok" if seen else answer
    return {thing: str(seen.get(thing, others)) for thing in things}


def _chambers_differ(first: Walk, second: Walk, step: Step) -> bool:
    return any(
        (chamber_at(first, end), in_doubt(first, end))
        != (chamber_at(second, end), in_doubt(second, end))
        for end in ends_of(step)
    )


def _values_apart(first: Walk, second: Walk, step: Step) -> Iterator[bool]:
    """Whether each value of a step was read otherwise, by more than its scale can show.

    Each was read to the nearest mark, so what is one mark apart, of the coarser of the two scales,
    may have been the same.
    """
    ones, others = first.measured.get(step.id, {}), second.measured.get(step.id, {})
    for value in step.values:
        one, other = ones.get(value.id), others.get(value.id)
        if one is None or other is None:
            # Nobody can tell whether it would have been the same.
            yield one is not other
            continue
        gauges = [walk.gauge(value.gauge) for walk in (first, second)] if value.gauge else []
        marks = [_mark(one), _mark(other), *(gauge.step_psi for gauge in gauges)]
        yield abs(in_base(one) - in_base(other)) > max(marks) + _ROUNDING


def _mark(reading: Measured) -> float:
    """How far apart two values are that can be told, in psi, inches or seconds.

    A tape is read to sixteenths of an inch or whole millimetres, a stopwatch to a second; what a
    gauge shows follows from the gauge.
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


def _holds_apart(first: Walk, second: Walk, step: Step) -> bool:
    """Whether the air holds of a step lost air at rates that no reading to the nearest mark joins.

    A reading is off by half a mark at most, the drop between two of them by a mark; so a rate is
    known to a mark over the minutes from the first to the last reading.
    """
    ones, others = first.holds.get(step.id), second.holds.get(step.id)
    if ones is None or others is None:
        return ones is not others
    for line in ones.rule.gauges:
        one, other = _rate(ones, line), _rate(others, line)
        if one is None or other is None:
            if one is not other:
                return True
            continue
        if abs(one[0] - other[0]) > one[1] + other[1] + _ROUNDING:
            return True
    return False


def _rate(hold: Hold, line: Line) -> tuple[float, float] | None:
    """The plain loss of one gauge and how far that is to be trusted, psi/min; None without one."""
    looks = [look for look in hold.readings if look.gauge == line]
    if hold.void or len(looks) < 2 or looks[-1].at_s <= looks[0].at_s:
        return None
    minutes = (looks[-1].at_s - looks[0].at_s) / 60
    return (looks[0].psi - looks[-1].psi) / minutes, hold.gauge(line).step_psi / minutes
