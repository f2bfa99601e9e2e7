"""The keys that a phone has learnt: each action with its keys, and how it learns another."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import caution, page_column, top_bar
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.untapped.learnt import ACTIONS, Action, LearntKeys


@screen
def keys_screen(view: View, back: Tap) -> ft.Control:
    """What each action is learnt for; a tap on it waits for its key."""
    keyboard, words = view.device.keyboard, view.words

    async def learn(action: Action | None) -> None:
        keyboard.learning, view.message = action, ""
        view.redraw()

    async def begin() -> None:
        # Whoever left in the middle of it asks anew.
        if keyboard.learning:
            await learn(None)

    async def forget() -> None:
        await keyboard.change(LearntKeys())
        await learn(None)

    def line(action: Action) -> ft.Control:
        named, keys = words(f"keys-for-{action}"), keyboard.learnt.of(action)
        on = keyboard.learning == action
        if on:
            word = words("keys-press-now", action=named)
        elif keys:
            word = words("keys-learnt-for", action=named, keys=words.row(keys))
        else:
            word = words("keys-none-for", action=named)
        tap, icon = tapped(learn, None if on else action), ft.Icons.KEYBOARD
        return wide_button(word, tap, key=f"learn_{action}", icon=icon, on=on)

    effect(view, begin)
    body = [label(words("keys-what")), *map(line, ACTIONS), caution(words("keys-never"), SMALL + 1)]
    body.append(label(words("keys-take-back"), QUIET, SMALL))
    if keyboard.learnt.keys:
        icon = ft.Icons.DELETE_OUTLINE
        body.append(wide_button(words("keys-forget"), forget, key="forget_keys", icon=icon))
    return page_column(top_bar(words, words("keys-title"), back=back), body)
