"""Taking in a vehicle file from elsewhere: all its problems and nothing saved, or the vehicle."""

from __future__ import annotations

from dataclasses import dataclass

import flet as ft

from walkaround.base.errors import InputError, Problem
from walkaround.garage.new_vehicle import next_name, same_name
from walkaround.library.own_vehicles import MAX_UPLOAD_BYTES
from walkaround.ui.kit.buttons import Tap, button, style
from walkaround.ui.kit.parts import card, notice, stretched
from walkaround.ui.kit.text import words
from walkaround.ui.kit.theme import BAD, BODY, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.vehicle.model import Vehicle


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a file.

    Attributes:
        problems: why it was not taken; empty if it was.
        vehicle: what waits for an answer, because there is one of the same name.
        told: one sentence, where there is nothing to ask.
    """

    name: str = ""
    problems: tuple[str, ...] = ()
    vehicle: Vehicle | None = None
    told: str = ""


@screen
def taking_in(view: View) -> ft.Control:
    """The button that asks for a file, and below it what became of the last one."""
    outcome, set_outcome = ft.use_state(Outcome())
    asked = ft.use_memo(dict[str, str], dependencies=[])

    async def picked(e: ft.FilePickerResultEvent) -> None:
        for file in e.files[:1]:
            if file.size > MAX_UPLOAD_BYTES:
                set_outcome(Outcome(file.name, problems=(str(_too_large(file)),)))
                continue
            asked[file.name] = ticket = view.inbox.ask()
            url = f"/received/{ticket}"
            await chooser.upload([ft.FilePickerUploadFile(url, id=file.id, name=file.name)])

    async def come(e: ft.FilePickerUploadEvent) -> None:
        if e.error is None and (e.progress or 0.0) < 1.0:
            return
        data = view.inbox.take(asked.pop(e.file_name, ""))
        if data is None:
            set_outcome(Outcome(e.file_name, problems=(str(_lost(e.file_name)),)))
            return
        found = received(view, data, e.file_name)
        set_outcome(found)
        if found.vehicle is not None and not _twin(view, found.vehicle):
            await keep(found.vehicle)

    async def keep(vehicle: Vehicle) -> None:
        kept: list[str] = []
        own_vehicles = view.parts.own_vehicles
        if await view.saved(lambda: kept.append(own_vehicles.save(vehicle, keep_id=True))):
            await view.go(f"/vehicle/{kept[0]}")

    async def keep_both() -> None:
        assert outcome.vehicle is not None
        names = [each.name for each in view.parts.library.vehicles]
        named = {"name": next_name(outcome.vehicle.name, names)}
        await keep(outcome.vehicle.model_copy(update=named))

    def leave_it() -> None:
        set_outcome(Outcome())

    # One file chooser for as long as the button is there; what it calls stays good.
    chooser = ft.use_memo(lambda: ft.FilePicker(on_result=picked, on_upload=come), dependencies=[])
    shown = [_ask(chooser), *_told(outcome)]
    if outcome.vehicle is not None and (twin := _twin(view, outcome.vehicle)):
        shown.append(_both(outcome.vehicle, twin, keep_both, leave_it))
    return stretched(shown, 8)


def received(view: View, data: bytes, name: str) -> Outcome:
    """What is in a file that was picked."""
    try:
        vehicle = view.parts.own_vehicles.received(data, name)
    except InputError as error:
        return Outcome(name, problems=tuple(str(each) for each in error.problems))
    if vehicle in view.parts.library.vehicles:
        return Outcome(name, told=f"{vehicle.name} is here already, just as in this file.")
    return Outcome(name, vehicle=vehicle)


def _too_large(file: ft.FilePickerFile) -> Problem:
    size = f"{file.size / 1e6:.1f} MB" if file.size >= 1e6 else f"{file.size / 1000:.0f} kB"
    what = f"has {size}, but a vehicle file has {MAX_UPLOAD_BYTES // 1000} kB at most"
    return Problem(file.name, "", what, "choose a vehicle file")


def _lost(name: str) -> Problem:
    return Problem(name, "", "did not come over the network", "choose it again")


def _twin(view: View, vehicle: Vehicle) -> Vehicle | None:
    return same_name(vehicle.name, view.parts.library.vehicles)


def _ask(chooser: ft.FilePicker) -> ft.Control:
    # A browser opens its file chooser only in the tap itself, so the client does it.
    action = ft.PickFiles(
        chooser,
        file_type=ft.FilePickerFileType.CUSTOM,
        allowed_extensions=["toml"],
    )
    return ft.Button(
        content=ft.Row(
            [
                ft.Icon(ft.Icons.UPLOAD_FILE, size=26),
                words("Import a vehicle file", bold=True),
            ],
            spacing=10,
        ),
        elevation=0,
        height=64,
        style=style(Tone.PLAIN, (18, 8)),
        action=action,
        key="take_in",
    )


def _told(outcome: Outcome) -> list[ft.Control]:
    if outcome.told:
        return [notice(outcome.told, key="taken_in")]
    if not outcome.problems:
        return []
    count = len(outcome.problems)
    what = "1 thing is" if count == 1 else f"{count} things are"
    head = words(f"Not taken in: {what} wrong in {outcome.name}", BAD, BODY, bold=True)
    lines: list[ft.Control] = [words(each, size=SMALL) for each in outcome.problems]
    return [card(ft.Column([head, *lines], spacing=6), key="refused")]


def _both(vehicle: Vehicle, twin: Vehicle, keep_both: Tap, leave_it: Tap) -> ft.Control:
    rows = [
        words(f"There is a {twin.name} already.", bold=True),
        words("Keep both? The one taken in gets a name of its own."),
        button("Keep both", keep_both, key="keep_both", icon=ft.Icons.CHECK, height=64),
        button("Do not take it in", leave_it, key="leave_it", height=64),
    ]
    column = stretched(rows, 8)
    return card(column, key=f"twin_{vehicle.id}")
