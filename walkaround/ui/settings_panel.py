"""Voice and looks: the same controls in a walk's menu and on the settings screen."""

from __future__ import annotations

from collections.abc import Callable, Coroutine
from typing import Any

import flet as ft

from walkaround.settings import Settings
from walkaround.ui.guard import screen
from walkaround.ui.parts import button, heading, notice, page_column, top_bar, words
from walkaround.ui.theme import BODY, SMALL
from walkaround.ui.view import View

SAMPLE = "Pin 4 on, stop. Two stop lamps, steady."


@screen
def settings_screen(view: View) -> ft.Control:
    """Everything that can be set."""

    async def back() -> None:
        await view.go("/")

    body = voice_settings(view)
    data = words(f"Records are kept in {view.parts.data}", view.palette.quiet_ink, SMALL)
    return page_column(top_bar("Settings", view.palette, back=back), [*body, data])


def voice_settings(view: View) -> list[ft.Control]:
    """Prompts, voice, rate, loudness, colours."""
    now = view.settings
    colours = view.palette

    def change(**to: object) -> Callable[[], Coroutine[Any, Any, None]]:
        return _changer(view, now.model_copy(update=to))

    rows: list[ft.Control] = [
        heading("Prompts", colours, BODY),
        _row(
            _option(view, "Short", now.wording == "short", change(wording="short"), "short"),
            _option(view, "With reasons", now.wording == "long", change(wording="long"), "long"),
        ),
        heading("Voice", colours, BODY),
        _row(
            _option(view, "Spoken", now.voice, change(voice=True), "voice_on"),
            _option(view, "Silent", not now.voice, change(voice=False), "voice_off"),
        ),
        _row(
            _step(view, "Slower", _changer(view, now.faster(-1)), "slower"),
            _step(view, "Faster", _changer(view, now.faster(1)), "faster"),
        ),
        _row(
            _step(view, "Softer", _changer(view, now.louder(-1)), "softer"),
            _step(view, "Louder", _changer(view, now.louder(1)), "louder"),
        ),
        words(f"{now.rate_wpm} words a minute, {now.volume:.0%} loud", colours.quiet_ink, SMALL),
        heading("Colours", colours, BODY),
        _row(
            _option(view, "As the phone", now.dark is None, change(dark=None), "dark_auto"),
            _option(view, "Light", now.dark is False, change(dark=False), "dark_off"),
            _option(view, "Dark", now.dark is True, change(dark=True), "dark_on"),
        ),
    ]
    if view.sound.trouble:
        rows.insert(2, notice(view.sound.trouble, colours, key="no_sound"))
    return rows


def _changer(view: View, to: Settings) -> Callable[[], Coroutine[Any, Any, None]]:
    async def change() -> None:
        before = view.settings
        await view.set(to)
        if not to.voice:
            await view.sound.hush()
        elif _sounds(to) != _sounds(before):
            await view.sound.say(SAMPLE)

    return change


def _sounds(settings: Settings) -> tuple[bool, int, float]:
    return settings.voice, settings.rate_wpm, settings.volume


def _row(*controls: ft.Control) -> ft.Control:
    return ft.Row(list(controls), spacing=8, wrap=True)


def _option(
    view: View, word: str, on: bool, tap: Callable[[], Coroutine[Any, Any, None]], key: str
) -> ft.Control:
    colours = view.palette
    return button(
        word,
        colours,
        tap,
        key=key,
        icon=ft.Icons.RADIO_BUTTON_CHECKED if on else ft.Icons.RADIO_BUTTON_UNCHECKED,
        ground=colours.accent if on else None,
        ink=colours.on_accent if on else None,
    )


def _step(
    view: View, word: str, tap: Callable[[], Coroutine[Any, Any, None]], key: str
) -> ft.Control:
    return button(word, view.palette, tap, key=key)
