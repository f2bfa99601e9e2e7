"""A vehicle in a list: its name, what it is, and its open defects."""

from __future__ import annotations

import flet as ft

from walkaround.garage.words import about
from walkaround.ui.kit.buttons import Tap
from walkaround.ui.kit.parts import card
from walkaround.ui.kit.text import words
from walkaround.ui.kit.theme import SMALL
from walkaround.ui.page.view import View
from walkaround.vehicle.model import Vehicle


def vehicle_card(
    view: View, vehicle: Vehicle, tap: Tap, *, key: str, title: str = "", open_defects: int = 0
) -> ft.Control:
    """A card that leads somewhere; under the vehicle's own name unless there is a title."""
    colours = view.palette
    lines = [
        words(title or vehicle.name, colours.ink, bold=True),
        words(about(vehicle), colours.quiet_ink, SMALL),
        *defect_count(view, open_defects),
    ]
    return card(
        ft.Row(
            [
                ft.Column(lines, spacing=4, expand=True),
                ft.Icon(ft.Icons.CHEVRON_RIGHT, size=36, color=colours.ink),
            ],
        ),
        colours,
        tap=tap,
        key=key,
    )


def defect_count(view: View, count: int) -> list[ft.Control]:
    """How many defects are open, loud; nothing if there are none."""
    if not count:
        return []
    colours = view.palette
    word = "1 open defect" if count == 1 else f"{count} open defects"
    icon = ft.Icon(ft.Icons.REPORT, size=24, color=colours.bad)
    return [ft.Row([icon, words(word, colours.bad, bold=True)], spacing=6)]
