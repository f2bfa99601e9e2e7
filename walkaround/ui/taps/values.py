"""What a tap does that tells of gauges or gives a measured value."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from walkaround.airhold.gauge import Gauge
from walkaround.base.clock import Moment
from walkaround.plan.steps import Chambers, Step
from walkaround.rules.limits import Line
from walkaround.ui.page.view import View
from walkaround.ui.taps.air_hold import WalkForHolds
from walkaround.walk.events import Answered, By, ChamberTold, GaugesTold, Measured, TimerBegan
from walkaround.walk.timers import running_since
from walkaround.words.chambers import chamber_said
from walkaround.words.measured_values import said_text


class ValueTaps:
    """The handlers of one page's gauges and values."""

    def __init__(self, view: View, walk_taps: WalkForHolds) -> None:
        self._view = view
        self._walk_taps = walk_taps
        self._stopped: tuple[Moment, float] | None = None

    async def record_gauges(
        self,
        step_id: str,
        gauges: Mapping[Line, Gauge],
        site_m: float,
        zero_at_m: float,
        zero_on: date | None,
    ) -> None:
        """Record what the gauges are like, which answers their step; one not at zero is a defect.

        Args:
            step_id: the step that asks for them.
            gauges: each gauge of the walk.
            site_m: how high above the sea the site is.
            zero_at_m: how high their zero was seen: here, unless it was seen near enough before.
            zero_on: the day on which, lines vented; None if they do not stand at zero.
        """
        view = self._view
        if self._walk_taps.too_soon() or view.peek:
            return
        plan = view.walk.plan
        assert plan is not None
        gauge_data = {line: gauge.model_dump() for line, gauge in gauges.items()}
        at_zero = zero_on is not None
        body = {"step": step_id, "gauges": gauge_data, "altitude_m": zero_at_m, "at_zero": at_zero}
        answer = {"step": step_id, "answer": "ok" if at_zero else "defect"}
        if not await self._walk_taps.record_events((GaugesTold, body), (Answered, answer)):
            return
        view.refresh_shop_settings()
        new_settings = view.settings.with_gauges(plan.vehicle, plan.air, gauges, zero_at_m, zero_on)
        await view.set(new_settings.model_copy(update={"altitude_m": site_m}))
        await self._walk_taps.look_back("")

    async def record_value(
        self,
        step: Step,
        value_id: str,
        value: float,
        unit: str,
        *,
        before: Measured | None,
        by: By = "tap",
    ) -> bool:
        """Record one value that was read, and say what it comes to.

        Args:
            step: the step that takes it.
            value_id: which of its values.
            value: in `unit`.
            unit: as on its gauge, rule or clock.
            before: what this value was when its keys were drawn; if it is another by now, the tap
                comes late and is dropped.
            by: with what it was entered.

        Returns:
            Whether it was saved.
        """
        values = self._view.walk.measured.get(step.id, {})
        if self._walk_taps.too_soon() or values.get(value_id) != before:
            return False
        body = {"step": step.id, "value_id": value_id, "value": value, "unit": unit, "by": by}
        if not await self._walk_taps.record_events((Measured, body)):
            return False
        self._walk_taps.appear()
        await self._say(step)
        return True

    async def record_chamber(
        self, step: Step, chamber: Chambers, end: str, *, sure: bool, before: ChamberTold | None
    ) -> bool:
        """Record the chamber at one wheel end as it was read off, and say its limit.

        Args:
            step: the step that asks for it.
            chamber: what it is; one without a type could not be read.
            end: where.
            sure: whether it could be told if it is a long-stroke one.
            before: what was told of it when the keys were drawn; if that is another by now, the
                tap comes late and is dropped.

        Returns:
            Whether it was saved.
        """
        view = self._view
        if self._walk_taps.too_soon() or view.walk.chambers.get(end) != before:
            return False
        body = chamber.model_dump(include={"actuator", "type", "rated_stroke_in"})
        body |= {"step": step.id, "end": end, "long_stroke": chamber.long_stroke if sure else None}
        if not await self._walk_taps.record_events((ChamberTold, body)):
            return False
        self._walk_taps.appear()
        await view.sound.say(chamber_said(view.walk, end, view.words))
        return True

    async def start_stopwatch(self, step: Step, running: Moment | None) -> None:
        """Start the stopwatch; `running` is since when it ran as its button was drawn."""
        if not self._walk_taps.too_soon() and running_since(self._view.walk, step) == running:
            await self._walk_taps.record_events((TimerBegan, {"step": step.id}))

    async def stop_stopwatch(self, step: Step, began: Moment) -> None:
        """Stop the stopwatch that began then: its time is the value.

        A time that could not be saved is kept for the next tap.
        """
        view = self._view
        if self._walk_taps.too_soon() or running_since(view.walk, step) != began:
            return
        if self._stopped is None or self._stopped[0] != began:
            seconds = round(passed_s(began, view.parts.clock()), 1)
            if seconds < view.parts.timing.twice_s:
                return
            self._stopped = began, seconds
        before = view.walk.measured.get(step.id, {}).get("time")
        await self.record_value(step, "time", self._stopped[1], "s", before=before)

    async def _say(self, step: Step) -> None:
        view = self._view
        assert step.measure is not None
        text = said_text(step.measure, view.walk.measured.get(step.id, {}), view.words)
        await view.sound.say(text)


def passed_s(began: Moment, now: Moment) -> float:
    """Return the seconds from one moment to another of the same boot, those asleep included."""
    return max(0.0, now.mono_s + now.asleep_s - began.mono_s - began.asleep_s)
