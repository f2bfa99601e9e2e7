"""How large this phone draws its text: chosen here, stored on it, and applied at once."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.text import heading
from walkaround.ui.kit.theme import BODY
from walkaround.ui.kit.zones import choice
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View

PERCENTS = (100, 125, 150, 200)


@screen
def text_size(view: View) -> ft.Control:
    """Show the sizes on offer, the one chosen marked."""
    chosen, set_chosen = ft.use_state(0)

    async def recall() -> None:
        set_chosen(await view.device.text_percent())

    def to(percent: int) -> Tap:
        async def choose() -> None:
            set_chosen(percent)
            await view.device.keep_text_percent(percent)

        return choose

    effect(view, recall)
    options = [
        (f"text_{each}", view.words("settings-percent", percent=each), to(each))
        for each in PERCENTS
    ]
    head = heading(view.words("settings-text-size"), BODY)
    return stretched([head, choice(options, f"text_{chosen}")], tight=True)
