"""Where practice begins: on which vehicle, and how hard."""

from __future__ import annotations

import flet as ft

from walkaround.airhold.gauge import Gauge
from walkaround.base.errors import WalkaroundError
from walkaround.bootstrap import today
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Level, Plan, Practice, Scope
from walkaround.practice.plan import practice_plan
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import notice, page_column, top_bar
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.page_location import PRACTICE
from walkaround.ui.practice_vehicles import levels_of
from walkaround.ui.taps.walk import WalkTaps
from walkaround.ui.vehicle.search import vehicle_choice
from walkaround.vehicle.model import Vehicle, has_air_brakes
from walkaround.words.problems import error_text

LEVELS: dict[Level, Scope] = {
    "dead_lamp": "lamps",
    "bad_ground": "lamps",
    "crossed_turns": "lamps",
    "leak": "brakes",
    "odd_chamber": "brakes",
}
"""Each level, the easiest first, and how much of a vehicle is walked for it."""
_MOST_SEED = 2**31


def practice_start(view: View, taps: WalkTaps, rest: str, *, key: str) -> ft.Control:
    """Choose a vehicle, then a level."""
    vehicle = view.parts.own_vehicles.vehicle(rest)
    if vehicle is None:
        return _vehicles(view, key=key)
    return _levels(view, taps, vehicle, key=key)


@screen
def _vehicles(view: View) -> ft.Control:
    body = [
        label(view.words("practice-what")),
        label(view.words("practice-apart"), QUIET, SMALL),
        heading(view.words("practice-which-vehicle")),
        vehicle_choice(view, f"{PRACTICE}/", "practice_", key="choice"),
    ]
    return page_column(top_bar(view.words, view.words("practice-title"), back=view.to("/")), body)


@screen
def _levels(view: View, taps: WalkTaps, vehicle: Vehicle) -> ft.Control:
    bar = top_bar(view.words, vehicle.name, back=view.to(PRACTICE))

    def offered() -> tuple[tuple[Level, ...], str]:
        try:
            plan = practice_walk(view, vehicle, "whole")
            return levels_of(plan, view.parts.library), ""
        except WalkaroundError as error:
            return (), error_text(error, view.words)

    levels, trouble = ft.use_memo(offered, [vehicle.id])
    body: list[ft.Control] = [notice(trouble)] if trouble else []
    body.append(heading(view.words("practice-which-level")))
    for level in levels:
        level_id = level.replace("_", "-")
        tap = practice_tap(view, taps, vehicle, level)
        word, icon = view.words(f"practice-level-{level_id}"), ft.Icons.SCHOOL
        body.append(wide_button(word, tap, key=f"level_{level}", icon=icon))
        body.append(label(view.words(f"practice-about-{level_id}"), QUIET, SMALL))
    return page_column(bar, body)


def practice_walk(view: View, vehicle: Vehicle, scope: Scope) -> Plan:
    """Plan a walk in practice: as a real one, at gauges that are marked each psi."""
    scope = scope if has_air_brakes(vehicle) else "whole"
    rules, day = view.parts.library.rules, today(view.parts.clock)
    shop = view.settings.shop
    planned = plan_walk(vehicle, rules, day=day, scope=scope, shop=shop)
    gauges = {line: Gauge(name=line) for line in planned.gauges}
    return plan_walk(vehicle, rules, day=day, scope=scope, shop=shop, gauges=gauges)


def practice_tap(view: View, taps: WalkTaps, vehicle: Vehicle, level: Level) -> Tap:
    """Make a tap that begins a practice of this level with a fault not known before."""

    async def begin() -> None:
        seed = round(view.parts.clock().utc.timestamp() * 1000) % _MOST_SEED
        plan = practice_walk(view, vehicle, LEVELS[level])
        await taps.begin(practice_plan(plan, Practice(level=level, seed=seed)))

    return begin
