"""On a phone's first start: one card that plays a step, takes an answer and shows what it does."""

from __future__ import annotations

from functools import partial

import flet as ft

from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, notice, stretched
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, GAP, QUIET, SMALL
from walkaround.ui.kit.zones import defect_zone, ok_zone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View

_ZONE_PX = 96


@screen
def first_card(view: View) -> ft.Control:
    """Show a step to try; nothing of it is recorded."""
    at, go = ft.use_state("begin")
    words = view.words

    async def play() -> None:
        go("step")
        await view.sound.say(words("first-step-said"))

    async def finish() -> None:
        view.sound.stop()
        await view.set(view.settings.model_copy(update={"shown_how": True}))

    if at == "begin":
        rows = [
            heading(words("first-title"), BODY),
            label(words("first-why"), QUIET, SMALL),
            wide_button(words("first-play"), play, key="first_play", icon=ft.Icons.VOLUME_UP),
        ]
    elif at == "step":
        rows = [
            heading(words("first-step-title")),
            label(words("first-step-words")),
            ft.Row(
                [
                    defect_zone(words, partial(go, "defect"), height=_ZONE_PX),
                    ok_zone(words, partial(go, "ok"), height=_ZONE_PX),
                ],
                spacing=GAP,
            ),
        ]
    else:
        rows = [
            heading(words(f"first-after-{at}"), BODY),
            label(words(f"first-does-{at}")),
            notice(words("first-nothing-kept")),
            wide_button(words("first-done"), finish, key="first_done", icon=ft.Icons.CHECK),
        ]
    if at != "begin" or view.sound.trouble:
        rows += [label(view.sound.trouble, QUIET, SMALL)] if view.sound.trouble else []
    if at not in ("ok", "defect"):
        skip = button(words("first-skip"), finish, key="first_skip", icon=ft.Icons.CLOSE)
        rows.append(ft.Row([skip]))
    return card(stretched(rows, 10), key="first_card")
