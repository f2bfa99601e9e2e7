"""What one page says of a walk: the step on screen, and what is rendered before it is asked."""

from __future__ import annotations

import asyncio

from walkaround.airhold.hold import Hold
from walkaround.plan.steps import Step
from walkaround.ui.page.view import View
from walkaround.ui.step_prompt import prompt_of
from walkaround.walk.events import Answered
from walkaround.walk.state import FAULTS, Walk
from walkaround.words.air_hold import hold_results, hold_texts
from walkaround.words.answers import echo_words, looking_back, round_words
from walkaround.words.prompts import summary_words

AHEAD = 3
"""How many steps' prompts are rendered before they are asked."""


class Speaker:
    """The prompts of one page."""

    def __init__(self, view: View) -> None:
        self._view = view
        self._heard_s: dict[tuple[str, str], float] = {}
        self._ahead: asyncio.TimerHandle | None = None

    def unheard_s(self, step_id: str) -> float:
        """Return the seconds until what this step asks has been heard for the first time.

        What is explained after it need not be waited for, and who hears the brisk words knows what
        they say. While it has not even been begun, a moment: ask again then. Without a voice, none.
        """
        view = self._view
        if not view.settings.voice or view.sound.trouble:
            return 0.0
        heard_s = self._heard_s.get((view.walk_id, step_id))
        if heard_s is None:
            return view.parts.timing.unbegun_s
        return max(0.0, heard_s - asyncio.get_running_loop().time())

    async def answered(self, walk: Walk, step_id: str) -> None:
        """Echo an answer that was not tapped, and sum up a round that it ended."""
        view, answered = self._view, walk.answers[step_id]
        step = next(step for step in walk.steps if step.id == step_id)
        if answered.by != "tap":
            bad = answered.answer in FAULTS
            await asyncio.gather(self._echo(step, answered, bad=bad), self._felt(2 if bad else 1))
        if summary := round_words(walk, step, view.words):
            await view.sound.say(summary, soft=step.soft, needed=True)

    async def taken_back(self) -> None:
        """Say that the last answer is asked again."""
        prompt = self._view.sound.say(self._view.words("key-answers-taken-back"), needed=True)
        await asyncio.gather(prompt, self._felt(1))

    async def _echo(self, step: Step, answered: Answered, *, bad: bool) -> None:
        sound, text = self._view.sound, echo_words(step, answered, self._view.words)
        await sound.cue("defect" if bad else "ok", soft=step.soft)
        await sound.say(text, soft=step.soft, needed=True)

    async def _felt(self, times: int) -> None:
        for _ in range(times):
            await self._view.device.vibrate()

    async def reword(self) -> None:
        """Explain from now on, or leave that out again."""
        view = self._view
        longer = view.settings.wording != "long"
        if longer:
            view.wording = view.settings.wording
        wording = "long" if longer else view.wording
        await view.set(view.settings.model_copy(update={"wording": wording}))

    async def say(self, walk: Walk, step: Step | None, *, whole: bool = False) -> None:
        """Say where the walk stands: at this step, or at its end.

        Args:
            walk: the walk.
            step: the step on screen; None at the end.
            whole: all that is shown, what was explained before too.
        """
        sound = self._view.sound
        if step is None or walk.plan is None:
            await sound.say(
                "" if walk.phase == "finished" else summary_words(walk, self._view.words)
            )
            return
        hold = walk.holds.get(step.id)
        if step.id == self._view.peek:
            # What the step asks is no order any more: the vehicle does not stand so.
            answered = walk.answers.get(step.id)
            texts = [looking_back(step, answered, self._view.words)]
            if hold and hold.ended:
                texts.append(hold_results(hold, self._view.words))
            await sound.say(" ".join(texts))
        elif hold and hold.void:
            await sound.say(self._view.words.text(hold.void))
        elif hold and hold.ended:
            await sound.say(hold_results(hold, self._view.words))
        elif hold is None:
            prompt = prompt_of(self._view, walk, step)
            text = f"{prompt.caution} {prompt.body}".strip() if whole else prompt.say
            takes_s = prompt.order_share * await sound.say(text)
            if self._view.settings.wording == "brisk":
                takes_s = min(takes_s, self._view.parts.timing.brisk_live_s)
            heard_s = asyncio.get_running_loop().time() + takes_s
            self._heard_s.setdefault((walk.id, step.id), heard_s)
        # Rendering takes a processor that the screen needs first.
        if self._ahead:
            self._ahead.cancel()
        self._ahead = asyncio.get_running_loop().call_later(
            self._view.parts.timing.ahead_s, self._render_ahead, walk, step
        )

    def _render_ahead(self, walk: Walk, step: Step) -> None:
        """Have what may be said next rendered; what matters most goes first."""
        at, view = walk.steps.index(step), self._view
        texts = [prompt_of(view, walk, later).say for later in walk.steps[at + 1 : at + 1 + AHEAD]]
        if step.hold:
            gauges = {line: walk.gauge(line) for line in step.hold.gauges}
            hold = Hold(rule=step.hold, began=view.parts.clock(), gauges=gauges)
            texts = [*hold_texts(hold, view.words), *texts]
        view.sound.render_ahead([*texts[:1], view.words("page-not-saved-said"), *texts[1:]])
