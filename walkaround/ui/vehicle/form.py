"""The form of a vehicle being made or changed: a row for each field, and Save below them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import flet as ft

from walkaround.base.errors import Problem
from walkaround.garage.edit import changed, fields_asked, problems_beside, value_of
from walkaround.garage.fields import Field
from walkaround.garage.new_vehicle import problems, tidy
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import caution, notice, page_column, top_bar
from walkaround.ui.kit.sheet import QUESTION_PX, sheet
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_kept
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.field_sheet import field_sheet
from walkaround.ui.vehicle.rows import Form, Open, row
from walkaround.vehicle.model import Vehicle
from walkaround.words.problems import problem_text

LEAVE = "leave"
"""What is open when someone is about to leave with changes unsaved."""


@screen
def form_screen(view: View, start: Vehicle, was: str, away: str) -> ft.Control:
    """A vehicle to fill in.

    Args:
        start: what it is at first.
        was: the id of the vehicle that is changed; empty for a new one.
        away: the address to go to when it is not saved.
    """
    vehicle, set_vehicle = use_kept(view.unfinished, "vehicle", start)
    open_, set_open = use_kept(view.unfinished, "open", Open())
    form = _form(view, vehicle, was, set_vehicle, open_, set_open)
    fields = [field for part in form.asked.values() for field in part]
    ft.use_dialog(_over(form, fields, away))

    async def back() -> None:
        if vehicle == start:
            await view.go(away)
        else:
            form.opener(key=LEAVE)()

    body: list[ft.Control] = [
        caution(problem_text(problem, view.words)) for problem in _elsewhere(form, fields)
    ]
    for part, those in form.asked.items():
        body.append(heading(view.words(f"field-part-{part}")))
        body += [row(form, field) for field in those]
    title = view.words("vehicle-new")
    if was:
        title = view.words("vehicle-edit-named", name=start.name)
    return page_column(top_bar(view.words, title, back=back), body, _save(form, fields))


def _form(
    view: View,
    vehicle: Vehicle,
    was: str,
    set_vehicle: Callable[[Any], None],
    open_: Open,
    set_open: Callable[[Any], None],
) -> Form:
    reference, others = view.parts.own_vehicles.reference, view.parts.own_vehicles.others(was)

    def change(key: str, how: Callable[[Any], Any], axle: int | None) -> None:
        # Of the vehicle as it is by then: between two quick taps nothing is drawn.
        set_vehicle(lambda now: changed(now, key, how(value_of(now, key)), reference, axle))

    return Form(
        view=view,
        vehicle=vehicle,
        was=was,
        reference=reference,
        others=others,
        found=problems(tidy(vehicle), others, reference),
        asked={part: those for part, those in fields_asked(vehicle, reference).items() if those},
        open=open_,
        change=change,
        show=set_open,
    )


def _over(form: Form, fields: Sequence[Field], away: str) -> ft.BottomSheet | None:
    if form.open.key == LEAVE:
        return _leaving(form, away)
    field = next((field for field in fields if field.key == form.open.key), None)
    return field_sheet(form, field) if field else None


def _leaving(form: Form, away: str) -> ft.BottomSheet:
    async def leave() -> None:
        form.closer()()
        await form.view.go(away)

    view = form.view
    body = [
        label(view.words("form-not-saved")),
        button(view.words("form-stay"), form.closer(), key="stay", height=64),
        wide_button(view.words("form-leave"), leave, key="leave", bad=True, height=64),
    ]
    return sheet(
        view.words,
        view.words("form-leave-title"),
        body,
        form.closer(),
        page_px=view.device.height,
        height=QUESTION_PX,
    )


def _elsewhere(form: Form, fields: Sequence[Field]) -> list[Problem]:
    """What is wrong with keys that the form has no field for."""
    told = [problem for field in fields for problem in problems_beside(field, form.found)]
    return [problem for problem in form.found if problem not in told]


def _save(form: Form, fields: Sequence[Field]) -> list[ft.Control]:
    view = form.view
    wrong = tuple(field.title for field in fields if problems_beside(field, form.found))

    async def save() -> None:
        kept: list[str] = []
        own_vehicles = view.parts.own_vehicles
        if await view.saved(lambda: kept.append(own_vehicles.save(form.vehicle, form.was))):
            await view.go(f"/vehicle/{kept[0]}")

    if form.found:
        what = view.words("form-put-right-above")
        if wrong:
            what = view.words("form-put-right", fields=wrong)
        return [notice(what, key="to_put_right")]
    return [
        ft.Row(
            [
                button(
                    view.words("form-save"),
                    save,
                    key="save",
                    icon=ft.Icons.SAVE,
                    tone=Tone.ACCENT,
                    expand=True,
                    height=72,
                )
            ]
        )
    ]
