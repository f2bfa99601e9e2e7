"""What can be set: voice, looks, units, also in the menu of a walk; and other devices."""

from __future__ import annotations

from functools import partial
from typing import get_args

import flet as ft

from walkaround.base.units import PressureUnit
from walkaround.library.languages import languages
from walkaround.settings import SILENCES_S, Settings
from walkaround.ui.home.shop_figures import figures_card, use_figures
from walkaround.ui.home.text_size import text_size
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.parts import caution, notice, page_column, top_bar
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, QUIET, RADIUS, SMALL, Tone
from walkaround.ui.kit.zones import choice, in_rows, small_answer
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.words.language import language_name

_CODE_PX = 260
"""Width of the code; a phone scans it from another phone's screen at arm's length."""


@screen
def settings_screen(view: View) -> ft.Control:
    """Show everything that can be set."""
    phone, shop = view.words("settings-this-phone"), view.words("settings-this-shop")
    body = [heading(phone), *voice_settings(view)]
    keys, to_keys = view.words("keys-title"), view.to("/keys")
    body.append(ft.Row([button(keys, to_keys, key="keys", icon=ft.Icons.KEYBOARD)]))
    if view.parts.pairing is not None:
        pair = button(
            view.words("pairing-title"), view.to("/pairing"), key="pairing", icon=ft.Icons.QR_CODE
        )
        body.append(ft.Row([pair]))
    data = label(view.words("settings-data", folder=str(view.parts.data)), QUIET, SMALL)
    body += [
        heading(shop),
        label(view.words("settings-shared"), QUIET, SMALL),
        figures_card(view, use_figures(view)),
    ]
    title = view.words("settings-title")
    return page_column(top_bar(view.words, title, back=view.to("/")), [*body, data])


def voice_settings(view: View) -> list[ft.Control]:
    """Show language, prompts, voice, rate, loudness, colors and units."""
    now, words = view.settings, view.words

    def to(settings: Settings) -> Tap:
        return tapped(_change, view, settings)

    def change(**what: object) -> Tap:
        return to(now.model_copy(update=what))

    nudge_words = [words(f"settings-{way}") for way in ("slower", "faster", "softer", "louder")]

    def nudge(way: str, icon: ft.IconData, settings: Settings) -> ft.Control:
        word = words(f"settings-{way}")
        return small_answer(word, icon, to(settings), key=way, beside=nudge_words, across=2)

    languages_offered = [
        (f"language_{code}", language_name(code), change(language=code)) for code in languages()
    ]
    wordings = [
        ("brisk", words("settings-brisk"), change(wording="brisk")),
        ("short", words("settings-short"), change(wording="short")),
        ("long", words("settings-with-reasons"), change(wording="long")),
    ]
    voices = [
        ("voice_True", words("settings-spoken"), change(voice=True)),
        ("voice_False", words("settings-silent"), change(voice=False)),
    ]
    nudges = [
        nudge("slower", ft.Icons.FAST_REWIND, now.faster(-1)),
        nudge("faster", ft.Icons.FAST_FORWARD, now.faster(1)),
        nudge("softer", ft.Icons.VOLUME_DOWN, now.louder(-1)),
        nudge("louder", ft.Icons.VOLUME_UP, now.louder(1)),
    ]
    silences = [
        (
            f"repeat_{seconds}",
            words("settings-repeat-after", seconds=seconds)
            if seconds
            else words("settings-repeat-never"),
            change(repeat_s=seconds),
        )
        for seconds in SILENCES_S
    ]
    colors = [
        ("dark_None", words("settings-as-phone"), change(dark=None)),
        ("dark_False", words("settings-light"), change(dark=False)),
        ("dark_True", words("settings-dark"), change(dark=True)),
    ]
    pressures = [(unit, unit, change(pressure=unit)) for unit in get_args(PressureUnit)]
    lengths = [
        ("in", words("settings-inches"), change(length="in")),
        ("mm", words("settings-millimetres"), change(length="mm")),
    ]
    trouble = view.sound.trouble
    return [
        heading(words("settings-language"), BODY),
        choice(languages_offered, f"language_{words.language}"),
        *(
            [label(words("settings-language-lacks", count=words.lacking), QUIET, SMALL)]
            if words.lacking
            else []
        ),
        heading(words("settings-prompts"), BODY),
        choice(wordings, now.wording),
        *([notice(trouble, key="no_sound")] if trouble else []),
        heading(words("settings-voice"), BODY),
        choice(voices, f"voice_{now.voice}"),
        in_rows(nudges, 2),
        label(words("settings-rate", words=now.rate_wpm, volume=now.volume), QUIET, SMALL),
        heading(words("settings-repeat"), BODY),
        choice(silences, f"repeat_{now.repeat_s}"),
        heading(words("settings-colors"), BODY),
        choice(colors, f"dark_{now.dark}"),
        text_size(view, key="text_size"),
        heading(words("settings-pressures"), BODY),
        choice(pressures, now.pressure),
        heading(words("settings-lengths"), BODY),
        choice(lengths, now.length),
    ]


async def _change(view: View, to: Settings) -> None:
    """Take these settings over; what changes the voice is heard at once."""
    before = view.settings
    await view.set(to)
    if not to.voice:
        view.sound.stop()
    elif _voice_rows(before) != _voice_rows(to):
        await view.sound.say(view.words("settings-sample"))


def _voice_rows(settings: Settings) -> tuple[object, ...]:
    """Return the settings that can be heard."""
    return settings.voice, settings.rate_wpm, settings.volume, settings.language


@screen
def pairing_screen(view: View) -> ft.Control:
    """Show the address with its key, the code of it, and the way to a new key."""
    sure, set_sure = ft.use_state(False)
    pairing = view.parts.pairing

    top = top_bar(view.words, view.words("pairing-title"), back=view.to("/settings"))
    if pairing is None:
        return page_column(top, [label(view.words("pairing-this-device-only"))])

    async def renew() -> None:
        set_sure(False)
        await view.saved(pairing.renew)

    if sure:
        keep_word, drop_word = view.words("pairing-keep"), view.words("pairing-drop-all")
        keep = button(keep_word, lambda: set_sure(False), key="keep_key", expand=True)
        drop = button(drop_word, renew, key="drop_all", tone=Tone.BAD, expand=True)
        warning = caution(view.words("pairing-warning"))
        return page_column(top, [warning, ft.Row([keep, drop], spacing=8)])
    # From an address: on a page over plain http Flutter draws no picture given as bytes (seen in
    # Chromium with Flet 1.0.5). Another code has another address.
    code = ft.Image(
        src=f"/pairing.png?of={pairing.link_id}",
        width=_CODE_PX,
        height=_CODE_PX,
        semantics_label=view.words("pairing-code"),
    )
    # Black on white in every coloring: not every phone reads the inverse.
    framed = ft.Container(code, bgcolor=ft.Colors.WHITE, border_radius=RADIUS, padding=8)
    word, sure_tap = view.words("pairing-new-key"), partial(set_sure, True)
    body: list[ft.Control] = [
        label(view.words("pairing-scan-this")),
        ft.Row([framed], alignment=ft.MainAxisAlignment.CENTER),
        ft.Text(pairing.link, size=SMALL, selectable=True, key="link"),
        label(view.words("pairing-whoever-has-it"), QUIET, SMALL),
        ft.Row([button(word, sure_tap, key="new_key", icon=ft.Icons.KEY)]),
    ]
    return page_column(top, body)
