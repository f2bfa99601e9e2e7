"""What is done with what was said at one page: the same as with a tap, where a voice may do it."""

from __future__ import annotations

import logging
from collections.abc import Awaitable, Callable, Collection
from functools import partial
from typing import NamedTuple, Protocol

from walkaround.base.errors import WalkaroundError
from walkaround.base.message import Message, message
from walkaround.key_answers.key_presses import tap_needed
from walkaround.key_answers.learned_keys import Action
from walkaround.plan.steps import Step
from walkaround.plan.values import Value
from walkaround.recognition.audio_streams import Vocabulary
from walkaround.spoken_answers.heard_text import HeardText, is_clear
from walkaround.spoken_answers.numbers import (
    LEAST_LEAD,
    LONGEST_S,
    number_example,
    number_words,
    parse_number,
)
from walkaround.spoken_answers.phrases import (
    PHRASES,
    SCORED,
    Meaning,
    accepted_meanings,
    meaning_of,
)
from walkaround.ui.page.view import View
from walkaround.ui.taps.air_hold import HoldTaps
from walkaround.ui.taps.keys import KeyTaps, WalkForKeys
from walkaround.ui.taps.microphone import Microphone, ScreenPlace
from walkaround.ui.taps.values import ValueTaps
from walkaround.walk.keypad import Scale, can_be_entered, pad_scale
from walkaround.words.measured_values import entered_text, next_value

log = logging.getLogger(__name__)

YES_S = 5.0
"""How long after the question a yes counts."""
TAP_AFTER = 2
"""After nothing was understood this many times in a row, a tap is asked for."""

_ACTIONS: dict[Meaning, Action] = {
    "ok": "ok", "defect": "defect", "again": "again", "explain": "explain", "back": "back",
    "next": "defect", "take": "ok", "on": "ok",
}  # fmt: skip
"""What does the same as a key that was learned for this."""

Act = Callable[[], Awaitable[object]]
_NEED_TAPS = frozenset({"ok", "defect", "not_checked", "not_fitted"})


class WalkForSpeech(WalkForKeys, Protocol):
    """The part of a page's walk that spoken answers need; `WalkTaps` is the real one."""

    key_taps: KeyTaps
    hold_taps: HoldTaps
    value_taps: ValueTaps

    def too_soon(self) -> bool: ...


class _Question(NamedTuple):
    """A question about what was heard, which counts with a yes.

    Attributes:
        text: the question.
        act: what the yes does.
        until_s: by when the yes must have come, by the clock of `Timing`.
        place: what was on the screen: a yes on another means nothing.
    """

    text: str
    act: Act
    until_s: float
    place: ScreenPlace


