"""One air hold as it runs: how long is left, which readings are due, whether time can be trusted.

The clock decides, never a count of ticks: a page that drops and returns, or a server that
restarts within the same boot, finds the true time. A reboot or a sleep of the computer voids
the hold, since nobody knows what the needle did meanwhile.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Literal

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.verdict import (
    HOLD_MORE_S,
    JUDGED_BY,
    LONGEST_HOLD_S,
    Assessment,
    RuleVerdict,
    assess,
    assess_crossings,
)
from walkaround.base.clock import Moment
from walkaround.base.errors import InputError
from walkaround.base.message import Message, Text, message
from walkaround.rules.limits import HoldRule, Line

Ending = Literal["decided", "time_up", "early", "settling"]
"""How an air hold ended: its verdict was clear, five minutes were up without one, the mechanic
ended it with the plain rule result, or there is nothing to go by: the air was still settling, or a
reading does not fit the others."""

LATE_S = 10.0
"""A reading entered later than this after its mark is stamped with the time of entry: by then
the needle has been looked at again."""
ASLEEP_S = 1.0
"""Sleep shorter than this is clock noise."""


@dataclass(frozen=True, slots=True)
class HoldReading:
    """One look at one gauge: `at_s` seconds into the hold, `psi` gauge.

    `before` are the pressures that stood for it until they were mended, oldest first.
    """

    gauge: str
    at_s: float
    psi: float
    before: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Hold:
    """The latest air hold of one step.

    Attributes:
        rule: what is held, and the limit.
        began: when its clock started.
        gauges: what each gauge is like; one that is not told of is read to the nearest psi.
        readings: every look at a gauge, in order of entry.
        ended: how it ended; empty while it runs or once it is void.
        ended_s: when it ended, seconds into the hold.
        judged_by: which version of the judgment ended it; see `verdict.JUDGED_BY`.
        void: why it does not count.
        air_c: temperature of the air at its start and its end, degrees C, where they were given.
    """

    rule: HoldRule
    began: Moment
    gauges: Mapping[Line, Gauge] = field(default_factory=dict)
    readings: tuple[HoldReading, ...] = ()
    ended: Ending | Literal[""] = ""
    ended_s: float = 0.0
    judged_by: int = JUDGED_BY
    void: Text = ""
    air_c: tuple[float, float] | None = None

    @property
    def running(self) -> bool:
        """Started, and neither ended nor void."""
        return not self.ended and not self.void

    def gauge(self, line: Line) -> Gauge:
        """Tell what the gauge of a line is like."""
        return self.gauges.get(line, Gauge(name=line))

    def elapsed_s(self, now: Moment) -> float:
        """Return the seconds since it began."""
        return max(0.0, now.mono_s - self.began.mono_s)

    @property
    def from_s(self) -> float:
        """When the minute starts: at the start, or at the latest first reading if that came late.

        The minute is counted between readings; a first reading 25 s late makes the hold end 25 s
        later, or it would be no minute.
        """
        firsts = {r.gauge: r.at_s for r in reversed(self.readings) if not self._crosses(r.gauge)}
        return max(firsts.values(), default=0.0)

    @property
    def end_s(self) -> float:
        """When the minute is over, seconds into the hold."""
        return self.from_s + self.rule.seconds

    @property
    def last_s(self) -> float:
        """When a hold that is still undecided is given up, seconds into the hold: its last mark."""
        return self.marks_s()[-1]

    def remaining_s(self, now: Moment) -> float:
        """Return the seconds until the minute is over."""
        return max(0.0, self.end_s - self.elapsed_s(now))

    def marks_s(self) -> tuple[float, ...]:
        """Tell when the gauges are read: start, half time, end, then on while it is undecided."""
        more = int(max(0.0, LONGEST_HOLD_S - self.rule.seconds) // HOLD_MORE_S)
        return (
            0.0,
            self.from_s + self.rule.seconds / 2,
            *(self.end_s + HOLD_MORE_S * number for number in range(more + 1)),
        )

    def next_mark_s(self, now: Moment) -> float:
        """Return the next time to read, seconds into the hold; the last mark when none is left."""
        elapsed = self.elapsed_s(now)
        return next((mark for mark in self.marks_s() if mark > elapsed), self.marks_s()[-1])

    def due(self, now: Moment) -> tuple[Line, float] | None:
        """Return the gauge to read now and its mark, or None if nothing is due yet.

        A mark whose next mark has come too is missed; it is not asked for any more. A gauge read
        as its needle crosses a mark is never due: nobody knows when it will.
        """
        past = [mark for mark in self.marks_s() if mark <= self.elapsed_s(now)]
        if not past:
            return None
        later = {r.gauge for r in self.readings if r.at_s >= past[-1]}
        numbers = (gauge for gauge in self.rule.gauges if not self._crosses(gauge))
        return next(((gauge, past[-1]) for gauge in numbers if gauge not in later), None)

    @property
    def crossing(self) -> Line | None:
        """The gauge whose crossings are tapped, the first if there are several."""
        return next((gauge for gauge in self.rule.gauges if self._crosses(gauge)), None)

    def stamp_s(self, mark_s: float, now: Moment) -> float:
        """Tell when a reading entered now was looked at: at its mark, unless that is long ago."""
        elapsed = self.elapsed_s(now)
        return mark_s if elapsed - mark_s <= LATE_S else round(elapsed, 1)

    def last_psi(self, gauge: str) -> float:
        """Return the gauge's last reading; before the first one, the pressure it was set to."""
        pressures = [reading.psi for reading in self.readings if reading.gauge == gauge]
        set_to = {str(name): psi for name, psi in self.rule.set_psi.items()}
        return pressures[-1] if pressures else set_to[gauge]

    def with_reading(self, gauge: str, at_s: float, psi: float) -> Hold:
        """Return the hold with one more reading."""
        return replace(self, readings=(*self.readings, HoldReading(gauge, at_s, psi)))

    def minute_in(self, at_s: float) -> bool:
        """Tell whether every gauge was watched for the whole minute, as the plain rule needs.

        Of a gauge read by crossing, the minute is that since its first tap.
        """
        return all(
            bool(times := self._times(gauge)) and at_s >= times[0] + self.rule.seconds
            if self._crosses(gauge)
            else len(times := self._times(gauge)) >= 2 and times[-1] >= self.end_s
            for gauge in self.rule.gauges
        )

    def ending(self, at_s: float) -> Ending | Literal[""]:
        """Tell how the hold ends with what is known `at_s` seconds into it; empty if it goes on.

        One gauge over its limit is enough; within it must be all of them.
        """
        if not self.minute_in(at_s):
            return ""
        results = self.results(at_s).values()
        verdicts = {result.verdict for result in results}
        if "over" in verdicts or verdicts == {"within"}:
            return "decided"
        misread = any(each.reason == "misread" and not each.hold_more_s for each in results)
        if "settling" in verdicts or misread:
            return "settling"
        return "time_up" if self.minute_in_until(self.last_s, at_s) else ""

    def may_end_early(self, at_s: float) -> bool:
        """Tell whether the plain rule can judge: not by a reading that does not fit the others."""
        results = self.results(at_s).values()
        return self.minute_in(at_s) and all(each.reason != "misread" for each in results)

    def minute_in_until(self, until_s: float, at_s: float) -> bool:
        """Tell whether every gauge was watched until then."""
        return all(
            at_s >= until_s
            if self._crosses(gauge)
            else max(self._times(gauge), default=0.0) >= until_s
            for gauge in self.rule.gauges
        )

    def time_trouble(self, now: Moment) -> Message | None:
        """Tell why the hold's time cannot be trusted any more; None while it can."""
        if now.boot != self.began.boot:
            return message("hold-void-restarted")
        if abs(now.asleep_s - self.began.asleep_s) > ASLEEP_S:
            return message("hold-void-slept" if now.tells_boot else "hold-void-away")
        return None

    def odd_readings(self, at_s: float) -> Message | None:
        """Tell why the readings so far cannot be judged; None if they can."""
        for gauge in self.rule.gauges:
            if self._crosses(gauge) and at_s >= self.last_s and not self._times(gauge):
                return message("hold-void-no-mark", gauge=message(f"gauge-{gauge}"))
        try:
            self.results(at_s)
        except InputError as error:
            return message("hold-void-readings", problem=error.problems[0].what)
        return None

    def results(self, at_s: float | None = None) -> dict[Line, Assessment]:
        """Assess each gauge that has two readings or was watched for its crossings.

        Args:
            at_s: now, seconds into the hold; left out once it has ended.

        Raises:
            InputError: the readings cannot be.
        """
        until_s = self.ended_s if at_s is None else at_s
        results = {gauge: self._assessed(gauge, until_s) for gauge in self.rule.gauges}
        return {gauge: result for gauge, result in results.items() if result is not None}

    def over(self) -> bool:
        """Tell whether any gauge lost more than the limit; air still settling says nothing."""
        return self.ended != "settling" and any(
            final_verdict(result) == "over" for result in self.results().values()
        )

    def _assessed(self, line: Line, until_s: float) -> Assessment | None:
        gauge, rule = self.gauge(line), self.rule
        readings = [(r.at_s, r.psi) for r in self.readings if r.gauge == line]
        if gauge.crossing:
            if not readings or until_s <= readings[0][0]:
                return None
            return assess_crossings(
                readings,
                until_s,
                rule.limit_psi_per_min,
                gauge.step_psi,
                equal_passes=rule.equal_passes,
            )
        if len(readings) < 2:
            return None
        return assess(
            readings, rule.limit_psi_per_min, gauge.step_psi, equal_passes=rule.equal_passes
        )

    def _crosses(self, gauge: str) -> bool:
        return any(gauge_told.crossing for line, gauge_told in self.gauges.items() if line == gauge)

    def _times(self, gauge: str) -> list[float]:
        return [reading.at_s for reading in self.readings if reading.gauge == gauge]


def final_verdict(result: Assessment) -> RuleVerdict:
    """Tell what an ended hold comes to: its verdict if it has one, else the plain rule result."""
    return result.verdict if result.verdict in ("within", "over") else result.rule_verdict
