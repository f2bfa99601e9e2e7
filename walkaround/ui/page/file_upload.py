"""Handing a file over to the app: the button that asks for one, and the way it comes.

The browser opens its file chooser only in the tap itself, so the client does it; what is chosen is
asked for with a ticket once its size is known (see `library.inbox`).
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Sequence
from pathlib import Path
from typing import Protocol

import flet as ft

from walkaround.ui.kit.scale import fitting_size, tall
from walkaround.ui.kit.surface import style
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BODY, Tone
from walkaround.ui.page.view import View

_WORD_PX = 32.0
"""Largest size of the word on its button."""


class UploadHandler(Protocol):
    """A handler of an uploaded file.

    `data` is what it holds, empty where it went to `to`; None if it did not come, or is too large.
    """

    def __call__(self, name: str, data: bytes | None, to: Path | None) -> Awaitable[None]: ...


def use_chooser(
    view: View,
    handle_upload: UploadHandler,
    *,
    most_bytes: int,
    began: Callable[[str], None] = lambda _: None,
    to: Callable[[], Path] | None = None,
) -> ft.FilePicker:
    """Keep one file chooser while its button is shown; what it calls stays valid.

    Args:
        view: the page.
        come: gets what was chosen.
        most_bytes: how large it may be.
        began: gets its name as it sets out.
        to: where on the disk to put it; it stays in memory if not said.
    """
    tickets = ft.use_memo(dict[str, tuple[str, Path | None]], dependencies=[])

    async def picked(e: ft.FilePickerResultEvent) -> None:
        for file in e.files[:1]:
            if file.size > most_bytes:
                await handle_upload(file.name, None, None)
                continue
            place = to() if to else None
            ticket = view.inbox.new_ticket(most_bytes, place)
            tickets[file.name] = ticket, place
            began(file.name)
            url = f"/large/{ticket}"
            await chooser.upload([ft.FilePickerUploadFile(url, id=file.id, name=file.name)])

    async def progress(e: ft.FilePickerUploadEvent) -> None:
        if e.error is None and (e.progress or 0.0) < 1.0:
            return
        ticket, place = tickets.pop(e.file_name, ("", None))
        await handle_upload(e.file_name, view.inbox.take_file(ticket), place)

    chooser = ft.use_memo(
        lambda: ft.FilePicker(on_result=picked, on_upload=progress), dependencies=[]
    )
    return chooser


def file_button(
    chooser: ft.FilePicker,
    word: str,
    icon: ft.IconData,
    *,
    key: str,
    kind: ft.FilePickerFileType,
    endings: Sequence[str] | None = None,
) -> ft.Control:
    """Make the button that asks for a file of this kind."""
    size = fitting_size(BODY, _WORD_PX)
    face = label(word, size=size, bold=True, max_lines=2)
    face.expand, face.expand_loose = True, True
    allowed = [*endings] if endings else None
    return ft.Button(
        content=ft.Row([ft.Icon(icon, size=24), face], spacing=8),
        elevation=0,
        height=tall(64, size, 2, 16),
        expand=True,
        style=style(Tone.PLAIN, (14, 6)),
        action=ft.PickFiles(chooser, file_type=kind, allowed_extensions=allowed),
        key=key,
    )