class SpokenTaps:
    """The handlers of what one page hears.

    Attributes:
        microphone: of its phone.
        reply: a sentence about what was heard last; empty if there is nothing to say of it.
    """

    def __init__(self, view: View, walk_taps: WalkForSpeech) -> None:
        self._view = view
        self._walk_taps = walk_taps
        self._question: _Question | None = None
        self._missed = 0
        self.microphone = Microphone(view, self._asked, self._take)
        self.reply = ""

    @property
    def offered(self) -> Collection[Meaning]:
        """What can be said now, the answers first."""
        walk, step = self._view.walk, self._walk_taps.shown_step()
        place = self._walk_taps.key_taps.place(walk, step)
        return accepted_meanings(walk, step, place, question_open=self._asking)

    @property
    def number_example(self) -> str:
        """A number as it can be said now; empty if none can be."""
        value = None if self._asking else self._value()
        return number_example(self._scale(*value).unit) if value else ""

    def _asked(self) -> Vocabulary:
        """Return what can be said at a press that begins now."""
        self.reply = ""
        try:
            _ = self._view.walk
        except WalkaroundError:
            return Vocabulary(())  # the screen says why the walk cannot be opened
        number = None if self._asking else self._value()
        if not self.offered and not number:
            return Vocabulary(())
        return Vocabulary(SCORED, number_words(self._scale(*number).unit) if number else ())

    @property
    def _asking(self) -> bool:
        question = self._question
        if question is None or question.place != self.microphone.place:
            return False
        return self._view.parts.timing.now_s() <= question.until_s

    def _value(self) -> tuple[Step, Value] | None:
        """Return the value that may be said now, with its step."""
        view, step = self._view, self._walk_taps.shown_step()
        if step is None or step.spoken != "value" or view.peek or view.panel:
            return None
        assert step.measure is not None
        value = next_value(step.measure, view.walk.measured.get(step.id, {}))
        return (step, value) if value else None

    def _scale(self, step: Step, value: Value) -> Scale:
        """Return the scale in which that value is entered."""
        assert step.measure is not None
        gauge = self._view.walk.gauge(value.gauge) if value.gauge else None
        return pad_scale(step.measure, gauge, self._view.settings.length)

    async def _take(self, likeliest: HeardText | None, meant_place: ScreenPlace) -> None:
        view, walk_taps = self._view, self._walk_taps
        log.debug("%s", likeliest)
        self.reply = "" if likeliest else view.words("speech-stopped")
        view.redraw()
        if likeliest is None or meant_place != self.microphone.place or not self.microphone.wanted:
            # It was meant for what is not on the screen any more.
            return
        step, counts, value = walk_taps.shown_step(), self.offered, self._value()
        question = self._question if self._asking else None
        meaning = meaning_of(likeliest.text) if is_clear(likeliest) else None
        if meaning is not None and meaning in counts:
            self._missed, self._question = 0, None
            if question is None:
                await self._do(meaning, step)
            elif meaning == "yes":
                await question.act()
            else:
                await self._say(message("speech-not-done"))
            return
        spelled = question is None and is_clear(
            likeliest, least_lead=LEAST_LEAD, longest_s=LONGEST_S
        )
        if value and spelled and await self._number(*value, likeliest.text):
            self._missed = 0
            return
        why = step and meaning and tap_needed(view.walk, step, ok=meaning != "defect")
        if why and meaning in _NEED_TAPS:
            # It was understood, and it is told why that is not enough.
            await self._say(why, felt=step is not None and step.vents)
            return
        await self._not_understood(step)

    async def _not_understood(self, step: Step | None) -> None:
        view = self._view
        self._missed += 1
        self.reply = view.words("speech-tap" if self._missed >= TAP_AFTER else "speech-unclear")
        view.redraw()
        if step is not None and step.vents:
            # Whatever is played would not be understood.
            await view.device.vibrate()
            return
        await view.sound.cue("unclear")
        if self._missed >= TAP_AFTER:
            await view.sound.say(self.reply)

    async def _do(self, meaning: Meaning, step: Step | None) -> None:
        view, walk_taps = self._view, self._walk_taps
        if action := _ACTIONS.get(meaning):
            await walk_taps.key_taps.act(action, "voice")
        elif meaning == "note":
            view.open("note")
        elif step is not None and not walk_taps.too_soon():
            if meaning == "not_checked":
                await walk_taps.answer(step.id, "not_checked", reason="other", by="voice")
            elif meaning == "not_fitted":
                absent: Act = partial(walk_taps.answer, step.id, "not_fitted", by="voice")
                await self._ask(view.words("speech-ask-not-fitted"), absent)
            elif meaning == "start":
                hold = view.walk.holds.get(step.id)
                before = hold.began if hold else None
                start: Act = partial(walk_taps.hold_taps.begin, step.id, before)
                await self._ask(view.words("speech-ask-start"), start)

    async def _number(self, step: Step, value: Value, text: str) -> bool:
        """Read a number back, and ask whether it is right; whether it can be entered."""
        view, measure = self._view, step.measure
        assert measure is not None
        scale = self._scale(step, value)
        number = parse_number(text, scale.unit)
        if number is None or not can_be_entered(measure.quantity, scale, number):
            return False
        before = view.walk.measured.get(step.id, {}).get(value.id)
        number_text = entered_text(number, scale.unit)
        act = partial(
            self._walk_taps.value_taps.record_value,
            step, value.id, number, scale.unit, before=before, by="voice",
        )  # fmt: skip
        await self._ask(view.words("speech-ask-value", name=value.name, value=number_text), act)
        return True

    async def _ask(self, text: str, act: Act) -> None:
        """Ask whether it was heard right; the answer counts for some seconds after the question."""
        view = self._view
        self.reply = view.words("speech-asked", question=text, phrase=PHRASES["yes"])
        view.redraw()
        said_s = await view.sound.say(text, needed=True)
        until_s = view.parts.timing.now_s() + said_s + YES_S
        self._question = _Question(text, act, until_s, self.microphone.place)

    async def _say(self, text: Message, *, felt: bool = False) -> None:
        """Show this and say it, or let the phone be felt where it would not be understood."""
        self.reply = self._view.words.text(text)
        self._view.redraw()
        if felt:
            await self._view.device.vibrate()
        else:
            await self._view.sound.say(self.reply)
