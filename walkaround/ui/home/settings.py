"""Voice, looks and units: the same controls in a walk's menu and on the settings screen."""

from __future__ import annotations

from collections.abc import Callable, Coroutine
from typing import Any, get_args

import flet as ft

from walkaround.base.units import PressureUnit
from walkaround.settings import Settings
from walkaround.ui.kit.buttons import button, choice, small_answer
from walkaround.ui.kit.parts import notice, page_column, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import BODY, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View

SAMPLE = "Pin 4 on, stop. Two stop lamps, steady."


@screen
def settings_screen(view: View) -> ft.Control:
    """Everything that can be set."""

    async def back() -> None:
        await view.go("/")

    async def others() -> None:
        await view.go("/pairing")

    body = voice_settings(view)
    if view.parts.pairing is not None:
        pair = button("Other devices", view.palette, others, key="pairing", icon=ft.Icons.QR_CODE)
        body.append(ft.Row([pair]))
    data = words(f"Records are kept in {view.parts.data}", view.palette.quiet_ink, SMALL)
    return page_column(top_bar("Settings", view.palette, back=back), [*body, data])


def voice_settings(view: View) -> list[ft.Control]:
    """Prompts, voice, rate, loudness, colours, units."""
    now = view.settings
    colours = view.palette

    def change(**to: object) -> Callable[[], Coroutine[Any, Any, None]]:
        return _changer(view, now.model_copy(update=to))

    rows: list[ft.Control] = [
        heading("Prompts", colours, BODY),
        choice(
            [
                ("short", "Short", change(wording="short")),
                ("long", "With reasons", change(wording="long")),
            ],
            now.wording,
            colours,
        ),
        heading("Voice", colours, BODY),
        choice(
            [
                ("voice_True", "Spoken", change(voice=True)),
                ("voice_False", "Silent", change(voice=False)),
            ],
            f"voice_{now.voice}",
            colours,
        ),
        ft.Row(
            [
                _nudge(view, "Slower", ft.Icons.FAST_REWIND, now.faster(-1)),
                _nudge(view, "Faster", ft.Icons.FAST_FORWARD, now.faster(1)),
                _nudge(view, "Softer", ft.Icons.VOLUME_DOWN, now.louder(-1)),
                _nudge(view, "Louder", ft.Icons.VOLUME_UP, now.louder(1)),
            ],
            spacing=8,
        ),
        words(f"{now.rate_wpm} words a minute, {now.volume:.0%} loud", colours.quiet_ink, SMALL),
        heading("Colours", colours, BODY),
        choice(
            [
                ("dark_None", "As phone", change(dark=None)),
                ("dark_False", "Light", change(dark=False)),
                ("dark_True", "Dark", change(dark=True)),
            ],
            f"dark_{now.dark}",
            colours,
        ),
        heading("Pressures in", colours, BODY),
        choice(
            [(unit, unit, change(pressure=unit)) for unit in get_args(PressureUnit)],
            now.pressure,
            colours,
        ),
        heading("Lengths in", colours, BODY),
        choice(
            [("in", "Inches", change(length="in")), ("mm", "Millimetres", change(length="mm"))],
            now.length,
            colours,
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
            view.sound.hush()
        elif _sounds(to) != _sounds(before):
            await view.sound.say(SAMPLE)

    return change


def _sounds(settings: Settings) -> tuple[bool, int, float]:
    return settings.voice, settings.rate_wpm, settings.volume


def _nudge(view: View, word: str, icon: ft.IconData, to: Settings) -> ft.Control:
    return small_answer(word, icon, view.palette, _changer(view, to), key=word.lower())
