"""How other devices are paired, and how all of them are dropped."""

from __future__ import annotations

from collections.abc import Callable

import flet as ft

from walkaround.access.pairing import Pairing
from walkaround.ui.kit.buttons import Tap, button
from walkaround.ui.kit.parts import caution, page_column, top_bar
from walkaround.ui.kit.text import words
from walkaround.ui.kit.theme import RADIUS, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View

WARNING = (
    "With a new key every device is dropped at once, this one too. To pair them again, scan the "
    "code that the computer running walkaround then shows in its terminal."
)
_CODE_PX = 260
"""Width of the code; a phone scans it from another phone's screen at arm's length."""


@screen
def pairing_screen(view: View) -> ft.Control:
    """The address with its key, the code of it, and the way to a new key."""
    colours = view.palette
    sure, set_sure = ft.use_state(False)
    pairing = view.parts.pairing

    async def back() -> None:
        await view.go("/settings")

    top = top_bar("Other devices", colours, back=back)
    if pairing is None:
        text = "Only this device is served. Start walkaround with --lan to let in others."
        return page_column(top, [words(text, colours.ink)])

    async def renew() -> None:
        set_sure(False)
        await view.saved(pairing.renew)

    if sure:
        return page_column(top, [caution(WARNING, colours), _choices(view, set_sure, renew)])
    ask = button("New key", colours, lambda: set_sure(True), key="new_key", icon=ft.Icons.KEY)
    body: list[ft.Control] = [
        words("Scan this with the other device, or open the address there.", colours.ink),
        ft.Row([_code(pairing)], alignment=ft.MainAxisAlignment.CENTER),
        ft.Text(pairing.link, size=SMALL, color=colours.ink, selectable=True, key="link"),
        words(
            "Whoever has this address can answer for you and read every record. A device that "
            "opened it stays paired until the key is changed.",
            colours.quiet_ink,
            SMALL,
        ),
        ft.Row([ask]),
    ]
    return page_column(top, body)


def _choices(view: View, set_sure: Callable[[bool], None], renew: Tap) -> ft.Control:
    colours = view.palette
    keep = button("Keep it", colours, lambda: set_sure(False), key="keep_key", expand=True)
    drop = button(
        "Drop all",
        colours,
        renew,
        key="drop_all",
        ground=colours.bad,
        ink=colours.on_bad,
        expand=True,
    )
    return ft.Row([keep, drop], spacing=8)


def _code(pairing: Pairing) -> ft.Control:
    """Black on white in every colouring: not every phone reads the inverse."""
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
