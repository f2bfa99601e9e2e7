"""What earlier walks of a vehicle left to do: one that was not ended, defects that are open."""

from __future__ import annotations

from collections.abc import Iterator

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.records.walk_line import WalkLine
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.parts import card, stretched
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BAD
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.list import tag_card
from walkaround.vehicle.model import Vehicle
from walkaround.words.measured_values import defect_words

MOST_DEFECTS_TOLD = 6
"""How many open defects are listed here; the record lists the rest."""


def unfinished_walks(view: View, vehicle_id: str) -> tuple[WalkLine, ...]:
    """Find the walks of this vehicle that are not ended, the one begun last first."""
    overview = view.parts.store.overview()
    going = (line for line in overview.going if line.vehicle == vehicle_id)
    return tuple(line for line in going if line.id not in overview.blind or _is_own(view, line))


def _is_own(view: View, line: WalkLine) -> bool:
    """Tell whether a walk of a double check belongs to this phone's user."""
    try:
        return view.parts.open_walks.walk(line.id).events[0].who == view.who
    except WalkaroundError:
        return False


def unfinished_words(view: View, line: WalkLine) -> str:
    """Tell how far a walk is: "Unfinished, at step 12 of 34"."""
    at = min(line.answered + 1, line.steps)
    return view.words("start-unfinished", at=at, steps=line.steps)


def earlier_cards(view: View, vehicle: Vehicle) -> Iterator[ft.Control]:
    """Show the tag on this vehicle, what earlier walks found and is open, its paused walks."""
    words, overview = view.words, view.parts.store.overview()
    yield from tag_card(view, vehicle.id)
    steps_in: dict[str, list[str]] = {}
    for step, walk_id in overview.open_defects.get(vehicle.id, {}).items():
        steps_in.setdefault(walk_id, []).append(step)
    for walk_id, steps in steps_in.items():
        title = label(words("start-open-before", count=len(steps)), BAD, bold=True)
        defects = [label(text) for text in _findings_of(view, walk_id, steps)[:MOST_DEFECTS_TOLD]]
        look, icon = view.to(f"/record/{walk_id}"), ft.Icons.REPORT
        more = button(words("start-look-at-it"), look, key=f"found_in_{walk_id}", icon=icon)
        yield card(stretched([title, *defects, ft.Row([more])], 8))
    for line in unfinished_walks(view, vehicle.id):
        title = label(unfinished_words(view, line), bold=True)
        on = view.to(f"/walk/{line.id}", going_on=True)
        more = button(words("home-go-on"), on, key=f"go_on_{line.id}", icon=ft.Icons.PLAY_ARROW)
        yield card(stretched([title, ft.Row([more])], 8))


def _findings_of(view: View, walk_id: str, steps: list[str]) -> list[str]:
    """Say what that walk found at these steps; nothing if it can no longer be read."""
    try:
        walk = view.parts.open_walks.walk(walk_id)
    except WalkaroundError:
        return []
    defects = (walk.defects[step.id] for step in walk.steps if step.id in steps)
    title = {step.id: step.title for step in walk.steps}
    return [
        view.words(
            "last-time-at-step",
            step=title[each.step],
            defect=defect_words(walk, each, view.words),
        )
        for each in defects
    ]
