"""What a moment is, so that a record can tell time that passed from a clock that was set.

The core never asks for the time; the shell hands it a `Moment`. `mono_s` runs on through a
restart of the server but not through a reboot (`boot` changes) and stands still while the
computer sleeps (`asleep_s` grows instead).
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime

from pydantic import AwareDatetime, BaseModel, ConfigDict


class Moment(BaseModel):
    """One instant.

    Attributes:
        utc: the wall clock, with its zone.
        mono_s: seconds on a monotonic clock of this boot that stands still during sleep.
        boot: an id that changes with every boot of the computer.
        asleep_s: seconds that this boot has slept, as far as the system tells.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    utc: AwareDatetime
    mono_s: float
    boot: str
    asleep_s: float = 0.0

    def local_text(self) -> str:
        """Day and time on this computer's own clock, as people write it."""
        return f"{self.local():%Y-%m-%d %H:%M}"

    def local(self) -> datetime:
        """The wall clock in this computer's zone."""
        return self.utc.astimezone()


Clock = Callable[[], Moment]
"""The port that the shell fills: call it and it is now."""
