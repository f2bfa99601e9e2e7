"""What a tap on an air hold's screens does, and what is said as its clock runs."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable

from walkaround.clock import Moment
from walkaround.desk import Wish
from walkaround.events import AirTemperature, HoldBegan, HoldEnded, HoldVoided, ReadingTaken
from walkaround.holds import Hold
from walkaround.holdwords import hold_cues, hold_on, hold_results, next_gauge
from walkaround.limits import Line
from walkaround.ui.view import View
from walkaround.units import from_psi

CUE_LATE_S = 1.5
"""A spoken mark later than this is worse than none."""

Do = Callable[..., Awaitable[bool]]


class Holder:
    """The handlers of one page's air holds."""

    def __init__(
        self,
        view: View,
        do: Do,
        speak: Callable[[], Awaitable[None]],
        appear: Callable[[], None],
    ) -> None:
        """Take how events happen, how the step is said, what notes that new buttons appeared."""
        self._view = view
        self._do = do
        self._speak = speak
        self._appear = appear
        self._cued_s = 0.0

    async def begin(self, step_id: str) -> None:
        """Start the air hold's clock; its screen speaks the marks, the first one at once."""
        if await self._do((HoldBegan, {"step": step_id})):
            self._appear()

    async def reading(self, step_id: str, gauge: Line, mark_s: float, psi: float) -> None:
        """One gauge read at a mark; the reading that decides ends the hold."""
        hold = self._view.walk.holds[step_id]
        await self._read(step_id, gauge, hold.stamp_s(mark_s, self._now()), psi)

    async def crossed(self, step_id: str, gauge: Line, psi: float) -> None:
        """The needle crosses a mark now."""
        hold = self._view.walk.holds[step_id]
        await self._read(step_id, gauge, round(hold.elapsed_s(self._now()), 2), psi)

    async def _read(self, step_id: str, gauge: Line, at_s: float, psi: float) -> None:
        hold = self._view.walk.holds[step_id]
        unit = hold.gauge(gauge).unit
        body = {"step": step_id, "gauge": gauge, "at_s": at_s, "psi": psi}
        body |= {"shown": round(from_psi(psi, unit), 4), "unit": unit}
        after = hold.with_reading(gauge, at_s, psi)
        wishes: list[Wish] = [(ReadingTaken, body), *_end(step_id, after, at_s)]
        if await self._do(*wishes):
            await self._after_reading(self._view.walk.holds[step_id])

    async def end_early(self, step_id: str) -> None:
        """Go by the plain rule result, the minute being in."""
        at_s = self._view.walk.holds[step_id].elapsed_s(self._now())
        if await self._do((HoldEnded, {"step": step_id, "how": "early", "at_s": at_s})):
            await self._after_reading(self._view.walk.holds[step_id])

    async def stop(self, step_id: str, why: str) -> None:
        """Give the hold up."""
        if await self._do((HoldVoided, {"step": step_id, "why": why})):
            await self._view.sound.say(why)

    async def temperature(self, step_id: str, start_c: float, end_c: float) -> None:
        """The air's temperature at the start and the end of a hold that has ended."""
        body = {"step": step_id, "start_c": start_c, "end_c": end_c}
        if await self._do((AirTemperature, body)):
            self._view.open("")

    async def beat(self) -> None:
        """While a hold runs: void it if its time is lost, end it when it has been watched long
        enough, and speak the marks as they come.
        """
        view = self._view
        step = view.walk.here
        hold = view.walk.holds.get(step.id) if step else None
        if step is None or hold is None or not hold.running:
            return
        now = self._now()
        if hold.time_trouble(now):
            await asyncio.to_thread(view.parts.desk.mend_hold, view.walk_id)
            await self._speak()
            return
        elapsed = hold.elapsed_s(now)
        if hold.crossing and (end := _end(step.id, hold, elapsed)):
            if await self._do(*end):
                self._appear()
                await self._after_reading(view.walk.holds[step.id])
            return
        due = [cue for cue in hold_cues(hold) if self._cued_s < cue[0] <= elapsed]
        self._cued_s = elapsed
        if due and elapsed - due[-1][0] <= CUE_LATE_S:
            await view.sound.say(due[-1][1])

    def follow(self, hold: Hold) -> None:
        """Take up a hold that was running before this page came: marks already past stay unsaid."""
        self._cued_s = hold.elapsed_s(self._now()) if hold.readings else -1.0

    async def _after_reading(self, hold: Hold) -> None:
        view = self._view
        if hold.void:
            await view.sound.say(hold.void)
        elif hold.ended:
            await view.sound.say(hold_results(hold, view.settings.units))
        elif due := hold.due(now := self._now()):
            await view.sound.say(next_gauge(due[0]))
        elif hold.crossing is None and hold.minute_in(hold.elapsed_s(now)):
            await view.sound.say(hold_on(hold.next_mark_s(now)))

    def _now(self) -> Moment:
        return self._view.parts.clock()


def _end(step_id: str, hold: Hold, at_s: float) -> list[Wish]:
    """What ends the hold now: readings that cannot be void it, a clear result ends it."""
    odd = hold.odd_readings(at_s)
    if odd:
        return [(HoldVoided, {"step": step_id, "why": odd})]
    how = hold.ending(at_s)
    return [(HoldEnded, {"step": step_id, "how": how, "at_s": at_s})] if how else []
