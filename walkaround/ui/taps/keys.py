"""What a press of a key does on one page: the same as a tap, where a key may give that answer."""

from __future__ import annotations

import logging
from typing import Protocol

from walkaround.base.errors import WalkaroundError
from walkaround.key_answers.key_presses import (
    Place,
    PressContext,
    PressEffect,
    press_effect,
    tap_needed,
)
from walkaround.key_answers.learned_keys import Action
from walkaround.plan.steps import Step
from walkaround.records.open_walks import Change
from walkaround.ui.page.keyboard import STAND_INS, Offers
from walkaround.ui.page.view import View
from walkaround.ui.taps.speaker import Speaker
from walkaround.ui.taps.values import passed_s
from walkaround.walk.answers import has_many_lamps
from walkaround.walk.events import Answer, Answered, By, Reason, Revisited
from walkaround.walk.state import Walk

log = logging.getLogger(__name__)


class WalkForKeys(Protocol):
    """The part of a page's walk that keys need; `WalkTaps` is the real one."""

    speaker: Speaker
    appeared_s: float

    def shown_step(self) -> Step | None: ...
    async def speak(self, *, whole: bool = False) -> None: ...
    async def look_back(self, step_id: str) -> None: ...
    async def answer(
        self, step_id: str, answer: Answer, *, reason: Reason | None = None, by: By = "tap"
    ) -> None: ...
    async def record_events(self, *changes: Change, or_never: bool = False) -> bool: ...


class KeyTaps:
    """The presses of one page.

    Attributes:
        unlocked: the id of the step whose lamps have been said, so that one press may answer them.
        by: what told the last thing that was not tapped.
    """

    def __init__(self, view: View, walk_taps: WalkForKeys) -> None:
        self._view = view
        self._walk_taps = walk_taps
        self._pressed_on_s: float | None = None
        self._learnt_s = float("-inf")
        self.unlocked = ""
        self.by: By = "key"

    async def know(self) -> None:
        """Learn from the phone which keys it has."""
        if await self._view.device.keyboard.know():
            self._view.redraw()

    async def pressed(self, key: str) -> None:
        """Handle the press of a key: learn it, or do what it was learned for."""
        view, now_s = self._view, self._view.parts.timing.now_s()
        keyboard, key = view.device.keyboard, STAND_INS.get(key, key)
        if "keys" in (view.panel, view.route.strip("/")):
            # A bouncing key, or one that presses the focused button too, is learned once.
            if keyboard.learning and now_s - self._learnt_s >= view.parts.timing.dead_s:
                await self._learn(key)
            return
        action = keyboard.learnt.action(key)
        if action is not None and "/walk/" in view.route:
            await self.act(action, "key")

    async def act(self, action: Action, by: By) -> None:
        """Do what a press of a key that was learned for this does; `by` is what told it."""
        view, self.by = self._view, by
        try:
            walk, step = view.walk, self._walk_taps.shown_step()
        except WalkaroundError:
            return  # the screen says why the walk cannot be opened
        context = self._context(walk, step)
        effect = press_effect(action, context, view.parts.timing.dead_s)
        if effect == "nothing":
            log.debug("%s by %s does nothing: %s", action, by, context)
            return
        self._pressed_on_s = self._walk_taps.appeared_s
        try:
            await self._do(effect, walk, step)
        finally:
            self._pressed_on_s = None

    async def _learn(self, key: str) -> None:
        view = self._view
        action = view.device.keyboard.learning
        if not await view.device.keyboard.learn(key):
            view.message = view.words("keys-cannot-be-learnt")
            view.redraw()
            return
        self._learnt_s, view.message = view.parts.timing.now_s(), ""
        view.redraw()
        await view.sound.say(view.words("keys-learnt", action=view.words(f"keys-for-{action}")))

    def _context(self, walk: Walk, step: Step | None) -> PressContext:
        view, last = self._view, walk.events[-1]
        now = view.parts.clock()
        without_tap = isinstance(last, Answered) and last.by != "tap"
        without_tap = without_tap and (last.who, last.at.boot) == (view.who, now.boot)
        return PressContext(
            place=self.place(walk, step),
            since_s=view.parts.timing.now_s() - self._walk_taps.appeared_s,
            # What it led to may be heard still, but is not on the screen any more.
            busy=self._pressed_on_s == self._walk_taps.appeared_s,
            unread=not view.words_seen.live,
            locked=step is not None and has_many_lamps(step) and self.unlocked != step.id,
            ok_needs_tap=step is not None and tap_needed(walk, step, ok=True) is not None,
            defect_needs_tap=step is not None and tap_needed(walk, step, ok=False) is not None,
            answered_ago_s=passed_s(last.at, now) if without_tap else None,
        )

    def place(self, walk: Walk, step: Step | None) -> Place:
        """Tell what is on the screen."""
        panel = self._view.panel
        if walk.phase != "stepping" or panel not in ("", "fault"):
            return "elsewhere"
        if step is None:
            return "end"
        if panel:
            return "faults"
        return "looking_back" if self._view.peek else "step"

    async def _do(self, effect: PressEffect, walk: Walk, step: Step | None) -> None:
        view, walk_taps = self._view, self._walk_taps
        match effect:
            case "say_again" if not view.panel:
                await walk_taps.speak(whole=True)
            case "explain":
                await walk_taps.speaker.reword()
                await walk_taps.speak(whole=True)
            case "go_on":
                await walk_taps.look_back("")
            case "look_back":
                at = walk.steps.index(step) if step else len(walk.steps)
                if at > 0:
                    await walk_taps.look_back(walk.steps[at - 1].id)
            case "take_back":
                await self._take_back(walk)
            case "answer_ok":
                assert step is not None
                await walk_taps.answer(step.id, "ok", by=self.by)
            case "tell_faults":
                view.open("fault")
                view.unfinished.keep("pointed", 0)
            case "read_on" if read_on := view.words_seen.read_on:
                await read_on()
            case "need_tap" | "wait":
                assert step is not None
                await self._refuse(walk, step, effect)
            case _ if offers := view.device.keyboard.offers:
                await self._go_through(effect, offers)

    async def _go_through(self, effect: PressEffect, offers: Offers) -> None:
        """Handle keys on the panel of defects; the first press on one opened by a tap points."""
        at = offers.at
        if effect == "close_faults":
            await offers.close()
        elif effect == "say_again" and at >= 0:
            await self._view.sound.say(offers.all[at].word)
        elif effect == "choose_fault" and at >= 0:
            offers.point(0)
            await offers.all[at].take()
        else:
            offers.point((at + 1) % len(offers.all))

    async def _refuse(self, walk: Walk, step: Step, effect: PressEffect) -> None:
        """Make it felt at once; say why only where that is heard, and cuts off nothing needed."""
        await self._view.device.vibrate()
        if effect == "wait" and self._view.sound.silent_s > 0:
            # Nobody says it: another page moved the walk on.
            await self._walk_taps.speak()
        why = tap_needed(walk, step, ok=True) or tap_needed(walk, step, ok=False)
        heard = not step.vents and not self._walk_taps.speaker.unheard_s(step.id)
        if effect == "need_tap" and why and heard:
            await self._view.sound.say(self._view.words.text(why))

    async def _take_back(self, walk: Walk) -> None:
        """Ask again what a key answered last; both entries stay in the record."""
        last = walk.events[-1]
        assert isinstance(last, Answered)
        body = {"step": last.step, "purpose": "change"}
        if await self._walk_taps.record_events((Revisited, body), or_never=True):
            await self._walk_taps.speaker.taken_back()
            await self._walk_taps.look_back("")
