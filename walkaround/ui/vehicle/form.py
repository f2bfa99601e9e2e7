"""The form of a vehicle being made or changed: a row for each field, and Save below them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import flet as ft

from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import caution, notice, page_column, top_bar
from walkaround.ui.kit.sheet import QUESTION_PX, sheet
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.vehicle.field_sheet import field_sheet
from walkaround.ui.vehicle.rows import Form, OpenSheet, field_row
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.edit import fields_asked, problems_beside, value_of, with_field
from walkaround.vehicle_editor.fields import Field
from walkaround.vehicle_editor.new_vehicle import new_vehicle_problems, without_stray_characters
from walkaround.words.problems import problem_text

LEAVE = "leave"
"""What is open when someone is about to leave with changes unsaved."""


@screen
def form_screen(view: View, start: Vehicle, was: str, away: str) -> ft.Control:
    """Show a vehicle to fill in.

    Args:
        start: what it is at first.
        was: the id of the vehicle that is changed; empty for a new one.
        away: the address to go to when it is not saved.
    """
    vehicle, set_vehicle = use_unfinished(view.unfinished, "vehicle", start)
    open_, set_open = use_unfinished(view.unfinished, "open", OpenSheet())
    reference, other_vehicles = (
        view.parts.own_vehicles.reference,
        view.parts.own_vehicles.others(was),
    )

    def change(key: str, how: Callable[[Any], Any], axle: int | None) -> None:
        # Of the vehicle as it is by then: between two quick taps nothing is drawn.
        set_vehicle(lambda now: with_field(now, key, how(value_of(now, key)), reference, axle))

    fields_of = {
        part: fields_there
        for part, fields_there in fields_asked(vehicle, reference).items()
        if fields_there
    }
    form = Form(
        view=view,
        vehicle=vehicle,
        was=was,
        reference=reference,
        other_vehicles=other_vehicles,
        problems=new_vehicle_problems(without_stray_characters(vehicle), other_vehicles, reference),
        fields_of=fields_of,
        open=open_,
        change=change,
        show=set_open,
    )
    fields = [field for part in fields_of.values() for field in part]
    field = next((each for each in fields if each.key == open_.key), None)
    over = field_sheet(form, field) if field else None
    ft.use_dialog(_leaving(form, away) if open_.key == LEAVE else over)
    back = view.to(away) if vehicle == start else form.opener(key=LEAVE)
    # What is wrong with keys that the form has no field for.
    problems_shown = [
        problem for each in fields for problem in problems_beside(each, form.problems)
    ]
    elsewhere = [problem for problem in form.problems if problem not in problems_shown]
    body: list[ft.Control] = [caution(problem_text(each, view.words)) for each in elsewhere]
    for part, fields_there in form.fields_of.items():
        body.append(heading(view.words(f"field-part-{part}")))
        body += [field_row(form, each) for each in fields_there]
    title = view.words("vehicle-new")
    if was:
        title = view.words("vehicle-edit-named", name=start.name)
    return page_column(top_bar(view.words, title, back=back), body, _save(form, fields))


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
    title, page_px = view.words("form-leave-title"), view.device.height
    return sheet(view.words, title, body, form.closer(), page_px=page_px, height=QUESTION_PX)


def _save(form: Form, fields: Sequence[Field]) -> list[ft.Control]:
    view = form.view
    wrong = tuple(field.title for field in fields if problems_beside(field, form.problems))

    async def save() -> None:
        saved_ids: list[str] = []
        own_vehicles = view.parts.own_vehicles
        if await view.saved(lambda: saved_ids.append(own_vehicles.save(form.vehicle, form.was))):
            await view.go(f"/vehicle/{saved_ids[0]}")

    if form.problems:
        hint = view.words("form-put-right-above")
        if wrong:
            hint = view.words("form-put-right", fields=wrong)
        return [notice(hint, key="to_put_right")]
    word, icon, tone = view.words("form-save"), ft.Icons.SAVE, Tone.ACCENT
    return [ft.Row([button(word, save, key="save", icon=icon, tone=tone, expand=True, height=72)])]
