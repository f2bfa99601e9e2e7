"""An instructor's name under a double check, as it is kept."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field

from walkaround.base.clock import Moment
from walkaround.walk.state import Walk


class Countersigned(BaseModel):
    """Somebody has looked at both walks and signs for what they say.

    Attributes:
        first, second: the ids of the walks.
        seals: of the last event of each, so that it is known what was signed.
        who: the instructor.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    first: str = Field(pattern=r"^[0-9a-z_]+$")
    second: str = Field(pattern=r"^[0-9a-z_]+$")
    seals: tuple[str, str]
    who: str = Field(min_length=1, max_length=80)
    at: Moment

    def holds_for(self, first: Walk, second: Walk) -> bool:
        """Tell whether these two walks were signed, as they are now."""
        walks = (first, second)
        return (self.first, self.second) == (first.id, second.id) and self.seals == seals(*walks)


def seals(first: Walk, second: Walk) -> tuple[str, str]:
    """List the seals of the last event of each walk."""
    return first.events[-1].digest, second.events[-1].digest


def walker(walk: Walk) -> str:
    """Who began a walk, and makes it."""
    return walk.events[0].who
