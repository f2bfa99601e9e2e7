"""Before a walk: how much to check, what switches the lamps, who does it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from functools import partial
from typing import Any, cast, get_args

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.base.message import Quantity, message
from walkaround.bootstrap import today
from walkaround.brakes.not_covered import not_covered
from walkaround.drawing.plan_svg import PictureStyle
from walkaround.plan.effort import walk_s
from walkaround.plan.plan_walk import default_power, plan_walk, powers_for
from walkaround.plan.steps import Plan, Scope
from walkaround.rules.limits import Air
from walkaround.ui.double_check.pair import second_card, second_plan, waiting_for_second
from walkaround.ui.home.shop_figures import EditedFigures, as_shops_own, figures_card, use_figures
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import (
    card,
    notice,
    page_column,
    page_halves,
    stretched,
    top_bar,
)
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.text_field import text_field
from walkaround.ui.kit.theme import BODY, LOW_TOUCH, QUIET, SMALL, TOUCH, Tone
from walkaround.ui.kit.zones import answer_zone, choice
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.pictures.plan import plan_view
from walkaround.ui.taps.walk import WalkTaps
from walkaround.ui.walk.earlier_walks import earlier_cards, unfinished_walks, unfinished_words
from walkaround.vehicle.model import POWER_UNITS, Vehicle, has_air_brakes
from walkaround.words.leak import altitude_text, marks_text
from walkaround.words.problems import error_text
from walkaround.words.prompts import power_name, words_said

SCOPES: tuple[Scope, ...] = ("whole", "lamps", "brakes")
MOST_TOWED = 3


@screen
def start_screen(view: View, taps: WalkTaps, vehicle: Vehicle) -> ft.Control:
    """Tell what this walk will be."""
    library = view.parts.library
    scope, set_scope = use_unfinished(view.unfinished, "scope", "whole")
    power, set_power = use_unfinished(view.unfinished, "power", default_power(vehicle))
    looks, set_looks = use_unfinished(view.unfinished, "looks", "together")
    air, set_air = use_unfinished(view.unfinished, "air", "shop")
    towed, set_towed = use_unfinished(view.unfinished, "towed", 0)
    double, set_double = use_unfinished(view.unfinished, "double", "one")
    ask_gauges, set_ask_gauges = use_unfinished(view.unfinished, "ask_gauges", False)
    answered, set_answered = ft.use_state(frozenset[str]())
    # The walk goes by what the card shows, kept for the shop or not.
    figures = shop_figures, _ = use_figures(view)
    shop_now = view.settings.shop
    shop = shop_now if shop_now.own or shop_figures == shop_now else as_shops_own(shop_figures)
    site_m = view.settings.altitude_m
    now = today(view.parts.clock)
    gauges = view.settings.gauges_at_zero(vehicle, cast(Air, air), site_m, now)

    def planned(scope: Scope) -> Plan:
        return plan_walk(
            vehicle,
            library.rules,
            day=now,
            scope=scope,
            power=power,
            together=looks == "together",
            air=cast(Air, air),
            towed=towed,
            shop=shop,
            gauges={} if ask_gauges else gauges,
            altitude_m=site_m,
        )

    try:
        plan = planned("lamps" if "lamps" in answered else cast(Scope, scope))
    except WalkaroundError as error:
        return page_column(_bar(view, vehicle), [notice(error_text(error, view.words))])

    def answer(choice_key: str) -> Tap:
        """Begin, unless something is still to be asked before."""

        async def tap() -> None:
            if taps.too_soon():
                return
            now = answered | {choice_key}
            if question := _question(view, vehicle, now):
                set_answered(now | ({"asking_who"} if question == "who" else set()))
                taps.appear()
            else:
                chosen = planned("lamps") if "lamps" in now else plan
                await taps.begin(chosen.model_copy(update={"double": double == "two"}))

        return tap

    async def begin_second() -> None:
        if first := waiting_for_second(view, vehicle):
            await taps.begin(second_plan(first))

    if answered and (question := _question(view, vehicle, answered)):
        return _asked(view, vehicle, question, answer(question))
    say = view.words
    look = PictureStyle(round(view.device.column_px) - 64, 170, view.dark)
    powers = {
        id_: power_name(id_, each.title, say)
        for id_, each in powers_for(vehicle, library.power_sources).items()
    }
    scopes = {each: view.words(f"start-scope-{each}") for each in SCOPES}
    if not has_air_brakes(vehicle):
        scopes = {"whole": view.words("start-scope-all-lamps")}
    walkers = {each: view.words(f"start-double-{each}") for each in ("one", "two")}
    ways = {each: view.words(f"start-looks-{each}") for each in ("together", "singly")}
    body = [
        # What is known to be wrong is seen before the way to begin.
        *second_card(view, vehicle, begin_second),
        *earlier_cards(view, vehicle),
        label(_duration_text(view, plan), bold=True, key="takes"),
        label(_about(view, plan), QUIET, SMALL),
        card(plan_view(plan, look, view.words)),
        heading(view.words("start-check"), BODY),
        _choice("scope", scopes, scope, set_scope),
        *_air(view, plan, set_air, set_towed),
        *_figures(view, plan, figures),
        *_gauges(view, plan, lambda: set_ask_gauges(True)),
        heading(view.words("start-switched-from"), BODY),
        _choice("power", powers, power, set_power),
        heading(view.words("start-circuits"), BODY),
        _choice("looks", ways, looks, set_looks),
        *([label(say.text(plan.why_rounds), QUIET, SMALL)] if plan.why_rounds else []),
        *[notice(view.words("start-hidden", what=text)) for text in plan.hidden],
        heading(view.words("start-walkers"), BODY),
        _choice("double", walkers, double, set_double),
        *([label(say("start-double-how"), QUIET, SMALL)] if double == "two" else []),
        heading(view.words("start-who"), BODY),
        _Who(view),
        *[notice(say.text(text), key="not_covered") for text in not_covered(vehicle)],
    ]
    return page_column(_bar(view, vehicle), body, _beginnings(view, scope, scopes, answer))


def _beginnings(
    view: View, scope: str, scopes: Collection[str], answer: Callable[[str], Tap]
) -> list[ft.Control]:
    """Show the way to begin, above or beside it a shorter one."""
    low, icons = view.device.low, ft.Icons
    shorter = scope != "lamps" and "lamps" in scopes
    across, height = (2, LOW_TOUCH) if low and shorter else (1, TOUCH)
    word, begin = view.words("start-the-walk"), answer("start")
    start = answer_zone(word, icons.PLAY_ARROW, begin, key="begin", across=across, height=height)
    if not shorter:
        return [ft.Row([start])]
    word, begin, key = view.words("start-lamps-only"), answer("lamps"), "begin_lamps"
    if not low:
        lamps = button(word, begin, key=key, icon=icons.LIGHTBULB, expand=True, height=64)
        return [ft.Row([lamps]), ft.Row([start])]
    lamps = answer_zone(
        word, icons.LIGHTBULB, begin, key=key, tone=Tone.PLAIN, across=across, height=height
    )
    return [ft.Row([lamps, start], spacing=12)]


def _question(view: View, vehicle: Vehicle, answered: frozenset[str]) -> str:
    """Ask what is needed before a walk: whether it is a second one, and who walks."""
    if unfinished_walks(view, vehicle.id) and "second" not in answered:
        return "second"
    asks_who = not view.settings.who or "asking_who" in answered
    return "who" if asks_who and "who" not in answered else ""


def _asked(view: View, vehicle: Vehicle, question: str, yes: Tap) -> ft.Control:
    words, icon = view.words, ft.Icons.PLAY_ARROW
    if question == "second":
        line = unfinished_walks(view, vehicle.id)[0]
        body = [heading(words("start-second")), label(unfinished_words(view, line))]
        on = view.to(f"/walk/{line.id}", going_on=True)
        more = answer_zone(words("home-go-on"), icon, on, key="go_on_asked")
        another = wide_button(words("start-second-yes"), yes, key="second", icon=ft.Icons.ADD)
        return _question_page(view, vehicle, body, [another, ft.Row([more])])
    why = label(words("start-who-why"), QUIET, SMALL)
    body = [heading(words("start-who-asked")), why, _Who(view, key="who_asked")]
    start = answer_zone(words("start-the-walk"), icon, yes, key="begin_named")
    return _question_page(view, vehicle, body, [ft.Row([start])])


def _question_page(
    view: View, vehicle: Vehicle, body: list[ft.Control], answers: list[ft.Control]
) -> ft.Control:
    """The question over its answers; beside them on a phone on its side, where it has no height."""
    if view.device.flat:
        return page_halves(_bar(view, vehicle), body, stretched(answers, tight=True))
    return page_column(_bar(view, vehicle), body, answers)


def _bar(view: View, vehicle: Vehicle) -> ft.Control:
    return top_bar(view.words, vehicle.name, back=view.to("/"))


def _duration_text(view: View, plan: Plan) -> str:
    """Say how long it will take at the chosen wording and rate, and how many steps it has."""
    word_count = words_said(plan, view.settings.wording, view.words)
    minutes = max(1, round(walk_s(plan, word_count, view.settings.rate_wpm) / 60))
    return view.words("start-takes", minutes=minutes, count=len(plan.steps))


def _about(view: View, plan: Plan) -> str:
    lamps = len({mark.id for mark in plan.marks if not mark.id.startswith("axle")})
    holds = sum(step.kind == "hold" for step in plan.steps)
    values = sum(step.kind == "measure" for step in plan.steps)
    parts = [message("start-lamps", count=lamps)]
    if plan.rounds:
        parts.append(message("start-rounds", count=plan.rounds))
        parts.append(message("start-to-walk", distance=Quantity(value=plan.walked_m, unit="m")))
    parts += [message("start-holds", count=holds)] if holds else []
    parts += [message("start-measurements", count=values)] if values else []
    return view.words("start-about", parts=tuple(parts))


def _air(
    view: View, plan: Plan, set_air: Callable[[str], None], set_towed: Callable[[int], None]
) -> Sequence[ft.Control]:
    """Ask where the air comes from and what is towed, where limits depend on it."""
    if not has_air_brakes(plan.vehicle) or plan.scope == "lamps":
        return []
    power_unit = plan.vehicle.kind in POWER_UNITS
    rows: list[ft.Control] = []
    if not power_unit:
        airs = {each: view.words(f"start-air-{each}") for each in get_args(Air)}
        rows.append(heading(view.words("start-air"), BODY))
        rows.append(_choice("air", airs, plan.air, set_air))
    if power_unit or plan.air == "coupled":
        numbers = range(0 if power_unit else 1, MOST_TOWED + 1)
        units = {str(count): view.words("start-towed", count=count) for count in numbers}
        head = view.words("start-towing" if power_unit else "start-units-towed")
        rows.append(heading(head, BODY))
        chosen = str(plan.towed)
        rows.append(_choice("towed", units, chosen, lambda n: set_towed(int(n))))
    return rows


def _figures(view: View, plan: Plan, figures: EditedFigures) -> Sequence[ft.Control]:
    """Ask for the shop's figures for a lone trailer, until they are known."""
    return [figures_card(view, figures)] if plan.shop and not view.settings.shop.own else []


