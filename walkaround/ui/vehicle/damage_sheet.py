"""Sentences on their sheet, put together by two taps: what is damaged, and where."""

from __future__ import annotations

from dataclasses import replace

import flet as ft

from walkaround.garage.edit import value_of
from walkaround.garage.fields import Sentences, Typed
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.vehicle.entry import Entry
from walkaround.ui.vehicle.rows import Form, Open
from walkaround.words.language import capital

_OWN_WORDS = Typed("own_words", 120)


def sentences(form: Form, field: Sentences) -> list[ft.Control]:
    """Those there are, to take away; what and where for another one; a line to type."""
    here: tuple[str, ...] = value_of(form.vehicle, field.key)
    what, say = form.open.what, form.view.words
    less = [
        chip(
            say,
            text,
            form.chooser(field.key, (*here[:at], *here[at + 1 :])),
            key=f"remove_{at}",
            icon=ft.Icons.REMOVE_CIRCLE_OUTLINE,
            name=form.view.words("form-take-away", what=text),
        )
        for at, text in enumerate(here)
    ]
    # Once it is chosen the places take the room of the others; tapped again it is not chosen.
    hurt = [
        chip(
            say,
            form.view.words(f"hurt-{name}"),
            form.opener(what="" if name == what else name),
            key=f"what_{at}",
            on=name == what,
        )
        for at, name in enumerate(field.what)
        if what in ("", name)
    ]
    return [
        *([label(form.view.words("form-tap-to-take-away"), QUIET, SMALL)] if less else []),
        grid(less, 1),
        label(form.view.words("form-damage-what"), bold=True),
        grid(hurt, 3),
        *_places(form, field),
        *_own_words(form, field),
    ]


def _places(form: Form, field: Sentences) -> list[ft.Control]:
    if not form.open.what:
        return []
    view = form.view
    what = view.words(f"hurt-{form.open.what}")

    def place(at: int, name: str) -> ft.Control:
        where = view.words(f"hurt-at-{name}")

        def add() -> None:
            damage = view.words("form-damage", what=what, where=where)
            form.stepper(field.key, lambda now: (*now, damage))()
            form.opener(what="")()

        return chip(view.words, capital(where), add, key=f"where_{at}")

    places = [place(at, name) for at, name in enumerate(field.where)]
    return [label(view.words("form-damage-where", what=what), bold=True), grid(places, 3)]


def _own_words(form: Form, field: Sentences) -> list[ft.Control]:
    text = form.open.text

    def add() -> None:
        def added(now: Open) -> Open:
            text = " ".join(now.text.split())
            form.stepper(field.key, lambda there: (*there, text))()
            return replace(now, text="")

        form.show(added)

    def typed(to: str) -> None:
        form.opener(text=to)()

    entry = Entry(form.view, _OWN_WORDS, text, typed, key="entry_own_words")
    adding = button(form.view.words("form-add-it"), add, key="add_own", icon=ft.Icons.ADD)
    return [entry, *([adding] if text.strip() else [])]
