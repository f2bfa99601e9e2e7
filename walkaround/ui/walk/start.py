"""Before a walk: how much to check, what switches the lamps, who does it."""

from __future__ import annotations

from collections.abc import Callable, Coroutine, Mapping, Sequence
from typing import Any, cast

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.brakes.not_covered import not_covered
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Scope
from walkaround.rules.limits import Air
from walkaround.ui.drawn.plan import plan_view
from walkaround.ui.kit.buttons import answer_zone, button, choice
from walkaround.ui.kit.parts import card, notice, page_column, stretched, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import BODY, LINE, QUIET, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_kept
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.vehicle.model import POWER_UNITS, Vehicle, has_air_brakes

SCOPES: Mapping[Scope, str] = {"whole": "Everything", "lamps": "Lamps", "brakes": "Brakes"}
POWERS = {"box": "Box in hand", "cab": "Tow unit cab", "helper": "A helper"}
LOOKS = {"together": "Fewest looks", "singly": "One by one"}
AIRS: Mapping[Air, str] = {"shop": "The shop's line", "coupled": "Tow vehicle"}
TOWED = {0: "Nothing", 1: "One", 2: "Two", 3: "Three"}


@screen
def start_screen(view: View, taps: WalkTaps, vehicle: Vehicle) -> ft.Control:
    """What this walk will be."""
    library = view.parts.library
    scope, set_scope = use_kept(view.unfinished, "scope", "whole")
    power, set_power = use_kept(view.unfinished, "power", "box")
    looks, set_looks = use_kept(view.unfinished, "looks", "together")
    air, set_air = use_kept(view.unfinished, "air", "shop")
    towed, set_towed = use_kept(view.unfinished, "towed", 0)
    try:
        plan = plan_walk(
            vehicle,
            library.rules,
            scope=cast(Scope, scope),
            power=power,
            together=looks == "together",
            air=cast(Air, air),
            towed=towed,
        )
    except WalkaroundError as error:
        return page_column(_bar(view, vehicle), [notice(str(error))])

    async def begin() -> None:
        await taps.begin(plan)

    powers = {id_: POWERS.get(id_, str(each.title)) for id_, each in library.power_sources.items()}
    scopes: Mapping[Scope, str] = SCOPES if has_air_brakes(vehicle) else {"whole": "Everything"}
    body = [
        card(plan_view(plan, plan.steps[0], view.palette, view.device.column_px - 64, 170)),
        words(_about(plan), QUIET, SMALL),
        heading("Check", BODY),
        _choice("scope", scopes, scope, set_scope),
        *_air(plan, set_air, set_towed),
        heading("Lamps are switched from", BODY),
        _choice("power", powers, power, set_power),
        heading("Circuits", BODY),
        _choice("looks", LOOKS, looks, set_looks),
        *([words(view.words.text(plan.why_rounds), QUIET, SMALL)] if plan.why_rounds else []),
        *[notice(f"{view.words.text(text)}.") for text in plan.hidden],
        heading("Who walks", BODY),
        _Who(view),
        *[notice(view.words.text(text), key="not_covered") for text in not_covered(vehicle)],
    ]
    start = answer_zone("Start the walk", ft.Icons.PLAY_ARROW, begin, key="begin")
    return page_column(_bar(view, vehicle), body, [ft.Row([start])])


def _bar(view: View, vehicle: Vehicle) -> ft.Control:
    return top_bar(vehicle.name, back=view.to("/"))


def _about(plan: Plan) -> str:
    lamps = len({mark.id for mark in plan.marks if not mark.id.startswith("axle")})
    holds = sum(step.kind == "hold" for step in plan.steps)
    values = sum(step.kind == "measure" for step in plan.steps)
    parts = [f"{len(plan.steps)} steps", f"{lamps} lamps and reflectors"]
    if plan.rounds:
        trips = "one round" if plan.rounds == 1 else f"{plan.rounds} trips"
        parts.append(f"{trips}, {plan.walked_m:.0f} m to walk")
    if holds:
        parts.append("one air hold" if holds == 1 else f"{holds} air holds")
    if values:
        parts.append("one measurement" if values == 1 else f"{values} measurements")
    return f"{', '.join(parts)}."


def _air(
    plan: Plan, set_air: Callable[[str], None], set_towed: Callable[[int], None]
) -> Sequence[ft.Control]:
    """Where the air comes from and what is towed, where limits depend on it."""
    if not has_air_brakes(plan.vehicle) or plan.scope == "lamps":
        return []
    power_unit = plan.vehicle.kind in POWER_UNITS
    asked: list[ft.Control] = []
    if not power_unit:
        asked.append(heading("Air comes from", BODY))
        asked.append(_choice("air", AIRS, plan.air, set_air))
    if power_unit or plan.air == "coupled":
        units = {str(n): word for n, word in TOWED.items() if n or power_unit}
        asked.append(heading("Towing" if power_unit else "Units towed, all told", BODY))
        chosen = str(plan.towed)
        asked.append(_choice("towed", units, chosen, lambda n: set_towed(int(n))))
    return asked


def _choice(
    name: str, options: Mapping[Any, str], chosen: str, choose: Callable[[str], None]
) -> ft.Control:
    def option(value: str) -> tuple[str, str, Callable[[], None]]:
        return f"{name}_{value}", options[value], lambda: choose(value)

    return choice([option(value) for value in options], f"{name}_{chosen}")


@screen
def _Who(view: View) -> ft.Control:
    """Names used before are one tap; a new one is typed once."""

    def choose(name: str) -> Callable[[], Coroutine[Any, Any, None]]:
        async def chosen() -> None:
            await view.set(view.settings.signed(name))

        return chosen

    async def typed(e: ft.Event[ft.TextField]) -> None:
        await view.set(view.settings.signed(e.control.value or ""))

    known = [
        button(
            name,
            choose(name),
            key=f"who_{at}",
            icon=ft.Icons.PERSON,
            tone=Tone.ACCENT if name == view.settings.who else Tone.PLAIN,
        )
        for at, name in enumerate(view.settings.names[:4])
    ]
    field = ft.TextField(
        label="Name or number",
        value=view.settings.who,
        max_length=40,
        counter="",
        on_blur=typed,
        on_submit=typed,
        text_size=BODY,
        key="who",
        border=ft.OutlineInputBorder(side=ft.BorderSide(1, LINE)),
    )
    return stretched([*([ft.Row(known, wrap=True, spacing=8)] if known else []), field], 8)
