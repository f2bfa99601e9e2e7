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
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, QUIET, RADIUS, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View

_CODE_PX = 260
"""Width of the code; a phone scans it from another phone's screen at arm's length."""


@screen
def settings_screen(view: View) -> ft.Control:
    """Everything that can be set."""
    body = voice_settings(view)
    if view.parts.pairing is not None:
        pair = button(
            view.words("pairing-title"), view.to("/pairing"), key="pairing", icon=ft.Icons.QR_CODE
        )
        body.append(ft.Row([pair]))
    data = label(view.words("settings-data", folder=str(view.parts.data)), QUIET, SMALL)
    title = view.words("settings-title")
    return page_column(top_bar(view.words, title, back=view.to("/")), [*body, data])


def voice_settings(view: View) -> list[ft.Control]:
    """Prompts, voice, rate, loudness, colors, units."""
    now = view.settings

    def change(**to: object) -> Callable[[], Coroutine[Any, Any, None]]:
        return _changer(view, now.model_copy(update=to))

    rows: list[ft.Control] = [
        heading(view.words("settings-prompts"), BODY),
        choice(
            [
                ("short", view.words("settings-short"), change(wording="short")),
                ("long", view.words("settings-with-reasons"), change(wording="long")),
            ],
            now.wording,
        ),
        heading(view.words("settings-voice"), BODY),
        choice(
            [
                ("voice_True", view.words("settings-spoken"), change(voice=True)),
                ("voice_False", view.words("settings-silent"), change(voice=False)),
            ],
            f"voice_{now.voice}",
        ),
        ft.Row(
            [
                _nudge(view, "slower", ft.Icons.FAST_REWIND, now.faster(-1)),
                _nudge(view, "faster", ft.Icons.FAST_FORWARD, now.faster(1)),
                _nudge(view, "softer", ft.Icons.VOLUME_DOWN, now.louder(-1)),
                _nudge(view, "louder", ft.Icons.VOLUME_UP, now.louder(1)),
            ],
            spacing=8,
        ),
        label(view.words("settings-rate", words=now.rate_wpm, volume=now.volume), QUIET, SMALL),
        heading(view.words("settings-colors"), BODY),
        choice(
            [
                ("dark_None", view.words("settings-as-phone"), change(dark=None)),
                ("dark_False", view.words("settings-light"), change(dark=False)),
                ("dark_True", view.words("settings-dark"), change(dark=True)),
            ],
            f"dark_{now.dark}",
        ),
        heading(view.words("settings-pressures"), BODY),
        choice(
            [(unit, unit, change(pressure=unit)) for unit in get_args(PressureUnit)], now.pressure
        ),
        heading(view.words("settings-lengths"), BODY),
        choice(
            [
                ("in", view.words("settings-inches"), change(length="in")),
                ("mm", view.words("settings-millimetres"), change(length="mm")),
            ],
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
            await view.sound.say(view.words("settings-sample"))

    return change


def _sounds(settings: Settings) -> tuple[bool, int, float]:
    return settings.voice, settings.rate_wpm, settings.volume


def _nudge(view: View, way: str, icon: ft.IconData, to: Settings) -> ft.Control:
    return small_answer(view.words(f"settings-{way}"), icon, _changer(view, to), key=way)


@screen
def pairing_screen(view: View) -> ft.Control:
    """The address with its key, the code of it, and the way to a new key."""
    sure, set_sure = ft.use_state(False)
    pairing = view.parts.pairing

    top = top_bar(view.words, view.words("pairing-title"), back=view.to("/settings"))
    if pairing is None:
        return page_column(top, [label(view.words("pairing-this-device-only"))])

    async def renew() -> None:
        set_sure(False)
        await view.saved(pairing.renew)

    if sure:
        warning = caution(view.words("pairing-warning"))
        return page_column(top, [warning, _choices(view, set_sure, renew)])
    ask = button(
        view.words("pairing-new-key"), lambda: set_sure(True), key="new_key", icon=ft.Icons.KEY
    )
    body: list[ft.Control] = [
        label(view.words("pairing-scan-this")),
        ft.Row([_code(view, pairing)], alignment=ft.MainAxisAlignment.CENTER),
        ft.Text(pairing.link, size=SMALL, selectable=True, key="link"),
        label(view.words("pairing-whoever-has-it"), QUIET, SMALL),
        ft.Row([ask]),
    ]
    return page_column(top, body)


def _choices(view: View, set_sure: Callable[[bool], None], renew: Tap) -> ft.Control:
    keep = button(view.words("pairing-keep"), lambda: set_sure(False), key="keep_key", expand=True)
    drop = button(view.words("pairing-drop-all"), renew, key="drop_all", tone=Tone.BAD, expand=True)
    return ft.Row([keep, drop], spacing=8)


def _code(view: View, pairing: Pairing) -> ft.Control:
    """Black on white in every coloring: not every phone reads the inverse."""
    return ft.Container(
        ft.Image(
            # From an address: on a page over plain http Flutter draws no picture given as bytes
            # (seen in Chromium with Flet 1.0.5). Another code has another address.
            src=f"/pairing.png?of={pairing.mark}",
            width=_CODE_PX,
            height=_CODE_PX,
            semantics_label=view.words("pairing-code"),
        ),
        bgcolor=ft.Colors.WHITE,
        border_radius=RADIUS,
        padding=8,
    )
