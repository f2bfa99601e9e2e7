"""What a tap on an air hold's screens does, and what is said as its clock runs."""

from __future__ import annotations

import logging
from typing import NamedTuple, Protocol

from walkaround.airhold.correction import meant_psi, with_correction
from walkaround.airhold.hold import Hold
from walkaround.base.clock import Moment
from walkaround.base.message import Message
from walkaround.base.units import from_psi
from walkaround.records.open_walks import Change
from walkaround.rules.limits import Line
from walkaround.ui.page.view import View
from walkaround.walk.events import (
    AirTemperature,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    ReadingMended,
    ReadingTaken,
)
from walkaround.words.air_hold import hold_cues, hold_on, hold_results, next_gauge, reading_words

log = logging.getLogger(__name__)


class WalkForHolds(Protocol):
    """The part of a page's walk that holds and values need; `WalkTaps` is the real one."""

    def appear(self) -> None: ...
    def too_soon(self) -> bool: ...
    async def speak(self) -> None: ...
    async def look_back(self, step_id: str) -> None: ...
    async def record_events(self, *changes: Change, or_never: bool = False) -> bool: ...


class UnlikelyReading(NamedTuple):
    """A reading that is far from the last one of its gauge.

    Attributes:
        at_s: when it was looked at, seconds into the hold.
        psi, meant_psi: what was tapped, and what may have been meant.
    """

    at_s: float
    psi: float
    meant_psi: float


