"""Sentences on their sheet, put together by two taps: what is damaged, and where."""

from __future__ import annotations

from dataclasses import replace

import flet as ft

from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.sheet import grid
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.vehicle.entry import Entry
from walkaround.ui.vehicle.rows import Form, OpenSheet
from walkaround.vehicle_editor.edit import value_of
from walkaround.vehicle_editor.fields import SentencesField, TextField
from walkaround.words.language import capital

_OWN_WORDS = TextField("own_words", 120)


def damage_sheet(form: Form, field: SentencesField) -> list[ft.Control]:
    """Show the sentences there are, to take away; what and where for another; a line to type."""
    here: tuple[str, ...] = value_of(form.vehicle, field.key)
    chosen_damage, words = form.open.what, form.view.words

    def less(at: int, text: str) -> ft.Control:
        name, icon = words("form-take-away", what=text), ft.Icons.REMOVE_CIRCLE_OUTLINE
        tap = form.chooser(field.key, (*here[:at], *here[at + 1 :]))
        return form.chip(text, tap, key=f"remove_{at}", icon=icon, name=name)

    def hurt(at: int, name: str) -> ft.Control:
        # Tapped again it is not chosen.
        tap, on = form.opener(what="" if name == chosen_damage else name), name == chosen_damage
        return form.chip(words(f"hurt-{name}"), tap, key=f"what_{at}", on=on)

    # Once one is chosen the places take the room of the others.
    offered = [(at, name) for at, name in enumerate(field.what) if chosen_damage in ("", name)]
    return [
        *([label(words("form-tap-to-take-away"), QUIET, SMALL)] if here else []),
        grid([less(at, text) for at, text in enumerate(here)], 1),
        label(words("form-damage-what"), bold=True),
        grid([hurt(at, name) for at, name in offered], 3),
        *_places(form, field),
        *_own_words(form, field),
    ]


def _places(form: Form, field: SentencesField) -> list[ft.Control]:
    if not form.open.what:
        return []
    view = form.view
    damage_text = view.words(f"hurt-{form.open.what}")

    def place(at: int, name: str) -> ft.Control:
        where = view.words(f"hurt-at-{name}")

        def add() -> None:
            damage = view.words("form-damage", what=damage_text, where=where)
            form.stepper(field.key, lambda now: (*now, damage))()
            form.opener(what="")()

        return form.chip(capital(where), add, key=f"where_{at}")

    places = [place(at, name) for at, name in enumerate(field.where)]
    return [label(view.words("form-damage-where", what=damage_text), bold=True), grid(places, 3)]


def _own_words(form: Form, field: SentencesField) -> list[ft.Control]:
    text = form.open.text

    def add() -> None:
        def added(now: OpenSheet) -> OpenSheet:
            text = " ".join(now.text.split())
            form.stepper(field.key, lambda there: (*there, text))()
            return replace(now, text="")

        form.show(added)

    def typed(to: str) -> None:
        form.opener(text=to)()

    entry = Entry(form.view, _OWN_WORDS, text, typed, key="entry_own_words")
    adding = button(form.view.words("form-add-it"), add, key="add_own", icon=ft.Icons.ADD)
    return [entry, *([adding] if text.strip() else [])]
