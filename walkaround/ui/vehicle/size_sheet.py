"""A size or a date on its sheet: usual ones to tap, and steps from there."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import flet as ft

from walkaround.garage.edit import in_month, in_year, nudged, value_of
from walkaround.garage.fields import Day, Size
from walkaround.garage.words import month_words, size_words
from walkaround.ui.kit.buttons import choice
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, FIGURE, QUIET, SMALL
from walkaround.ui.vehicle.rows import Form

_YEARS = (-10, -1, 1, 10)


def measure(form: Form, field: Size) -> list[ft.Control]:
    """The size in large, usual sizes, and steps in either unit."""
    value: float | None = value_of(form.vehicle, field.key)
    view = form.view
    usual = [*field.usual, *([None] if field.optional else [])]
    sizes = [
        chip(
            view.words,
            "\n".join(map(view.words.text, size_words(field, size))),
            form.chooser(field.key, size),
            key=f"size_{size:g}" if size is not None else "size_unknown",
            on=size == value,
        )
        for size in usual
    ]
    figure = list(map(view.words.text, size_words(field, value)))
    rows = [_figure(figure), grid(sizes, 2)]
    return [*rows, *_steps(form, field)] if value is not None else rows


def _steps(form: Form, field: Size) -> list[ft.Control]:
    view = form.view
    units = [
        (f"unit_{at}", view.words(f"form-in-{unit.name}"), form.opener(unit=at))
        for at, unit in enumerate(field.units)
    ]
    unit = field.units[form.open.unit]

    def step(size: str, grains: int) -> ft.Control:
        sign, way = ("+", "more") if grains > 0 else ("−", "less")
        return chip(
            view.words,
            f"{sign}{size}",
            form.stepper(field.key, lambda now: nudged(now, unit, grains)),
            key=f"step_{way}_{abs(grains)}",
            name=view.words(f"form-step-{way}", size=size),
        )

    steps = [
        step(view.words(f"unit-{symbol}", n=n), sign * grains)
        for sign in (-1, 1)
        for n, symbol, grains in unit.steps
    ]
    return [choice(units, f"unit_{form.open.unit}"), grid(steps, 3)]


def day(form: Form, field: Day) -> list[ft.Control]:
    """The month in large, steps of years, and the months."""
    now: date = value_of(form.vehicle, field.key)
    view = form.view

    def years(by: int) -> ft.Control:
        name = view.words("form-years-later" if by > 0 else "form-years-earlier", count=abs(by))
        return chip(
            view.words,
            f"{'+' if by > 0 else '−'}{abs(by)}",
            form.stepper(field.key, lambda day: in_year(day, by, form.reference.today)),
            key=f"years_{by}",
            name=name,
        )

    def month(at: int) -> ft.Control:
        tap = form.stepper(field.key, lambda day: in_month(day, at))
        name = view.words.month(at)
        return chip(view.words, name, tap, key=f"month_{at}", on=at == now.month)

    return [
        _figure([view.words.text(month_words(now))]),
        heading(view.words("form-year"), SMALL),
        grid([years(by) for by in _YEARS], 4),
        heading(view.words("form-month"), SMALL),
        grid([month(at) for at in range(1, 13)], 4),
    ]


def _figure(texts: Sequence[str]) -> ft.Control:
    """What is chosen now, in large; the same in another unit below it."""
    first, *others = texts
    lines: list[ft.Control] = [label(first, size=FIGURE - 8, bold=True)]
    lines += [label(other, QUIET, BODY) for other in others]
    return ft.Semantics(
        content=ft.Column(
            lines, spacing=0, tight=True, horizontal_alignment=ft.CrossAxisAlignment.CENTER
        ),
        live_region=True,
    )
