"""One walk under way, and what is stored of it: which answers came since, in which order."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from support.voices import SilentVoice

from browser.seeds import SEMITRAILER, answer, place_of, plan_for, walked
from walkaround.bootstrap import Parts, build
from walkaround.plan.steps import Step
from walkaround.records.reader import WalkReader
from walkaround.walk.events import Answered

STEP = "tail_rear"
"""From here on, step after step takes one tap on OK."""


@dataclass(frozen=True)
class OneWalk:
    """A walk that waits at a step.

    Attributes:
        parts: those of the app that has it, if it runs in this process.
        place: the number of the step, as the screen counts.
        before: the steps answered so far.
    """

    parts: Parts | None
    data: Path
    id: str
    steps: tuple[Step, ...]
    place: int
    before: tuple[str, ...]

    @property
    def path(self) -> str:
        return f"walk/{self.id}"

    def answered(self) -> tuple[str, ...]:
        """The steps answered since, in order, as they stand on the disk."""
        now = answered_steps(self.data, self.id)
        assert now[: len(self.before)] == self.before
        return now[len(self.before) :]

    def next_steps(self, count: int) -> tuple[str, ...]:
        """The ids of the first so many steps that were to come."""
        return tuple(step.id for step in self.steps[self.place - 1 :][:count])

    def answer_elsewhere(self) -> None:
        """Another page answers the step that is being asked."""
        assert self.parts is not None
        here = self.parts.open_walks.walk(self.id).here
        assert here is not None
        answer(self.parts, self.id, here)


def answered_steps(data: Path, walk_id: str) -> tuple[str, ...]:
    """Every step answered in a walk, in order, as it stands on the disk."""
    events = WalkReader(data).load(walk_id).events
    return tuple(event.step for event in events if isinstance(event, Answered))


def seeded(parts: Parts | None, data: Path) -> OneWalk:
    """A walk in this data folder; without an app of this process, before one is started."""
    own = parts or build(data, voice=SilentVoice())
    plan, walk_id = plan_for(own, SEMITRAILER), walked(own, SEMITRAILER, STEP)
    if parts is None:
        own.close()
    place = place_of(plan, STEP)
    return OneWalk(parts, data, walk_id, plan.steps, place, answered_steps(data, walk_id))
