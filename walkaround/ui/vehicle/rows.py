"""One row of a vehicle's form: what it says now, what is wrong with it, and how to change it.

A choice of two or three is made on the row itself, text is typed there; the rest opens a sheet.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import partial
from typing import Any

import flet as ft

from walkaround.base.errors import Problem, in_one_line
from walkaround.ui.kit.parts import caution, stretched
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BAD, BODY, CARD, LINE, QUIET, RADIUS, SMALL
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.entry import Entry
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.checks import Reference
from walkaround.vehicle_editor.edit import options, problems_beside, value_of, values_of
from walkaround.vehicle_editor.fields import (
    ConnectorField,
    Field,
    Option,
    OptionsField,
    Section,
    SentencesField,
    TextField,
    TicksField,
)
from walkaround.vehicle_editor.messages import field_text, problem_sentence, year_words
from walkaround.vehicle_editor.new_vehicle import noun, suggested_names

_IN_A_ROW = 3
_SHORT = 12
"""Words with at most this many letters fit side by side on a small phone."""


@dataclass(frozen=True, slots=True)
class OpenSheet:
    """The sheet open over the form, and what was chosen on it so far.

    Attributes:
        key: of the field, or a word for something else; empty when nothing is open.
        axle: the axle that is meant, counted from 0; None for all of them.
        unit: which of a size's two units it is shown and stepped in; None for the phone's own.
        what: the first half of a sentence, by its name.
        text: a sentence being typed.
    """

    key: str = ""
    axle: int | None = None
    unit: int | None = None
    what: str = ""
    text: str = ""


@dataclass(frozen=True, slots=True)
class Form:
    """A vehicle being made or changed, as one drawing of its form needs it.

    Attributes:
        was: the id of the vehicle that is changed; empty for a new one.
        problems: everything wrong with it now.
        fields_of: the fields of each part of the form.
        change: takes a key, what becomes of its value, and an axle, or None for all of them.
        show: takes how what is open changes.
    """

    view: View
    vehicle: Vehicle
    was: str
    reference: Reference
    other_vehicles: tuple[Vehicle, ...]
    problems: tuple[Problem, ...]
    fields_of: Mapping[Section, list[Field]]
    open: OpenSheet
    change: Callable[[str, Callable[[Any], Any], int | None], None]
    show: Callable[[Callable[[OpenSheet], OpenSheet]], None]

    def chooser(self, key: str, value: Any, axle: int | None = None) -> Callable[[], None]:
        """Make a tap that chooses this and leaves open what is open."""
        return lambda: self.change(key, lambda _: value, axle)

    def stepper(self, key: str, how: Callable[[Any], Any]) -> Callable[[], None]:
        """Make a tap that makes another value of the one there is by then: two taps, two steps."""
        return lambda: self.change(key, how, None)

    def opener(self, **what: Any) -> Callable[[], None]:
        """Make a tap that changes what is open."""
        return lambda: self.show(lambda now: replace(now, **what))

    @property
    def chip(self) -> Callable[..., ft.Control]:
        """One of several in a grid, see `chip`."""
        return partial(chip, self.view.words)

    def closer(self, *taps: Callable[[], None]) -> Callable[[], None]:
        """Make a tap that does these and closes what is open."""

        def close() -> None:
            for tap in taps:
                tap()
            self.show(lambda now: OpenSheet(unit=now.unit))

        return close


def field_row(form: Form, field: Field) -> ft.Control:
    """Show one field: its row, and below it what is wrong and what to mind."""
    controls = [_control(form, field), *_suggestions(form, field), *_hints(form, field)]
    for problem in problems_beside(field, form.problems):
        text = form.view.words.text(problem_sentence(field, problem, form.reference))
        wrong = label(in_one_line(text), BAD, SMALL, bold=True)
        problem_text = ft.Container(ft.Semantics(content=wrong, live_region=True), expand=True)
        icon, top = ft.Icon(ft.Icons.REPORT, size=24, color=BAD), ft.CrossAxisAlignment.START
        controls.append(ft.Row([icon, problem_text], spacing=6, vertical_alignment=top))
    return stretched(controls, 6)


def _control(form: Form, field: Field) -> ft.Control:
    def typed(text: str) -> None:
        form.chooser(field.key, text)()

    match field:
        case TextField():
            key, value = f"entry_{field.key}", value_of(form.vehicle, field.key)
            return Entry(form.view, field, value, typed, key=key)
        case TicksField():
            zones = _ticks(form, field)
        case OptionsField() if _beside(form, field):
            zones = _side_by_side(form, field)
        case _:
            return _sheet_row(form, field)
    title = label(form.view.words.text(field.title), QUIET, SMALL, bold=True)
    return stretched([title, zones], 4)


def _beside(form: Form, field: OptionsField) -> bool:
    several = field.key.startswith("brakes.axles.") and len(form.vehicle.brakes.axles) > 1
    say = form.view.words
    short = all(len(say.text(option.word)) <= _SHORT for option in field.options)
    return len(field.options) <= _IN_A_ROW and short and not several


def _side_by_side(form: Form, field: OptionsField) -> ft.Control:
    every = options(field, form.vehicle, form.reference)
    chosen, view = value_of(form.vehicle, field.key), form.view

    def one(option: Option) -> ft.Control:
        word, key = view.words.text(option.word), f"{field.key}_{option.value}"
        name = view.words("form-choice", field=field.title, choice=option.word)
        tap = form.chooser(field.key, option.value)
        return form.chip(word, tap, key=key, on=option.value == chosen, name=name)

    return grid([one(option) for option in every], max(2, len(every)))


def _ticks(form: Form, field: TicksField) -> ft.Control:
    def tick(at: int, on: bool) -> ft.Control:
        name = form.view.words("form-tick", field=field.title, axle=at + 1)
        tap, key = form.chooser(field.key, not on, at), f"{field.key}_{at + 1}"
        return form.chip(str(at + 1), tap, key=key, on=on, name=name)

    ticked = values_of(form.vehicle, field.key)
    return grid([tick(at, on) for at, on in enumerate(ticked)], min(5, max(3, len(ticked))))


def _sheet_row(form: Form, field: Field) -> ft.Control:
    """Make a row that opens the field's sheet."""
    view = form.view
    value = view.words.text(field_text(field, form.vehicle, form.reference))
    lines: list[ft.Control] = [label(view.words.text(field.title), QUIET, SMALL, bold=True)]
    if isinstance(field, SentencesField):
        current = value_of(form.vehicle, field.key)
        lines += [label(each, BAD, BODY, bold=True) for each in current]
        value = view.words("form-add-another" if current else "form-tap-to-add")
    lines.append(label(value, bold=True))
    wrong = bool(problems_beside(field, form.problems))
    arrow = ft.Icon(ft.Icons.EXPAND_MORE, size=30, color=ft.Colors.ON_SURFACE)
    return ft.Container(
        ft.Row([ft.Column(lines, spacing=0, tight=True, expand=True), arrow]),
        bgcolor=CARD,
        border=ft.Border.all(2, BAD) if wrong else ft.Border.all(1, LINE),
        border_radius=RADIUS,
        padding=ft.Padding.symmetric(horizontal=14, vertical=10),
        ink=True,
        on_click=form.opener(key=field.key, axle=None, what="", text=""),
        key=field.key,
    )


def _suggestions(form: Form, field: Field) -> list[ft.Control]:
    if field.key != "name":
        return []
    view = form.view
    kind = view.words.text(noun(form.vehicle.kind))
    names = suggested_names(form.vehicle, kind, [other.name for other in form.other_vehicles])
    taps = ((at, name, form.chooser("name", name)) for at, name in enumerate(names))
    return [grid([form.chip(name, tap, key=f"name_{at}") for at, name, tap in taps], 2)]


def _hints(form: Form, field: Field) -> list[ft.Control]:
    if field.key == "vin" and (years := year_words("".join(form.vehicle.vin.split()))):
        return [label(form.view.words.text(years), QUIET, SMALL)]
    if not isinstance(field, ConnectorField):
        return []
    plug = form.reference.connectors.get(value_of(form.vehicle, field.key))
    if plug is None:
        return []
    volts = form.vehicle.electrical.volts
    connector_hint = form.view.words("form-connector", volts=volts, standard=plug.standard)
    return [
        label(connector_hint, QUIET, SMALL),
        *([caution(form.view.words.text(plug.caution), SMALL)] if plug.caution else []),
    ]
