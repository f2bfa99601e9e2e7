"""The note of a step, and its photos."""

from __future__ import annotations

from dataclasses import dataclass

import flet as ft

from walkaround.plan.steps import Step
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import page_column, top_bar
from walkaround.ui.kit.text import heading
from walkaround.ui.kit.text_field import framed_border
from walkaround.ui.kit.theme import BODY
from walkaround.ui.note.photos import photo_part
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.events import MOST_NOTE_CHARS

MOST_TYPED_CHARS = 8 * MOST_NOTE_CHARS
"""What looks like one character on a page may be eight."""


@dataclass
class _Draft:
    """The text typed so far."""

    text: str


@screen
def note_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Show a short note on this step."""
    before = view.walk.notes.get(step.id, "")
    # Not a state: a field drawn anew at each keystroke loses those typed meanwhile.
    unfinished = view.unfinished
    draft = ft.use_memo(lambda: _Draft(unfinished.values.get("note", before)), dependencies=[])

    async def save() -> None:
        await taps.record_note(step.id, draft.text)

    def typed(e: ft.Event[ft.TextField]) -> None:
        # The page takes no more characters; what is sent by something else may be of any length.
        draft.text = unfinished.keep("note", (e.control.value or "")[:MOST_TYPED_CHARS])

    # Kept when the panel is drawn anew, or what was typed would be gone when it cannot be saved.
    field = ft.use_memo(
        lambda: ft.TextField(
            label=view.words("note-title"),
            value=draft.text,
            multiline=True,
            min_lines=4,
            max_lines=8,
            max_length=MOST_NOTE_CHARS,
            autofocus=True,
            on_change=typed,
            text_size=BODY,
            border=framed_border(),
            key="note_text",
        ),
        dependencies=[view.words.language],
    )
    return page_column(
        top_bar(view.words, view.words.text(step.title), back=view.opens("")),
        [heading(view.words("note-title")), field, photo_part(view, step, key=f"photos_{step.id}")],
        [
            wide_button(
                view.words("note-save"), save, key="save_note", icon=ft.Icons.SAVE, height=96
            )
        ],
    )