class HoldTaps:
    """The handlers of one page's air holds.

    Each tap names the hold it was drawn for by the moment that began: one that comes late, from a
    page that was cut off, must not touch a later hold of the same step.
    """

    def __init__(self, view: View, walk_taps: WalkForHolds) -> None:
        self._view = view
        self._walk_taps = walk_taps
        self._cued_s = 0.0
        self._quiet_until_s = 0.0
        self._fault = ""
        self._seen_s: dict[tuple[Moment, Line, float], float] = {}

    async def begin(self, step_id: str, before: Moment | None) -> None:
        """Start the air hold's clock; its screen speaks the marks, the first one at once.

        Args:
            step_id: the step that asks for the hold.
            before: when its last hold began, if it had one.
        """
        hold = self._view.walk.holds.get(step_id)
        if self._walk_taps.too_soon() or (hold.began if hold else None) != before:
            return
        if await self._walk_taps.record_events((HoldBegan, {"step": step_id}), or_never=True):
            self._walk_taps.appear()

    async def enter_reading(
        self, step_id: str, began: Moment, gauge: Line, mark_s: float, psi: float
    ) -> UnlikelyReading | None:
        """Take a gauge's value at a mark, which counts at once; ask about a value that jumps."""
        hold = self._meant(step_id, began)
        if hold is None:
            return None
        at_s, meant_value = hold.stamp_s(mark_s, self._now()), meant_psi(hold, gauge, psi)
        if meant_value is not None:
            await self._view.sound.say(self._view.words("hold-jump-said"))
            return UnlikelyReading(at_s, psi, meant_value)
        await self._read(step_id, hold, gauge, at_s, psi)
        return None

    async def record_reading(
        self, step_id: str, began: Moment, gauge: Line, at_s: float, psi: float
    ) -> None:
        """Record a reading of one gauge; the reading that decides ends the hold."""
        if hold := self._meant(step_id, began):
            await self._read(step_id, hold, gauge, at_s, psi)

    async def correct_reading(
        self, step_id: str, began: Moment, gauge: Line, at_s: float, psi: float | None
    ) -> bool:
        """Correct a reading; return whether that was done. If it decides the hold, end that.

        Args:
            step_id, began: the hold that it was drawn for.
            gauge, at_s: which reading; its time stays.
            psi: what its gauge showed; None for a mark that was not crossed yet.
        """
        hold = self._meant(step_id, began)
        if hold is None:
            return False
        body: dict[str, object] = {"step": step_id, "gauge": gauge, "at_s": at_s, "psi": psi}
        if psi is not None:
            unit = hold.gauge(gauge).unit
            body |= {"shown": round(from_psi(psi, unit), 4), "unit": unit}
        end = _ending_change(
            step_id, with_correction(hold, gauge, at_s, psi), hold.elapsed_s(self._now())
        )
        if not await self._walk_taps.record_events((ReadingMended, body), *end, or_never=True):
            return False
        after = self._view.walk.holds[step_id]
        if after.running:
            words = self._view.words
            corrected = next(
                (r for r in after.readings if (r.gauge, r.at_s) == (gauge, at_s)), None
            )
            if corrected is not None:
                await self._view.sound.say(reading_words([corrected], hold.gauge(gauge), words))
        else:
            await self._after_reading(after)
        return True

    async def record_crossing(self, step_id: str, began: Moment, gauge: Line, psi: float) -> None:
        """Record that the needle crosses a mark now, or did at an earlier tap not saved."""
        if hold := self._meant(step_id, began):
            now_s = round(hold.elapsed_s(self._now()), 2)
            at_s = self._seen_s.setdefault((began, gauge, psi), now_s)
            await self._read(step_id, hold, gauge, at_s, psi)
            if not self._view.unsaved:
                self._seen_s.clear()

    def _meant(self, step_id: str, began: Moment) -> Hold | None:
        """Return the running hold, if a tap now is meant for it; the next must wait a moment."""
        hold = self._view.walk.holds.get(step_id)
        if self._walk_taps.too_soon() or hold is None or not hold.running or hold.began != began:
            return None
        self._walk_taps.appear()
        return hold

    async def _read(self, step_id: str, hold: Hold, gauge: Line, at_s: float, psi: float) -> None:
        unit = hold.gauge(gauge).unit
        body = {"step": step_id, "gauge": gauge, "at_s": at_s, "psi": psi}
        body |= {"shown": round(from_psi(psi, unit), 4), "unit": unit}
        after = hold.with_reading(gauge, at_s, psi)
        changes: list[Change] = [(ReadingTaken, body), *_ending_change(step_id, after, at_s)]
        if await self._walk_taps.record_events(*changes, or_never=True):
            await self._after_reading(self._view.walk.holds[step_id])

    async def end_early(self, step_id: str, began: Moment) -> None:
        """Go by the plain rule result, the minute being in."""
        if hold := self._meant(step_id, began):
            at_s = hold.elapsed_s(self._now())
            body = {"step": step_id, "how": "early", "at_s": at_s}
            if await self._walk_taps.record_events((HoldEnded, body), or_never=True):
                await self._after_reading(self._view.walk.holds[step_id])

    async def stop(self, step_id: str, began: Moment, why: Message) -> None:
        """Give the hold up."""
        body = {"step": step_id, "why": why}
        if self._meant(step_id, began) and await self._walk_taps.record_events(
            (HoldVoided, body), or_never=True
        ):
            await self._view.sound.say(self._view.words.text(why))

    async def record_temperature(
        self, step_id: str, began: Moment, start_c: float, end_c: float
    ) -> None:
        """Record the air's temperature at the start and the end of a hold that has ended."""
        body = {"step": step_id, "start_c": start_c, "end_c": end_c}
        hold = self._view.walk.holds.get(step_id)
        if self._walk_taps.too_soon() or hold is None or hold.began != began:
            return
        if await self._walk_taps.record_events((AirTemperature, body)):
            self._view.open("")

    async def void_if_time_lost(self) -> bool:
        """Void a running hold whose time is lost; return whether that was done."""
        view = self._view
        hold = view.walk.holds.get(view.walk.here.id) if view.walk.here else None
        if hold is None or not hold.running or not hold.time_trouble(self._now()):
            return False
        open_walks, walk_id = view.parts.open_walks, view.walk_id
        return await view.saved(lambda: open_walks.void_untrusted_hold(walk_id), or_never=True)

    async def beat(self) -> None:
        """Keep a running hold going: void it if its time is lost, end it, speak its marks.

        Every page at the walk does so; the first ends it, once it has been watched long enough.
        """
        try:
            await self._beat()
        except Exception as fault:
            # Five times a second: the log is for the first of them.
            if repr(fault) != self._fault:
                log.exception("a beat of the air hold failed")
            self._fault = repr(fault)

    async def _beat(self) -> None:
        view = self._view
        step = view.walk.here
        hold = view.walk.holds.get(step.id) if step else None
        if step is None or hold is None or not hold.running:
            return
        now = self._now()
        if now.mono_s < self._quiet_until_s:
            return
        elapsed = hold.elapsed_s(now)
        if hold.time_trouble(now):
            if await self.void_if_time_lost():
                await self._walk_taps.speak()
        elif hold.crossing and (end := _ending_change(step.id, hold, elapsed)):
            if await self._walk_taps.record_events(*end, or_never=True):
                self._walk_taps.appear()
                await self._after_reading(view.walk.holds[step.id])
        else:
            await self._cue(hold, elapsed)
            return
        if view.unsaved:
            self._quiet_until_s = now.mono_s + view.parts.timing.save_again_s

    async def _cue(self, hold: Hold, elapsed: float) -> None:
        due = [cue for cue in hold_cues(hold, self._view.words) if self._cued_s < cue[0] <= elapsed]
        self._cued_s = elapsed
        if due and elapsed - due[-1][0] <= self._view.parts.timing.cue_late_s:
            await self._view.sound.say(due[-1][1])

    def follow(self, hold: Hold) -> None:
        """Take up a hold that was running before this page came: marks already past stay unsaid."""
        self._cued_s = hold.elapsed_s(self._now()) if hold.readings else -1.0

    async def _after_reading(self, hold: Hold) -> None:
        view = self._view
        if hold.void:
            await view.sound.say(view.words.text(hold.void))
        elif hold.ended:
            await view.sound.say(hold_results(hold, view.words))
        elif due := hold.due(now := self._now()):
            await view.sound.say(next_gauge(due[0], view.words))
        elif hold.crossing is None and hold.minute_in(at_s := hold.elapsed_s(now)):
            mark_s = hold.next_mark_s(now)
            await view.sound.say(hold_on(hold, hold.results(at_s), mark_s, view.words))

    def _now(self) -> Moment:
        return self._view.parts.clock()


def _ending_change(step_id: str, hold: Hold, at_s: float) -> list[Change]:
    """Return what ends the hold now: readings that cannot be void it, a clear result ends it."""
    odd = hold.odd_readings(at_s)
    if odd:
        return [(HoldVoided, {"step": step_id, "why": odd})]
    how = hold.ending(at_s)
    return [(HoldEnded, {"step": step_id, "how": how, "at_s": at_s})] if how else []
