"""The second phone of a walk, in the cab: what to switch now, and nothing to answer with."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, notice, page_column, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import ANSWER, BODY, GAP, RADIUS, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.walk.state import Walk
from walkaround.words.cab import CabWords, cab_words


@screen
def cab_screen(view: View) -> ft.Control:
    """Follows the walk; says a new setting once, and what is hands off, but nothing else."""
    walk, colours = view.walk, view.palette
    assert walk.plan is not None
    told = cab_words(walk, view.words)

    async def say() -> None:
        await view.sound.say(told.say, soft=told.soft)

    async def back() -> None:
        await view.go(f"/walk/{walk.id}")

    effect(view, say, [told.say])
    body = [*_sound_notice(view), _now(view, told), *_besides(view, told)]
    again = wide_button(
        colours, "Say it again", say, key="again", icon=ft.Icons.VOLUME_UP, height=64
    )
    bar = top_bar(walk.plan.vehicle.name, colours, back=back, below=_count(view, walk))
    return page_column(bar, body, [again] if told.say else [])


def _count(view: View, walk: Walk) -> ft.Control:
    count = f"At the switches. {len(walk.answers)} of {len(walk.steps)} answered"
    return words(count, view.palette.quiet_ink, SMALL, bold=True, key="answered")


def _sound_notice(view: View) -> list[ft.Control]:
    trouble = view.sound.trouble if view.settings.voice else ""
    return [notice(trouble, view.palette, key="no_sound")] if trouble else []


def _now(view: View, told: CabWords) -> ft.Control:
    """The one thing to be seen from the seat: large, and in a colour and shape of its own."""
    colours = view.palette
    icon, ground, ink = ft.Icons.POWER_SETTINGS_NEW, colours.accent, colours.on_accent
    if told.hands_off:
        icon, ground, ink = ft.Icons.DO_NOT_TOUCH, colours.caution, colours.on_caution
    elif not told.say:
        icon, ground, ink = ft.Icons.HOURGLASS_EMPTY, colours.other, colours.on_other
    large = told.say and not view.device.low
    head = ft.Row(
        [
            ft.Icon(icon, size=44, color=ink),
            ft.Container(words(told.head, ink, ANSWER, bold=True, key="head"), expand=True),
        ],
        spacing=12,
    )
    lines = [words(line, ink, ANSWER if large else BODY + 4, bold=True) for line in told.lines]
    return ft.Container(
        ft.Semantics(content=ft.Column([head, *lines], spacing=GAP), live_region=True),
        bgcolor=ground,
        border=ft.Border.all(1, colours.line),
        border_radius=RADIUS,
        padding=16,
    )


def _besides(view: View, told: CabWords) -> list[ft.Control]:
    """What the one outside is doing, and what comes next."""
    colours = view.palette
    shown: list[ft.Control] = []
    if told.outside:
        title = heading("Outside now", colours, SMALL)
        text = words(told.outside, colours.ink, BODY, bold=True, key="outside")
        shown.append(card(ft.Column([title, text], spacing=2), colours))
    if told.later:
        shown.append(words(f"Next: {told.later}", colours.quiet_ink, SMALL, key="later"))
    return shown
