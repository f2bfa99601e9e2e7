"""A line or lines to type in, from which no keystroke is lost on a slow network.

A text field that is drawn anew at each keystroke is told its own text again; what was typed in
between would be gone. So the field is drawn once, and again only when something else changes it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import flet as ft

from walkaround.ui.kit.text_field import framed_border
from walkaround.ui.kit.theme import BODY
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.vehicle_editor.fields import TextField


@dataclass
class _Last:
    """The text typed last, and how often something else wrote into the field."""

    text: str
    rewritten: int = 0


@screen
def Entry(view: View, field: TextField, text: str, typed: Callable[[str], None]) -> ft.Control:
    """Show a field for typing; `typed` gets the text at each keystroke, and must stay good."""
    last = ft.use_memo(lambda: _Last(text), dependencies=[])
    if last.text != text:
        last.text = text
        last.rewritten += 1

    def changed(e: ft.Event[ft.TextField]) -> None:
        last.text = (e.control.value or "")[: field.most]
        typed(last.text)

    upper, first = ft.TextCapitalization.CHARACTERS, ft.TextCapitalization.SENTENCES
    make = partial(
        ft.TextField,
        label=view.words.text(field.title),
        value=text,
        max_length=field.most,
        counter=None if field.counted else "",
        multiline=field.lines,
        min_lines=3 if field.lines else None,
        max_lines=6 if field.lines else 1,
        capitalization=upper if field.capitals else first,
        autocorrect=field.lines,
        enable_suggestions=field.lines,
        on_change=changed,
        text_size=BODY,
        border=framed_border(),
        key=field.key,
    )
    return ft.use_memo(make, dependencies=[last.rewritten, view.words.language])
