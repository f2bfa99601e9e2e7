"""What a tap on the walk's screens does: send the event, then say the next prompt.

Each handler names the step it was drawn for. The walk refuses an answer to a step that is not
the one being asked, so a double tap or a page that lagged behind answers nothing twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import suppress
from functools import partial

from walkaround.base.errors import WalkaroundError
from walkaround.base.plaintext import some_lines
from walkaround.plan.steps import Plan, Step
from walkaround.records.open_walks import Change
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.page.view import View
from walkaround.ui.taps.air_hold import HoldTaps
from walkaround.ui.taps.causes import CauseTaps
from walkaround.ui.taps.earlier_findings import EarlierFindings
from walkaround.ui.taps.keys import KeyTaps
from walkaround.ui.taps.repairs import RepairTaps
from walkaround.ui.taps.speaker import Speaker
from walkaround.ui.taps.spoken_answers import SpokenTaps
from walkaround.ui.taps.values import ValueTaps
from walkaround.walk.events import (
    MOST_NOTE_CHARS,
    Answer,
    Answered,
    By,
    Finished,
    HoldBegan,
    Noted,
    Paused,
    Purpose,
    Reason,
    Resumed,
    Revisited,
    Seen,
)
from walkaround.walk.leaving import under_air
from walkaround.walk.state import FAULTS

OF_A_STEP = frozenset({"fault", "other", "air", "withdraw", "large"})
"""Panels about the step on screen."""


class WalkTaps:
    """The handlers of one page's walk.

    Attributes:
        hold_taps, value_taps, cause_taps, repair_taps: those of its parts.
        key_taps, spoken_taps: what a press of a key does, and what is said.
        appeared_s: since when it is there what is under the thumb, by the clock of `Timing`.
        speaker: what is said of it.
        last_time: what earlier walks found.
    """

    def __init__(self, view: View) -> None:
        self._view = view
        self.hold_taps = HoldTaps(view, self)
        self.value_taps = ValueTaps(view, self)
        self.cause_taps = CauseTaps(view, self)
        self.repair_taps = RepairTaps(view, self, self.cause_taps)
        self.key_taps = KeyTaps(view, self)
        self.spoken_taps = SpokenTaps(view, self)
        self.speaker = Speaker(view)
        self.last_time = EarlierFindings(view)
        self._beginning, self._known = False, -1
        # The answer that waits for a yes, since it takes a defect back.
        self.take_back: Tap | None = None
        # Taps made while the server was away come at once, and may hit what they never meant; the
        # walk may have moved on, too.
        self.walk_moved()
        view.set_walk_handlers(self.enter, self.walk_moved, self.appear)

    def appear(self) -> None:
        """Take note that something new is under the thumb now."""
        self.appeared_s = self._view.parts.timing.now_s()
        self._known = self._entries()
        # A note stays at the step that it was begun at.
        if self._view.panel != "note":
            self._view.note_step(*self._place())

    async def appear_anew(self) -> None:
        """Do the same as an effect of a screen whose buttons change by themselves."""
        self.appear()

    def too_soon(self) -> bool:
        """Tell whether a tap now was meant for what was there before."""
        timing = self._view.parts.timing
        return timing.now_s() - self.appeared_s < timing.dead_s

    def shown_step(self) -> Step | None:
        """Return the step on screen: the one looked back at, else the one being asked."""
        walk = self._view.walk
        if self._view.peek and walk.plan:
            return walk.plan.step(self._view.peek)
        return walk.here

    def walk_moved(self) -> None:
        """Close what is open here when another page moved the walk on.

        A tap that is refused late, when all that came before it has been shown, changes nothing.
        """
        view = self._view
        if self._known == self._entries():
            return
        before = view.step, view.since
        with suppress(WalkaroundError):
            # It is asked again.
            if view.peek not in view.walk.answers:
                view.peek = ""
        self.appear()
        if view.panel in OF_A_STEP and before != (view.step, view.since):
            view.panel = ""
            view.message = view.words("answered-elsewhere")

    def _entries(self) -> int:
        """Return how many entries the walk has; 0 without one."""
        try:
            return len(self._view.walk.events)
        except WalkaroundError:
            return 0

    def _place(self) -> tuple[str, int]:
        """Return the id of the step on screen, and since which entry it has been asked so."""
        try:
            step, events = self.shown_step(), self._view.walk.events
        except WalkaroundError:
            return "", 0
        if step is None:
            return "", 0
        turns = (Answered, Revisited, HoldBegan)
        since = (e.seq for e in reversed(events) if isinstance(e, turns) and e.step == step.id)
        return step.id, next(since, 0)

    async def enter(self) -> None:
        """Arrive at a walk: say where it stands. A paused one waits for a tap on Go on.

        In the cab nothing happens to the walk, and its screen speaks for itself.
        """
        view = self._view
        self.appear()
        try:
            phase = view.walk.phase
        except WalkaroundError:
            return  # the screen says why it cannot be opened
        if phase == "paused" and view.going_on:
            await self.record_events((Resumed, {}), or_never=True)
        elif phase in ("finished", "paused") and not view.in_cab:
            return
        await view.device.stay_awake(phase != "finished")
        if not view.in_cab:
            await self.hold_taps.void_if_time_lost()
            # What is open over the step is in the middle of being seen to.
            if not view.panel:
                await self.speak()

    async def resume(self) -> None:
        """Take a walk up again that was left."""
        if not self.too_soon() and await self.record_events((Resumed, {}), or_never=True):
            await self.enter()

    async def begin(self, plan: Plan) -> None:
        """Start a walk on this plan, and go to it. Its first prompt follows the tap."""
        if self.too_soon() or self._beginning:
            return
        view, begun = self._view, []
        self._beginning = True
        open_walks, who = view.parts.open_walks, view.who
        try:
            saved = await view.saved(lambda: begun.append(open_walks.begin(plan, who)))
        finally:
            self._beginning = False
        if saved:
            await view.go(view.walk_route(begun[0]))

    async def look_back(self, step_id: str) -> None:
        """Look at an answered step again; an empty id goes back to the step being asked."""
        self._view.look(step_id if step_id in self._view.walk.answers else "")
        self.appear()
        await self.speak()

    def answers(
        self, step_id: str, answer: Answer, *, reason: Reason | None = None, choice: str = ""
    ) -> Tap:
        """Make a tap that gives this answer to this step; see `answer`."""
        return tapped(self.answer, step_id, answer, reason=reason, choice=choice)

    async def answer(
        self,
        step_id: str,
        answer: Answer,
        *,
        reason: Reason | None = None,
        seen_as: Mapping[str, Seen] | None = None,
        choice: str = "",
        sure: bool = False,
        by: By = "tap",
    ) -> None:
        """Answer one step; a step looked back at is changed by it.

        Args:
            step_id: the step that it was drawn for.
            answer: the answer.
            reason: why it was not checked.
            seen_as: what was seen of which items.
            choice: in which way it was done, where the step has choices.
            sure: a defect of this step may be taken back by it.
            by: with what it was given; what was not tapped is echoed.
        """
        view = self._view
        if self.too_soon():
            return
        if view.peek and view.walk.is_open(step_id) and answer not in FAULTS and not sure:
            retry = partial(self.answer, step_id, answer, reason=reason, seen_as=seen_as)
            self.take_back = tapped(retry, choice=choice, sure=True)
            view.open("withdraw")
            return
        changes: list[Change] = []
        if view.peek == step_id and step_id in view.walk.answers:
            changes.append((Revisited, {"step": step_id, "purpose": "change"}))
        elif view.peek:
            return
        body = {"step": step_id, "answer": answer, "reason": reason, "seen": dict(seen_as or {})}
        body |= {"choice": choice, "by": by}
        before, rechecks = view.walk.answers.get(step_id), view.walk.purpose == "recheck"
        if await self.record_events(*changes, (Answered, body)):
            if rechecks:
                view.message = self.repair_taps.say_change(before, view.walk, step_id)
            view.look("")
            self.appear()
            await self.speaker.answered(view.walk, step_id)
            if rechecks or not await self.cause_taps.asks_more(step_id):
                await self.speak()
            return
        # Another phone's OK came first: what this one saw must not be dropped without a word.
        stands = view.walk.answers.get(step_id)
        if answer in FAULTS and not view.unsaved and stands and stands.answer not in FAULTS:
            view.message = view.words("answered-elsewhere")
            view.redraw()

    async def record_note(self, step_id: str, text: str) -> None:
        """Record a short note on a step."""
        whole = some_lines(text)
        noted = {"step": step_id, "text": whole[:MOST_NOTE_CHARS]}
        if not self.too_soon() and await self.record_events((Noted, noted)):
            await self._view.sound.cue("saved")
            if len(whole) > MOST_NOTE_CHARS:
                self._view.message = self._view.words("note-cut", most=MOST_NOTE_CHARS)
            self._view.open("")

    async def revisit(self, step_id: str, purpose: Purpose) -> None:
        """Go back to an answered step for good: repaired, or to be measured again."""
        body = {"step": step_id, "purpose": purpose}
        if not self.too_soon() and await self.record_events((Revisited, body)):
            await self.look_back("")

    async def pause(self, *, sure: bool = False) -> None:
        """Leave for later; what stands under air is told first, unless one is sure."""
        view = self._view
        if self.too_soon():
            return
        if view.walk.phase == "stepping":
            if not sure and under_air(view.walk):
                view.open("leave")
                return
            if not await self.record_events((Paused, {})):
                return
        view.sound.stop()
        await view.device.stay_awake(False)
        await view.go("/")

    async def finish(self) -> None:
        """Close the record."""
        if not self.too_soon() and await self.record_events((Finished, {})):
            await self._view.sound.cue("saved")
            await self._view.device.stay_awake(False)
            await self._view.go(self._view.walk_route(self._view.walk_id, "record"))

    async def speak(self, *, whole: bool = False) -> None:
        """Say the step on screen, and have the next ones rendered.

        Args:
            whole: somebody asked for it: all that is shown, what was explained before too.
        """
        await self.speaker.say(self._view.walk, self.shown_step(), whole=whole)

    async def record_events(self, *changes: Change, or_never: bool = False) -> bool:
        """Let these things happen, all or none; whether they did.

        Args:
            changes: what is to happen.
            or_never: when the walk does not allow it any more, somebody else has done it.
        """
        view = self._view
        open_walks, walk_id, who = view.parts.open_walks, view.walk_id, view.who
        return await view.saved(lambda: open_walks.do(walk_id, who, *changes), or_never=or_never)
