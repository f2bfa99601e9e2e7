"""A computer whose clock is set, that sleeps and that restarts, while true time goes on."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

from walkaround.base.clock import Moment

FIRST = datetime(1970, 1, 1, tzinfo=UTC)
LAST = datetime(9999, 12, 31, 23, 59, 59, tzinfo=UTC)


@dataclass
class TroubledClock:
    """Call it for the moment that the computer believes it is; `true_s` is what has passed.

    Attributes:
        tells_boot: as Linux does; elsewhere all it has are a wall clock and a monotonic one.
    """

    tells_boot: bool = True
    wall: datetime = datetime(2026, 11, 25, 8, 15, 2, tzinfo=UTC)
    true_s: float = 0.0
    boots: int = 0
    _booted_s: float = field(default=-1000.0, init=False)
    _slept_s: float = field(default=0.0, init=False)
    _set_s: float = field(default=0.0, init=False)

    def __call__(self) -> Moment:
        mono_s = round(self.true_s - self._booted_s - self._slept_s, 6)
        utc = self._shown(self._set_s)
        if self.tells_boot:
            return Moment(utc=utc, mono_s=mono_s, boot=f"boot_{self.boots}", asleep_s=self._slept_s)
        return Moment(utc=utc, mono_s=mono_s, boot="darwin", asleep_s=utc.timestamp() - mono_s)

    def wait(self, seconds: float) -> None:
        self.true_s += seconds

    def sleep(self, seconds: float) -> None:
        self.true_s += seconds
        self._slept_s += seconds

    def reboot(self, off_s: float, up_s: float = 20.0) -> None:
        """Off for so long, and on again for so long before anybody asks."""
        self.true_s += off_s
        self.boots += 1
        self._booted_s, self._slept_s = self.true_s, 0.0
        self.true_s += up_s

    def set_to(self, wall: datetime) -> None:
        """Set the wall clock, as far as it goes."""
        self._set_s += (wall - self._shown(self._set_s)).total_seconds()

    def set_by(self, seconds: float) -> None:
        self._set_s += seconds

    def _shown(self, set_s: float) -> datetime:
        by = timedelta(seconds=self.true_s + set_s)
        return min(LAST, max(FIRST, LAST if by > LAST - self.wall else self.wall + by))
