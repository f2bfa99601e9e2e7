"""What opens over a step: the question before a defect is taken back, other answers, a note."""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

import flet as ft

from walkaround.plan.steps import Step
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, LINE, QUIET, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.step.photos import photo_part
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.events import MOST_NOTE_CHARS, Reason
from walkaround.words.answers import reason_text
from walkaround.words.language import capital
from walkaround.words.measured import defect_words


@screen
def withdraw_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Asked before another answer takes an open defect back."""
    words, found = view.words, view.walk.defects[step.id]
    body = [
        heading(words("withdraw-question")),
        label(capital(defect_words(view.walk, found, words)), bold=True),
        label(words("withdraw-means")),
    ]
    keep = wide_button(words("withdraw-keep"), view.opens(""), key="keep", icon=ft.Icons.REPORT)
    if taps.take_back:
        word = words("withdraw-yes")
        body.append(wide_button(word, taps.take_back, key="withdraw", icon=ft.Icons.UNDO))
    bar = top_bar(words, words.text(step.title), back=view.opens(""))
    return page_column(bar, body, [keep])


@screen
def other_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """The rarer answers: not checked and why, not fitted where nobody requires it."""

    def reason(code: Reason) -> ft.Control:
        tap = taps.answers(step.id, "not_checked", reason=code)
        return wide_button(reason_text(code, view.words), tap, key=f"reason_{code}")

    body = [heading(view.words("other-because")), *map(reason, get_args(Reason))]
    optional = step.kind in ("lamp", "look", "listen") and not any(i.required for i in step.items)
    if optional:
        word, absent = view.words("answer-not-fitted"), taps.answers(step.id, "not_fitted")
        body.append(heading(view.words("other-not-on-vehicle")))
        body.append(wide_button(word, absent, key="not_fitted", icon=ft.Icons.BLOCK))
    elif step.kind == "lamp":
        body.append(label(view.words("other-required"), QUIET, SMALL))
    return page_column(top_bar(view.words, view.words.text(step.title), back=view.opens("")), body)


MOST_TYPED_CHARS = 8 * MOST_NOTE_CHARS
"""What looks like one character on a page may be eight."""


@dataclass
class _Draft:
    """What has been typed so far."""

    text: str


@screen
def note_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """A short note on this step."""
    before = view.walk.notes.get(step.id, "")
    # Not a state: a field drawn anew at each keystroke loses those typed meanwhile.
    kept = view.unfinished
    draft = ft.use_memo(lambda: _Draft(kept.values.get("note", before)), dependencies=[])

    async def save() -> None:
        await taps.note(step.id, draft.text)

    def typed(e: ft.Event[ft.TextField]) -> None:
        # The page takes no more characters; what is sent by something else may be of any length.
        draft.text = kept.keep("note", (e.control.value or "")[:MOST_TYPED_CHARS])

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
            border=ft.OutlineInputBorder(side=ft.BorderSide(1, LINE)),
            key="note_text",
        ),
        dependencies=[],
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
