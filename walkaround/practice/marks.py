"""What was found in practice, what was missed, and what was reported that was none."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal, NamedTuple

from walkaround.plan.steps import Item, Step
from walkaround.practice.vehicle import WHOLE, PracticeVehicle
from walkaround.walk.events import NO_FAULT, Answered
from walkaround.walk.state import FAULTS

Result = Literal["found", "called_otherwise", "missed", "none_there"]


class Marked(NamedTuple):
    """One thing that was due or was reported: at which step, of which item; none for the step."""

    step: Step
    item: Item | None
    result: Result


@dataclass(frozen=True, slots=True)
class Marks:
    """The marks of a practice: everything that was due or reported."""

    every: tuple[Marked, ...]

    @property
    def due(self) -> int:
        """How many things there were to find."""
        return sum(each.result != "none_there" for each in self.every)

    @property
    def full(self) -> int:
        """How many were found and called by their name, less what was reported that was none."""
        right = sum(each.result == "found" for each in self.every)
        return max(0, right - sum(each.result == "none_there" for each in self.every))


def marks(vehicle: PracticeVehicle, answers: Mapping[str, Answered]) -> Marks:
    """Hold the answers of a walk in practice against what its vehicle showed."""
    return Marks(
        tuple(
            marked_fault
            for step in vehicle.plan.steps
            for marked_fault in _at(step, vehicle, answers.get(step.id))
        )
    )


def _at(step: Step, vehicle: PracticeVehicle, answered: Answered | None) -> Iterator[Marked]:
    due = vehicle.due(step)
    items = {item.id: item for item in step.items}
    faulty = answered is not None and answered.answer in FAULTS
    seen = answered.seen.items() if answered else ()
    reported = {id_: what for id_, what in seen if what not in NO_FAULT}
    for id_, to_say in due.items():
        if id_ == WHOLE:
            yield Marked(step, None, "found" if faulty else "missed")
        elif id_ not in reported:
            yield Marked(step, items[id_], "missed")
        else:
            right = reported[id_] in to_say
            yield Marked(step, items[id_], "found" if right else "called_otherwise")
    if WHOLE in due:
        return
    for id_ in reported:
        if id_ not in due:
            yield Marked(step, items[id_], "none_there")
    if faulty and not reported:
        yield Marked(step, None, "none_there")
