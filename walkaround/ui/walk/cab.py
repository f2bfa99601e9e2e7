"""The second phone of a walk, in the cab: what to switch now, and nothing to answer with."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import card, notice, page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import ANSWER, BODY, GAP, LINE, QUIET, RADIUS, SMALL, Tone
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.words.cab import CabWords, cab_words


@screen
def cab_screen(view: View) -> ft.Control:
    """Follow the walk; say a new setting once, and what is hands off, but nothing else."""
    walk = view.walk
    assert walk.plan is not None
    cab = cab_words(walk, view.words)

    async def say() -> None:
        await view.sound.say(cab.say, soft=cab.soft)

    effect(view, say, [cab.say])
    trouble = view.sound.trouble if view.settings.voice else ""
    body = [notice(trouble, key="no_sound")] if trouble else []
    body += [_main_text(view, cab), *_secondary_rows(view, cab)]
    word, icon = view.words("cab-say-again"), ft.Icons.VOLUME_UP
    again_button = wide_button(word, say, key="again", icon=icon, height=64)
    count = view.words("cab-at-the-switches", answered=len(walk.answers), steps=len(walk.steps))
    below = label(count, QUIET, SMALL, bold=True, key="answered")
    back = view.to(f"/walk/{walk.id}")
    bar = top_bar(view.words, walk.plan.vehicle.name, back=back, below=below)
    return page_column(bar, body, [again_button] if cab.say else [])


def _main_text(view: View, cab: CabWords) -> ft.Control:
    """Show the one thing to be seen from the seat: large, in its own color and shape."""
    icon, tone = ft.Icons.POWER_SETTINGS_NEW, Tone.ACCENT
    if cab.hands_off:
        icon, tone = ft.Icons.DO_NOT_TOUCH, Tone.CAUTION
    elif not cab.say:
        icon, tone = ft.Icons.HOURGLASS_EMPTY, Tone.PLAIN
    ink = tone.ink
    large = cab.say and not view.device.low
    head = ft.Row(
        [
            ft.Icon(icon, size=44, color=ink),
            ft.Container(label(cab.head, ink, ANSWER, bold=True, key="head"), expand=True),
        ],
        spacing=12,
    )
    lines = [label(line, ink, ANSWER if large else BODY + 4, bold=True) for line in cab.lines]
    return ft.Container(
        ft.Semantics(content=ft.Column([head, *lines], spacing=GAP), live_region=True),
        bgcolor=tone.ground,
        border=ft.Border.all(1, LINE),
        border_radius=RADIUS,
        padding=16,
    )


def _secondary_rows(view: View, cab: CabWords) -> list[ft.Control]:
    """Show what the one outside is doing, and what comes next."""
    rows: list[ft.Control] = []
    if cab.outside:
        title = heading(view.words("cab-outside"), SMALL)
        text = label(cab.outside, bold=True, key="outside")
        rows.append(card(ft.Column([title, text], spacing=2)))
    if cab.later:
        rows.append(label(view.words("cab-next", later=cab.later), QUIET, SMALL, key="later"))
    return rows
