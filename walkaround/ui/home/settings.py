"""What can be set: voice, looks, units, also in the menu of a walk; and other devices."""

from __future__ import annotations

from collections.abc import Callable, Coroutine
from typing import Any, get_args

import flet as ft

from walkaround.access.pairing import Pairing
from walkaround.base.units import PressureUnit
from walkaround.settings import Settings
from walkaround.ui.kit.buttons import Tap, button, choice, small_answer
from walkaround.ui.kit.parts import caution, notice, page_column, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import BODY, QUIET, RADIUS, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View

WARNING = (
    "With a new key every device is dropped at once, this one too. To pair them again, scan the "
    "code that the computer running walkaround then shows in its terminal."
)
_CODE_PX = 260
"""Width of the code; a phone scans it from another phone's screen at arm's length."""
SAMPLE = "Pin 4 on, stop. Two stop lamps, steady."


@screen
def settings_screen(view: View) -> ft.Control:
    """Everything that can be set."""
    body = voice_settings(view)
    if view.parts.pairing is not None:
        pair = button("Other devices", view.to("/pairing"), key="pairing", icon=ft.Icons.QR_CODE)
        body.append(ft.Row([pair]))
    data = words(f"Records are kept in {view.parts.data}", QUIET, SMALL)
    return page_column(top_bar("Settings", back=view.to("/")), [*body, data])


def voice_settings(view: View) -> list[ft.Control]:
    """Prompts, voice, rate, loudness, colors, units."""
    now = view.settings

    def change(**to: object) -> Callable[[], Coroutine[Any, Any, None]]:
        return _changer(view, now.model_copy(update=to))

    rows: list[ft.Control] = [
        heading("Prompts", BODY),
        choice(
            [
                ("short", "Short", change(wording="short")),
                ("long", "With reasons", change(wording="long")),
            ],
            now.wording,
        ),
        heading("Voice", BODY),
        choice(
            [
                ("voice_True", "Spoken", change(voice=True)),
                ("voice_False", "Silent", change(voice=False)),
            ],
            f"voice_{now.voice}",
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
        words(f"{now.rate_wpm} words a minute, {now.volume:.0%} loud", QUIET, SMALL),
        heading("Colours", BODY),
        choice(
            [
                ("dark_None", "As phone", change(dark=None)),
                ("dark_False", "Light", change(dark=False)),
                ("dark_True", "Dark", change(dark=True)),
            ],
            f"dark_{now.dark}",
        ),
        heading("Pressures in", BODY),
        choice(
            [(unit, unit, change(pressure=unit)) for unit in get_args(PressureUnit)],
            now.pressure,
        ),
        heading("Lengths in", BODY),
        choice(
            [("in", "Inches", change(length="in")), ("mm", "Millimetres", change(length="mm"))],
            now.length,
        ),
    ]
    if view.sound.trouble:
        rows.insert(2, notice(view.sound.trouble, key="no_sound"))
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
    return small_answer(word, icon, _changer(view, to), key=word.lower())


@screen
def pairing_screen(view: View) -> ft.Control:
    """The address with its key, the code of it, and the way to a new key."""
    sure, set_sure = ft.use_state(False)
    pairing = view.parts.pairing

    top = top_bar("Other devices", back=view.to("/settings"))
    if pairing is None:
        text = "Only this device is served. Start walkaround with --lan to let in others."
        return page_column(top, [words(text)])

    async def renew() -> None:
        set_sure(False)
        await view.saved(pairing.renew)

    if sure:
        return page_column(top, [caution(WARNING), _choices(set_sure, renew)])
    ask = button("New key", lambda: set_sure(True), key="new_key", icon=ft.Icons.KEY)
    body: list[ft.Control] = [
        words("Scan this with the other device, or open the address there."),
        ft.Row([_code(pairing)], alignment=ft.MainAxisAlignment.CENTER),
        ft.Text(pairing.link, size=SMALL, selectable=True, key="link"),
        words(
            "Whoever has this address can answer for you and read every record. A device that "
            "opened it stays paired until the key is changed.",
            QUIET,
            SMALL,
        ),
        ft.Row([ask]),
    ]
    return page_column(top, body)


def _choices(set_sure: Callable[[bool], None], renew: Tap) -> ft.Control:
    keep = button("Keep it", lambda: set_sure(False), key="keep_key", expand=True)
    drop = button(
        "Drop all",
        renew,
        key="drop_all",
        tone=Tone.BAD,
        expand=True,
    )
    return ft.Row([keep, drop], spacing=8)


def _code(pairing: Pairing) -> ft.Control:
    """Black on white in every coloring: not every phone reads the inverse."""
    return ft.Container(
        ft.Image(
            # From an address: on a page over plain http Flutter draws no picture given as bytes
            # (seen in Chromium with Flet 1.0.5). Another code has another address.
            src=f"/pairing.png?of={pairing.mark}",
            width=_CODE_PX,
            height=_CODE_PX,
            semantics_label="Code of the address",
        ),
        bgcolor=ft.Colors.WHITE,
        border_radius=RADIUS,
        padding=8,
    )