def _gauges(view: View, plan: Plan, ask: Tap) -> Sequence[ft.Control]:
    """Show the gauges that are known and not asked, and offer to ask for them anew."""
    if not plan.known_gauges:
        return []
    gauges = "; ".join(marks_text(plan.known_gauges, view.words))
    gauges_text = view.words("start-gauges", gauges=gauges, altitude=altitude_text(plan.altitude_m))
    ask_again = button(
        view.words("start-ask-gauges"), ask, key="ask_gauges", icon=ft.Icons.SPEED, expand=True
    )
    return [notice(gauges_text, key="known_gauges"), ft.Row([ask_again])]


def _choice(
    name: str, options: Mapping[Any, str], chosen: str, choose: Callable[[str], None]
) -> ft.Control:
    ways = [(f"{name}_{key}", word, partial(choose, key)) for key, word in options.items()]
    return choice(ways, f"{name}_{chosen}")


@screen
def _Who(view: View) -> ft.Control:
    """Ask who walks: names used before are one tap; a new one is typed once."""

    async def sign(name: str) -> None:
        await view.set(view.settings.signed(name))

    def name_choice(at: int, name: str) -> ft.Control:
        tone = Tone.ACCENT if name == view.settings.who else Tone.PLAIN
        return button(name, tapped(sign, name), key=f"who_{at}", icon=ft.Icons.PERSON, tone=tone)

    names = [name_choice(at, name) for at, name in enumerate(view.settings.names[:4])]
    field = text_field(view.words("start-name"), view.settings.who, 40, key="who", leave=sign)
    return stretched([*([ft.Row(names, wrap=True, spacing=8)] if names else []), field], 8)
