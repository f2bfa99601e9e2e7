"""One air hold as it runs: how long is left, which readings are due, whether time can be trusted.

The clock decides, never a count of ticks: a page that drops and returns, or a server that
restarts within the same boot, finds the true time. A reboot or a sleep of the computer voids
the hold, since nobody knows what the needle did meanwhile.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from walkaround.airhold import Assessment, assess
from walkaround.checklist import HoldRule
from walkaround.clock import Moment

LATE_S = 10.0
"""A reading entered later than this after its mark is stamped with the time of entry: by then
the needle has been looked at again."""
ASLEEP_S = 1.0
"""Sleep shorter than this is clock noise."""


@dataclass(frozen=True, slots=True)
class HoldReading:
    """One look at one gauge: `at_s` seconds into the hold, `psi` gauge."""

    gauge: str
    at_s: float
    psi: float


@dataclass(frozen=True, slots=True)
class Hold:
    """The latest air hold of one step."""

    rule: HoldRule
    began: Moment
    readings: tuple[HoldReading, ...] = ()
    ended: bool = False
    void: str = ""

    @property
    def running(self) -> bool:
        """Started, and neither ended nor void."""
        return not self.ended and not self.void

    def elapsed_s(self, now: Moment) -> float:
        """Seconds since it began."""
        return max(0.0, now.mono_s - self.began.mono_s)

    @property
    def from_s(self) -> float:
        """When the minute starts: at the start, or at the latest first reading if that came late.

        The minute is counted between readings; a first reading 25 s late makes the hold end 25 s
        later, or it would be no minute.
        """
        firsts = {r.gauge: r.at_s for r in reversed(self.readings)}
        return max(firsts.values(), default=0.0)

    @property
    def end_s(self) -> float:
        """When the last reading is due, seconds into the hold."""
        return self.from_s + self.rule.seconds

    def remaining_s(self, now: Moment) -> float:
        """Seconds until the last reading is due."""
        return max(0.0, self.end_s - self.elapsed_s(now))

    def marks_s(self) -> tuple[float, ...]:
        """When the gauges are read: start, half time, end."""
        return (0.0, self.from_s + self.rule.seconds / 2, self.end_s)

    def due(self, now: Moment) -> tuple[str, float] | None:
        """The gauge to read now and its mark, or None if nothing is due yet.

        A mark whose next mark has come too is missed; it is not asked for any more.
        """
        past = [mark for mark in self.marks_s() if mark <= self.elapsed_s(now)]
        if not past:
            return None
        mark = past[-1]
        later = {r.gauge for r in self.readings if r.at_s >= mark}
        return next(((gauge, mark) for gauge in self.rule.gauges if gauge not in later), None)

    def stamp_s(self, mark_s: float, now: Moment) -> float:
        """When a reading entered now was looked at: at its mark, unless that is long ago."""
        elapsed = self.elapsed_s(now)
        return mark_s if elapsed - mark_s <= LATE_S else round(elapsed, 1)

    def last_psi(self, gauge: str) -> float:
        """The gauge's last reading; before the first one, the pressure it was set to."""
        known = [reading.psi for reading in self.readings if reading.gauge == gauge]
        set_to = {str(name): psi for name, psi in self.rule.set_psi.items()}
        return known[-1] if known else set_to[gauge]

    def with_reading(self, gauge: str, at_s: float, psi: float) -> Hold:
        """The hold with one more reading."""
        return replace(self, readings=(*self.readings, HoldReading(gauge, at_s, psi)))

    def complete(self) -> bool:
        """Whether every gauge has a first reading and one at or after the end."""
        return all(
            len(times := [r.at_s for r in self.readings if r.gauge == gauge]) >= 2
            and times[-1] >= self.end_s
            for gauge in self.rule.gauges
        )

    def time_trouble(self, now: Moment) -> str:
        """Why the hold's time cannot be trusted any more; empty while it can."""
        if now.boot != self.began.boot:
            return "The computer restarted during the air hold, so its time is lost: hold again."
        if abs(now.asleep_s - self.began.asleep_s) > ASLEEP_S:
            return "The computer slept or its clock was set during the air hold: hold again."
        return ""

    def results(self) -> dict[str, Assessment]:
        """Each gauge's assessment, once it has two readings."""
        by_gauge = {
            gauge: [(r.at_s, r.psi) for r in self.readings if r.gauge == gauge]
            for gauge in self.rule.gauges
        }
        return {
            gauge: assess(readings, self.rule.limit_psi_per_min)
            for gauge, readings in by_gauge.items()
            if len(readings) >= 2
        }

    def over(self) -> bool:
        """Whether any gauge lost more than the limit by the plain rule."""
        return any(result.rule_verdict == "over" for result in self.results().values())
