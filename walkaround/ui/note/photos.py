"""The photos of a step beside its note: those that were taken, and the way to one more."""

from __future__ import annotations

from pathlib import Path

import flet as ft

from walkaround.plan.steps import Step
from walkaround.records.photos import MOST_CAMERA_BYTES
from walkaround.ui.kit.parts import notice, stretched
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.page.file_upload import file_button, use_chooser
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.pictures.photos import photo_row
from walkaround.ui.taps.photos import photograph
from walkaround.walk.events import MOST_PHOTOS


@screen
def photo_part(view: View, step: Step) -> ft.Control:
    """Show the button that opens the phone's camera or its photos, and what was taken."""
    coming, set_coming = ft.use_state("")
    room = MOST_PHOTOS - len(view.walk.photos_taken)

    async def take_upload(name: str, data: bytes | None, to: Path | None) -> None:  # noqa: ARG001
        if data is None:
            view.message = view.words("photo-did-not-come", name=name)
        else:
            await photograph(view, step.id, name, data)
        set_coming("")
        view.redraw()

    chooser = use_chooser(view, take_upload, most_bytes=MOST_CAMERA_BYTES, began=set_coming)
    ask = file_button(
        chooser,
        view.words("photo-take"),
        ft.Icons.PHOTO_CAMERA,
        key="photo",
        kind=ft.FilePickerFileType.IMAGE,
    )
    rows: list[ft.Control] = [ft.Row([ask])] if room > 0 else []
    if coming:
        rows.append(notice(view.words("photo-coming"), key="photo_coming"))
    rows += photo_row(view.walk, step.id, view.words)
    rows.append(label(view.words("photo-left", count=room), QUIET, SMALL))
    return stretched(rows, 8)
