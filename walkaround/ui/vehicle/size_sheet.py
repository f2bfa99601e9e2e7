"""A size or a date on its sheet: usual ones to tap, and steps from there."""

from __future__ import annotations

from datetime import date

import flet as ft

from walkaround.garage.edit import in_month, in_year, nudged, value_of
from walkaround.garage.fields import Day, Measure
from walkaround.garage.words import MONTHS, month_words, size_words
from walkaround.ui.kit.buttons import choice
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import BODY, FIGURE, QUIET, SMALL
from walkaround.ui.vehicle.rows import Form

_YEARS = (-10, -1, 1, 10)


def measure(form: Form, field: Measure) -> list[ft.Control]:
    """The size in large, usual sizes, and steps in either unit."""
    value: float | None = value_of(form.vehicle, field.key)
    usual = [*field.usual, *([None] if field.unknown else [])]
    sizes = [
        chip(
            size_words(field, size).replace(" (", "\n").rstrip(")"),
            form.chooser(field.key, size),
            key=f"size_{size:g}" if size is not None else "size_unknown",
            on=size == value,
        )
        for size in usual
    ]
    rows = [_figure(size_words(field, value)), grid(sizes, 2)]
    return [*rows, *_steps(form, field)] if value is not None else rows


def _steps(form: Form, field: Measure) -> list[ft.Control]:
    units = [(f"unit_{at}", unit.name, form.opener(unit=at)) for at, unit in enumerate(field.units)]
    unit = field.units[form.open.unit]

    def step(word: str, grains: int) -> ft.Control:
        sign, name = ("+", "more") if grains > 0 else ("−", "less")
        return chip(
            f"{sign}{word}",
            form.stepper(field.key, lambda now: nudged(now, unit, grains)),
            key=f"step_{'more' if grains > 0 else 'less'}_{abs(grains)}",
            name=f"{word} {name}",
        )

    steps = [step(word, sign * grains) for sign in (-1, 1) for word, grains in unit.steps]
    return [choice(units, f"unit_{form.open.unit}"), grid(steps, 3)]


def day(form: Form, field: Day) -> list[ft.Control]:
    """The month in large, steps of years, and the months."""
    now: date = value_of(form.vehicle, field.key)

    def years(by: int) -> ft.Control:
        name = f"{abs(by)} year{'s' if abs(by) > 1 else ''} {'later' if by > 0 else 'earlier'}"
        return chip(
            f"{'+' if by > 0 else '−'}{abs(by)}",
            form.stepper(field.key, lambda day: in_year(day, by, form.known.today)),
            key=f"years_{by}",
            name=name,
        )

    def month(at: int, name: str) -> ft.Control:
        tap = form.stepper(field.key, lambda day: in_month(day, at))
        return chip(name, tap, key=f"month_{at}", on=at == now.month)

    return [
        _figure(month_words(now)),
        heading("Year", SMALL),
        grid([years(by) for by in _YEARS], 4),
        heading("Month", SMALL),
        grid([month(at, name) for at, name in enumerate(MONTHS, start=1)], 4),
    ]


def _figure(text: str) -> ft.Control:
    """What is chosen now, in large; what is in brackets goes below it."""
    first, _, second = text.partition(" (")
    lines: list[ft.Control] = [words(first, size=FIGURE - 8, bold=True)]
    if second:
        lines.append(words(second.rstrip(")"), QUIET, BODY))
    return ft.Semantics(
        content=ft.Column(
            lines,
            spacing=0,
            tight=True,
            horizontal_alignment=ft.CrossAxisAlignment.CENTER,
        ),
        live_region=True,
    )
