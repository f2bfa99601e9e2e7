"""The keys that a phone has learned: each action with its keys, and how it learns another."""

from __future__ import annotations

import flet as ft

from walkaround.key_answers.learned_keys import ACTIONS, Action, LearnedKeys
from walkaround.spoken_answers.phrases import PHRASES
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import caution, page_column, top_bar
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.step_keys import spoken_answers_on
from walkaround.ui.page.view import View


@screen
def keys_screen(view: View, back: Tap) -> ft.Control:
    """Tell what each action is learned for; a tap on it waits for its key."""
    keyboard, words = view.device.keyboard, view.words

    async def learn(action: Action | None) -> None:
        keyboard.learning, view.message = action, ""
        view.redraw()

    async def begin() -> None:
        # Somebody who left the screen while learning a key starts over.
        if keyboard.learning:
            await learn(None)

    async def forget() -> None:
        await keyboard.change(LearnedKeys())
        await learn(None)

    def line(action: Action) -> ft.Control:
        action_name, keys = words(f"keys-for-{action}"), keyboard.learnt.keys_for(action)
        on = keyboard.learning == action
        if on:
            word = words("keys-press-now", action=action_name)
        elif keys:
            word = words("keys-learnt-for", action=action_name, keys=words.row(keys))
        else:
            word = words("keys-none-for", action=action_name)
        tap, icon = tapped(learn, None if on else action), ft.Icons.KEYBOARD
        return wide_button(word, tap, key=f"learn_{action}", icon=icon, on=on)

    async def switch() -> None:
        await view.set(view.settings.model_copy(update={"talk": not view.settings.talk}))

    effect(view, begin)
    learnable = [each for each in ACTIONS if each != "talk" or spoken_answers_on(view)]
    body = [label(words("keys-what")), *map(line, learnable)]
    body += [caution(words("keys-never"), SMALL + 1), label(words("keys-take-back"), QUIET, SMALL)]
    body += [heading(words("speech-title")), *_spoken_answers_card(view, switch)]
    if keyboard.learnt.keys:
        icon = ft.Icons.DELETE_OUTLINE
        body.append(wide_button(words("keys-forget"), forget, key="forget_keys", icon=icon))
    return page_column(top_bar(words, words("keys-title"), back=back), body)


def _spoken_answers_card(view: View, switch: Tap) -> list[ft.Control]:
    """Show what spoken answers are, whether this phone listens, and what can be said."""
    words, on = view.words, spoken_answers_on(view)
    if not view.parts.recognition.installed:
        return [label(words("speech-not-installed"), key="speech_not_installed")]
    word, icon = (
        words("speech-on" if on else "speech-off"),
        ft.Icons.MIC if on else ft.Icons.MIC_OFF,
    )
    rows: list[ft.Control] = [
        label(words("speech-what")),
        wide_button(word, switch, key="talk_switch", icon=icon, on=on),
    ]
    if on:
        for each, phrase in PHRASES.items():
            means = words(f"speech-means-{each.replace('_', '-')}")
            rows.append(label(words("speech-phrase", phrase=phrase, means=means)))
        rows += [label(words("speech-numbers")), caution(words("speech-never"), SMALL + 1)]
    return rows
