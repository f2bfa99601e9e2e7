"""What keys do at a step: which of them answers it, and what they go through at a defect."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence

import flet as ft

from walkaround.key_answers.key_presses import tap_needed
from walkaround.plan.steps import Step
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.page.guard import effect
from walkaround.ui.page.keyboard import Offer, Offers
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.walk.state import Walk

_ICON_PX, _STRIP_PX = 20.0, 46.0
TALK_PX = 62.0
"""Height of the zone that is held while one talks, at a scale of 1."""


def key_line_px(view: View) -> float:
    """Return the height of the line about keys with the gap below the line before it, px.

    In practice, with that of the strip that says so.
    """
    strip = _STRIP_PX if view.practices else 0.0
    has_line = view.device.keyboard.learnt.keys and not view.peek
    line = max(_ICON_PX, 1.5 * SMALL * view.device.text_scale) + 4.0 if has_line else 0.0
    return strip + line


def key_line(view: View, walk: Walk, step: Step) -> list[ft.Control]:
    """Tell which keys answer this step, or that it takes a tap; nothing where none was learned."""
    learnt, words = view.device.keyboard.learnt, view.words
    if not learnt.keys or view.peek:
        return []
    if why := tap_needed(walk, step, ok=True):
        text, icon = words.text(why), ft.Icons.TOUCH_APP
    else:
        key_names = (
            words("key-answers-key", key=key, action=words(f"keys-for-{action}"))
            for key, action in learnt.keys.items()
        )
        text, icon = words.row(key_names), ft.Icons.KEYBOARD
    line = label(text, QUIET, SMALL, max_lines=1, key="key_line")
    line.expand = True
    return [ft.Row([ft.Icon(icon, size=_ICON_PX, color=QUIET), line], spacing=8)]


def spoken_answers_on(view: View) -> bool:
    """Tell whether this phone was switched to be talked to, and can be."""
    return view.settings.talk and view.parts.recognition.installed


def talk_px(view: View) -> float:
    """Return the height of the talk zone with the gap beside it, px."""
    return TALK_PX * min(view.device.text_scale, 1.5) + 10.0 if spoken_answers_on(view) else 0.0


def use_offers(view: View, offers: Sequence[Offer], close: Callable[[], Awaitable[None]]) -> str:
    """Let two keys go through what is offered; give the key of what is pointed at, or nothing.

    A hook: call it at each drawing of the panel, as many times. What is pointed at is said.

    Args:
        view: the page's.
        offers: what can be told now, in the order of its buttons.
        close: leaves the panel, or goes back in it.
    """
    pointed, point = use_unfinished(view.unfinished, "pointed", -1)
    at = min(pointed, len(offers) - 1)
    view.device.keyboard.offers = Offers(offers, at, point, close)
    here = offers[at] if at >= 0 else None

    async def say() -> None:
        if here:
            await view.sound.say(here.word)

    effect(view, say, [here.key if here else "", len(offers)])
    return here.key if here else ""
