"""The large answers under the thumb, of a step that takes no values."""

from __future__ import annotations

import asyncio

import flet as ft

from walkaround.plan.steps import Choice, Step
from walkaround.ui.airhold.result import hold_answers
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.theme import GAP, Tone
from walkaround.ui.kit.zones import answer_zone, choice_zone, defect_zone, ok_zone
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.answers import has_many_lamps
from walkaround.walk.state import Walk
from walkaround.words.answers import answer_word


@screen
def step_answers(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """Show the answers to one step; keyed by it, so that the second tap of a double is dropped."""
    if step.hold:
        return hold_answers(view, taps, walk, step)

    height, alone = view.device.answer_px, step.must and not step.looks
    if step.choices:
        right: list[ft.Control] = [_choice(view, taps, step, each, height) for each in step.choices]
    elif has_many_lamps(step) and not view.peek:
        ok = taps.answers(step.id, "ok")
        right = [all_as_shown(view, taps, step, ok, height, key=f"heard_{step.id}")]
    else:
        word, ok = answer_word(step, "ok", view.words), taps.answers(step.id, "ok")
        across = 1 if alone else 2
        right = [ok_zone(view.words, ok, word=word, height=height, autofocus=True, across=across)]
    if alone:
        return ft.Row(right, spacing=GAP)
    wrong = defect_zone(view.words, view.opens("fault"), height=height)
    if step.choices:
        return stretched([ft.Row([wrong]), ft.Row(right, spacing=GAP)], tight=True)
    return ft.Row([wrong, *right], spacing=GAP)


def _choice(view: View, taps: WalkTaps, step: Step, choice: Choice, height: int) -> ft.Control:
    """Show one way in which it was done; none of them is marked as the right one."""
    tap = taps.answers(step.id, "ok", choice=choice.id)
    return choice_zone(view.words.text(choice.text), tap, key=f"choice_{choice.id}", height=height)


@screen
def all_as_shown(view: View, taps: WalkTaps, step: Step, ok: Tap, height: int) -> ft.Control:
    """Make one tap that answers many lamps; live once they have been said, so none is skipped."""
    live, set_live = ft.use_state(False)

    async def listen() -> None:
        await asyncio.sleep(view.parts.timing.dead_s)
        while (left_s := taps.speaker.unheard_s(step.id)) > 0:
            await asyncio.sleep(min(left_s, 0.5))
        taps.appear()
        taps.key_taps.unlocked = step.id
        set_live(True)

    effect(view, listen)
    if live:
        word = view.words("step-as-shown")
        return ok_zone(view.words, ok, word=word, height=height, autofocus=True)
    word, icon, tone = view.words("step-listen"), ft.Icons.HEARING, Tone.PLAIN
    return answer_zone(word, icon, taps.speak, key="listen", tone=tone, height=height, across=2)
