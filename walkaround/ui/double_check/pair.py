"""The two walks of a double check: the way to the second, and from their records to both."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.comparison.countersignature import walker
from walkaround.plan.steps import Plan
from walkaround.records.walk_line import original_id
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, stretched
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.page.view import View
from walkaround.vehicle.model import Vehicle
from walkaround.walk.events import Began
from walkaround.walk.state import Walk


def waiting_for_second(view: View, vehicle: Vehicle) -> Walk | None:
    """Find the walk of this vehicle that waits for its second walker; the one begun last."""
    overview = view.parts.store.overview()
    first_ids = {first for first, _ in overview.pairs}
    for line in overview.going:
        alone = line.double and not line.double_of and line.id not in first_ids
        if line.vehicle == vehicle.id and alone:
            with suppress(WalkaroundError):
                return view.parts.open_walks.walk(line.id)
    return None


def second_plan(first: Walk) -> Plan:
    """Make the same steps for the second walker, without anything the first has recorded."""
    began = first.events[0]
    assert isinstance(began, Began)
    return began.plan.model_copy(update={"double": True, "double_of": original_id(first.id)})


def second_card(view: View, vehicle: Vehicle, begin: Tap) -> Iterator[ft.Control]:
    """Offer to be the second walker, under another name than the first."""
    first = waiting_for_second(view, vehicle)
    if first is None:
        return
    words, other = view.words, view.settings.who not in ("", walker(first))
    rows: list[ft.Control] = [
        label(words("double-waits", who=walker(first)), bold=True),
        label(words("double-waits-how" if other else "double-other-name"), QUIET, SMALL),
    ]
    if other:
        word, icon = words("double-second"), ft.Icons.PEOPLE
        rows.append(ft.Row([button(word, begin, key="double_second", icon=icon, expand=True)]))
    yield card(stretched(rows, 8), key="double_waits")


def compare_buttons(view: View, walk: Walk) -> Iterator[ft.Control]:
    """Show the way from a record to the comparisons that it is one of, once they may be seen."""
    if walk.plan is None or not walk.plan.double:
        return
    overview = view.parts.store.overview()
    for first, second in overview.pairs:
        if walk.id in (first, second) and walk.id not in overview.blind:
            word, to = view.words("double-compare"), view.to(f"/compared/{second}")
            yield wide_button(word, to, key=f"compare_{second}", icon=ft.Icons.COMPARE)
