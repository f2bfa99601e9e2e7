"""What a tap does that tells of gauges or gives a measured value."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping

from walkaround.clock import Moment
from walkaround.events import Answered, GaugesTold, Measured, TimerBegan
from walkaround.gauges import Gauge
from walkaround.limits import Line
from walkaround.measurewords import said_text
from walkaround.steps import Step
from walkaround.ui.view import View

Do = Callable[..., Awaitable[bool]]

TWICE_S = 0.4
"""A stopwatch stopped sooner than this was tapped twice by mistake."""


class Taker:
    """The handlers of one page's gauges and values."""

    def __init__(self, view: View, do: Do) -> None:
        self._view = view
        self._do = do

    async def gauges(
        self,
        step_id: str,
        gauges: Mapping[Line, Gauge],
        site_m: float,
        *,
        at_zero: bool,
        zero_at_m: float,
    ) -> bool:
        """The gauges are like this; where one is not at zero, that is a defect.

        Args:
            step_id: the step that asks for them.
            gauges: each gauge of the walk.
            site_m: how high above the sea the site is.
            at_zero: whether they stand at zero, lines vented.
            zero_at_m: how high their zero was seen: here, unless it was seen near enough before.

        Returns:
            Whether it was saved.
        """
        view = self._view
        plan = view.walk.plan
        assert plan is not None
        told = {line: gauge.model_dump() for line, gauge in gauges.items()}
        body = {"step": step_id, "gauges": told, "altitude_m": zero_at_m, "at_zero": at_zero}
        answer = {"step": step_id, "answer": "ok" if at_zero else "defect"}
        if not await self._do((GaugesTold, body), (Answered, answer)):
            return False
        known = view.settings.with_gauges(plan.vehicle, gauges, zero_at_m, at_zero=at_zero)
        await view.set(known.model_copy(update={"altitude_m": site_m}))
        return True

    async def value(self, step: Step, value_id: str, value: float, unit: str) -> None:
        """One value read; what it comes to is said."""
        body = {"step": step.id, "value_id": value_id, "value": value, "unit": unit}
        if await self._do((Measured, body)):
            await self._say(step)

    async def start(self, step_id: str) -> None:
        """The stopwatch runs from now."""
        await self._do((TimerBegan, {"step": step_id}))

    async def stop(self, step: Step) -> None:
        """The stopwatch stops: the time is the value."""
        view = self._view
        seconds = round(passed_s(view.walk.timers[step.id], view.parts.clock()), 1)
        if seconds >= TWICE_S:
            await self.value(step, "time", seconds, "s")

    async def _say(self, step: Step) -> None:
        view = self._view
        assert step.measure is not None
        text = said_text(step.measure, view.walk.measured.get(step.id, {}))
        await view.sound.say(text, soft=step.soft)


def passed_s(began: Moment, now: Moment) -> float:
    """Seconds from one moment to another of the same boot, those asleep too."""
    return max(0.0, now.mono_s + now.asleep_s - began.mono_s - began.asleep_s)
