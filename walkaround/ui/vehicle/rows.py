"""One row of a vehicle's form: what it says now, what is wrong with it, and how to change it.

A choice of two or three is made on the row itself, text is typed there; the rest opens a sheet.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

import flet as ft

from walkaround.base.errors import Problem, in_one_line
from walkaround.garage.checks import Reference
from walkaround.garage.edit import options, problems_beside, value_of, values_of
from walkaround.garage.fields import (
    Field,
    Option,
    Pick,
    PickConnector,
    Section,
    Sentences,
    Ticks,
    Typed,
)
from walkaround.garage.new_vehicle import noun, suggested_names
from walkaround.garage.words import said, sentence, year_words
from walkaround.ui.kit.parts import caution, stretched
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BAD, BODY, CARD, LINE, QUIET, RADIUS, SMALL
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.entry import Entry
from walkaround.vehicle.model import Vehicle

_IN_A_ROW = 3
_SHORT = 12
"""Words up to so many letters fit side by side on a small phone."""


@dataclass(frozen=True, slots=True)
class Open:
    """What is open over the form, and what was chosen on it so far.

    Attributes:
        key: of the field, or a word for something else; empty when nothing is open.
        axle: the axle that is meant, counted from 0; None for all of them.
        unit: which of a size's two units is stepped in.
        what: the first half of a sentence, by its name.
        text: a sentence being typed.
    """

    key: str = ""
    axle: int | None = None
    unit: int = 0
    what: str = ""
    text: str = ""


@dataclass(frozen=True, slots=True)
class Form:
    """A vehicle being made or changed, as one drawing of its form needs it.

    Attributes:
        was: the id of the vehicle that is changed; empty for a new one.
        found: everything wrong with it now.
        asked: the fields of each part that it is asked.
        change: takes a key, what becomes of its value, and an axle, or None for all of them.
        show: takes how what is open changes.
    """

    view: View
    vehicle: Vehicle
    was: str
    reference: Reference
    others: tuple[Vehicle, ...]
    found: tuple[Problem, ...]
    asked: Mapping[Section, list[Field]]
    open: Open
    change: Callable[[str, Callable[[Any], Any], int | None], None]
    show: Callable[[Callable[[Open], Open]], None]

    def chooser(self, key: str, value: Any, axle: int | None = None) -> Callable[[], None]:
        """A tap that chooses this and leaves open what is open."""
        return lambda: self.change(key, lambda _: value, axle)

    def stepper(self, key: str, how: Callable[[Any], Any]) -> Callable[[], None]:
        """A tap that makes another value of the one there is by then: two taps, two steps."""
        return lambda: self.change(key, how, None)

    def opener(self, **what: Any) -> Callable[[], None]:
        """A tap that changes what is open."""
        return lambda: self.show(lambda now: replace(now, **what))

    def closer(self, *taps: Callable[[], None]) -> Callable[[], None]:
        """A tap that does these and closes what is open."""

        def close() -> None:
            for tap in taps:
                tap()
            self.show(lambda now: Open(unit=now.unit))

        return close


def row(form: Form, field: Field) -> ft.Control:
    """One field: its row, and below it what is wrong and what to mind."""
    shown = [_control(form, field), *_suggestions(form, field), *_hints(form, field)]
    wrong = [_wrong(text) for text in _sentences(form, field)]
    return stretched([*shown, *wrong], 6)


def _control(form: Form, field: Field) -> ft.Control:
    match field:
        case Typed():
            return _typed(form, field)
        case Ticks():
            return _labelled(form, field, _ticks(form, field))
        case Pick() if _beside(form, field):
            return _labelled(form, field, _side_by_side(form, field))
    return _opening(form, field)


def _typed(form: Form, field: Typed) -> ft.Control:
    def typed(text: str) -> None:
        form.chooser(field.key, text)()

    key = f"entry_{field.key}"
    return Entry(form.view, field, value_of(form.vehicle, field.key), typed, key=key)


def _beside(form: Form, field: Pick) -> bool:
    several = field.key.startswith("brakes.axles.") and len(form.vehicle.brakes.axles) > 1
    say = form.view.words
    short = all(len(say.text(option.word)) <= _SHORT for option in field.options)
    return len(field.options) <= _IN_A_ROW and short and not several


def _side_by_side(form: Form, field: Pick) -> ft.Control:
    every = options(field, form.vehicle, form.reference)
    chosen, view = value_of(form.vehicle, field.key), form.view

    def chip_for(option: Option) -> ft.Control:
        return chip(
            view.words,
            view.words.text(option.word),
            form.chooser(field.key, option.value),
            key=f"{field.key}_{option.value}",
            on=option.value == chosen,
            name=view.words("form-choice", field=field.title, choice=option.word),
        )

    return grid([chip_for(option) for option in every], max(2, len(every)))


def _ticks(form: Form, field: Ticks) -> ft.Control:
    def tick(at: int, on: bool) -> ft.Control:
        return chip(
            form.view.words,
            str(at + 1),
            form.chooser(field.key, not on, at),
            key=f"{field.key}_{at + 1}",
            on=on,
            name=form.view.words("form-tick", field=field.title, axle=at + 1),
        )

    ticked = values_of(form.vehicle, field.key)
    return grid([tick(at, on) for at, on in enumerate(ticked)], min(5, max(3, len(ticked))))


def _labelled(form: Form, field: Field, control: ft.Control) -> ft.Control:
    title = label(form.view.words.text(field.title), QUIET, SMALL, bold=True)
    return stretched([title, control], 4)


def _opening(form: Form, field: Field) -> ft.Control:
    """A row that opens the field's sheet."""
    view = form.view
    value = view.words.text(said(field, form.vehicle, form.reference))
    lines: list[ft.Control] = [label(view.words.text(field.title), QUIET, SMALL, bold=True)]
    if isinstance(field, Sentences):
        told = value_of(form.vehicle, field.key)
        lines += [label(each, BAD, BODY, bold=True) for each in told]
        value = view.words("form-add-another" if told else "form-tap-to-add")
    lines.append(label(value, bold=True))
    wrong = bool(problems_beside(field, form.found))
    return ft.Container(
        ft.Row(
            [
                ft.Column(lines, spacing=0, tight=True, expand=True),
                ft.Icon(ft.Icons.EXPAND_MORE, size=30, color=ft.Colors.ON_SURFACE),
            ]
        ),
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
    names = suggested_names(form.vehicle, kind, [other.name for other in form.others])
    return [
        grid(
            [
                chip(view.words, name, form.chooser("name", name), key=f"name_{at}")
                for at, name in enumerate(names)
            ],
            2,
        )
    ]


def _hints(form: Form, field: Field) -> list[ft.Control]:
    if field.key == "vin" and (years := year_words("".join(form.vehicle.vin.split()))):
        return [label(form.view.words.text(years), QUIET, SMALL)]
    if not isinstance(field, PickConnector):
        return []
    plug = form.reference.connectors.get(value_of(form.vehicle, field.key))
    if plug is None:
        return []
    volts = form.vehicle.electrical.volts
    about = form.view.words("form-connector", volts=volts, standard=plug.standard)
    return [
        label(about, QUIET, SMALL),
        *([caution(form.view.words.text(plug.caution), SMALL)] if plug.caution else []),
    ]


def _sentences(form: Form, field: Field) -> Iterable[str]:
    said = (sentence(field, each, form.reference) for each in problems_beside(field, form.found))
    return [in_one_line(form.view.words.text(each)) for each in said]


def _wrong(text: str) -> ft.Control:
    said_ = ft.Semantics(content=label(text, BAD, SMALL, bold=True), live_region=True)
    return ft.Row(
        [ft.Icon(ft.Icons.REPORT, size=24, color=BAD), ft.Container(said_, expand=True)],
        spacing=6,
        vertical_alignment=ft.CrossAxisAlignment.START,
    )
