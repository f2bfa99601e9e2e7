"""What is done with what was said at one page: the same as with a tap, where a voice may do it."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Collection
from contextvars import copy_context
from functools import partial
from typing import NamedTuple, Protocol

from walkaround.base.message import Message, message
from walkaround.ears.lines import Asked, Line, Trouble
from walkaround.plan.steps import Step
from walkaround.plan.values import Value
from walkaround.spoken.hearing import Heard, is_clear
from walkaround.spoken.numbers import LEAST_LEAD, LONGEST_S, number_said, number_words
from walkaround.spoken.phrases import SCORED, Meaning, meaning_of, offered
from walkaround.ui.page.pressing import talks
from walkaround.ui.page.view import View
from walkaround.ui.taps.air_hold import HoldTaps
from walkaround.ui.taps.keys import KeyTaps, Pressing
from walkaround.ui.taps.values import ValueTaps
from walkaround.untapped.learnt import Action
from walkaround.untapped.presses import tap_needed
from walkaround.walk.keypad import Scale, can_be_entered, pad_scale
from walkaround.words.measured import entered_text, next_value

TICKET_KEY = "walkaround.ears"
"""Under which a phone is told its ticket; the script in the page opens the microphone for it."""
YES_S = 5.0
"""How long after the question a yes counts."""
TAP_AFTER = 2
"""So often in a row was nothing understood when a tap is asked for."""

_ACTIONS: dict[Meaning, Action] = {
    "ok": "ok", "defect": "defect", "again": "again", "explain": "explain", "back": "back",
    "next": "defect", "take": "ok", "on": "ok",
}  # fmt: skip
"""What does the same as a key that was learnt for this."""


Act = Callable[[], Awaitable[object]]


_NEED_TAPS = frozenset({"ok", "defect", "not_checked", "not_fitted"})


class Talking(Pressing, Protocol):
    """What spoken answers need of a page's walk; `WalkTaps` is the real one."""

    key_taps: KeyTaps
    hold_taps: HoldTaps
    value_taps: ValueTaps

    def too_soon(self) -> bool: ...


class _Question(NamedTuple):
    """What was heard, and counts with a yes.

    Attributes:
        text: the question.
        act: what the yes does.
        until_s: by when the yes must have come.
    """

    text: str
    act: Act
    until_s: float


