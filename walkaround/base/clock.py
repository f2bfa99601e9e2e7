"""A moment by two clocks, so that a record can tell time that passed from a clock that was set.

The core never asks for the time; the shell hands it a `Moment`. `mono_s` runs on through a
restart of the server but not through a reboot (`boot` changes) and stands still while the
computer sleeps (`asleep_s` grows instead).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime

from pydantic import AwareDatetime, BaseModel, ConfigDict, Field

MOST_CLOCK_S = 1e12
"""No clock tells more seconds; the year 9999 is 2.5e11 s from 1970."""


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
    mono_s: float = Field(ge=-MOST_CLOCK_S, le=MOST_CLOCK_S, allow_inf_nan=False)
    boot: str = Field(max_length=80)
    asleep_s: float = Field(default=0.0, ge=-MOST_CLOCK_S, le=MOST_CLOCK_S, allow_inf_nan=False)

    @property
    def tells_boot(self) -> bool:
        """Whether the system tells sleep, restart and a clock that was set apart.

        Where it does not, `boot` is the bare name of the platform and `asleep_s` the distance
        between both clocks, which grows at each of the three.
        """
        return tells_boot(self.boot)

    def local_text(self) -> str:
        """Write day and time on this computer's own clock, as people write it."""
        return f"{self.local():%Y-%m-%d %H:%M}"

    def local(self) -> datetime:
        """Return the wall clock in this computer's zone; as it is where a zone cannot be had."""
        try:
            return self.utc.astimezone()
        except (OverflowError, OSError, ValueError):
            return self.utc  # a clock set beyond what the system's zones know


def tells_boot(boot: str) -> bool:
    """Tell whether this is the id of one boot, not the bare name of a platform."""
    return re.fullmatch("[a-z]+[0-9]*", boot) is None


Clock = Callable[[], Moment]
"""The port that the shell fills: call it and it is now."""
