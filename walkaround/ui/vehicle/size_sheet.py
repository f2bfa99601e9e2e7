"""A size or a date on its sheet: usual ones to tap, and steps from there.

A size is shown in the phone's own units, or in those of the plate that it is read from.
"""

from __future__ import annotations

from datetime import date

import flet as ft

from walkaround.base.units import LengthUnit
from walkaround.ui.kit.sheet import grid
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import FIGURE, SMALL
from walkaround.ui.kit.zones import choice
from walkaround.ui.vehicle.rows import Form
from walkaround.vehicle_editor.edit import in_month, in_year, stepped_size, value_of
from walkaround.vehicle_editor.fields import MonthField, SizeField
from walkaround.vehicle_editor.messages import month_words, size_words

_YEARS = (-10, -1, 1, 10)
_UNITS: tuple[LengthUnit, LengthUnit] = ("mm", "in")
"""The units in which a size can be entered."""


def size_sheet(form: Form, field: SizeField) -> list[ft.Control]:
    """Show the size in large, usual sizes, and steps in either unit."""
    value: float | None = value_of(form.vehicle, field.key)
    view, own = form.view, form.view.settings.units
    usual = [*field.usual, *([None] if field.optional else [])]
    at = _UNITS.index(own.length) if form.open.unit is None else form.open.unit
    words = view.words.shown_in(own._replace(length=_UNITS[at]))

    def one(size: float | None) -> ft.Control:
        key = "size_unknown" if size is None else f"size_{size:g}"
        tap, word = form.chooser(field.key, size), words.text(size_words(field, size))
        return form.chip(word, tap, key=key, on=size == value)

    figure = _figure(words.text(size_words(field, value)))
    rows = [figure, grid([one(size) for size in usual], 2)]
    return [*rows, *_steps(form, field, at)] if value is not None else rows


def _steps(form: Form, field: SizeField, chosen: int) -> list[ft.Control]:
    view = form.view
    units = [
        (f"unit_{at}", view.words(f"form-in-{unit.name}"), form.opener(unit=at))
        for at, unit in enumerate(field.units)
    ]
    unit = field.units[chosen]

    def step(size: str, grains: int) -> ft.Control:
        sign, way = ("+", "more") if grains > 0 else ("−", "less")
        tap = form.stepper(field.key, lambda now: stepped_size(now, unit, grains))
        name, key = view.words(f"form-step-{way}", size=size), f"step_{way}_{abs(grains)}"
        return form.chip(f"{sign}{size}", tap, key=key, name=name)

    steps = [
        step(view.words(f"unit-{symbol}", n=n), sign * grains)
        for sign in (-1, 1)
        for n, symbol, grains in unit.steps
    ]
    return [choice(units, f"unit_{chosen}"), grid(steps, 3)]


def day(form: Form, field: MonthField) -> list[ft.Control]:
    """Show the month in large, steps of years, and the months."""
    now: date = value_of(form.vehicle, field.key)
    view = form.view

    def years(by: int) -> ft.Control:
        name = view.words("form-years-later" if by > 0 else "form-years-earlier", count=abs(by))
        tap = form.stepper(field.key, lambda day: in_year(day, by, form.reference.today))
        return form.chip(f"{by:+d}".replace("-", "−"), tap, key=f"years_{by}", name=name)

    def month(at: int) -> ft.Control:
        tap = form.stepper(field.key, lambda day: in_month(day, at))
        name = view.words.month(at)
        return form.chip(name, tap, key=f"month_{at}", on=at == now.month)

    return [
        _figure(view.words.text(month_words(now))),
        heading(view.words("form-year"), SMALL),
        grid([years(by) for by in _YEARS], 4),
        heading(view.words("form-month"), SMALL),
        grid([month(at) for at in range(1, 13)], 4),
    ]


def _figure(text: str) -> ft.Control:
    """Show what is chosen now, in large."""
    figure_row = ft.Row([label(text, size=FIGURE - 8, bold=True)])
    figure_row.alignment = ft.MainAxisAlignment.CENTER
    return ft.Semantics(content=figure_row, live_region=True)
