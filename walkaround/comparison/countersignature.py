"""An instructor's signature under a double check, as it is stored."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict, Field

from walkaround.base.clock import Moment
from walkaround.walk.state import Walk


class Countersignature(BaseModel):
    """The signature of an instructor who has looked at both walks.

    Attributes:
        first, second: the ids of the walks.
        seals: the seals of their last events, which say what was signed.
        who: the name of the instructor.
        at: when it was signed.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    first: str = Field(pattern=r"^[0-9a-z_]+$")
    second: str = Field(pattern=r"^[0-9a-z_]+$")
    seals: tuple[str, str]
    who: str = Field(min_length=1, max_length=80)
    at: Moment

    def holds_for(self, first: Walk, second: Walk) -> bool:
        """Tell whether these two walks were signed as they are now."""
        walks = (first, second)
        return (self.first, self.second) == (first.id, second.id) and self.seals == seals(*walks)


def seals(first: Walk, second: Walk) -> tuple[str, str]:
    """Return the seals of the last events of two walks."""
    return first.events[-1].digest, second.events[-1].digest


def walker(walk: Walk) -> str:
    """Return the name of the person who walks."""
    return walk.events[0].who
