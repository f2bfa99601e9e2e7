"""What opens over a vehicle's form for one field."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import flet as ft

from walkaround.garage.edit import options, value_of, values_of
from walkaround.garage.fields import (
    Day,
    Field,
    Option,
    Pick,
    PickConnector,
    Sentences,
    Several,
    Size,
)
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.sheet import chip, grid, option_line, sheet
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.vehicle.damage_sheet import sentences
from walkaround.ui.vehicle.rows import Form
from walkaround.ui.vehicle.size_sheet import day, measure

_COMPACT = 9
"""Options whose words are no longer than so many letters stand in a grid."""


def field_sheet(form: Form, field: Field) -> ft.BottomSheet:
    """The sheet of a field that is open."""
    view, title = form.view, form.view.words.text(field.title)
    return sheet(view.words, title, _body(form, field), form.closer(), page_px=view.device.height)


def _body(form: Form, field: Field) -> Sequence[ft.Control]:
    match field:
        case Pick():
            return [*_which_axle(form, field), _options(form, field)]
        case PickConnector():
            return [_list(form, field, options(field, form.vehicle, form.reference))]
        case Size():
            return [*measure(form, field), _done(form)]
        case Day():
            return [*day(form, field), _done(form)]
        case Several():
            return [*_several(form, field), _done(form)]
        case Sentences():
            return [*sentences(form, field), _done(form)]
    return []


def _done(form: Form) -> ft.Control:
    word = form.view.words("form-done")
    return wide_button(word, form.closer(), key="done", icon=ft.Icons.CHECK, height=64)


def _which_axle(form: Form, field: Pick) -> list[ft.Control]:
    count = len(form.vehicle.brakes.axles)
    if not field.key.startswith("brakes.axles.") or count < 2:
        return []
    view, on = form.view, form.open.axle
    every = chip(
        view.words,
        view.words("form-all"),
        form.opener(axle=None),
        key="axle_all",
        on=on is None,
        name=view.words("form-all-axles"),
    )
    chips = [
        chip(
            view.words,
            str(axle + 1),
            form.opener(axle=axle),
            key=f"axle_{axle + 1}",
            on=axle == on,
            name=view.words("form-axle", number=axle + 1),
        )
        for axle in range(count)
    ]
    head = label(view.words("form-on-axle"), bold=True)
    return [head, grid([every, *chips], min(5, count + 1))]


def _chosen(form: Form, field: Field) -> object:
    axle = form.open.axle
    values = values_of(form.vehicle, field.key)
    return value_of(form.vehicle, field.key) if axle is None else values[axle]


def _taken(form: Form, field: Field, value: object) -> Callable[[], None]:
    """Choose it; what is chosen for one axle leaves the sheet open for the next one."""
    tap = form.chooser(field.key, value, form.open.axle)
    return form.closer(tap) if form.open.axle is None else tap


def _options(form: Form, field: Pick) -> ft.Control:
    say = form.view.words
    every = options(field, form.vehicle, form.reference)
    if any(len(say.text(option.word)) > _COMPACT for option in every):
        return _list(form, field, every)
    chosen = _chosen(form, field)
    chips = [
        chip(
            say,
            say.text(option.word),
            _taken(form, field, option.value),
            key=f"option_{option.value}",
            on=option.value == chosen,
        )
        for option in every
    ]
    return grid(chips, 3)


def _list(form: Form, field: Field, every: Sequence[Option]) -> ft.Control:
    chosen, say = _chosen(form, field), form.view.words
    lines: list[ft.Control] = [
        option_line(
            say.text(option.word),
            _taken(form, field, option.value),
            key=f"option_{option.value}",
            on=option.value == chosen,
            about=say.text(option.about),
        )
        for option in every
    ]
    return stretched(lines, 8)


def _several(form: Form, field: Several) -> list[ft.Control]:
    here: tuple[float, ...] = value_of(form.vehicle, field.key)
    view = form.view
    less = [
        chip(
            view.words,
            view.words("unit-l", n=value),
            form.chooser(field.key, (*here[:at], *here[at + 1 :])),
            key=f"remove_{at}",
            icon=ft.Icons.REMOVE_CIRCLE_OUTLINE,
            name=view.words("form-take-away-volume", n=value),
        )
        for at, value in enumerate(here)
    ]

    def more(value: float) -> ft.Control:
        return chip(
            view.words,
            view.words("unit-l", n=value),
            form.stepper(field.key, lambda now: (*now, value)),
            key=f"add_{value:g}",
            icon=ft.Icons.ADD,
            name=view.words("form-add-volume", n=value),
        )

    told = view.words("form-tap-to-take-away" if here else "form-no-volume")
    return [
        label(told, QUIET, SMALL),
        grid(less, 3),
        label(view.words("form-add-as-marked"), bold=True),
        grid([more(value) for value in field.usual], 3),
    ]
