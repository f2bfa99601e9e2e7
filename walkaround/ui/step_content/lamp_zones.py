"""Tap zones over the lamps in a picture, and which lamp a tap hits."""

from __future__ import annotations

from collections.abc import Callable, Collection
from math import dist

import flet as ft

from walkaround.drawing.ground_views.rows import SeenLamp
from walkaround.drawing.plan_svg import PictureStyle, seen_lamps
from walkaround.plan.steps import Item, Plan, Step
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.theme import ACCENT, BAD

TOUCH_PX = 44.0
"""Least width and height of what is tapped: WCAG 2.2, success criterion 2.5.5."""
_MOST_PX = 62.0
_RIM_PX, _SIGN_PX = 4, 20


def tapped_lamps(plan: Plan, step: Step, look: PictureStyle) -> dict[str, SeenLamp]:
    """Return the items of a step that can be tapped in its picture, each where it is, by id."""
    by_mark = {lamp.mark: lamp for lamp in seen_lamps(plan, step, look)}
    at = {item.id: by_mark[item.place] for item in step.items if item.place in by_mark}
    return {id_: lamp for id_, lamp in at.items() if min(lamp.room) >= TOUCH_PX}


def lamp_at(lamps: dict[str, SeenLamp], x: float, y: float) -> str:
    """Tell which item was tapped there; empty if none is near."""
    distances = {id_: dist(lamp.symbol.center, (x, y)) for id_, lamp in lamps.items()}
    nearest = min(distances, key=lambda id_: distances[id_], default="")
    return nearest if nearest and distances[nearest] <= _MOST_PX / 2 else ""


def lamp_zones(
    lamps: dict[str, SeenLamp],
    items: Collection[Item],
    name_of: Callable[[Item], str],
    tap: Callable[[str], Tap],
    *,
    chosen: str,
    wrong: Collection[str],
) -> list[ft.Control]:
    """Put a tap zone over each lamp of a picture.

    Args:
        lamps: where they are.
        items: what they are.
        name_of: what is said of each to those who hear the screen.
        tap: what a tap on each does, by its id.
        chosen: the one that is asked about; it has a ring.
        wrong: those that something was told of; they have a sign.
    """
    zones = list[ft.Control]()
    for item in items:
        if lamp := lamps.get(item.id):
            zones.append(
                _zone(lamp, name_of(item), tap(item.id), item.id, item.id == chosen, wrong)
            )
    return zones


def _zone(
    lamp: SeenLamp, name: str, tap: Tap, item_id: str, chosen: bool, wrong: Collection[str]
) -> ft.Control:
    (x, y), (wide, high) = lamp.symbol.center, (min(_MOST_PX, px) for px in lamp.room)
    is_wrong = item_id in wrong
    sign = ft.Icon(ft.Icons.REPORT, size=_SIGN_PX, color=BAD) if is_wrong else None
    color = ACCENT if chosen else BAD
    zone = ft.Container(
        sign,
        alignment=ft.Alignment.TOP_RIGHT,
        border=ft.Border.all(_RIM_PX, color) if chosen or is_wrong else None,
        border_radius=_MOST_PX / 4,
        width=wide,
        height=high,
        on_click=tap,
        key=f"item_{item_id}",
    )
    described = ft.Semantics(content=zone, label=name, button=True)
    return ft.Container(described, left=x - wide / 2, top=y - high / 2)