class SpokenTaps:
    """What one page hears.

    Attributes:
        live: its microphone is open.
        held: its talk button is held.
        trouble: why it cannot be heard; None while it can.
        told: a sentence about what was heard last; empty if there is nothing to say of it.
    """

    def __init__(self, view: View, walking: Talking) -> None:
        self._view = view
        self._walking = walking
        self._loop, self._context = asyncio.get_running_loop(), copy_context()
        self._tasks: set[asyncio.Task[None]] = set()
        self._line: Line | None = None
        self._meant: tuple[object, ...] = ()
        self._question: _Question | None = None
        self._missed = 0
        self.live = self.held = False
        self.trouble: Trouble | None = None
        self.told = ""
        view.sound.on_play = self._plays

    @property
    def wanted(self) -> bool:
        """Whether this page is to listen: at a walk, where its owner switched that on."""
        return talks(self._view) and self._view.route.startswith("/walk/")

    async def follow(self) -> None:
        """Open the phone's microphone or close it, as is wanted now."""
        if self.wanted == (self._line is not None):
            return
        ears, line = self._view.parts.ears, self._line
        self.live, self.held, self.trouble, self.told = False, False, None, ""
        if line is not None:
            ears.end(line)
            self._line = None
        else:
            self._line = ears.open(self)
        await self._view.device.keep_ticket(TICKET_KEY, self._line.ticket if self._line else "")

    def end(self) -> None:
        """The page is gone."""
        if self._line is not None:
            self._view.parts.ears.end(self._line)
            self._line = None

    async def hold(self, on: bool) -> None:
        """The talk zone is pressed, or let go."""
        if self._line is not None:
            self._line.hold(on)

    def pressed(self) -> Asked:
        """A press begins: break off what is said, and tell what can be said now."""
        self._meant, self.held = self._place(), True
        self._soon(self._begin)
        number = None if self._asking else self._value()
        if not self.offered and not number:
            return Asked(())
        return Asked(SCORED, number_words(self._scale(*number).unit) if number else ())

    @property
    def offered(self) -> Collection[Meaning]:
        """What can be said now, the answers first."""
        walk, step = self._view.walk, self._walking.shown()
        place = self._walking.key_taps.place(walk, step)
        return offered(walk, step, place, asked=self._asking)

    @property
    def takes_number(self) -> bool:
        """Whether a number can be said now."""
        return not self._asking and self._value() is not None

    def released(self) -> None:
        """The press is over; what was said may be on its way."""
        self.held = False
        self._soon(self._drawn)

    def joined(self) -> None:
        """The phone's microphone is open."""
        self.live, self.trouble = True, None
        self._soon(self._drawn)

    def failed(self, why: Trouble) -> None:
        """The phone cannot be heard; taps go on as before."""
        self.held = False
        if why == "stopped":
            self.told = self._view.words("ears-stopped")
        else:
            self.live, self.trouble = False, why
        self._soon(self._drawn)

    def heard(self, heard: Heard) -> None:
        """Something was said."""
        self._soon(partial(self._take, heard, self._meant))

    def _soon(self, work: Callable[[], Awaitable[None]]) -> None:
        """Have this done on the page's own loop, and as part of that page."""

        async def done() -> None:
            await work()

        def begin() -> None:
            task = self._loop.create_task(done(), context=self._context)
            self._tasks.add(task)
            task.add_done_callback(self._tasks.discard)

        self._loop.call_soon_threadsafe(begin)

    async def _begin(self) -> None:
        self._view.sound.give_way()
        self._view.redraw()

    async def _drawn(self) -> None:
        self._view.redraw()

    def _plays(self, seconds: float) -> None:
        if self._line is not None:
            self._line.shut(seconds)

    def _place(self) -> tuple[object, ...]:
        """What is on the screen; what is said there is meant for nothing else."""
        view = self._view
        return view.route, view.panel, view.peek, view.step, view.since

    @property
    def _asking(self) -> bool:
        question = self._question
        return question is not None and self._loop.time() <= question.until_s

    def _value(self) -> tuple[Step, Value] | None:
        """The value that may be said now, and its step."""
        view, step = self._view, self._walking.shown()
        if step is None or step.spoken != "value" or view.peek or view.panel:
            return None
        assert step.measure is not None
        value = next_value(step.measure, view.walk.measured.get(step.id, {}))
        return (step, value) if value else None

    def _scale(self, step: Step, value: Value) -> Scale:
        """In what that value is entered."""
        assert step.measure is not None
        gauge = self._view.walk.gauge(value.gauge) if value.gauge else None
        return pad_scale(step.measure, gauge, self._view.settings.length)

    async def _take(self, heard: Heard, meant: tuple[object, ...]) -> None:
        view, walking = self._view, self._walking
        self.held = False
        view.redraw()
        if meant != self._place() or not self.wanted:
            # It was meant for what is not on the screen any more.
            return
        step, counts, value = walking.shown(), self.offered, self._value()
        question = self._question if self._asking else None
        meaning = meaning_of(heard.text) if is_clear(heard) else None
        if meaning is not None and meaning in counts:
            self._missed, self._question, self.told = 0, None, ""
            if question is None:
                await self._do(meaning, step)
            elif meaning == "yes":
                await question.act()
            else:
                await self._say(message("ears-not-done"))
            return
        spelled = question is None and is_clear(heard, least_lead=LEAST_LEAD, longest_s=LONGEST_S)
        if value and spelled and await self._number(*value, heard.text):
            self._missed = 0
            return
        why = step and meaning and tap_needed(view.walk, step, ok=meaning != "defect")
        if why and meaning in _NEED_TAPS:
            # It was understood, and it is told why that is not enough.
            await self._say(why)
            return
        self._missed += 1
        self.told = view.words("ears-tap" if self._missed >= TAP_AFTER else "ears-unclear")
        view.redraw()
        await view.sound.cue("unclear", soft=step is not None and step.soft)
        if self._missed >= TAP_AFTER:
            await view.sound.say(self.told, soft=step is not None and step.soft)

    async def _do(self, meaning: Meaning, step: Step | None) -> None:
        view, walking = self._view, self._walking
        if action := _ACTIONS.get(meaning):
            await walking.key_taps.act(action, "voice")
        elif meaning == "note":
            view.open("note")
        elif step is not None and not walking.too_soon():
            if meaning == "not_checked":
                await walking.answer(step.id, "not_checked", reason="other", by="voice")
            elif meaning == "not_fitted":
                absent: Act = partial(walking.answer, step.id, "not_fitted", by="voice")
                await self._ask(view.words("ears-ask-not-fitted"), absent)
            elif meaning == "start":
                hold = view.walk.holds.get(step.id)
                before = hold.began if hold else None
                start: Act = partial(walking.hold_taps.begin, step.id, before)
                await self._ask(view.words("ears-ask-start"), start)

    async def _number(self, step: Step, value: Value, text: str) -> bool:
        """Read a number back, and ask whether it is right; whether it can be entered."""
        view, measure = self._view, step.measure
        assert measure is not None
        scale = self._scale(step, value)
        number = number_said(text, scale.unit)
        if number is None or not can_be_entered(measure.quantity, scale, number):
            return False
        before = view.walk.measured.get(step.id, {}).get(value.id)
        shown = entered_text(number, scale.unit)
        act = partial(
            self._walking.value_taps.value,
            step, value.id, number, scale.unit, before=before, by="voice",
        )  # fmt: skip
        await self._ask(view.words("ears-ask-value", name=value.name, value=shown), act)
        return True

    async def _ask(self, text: str, act: Act) -> None:
        """Ask whether it was heard right; the answer counts for some seconds after the question."""
        view, step = self._view, self._walking.shown()
        self.told = text
        view.redraw()
        soft = step is not None and step.soft
        said_s = await view.sound.say(text, soft=soft, needed=True)
        until_s = self._loop.time() + said_s + YES_S
        self._question = _Question(text, act, until_s)

    async def _say(self, text: Message) -> None:
        self.told = self._view.words.text(text)
        self._view.redraw()
        await self._view.sound.say(self.told)
