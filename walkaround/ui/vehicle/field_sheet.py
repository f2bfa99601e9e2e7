"""What opens over a vehicle's form for one field."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import flet as ft

from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import stretched
from walkaround.ui.kit.sheet import grid, option_line, sheet
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.vehicle.damage_sheet import damage_sheet
from walkaround.ui.vehicle.rows import Form
from walkaround.ui.vehicle.size_sheet import day, size_sheet
from walkaround.vehicle_editor.edit import options, value_of, values_of
from walkaround.vehicle_editor.fields import (
    ConnectorField,
    Field,
    MonthField,
    Option,
    OptionsField,
    SentencesField,
    SizeField,
    VolumesField,
)
from walkaround.vehicle_editor.messages import volume_words

_COMPACT = 9
"""Options whose words have at most this many letters stand in a grid."""


def field_sheet(form: Form, field: Field) -> ft.BottomSheet:
    """Show the sheet of a field that is open."""
    view, title = form.view, form.view.words.text(field.title)
    return sheet(view.words, title, _body(form, field), form.closer(), page_px=view.device.height)


def _body(form: Form, field: Field) -> Sequence[ft.Control]:
    match field:
        case OptionsField():
            return [*_which_axle(form, field), _options(form, field)]
        case ConnectorField():
            return [_list(form, field, options(field, form.vehicle, form.reference))]
        case SizeField():
            return [*size_sheet(form, field), _done(form)]
        case MonthField():
            return [*day(form, field), _done(form)]
        case VolumesField():
            return [*_several(form, field), _done(form)]
        case SentencesField():
            return [*damage_sheet(form, field), _done(form)]
    return []


def _done(form: Form) -> ft.Control:
    word = form.view.words("form-done")
    return wide_button(word, form.closer(), key="done", icon=ft.Icons.CHECK, height=64)


def _which_axle(form: Form, field: OptionsField) -> list[ft.Control]:
    count = len(form.vehicle.brakes.axles)
    if not field.key.startswith("brakes.axles.") or count < 2:
        return []
    words, on = form.view.words, form.open.axle
    label_text, all_axles = words("form-all-axles"), form.opener(axle=None)
    every = form.chip(words("form-all"), all_axles, key="axle_all", on=on is None, name=label_text)

    def one(axle: int) -> ft.Control:
        name, tap = words("form-axle", number=axle + 1), form.opener(axle=axle)
        key = f"axle_{axle + 1}"
        return form.chip(str(axle + 1), tap, key=key, on=axle == on, name=name)

    chips = [every, *map(one, range(count))]
    return [label(words("form-on-axle"), bold=True), grid(chips, min(5, count + 1))]


def _chosen(form: Form, field: Field) -> object:
    axle = form.open.axle
    values = values_of(form.vehicle, field.key)
    return value_of(form.vehicle, field.key) if axle is None else values[axle]


def _taken(form: Form, field: Field, value: object) -> Callable[[], None]:
    """Choose it; what is chosen for one axle leaves the sheet open for the next one."""
    tap = form.chooser(field.key, value, form.open.axle)
    return form.closer(tap) if form.open.axle is None else tap


def _options(form: Form, field: OptionsField) -> ft.Control:
    say = form.view.words
    every = options(field, form.vehicle, form.reference)
    if any(len(say.text(option.word)) > _COMPACT for option in every):
        return _list(form, field, every)
    chosen = _chosen(form, field)

    def one(option: Option) -> ft.Control:
        tap, key = _taken(form, field, option.value), f"option_{option.value}"
        return form.chip(say.text(option.word), tap, key=key, on=option.value == chosen)

    return grid([one(option) for option in every], 3)


def _list(form: Form, field: Field, every: Sequence[Option]) -> ft.Control:
    chosen, say = _chosen(form, field), form.view.words

    def line(option: Option) -> ft.Control:
        word, description, key = (
            say.text(option.word),
            say.text(option.about),
            f"option_{option.value}",
        )
        tap = _taken(form, field, option.value)
        return option_line(word, tap, key=key, on=option.value == chosen, about=description)

    return stretched([line(option) for option in every], 8)


def _several(form: Form, field: VolumesField) -> list[ft.Control]:
    here: tuple[float, ...] = value_of(form.vehicle, field.key)
    words = form.view.words

    def less(at: int, value: float) -> ft.Control:
        name, icon = (
            words("form-take-away-volume", volume=volume_words(value)),
            ft.Icons.REMOVE_CIRCLE_OUTLINE,
        )
        tap = form.chooser(field.key, (*here[:at], *here[at + 1 :]))
        return form.chip(
            words.text(volume_words(value)), tap, key=f"remove_{at}", icon=icon, name=name
        )

    def more(value: float) -> ft.Control:
        name, icon = words("form-add-volume", volume=volume_words(value)), ft.Icons.ADD
        tap = form.stepper(field.key, lambda now: (*now, value))
        return form.chip(
            words.text(volume_words(value)), tap, key=f"add_{value:g}", icon=icon, name=name
        )

    hint = words("form-tap-to-take-away" if here else "form-no-volume")
    return [
        label(hint, QUIET, SMALL),
        grid([less(at, value) for at, value in enumerate(here)], 3),
        label(words("form-add-as-marked"), bold=True),
        grid([more(value) for value in field.usual], 3),
    ]
