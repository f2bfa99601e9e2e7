"""The vehicles to choose from: a field to search, one's own first, examples under their heading."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import flet as ft

from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import notice, page_column, stretched, top_bar
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.text_field import text_field
from walkaround.ui.kit.theme import BODY
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.import_file import import_vehicle
from walkaround.ui.vehicle.list import new_vehicle_button, vehicle_card
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.search import search_vehicles
from walkaround.words.problems import problem_text

AT_ONCE = 30
"""How many vehicles are drawn; each tap on the button below them draws as many more."""
FEW = 8
"""Among this many vehicles one is found by eye, without a search field."""


def search_field(words: str, typed: str, change: Callable[[str], None]) -> ft.TextField:
    """Make a field that is searched by as it is typed into; keep it with `use_memo`."""
    return text_field(words, typed, 80, key="search", change=change, icon=ft.Icons.SEARCH)


@screen
def vehicles_screen(view: View) -> ft.Control:
    """Show every vehicle, and the ways to another one."""
    parts, walks = view.parts, view.parts.store.overview()
    body: list[ft.Control] = [new_vehicle_button(view), import_vehicle(view, key="taking_in")]
    body += [notice(view.words.text(text), key="unread") for text in walks.unread]
    body.append(vehicle_choice(view, "/vehicle/", "about_", key="choice"))
    body += [notice(problem_text(each, view.words)) for each in parts.library.problems]
    return page_column(top_bar(view.words, view.words("vehicles-title"), back=view.to("/")), body)


@screen
def vehicle_choice(view: View, route: str, prefix: str) -> ft.Control:
    """Show all vehicles as cards that lead to `route` with their id; keys begin with `prefix`."""
    typed, change = use_unfinished(view.unfinished, "search", "")
    shown_count, set_shown = ft.use_state(AT_ONCE)
    words, own_vehicles = view.words, view.parts.own_vehicles
    # A field drawn anew at each keystroke loses those typed meanwhile.
    field = ft.use_memo(lambda: search_field(words("vehicles-search"), typed, change), [])
    walks, vehicles = view.parts.store.overview(), own_vehicles.library.vehicles
    open_defects = {id_: len(steps) for id_, steps in walks.open_defects.items()}
    hits = search_vehicles(vehicles, typed, open_defects, [line.vehicle for line in walks.lines])

    def cards(listed_vehicles: list[Vehicle]) -> list[ft.Control]:
        return [
            vehicle_card(
                view,
                vehicle,
                view.to(f"{route}{vehicle.id}"),
                key=f"{prefix}{vehicle.id}",
                open_defects=open_defects.get(vehicle.id, 0),
            )
            for vehicle in listed_vehicles
        ]

    own = [each for each in hits if own_vehicles.is_own(each.id)]
    examples = [each for each in hits if not own_vehicles.is_own(each.id)]
    body: list[ft.Control] = [field] if len(vehicles) > FEW else []
    body += cards(own[:shown_count])
    if len(own) > shown_count:
        word, more = (
            words("vehicles-more", count=len(own) - shown_count),
            partial(set_shown, shown_count * 2),
        )
        body.append(wide_button(word, more, key="more_vehicles", icon=ft.Icons.EXPAND_MORE))
    if typed and not hits:
        body.append(label(words("vehicles-none-found", typed=typed), key="none_found"))
    if examples:
        hidden = not view.settings.examples
        body.append(
            ft.Row(
                [
                    ft.Container(heading(words("vehicles-examples"), BODY), expand=True),
                    _examples_toggle(view, hidden=hidden),
                ]
            )
        )
        body += [] if hidden else cards(examples)
    return stretched(body)


def _examples_toggle(view: View, *, hidden: bool) -> ft.Control:
    """Make the button that hides the examples on this phone, or shows them again."""
    other = view.settings.model_copy(update={"examples": hidden})
    tap: Tap = tapped(view.set, other)
    word = view.words("vehicles-show-examples" if hidden else "vehicles-hide-examples")
    icon = ft.Icons.VISIBILITY if hidden else ft.Icons.VISIBILITY_OFF
    return button(word, tap, key="examples", icon=icon)
