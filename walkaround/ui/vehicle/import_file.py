"""The import of a vehicle file: all its problems and nothing saved, or the vehicle."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

import flet as ft

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, message
from walkaround.library.own_vehicles import MAX_UPLOAD_BYTES
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.parts import card, notice, stretched
from walkaround.ui.kit.surface import style
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BAD, BODY, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.new_vehicle import next_name, same_name
from walkaround.words.problems import problem_text


@dataclass(frozen=True, slots=True)
class ImportOutcome:
    """The outcome of importing a file.

    Attributes:
        problems: why it was not taken; empty if it was.
        vehicle: what waits for an answer, because there is one of the same name.
        note: one sentence, where there is nothing to ask.
    """

    name: str = ""
    problems: tuple[Problem, ...] = ()
    vehicle: Vehicle | None = None
    note: Message | None = None


@screen
def import_vehicle(view: View) -> ft.Control:
    """Show the button that asks for a file, and below it what became of the last one."""
    outcome, set_outcome = ft.use_state(ImportOutcome())
    tickets = ft.use_memo(dict[str, str], dependencies=[])

    async def picked(e: ft.FilePickerResultEvent) -> None:
        for file in e.files[:1]:
            if file.size > MAX_UPLOAD_BYTES:
                set_outcome(ImportOutcome(file.name, problems=(_too_large(file),)))
                continue
            tickets[file.name] = ticket = view.inbox.new_ticket()
            url = f"/received/{ticket}"
            await chooser.upload([ft.FilePickerUploadFile(url, id=file.id, name=file.name)])

    async def take_upload(e: ft.FilePickerUploadEvent) -> None:
        if e.error is None and (e.progress or 0.0) < 1.0:
            return
        data = view.inbox.take_file(tickets.pop(e.file_name, ""))
        if data is None:
            what, mend = message("problem-did-not-come"), message("problem-choose-it-again")
            set_outcome(ImportOutcome(e.file_name, (Problem(e.file_name, "", what, mend),)))
            return
        upload = read_upload(view, data, e.file_name)
        set_outcome(upload)
        if upload.vehicle is not None and not _twin(view, upload.vehicle):
            await keep(upload.vehicle)

    async def keep(vehicle: Vehicle) -> None:
        saved_ids: list[str] = []
        own_vehicles = view.parts.own_vehicles
        if await view.saved(lambda: saved_ids.append(own_vehicles.save(vehicle, keep_id=True))):
            await view.go(f"/vehicle/{saved_ids[0]}")

    async def keep_both() -> None:
        assert outcome.vehicle is not None
        names = [each.name for each in view.parts.library.vehicles]
        new_name = {"name": next_name(outcome.vehicle.name, names)}
        await keep(outcome.vehicle.model_copy(update=new_name))

    # One file chooser for as long as the button is there; what it calls stays good.
    chooser = ft.use_memo(
        lambda: ft.FilePicker(on_result=picked, on_upload=take_upload), dependencies=[]
    )
    controls = [_ask(view, chooser), *_told(view, outcome)]
    if outcome.vehicle is not None and (twin := _twin(view, outcome.vehicle)):
        both, leave_it = view.words("import-keep-both"), partial(set_outcome, ImportOutcome())
        rows = [
            label(view.words("import-twin", name=twin.name), bold=True),
            label(view.words("import-keep-both-question")),
            button(both, keep_both, key="keep_both", icon=ft.Icons.CHECK, height=64),
            button(view.words("import-leave-it"), leave_it, key="leave_it", height=64),
        ]
        controls.append(card(stretched(rows, 8), key=f"twin_{outcome.vehicle.id}"))
    return stretched(controls, 8)


def read_upload(view: View, data: bytes, name: str) -> ImportOutcome:
    """Tell what is in a file that was picked."""
    try:
        vehicle = view.parts.own_vehicles.parse_file(data, name)
    except InputError as error:
        return ImportOutcome(name, problems=error.problems)
    if vehicle in view.parts.library.vehicles:
        return ImportOutcome(name, note=message("import-here-already", name=vehicle.name))
    return ImportOutcome(name, vehicle=vehicle)


def _too_large(file: ft.FilePickerFile) -> Problem:
    size = message("import-kilobytes", kb=round(file.size / 1000))
    if file.size >= 1e6:
        size = message("import-megabytes", mb=file.size / 1e6)
    what = message("problem-file-too-large", size=size, most=MAX_UPLOAD_BYTES // 1000)
    return Problem(file.name, "", what, message("problem-choose-a-vehicle-file"))


def _twin(view: View, vehicle: Vehicle) -> Vehicle | None:
    return same_name(vehicle.name, view.parts.library.vehicles)


def _ask(view: View, chooser: ft.FilePicker) -> ft.Control:
    # A browser opens its file chooser only in the tap itself, so the client does it.
    kind = ft.FilePickerFileType.CUSTOM
    word = label(view.words("import-vehicle-file"), bold=True)
    return ft.Button(
        content=ft.Row([ft.Icon(ft.Icons.UPLOAD_FILE, size=26), word], spacing=10),
        elevation=0,
        height=64,
        style=style(Tone.PLAIN, (18, 8)),
        action=ft.PickFiles(chooser, file_type=kind, allowed_extensions=["toml"]),
        key="take_in",
    )


def _told(view: View, outcome: ImportOutcome) -> list[ft.Control]:
    if outcome.note is not None:
        return [notice(view.words.text(outcome.note), key="taken_in")]
    if not outcome.problems:
        return []
    refused = view.words("import-refused", count=len(outcome.problems), name=outcome.name)
    head = label(refused, BAD, BODY, bold=True)
    lines: list[ft.Control] = [
        label(problem_text(each, view.words), size=SMALL) for each in outcome.problems
    ]
    return [card(ft.Column([head, *lines], spacing=6), key="refused")]
