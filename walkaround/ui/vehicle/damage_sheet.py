"""Sentences on their sheet, put together by two taps: what is damaged, and where."""

from __future__ import annotations

from dataclasses import replace

import flet as ft

from walkaround.garage.edit import value_of
from walkaround.garage.fields import Sentences, Typed
from walkaround.ui.kit.buttons import button
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.text import words
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.vehicle.entry import Entry
from walkaround.ui.vehicle.rows import Form, Open

_OWN_WORDS = Typed("own_words", "Or in your own words", 120)


def sentences(form: Form, field: Sentences) -> list[ft.Control]:
    """Those there are, to take away; what and where for another one; a line to type."""
    here: tuple[str, ...] = value_of(form.vehicle, field.key)
    what = form.open.what
    less = [
        chip(
            text,
            form.chooser(field.key, (*here[:at], *here[at + 1 :])),
            key=f"remove_{at}",
            icon=ft.Icons.REMOVE_CIRCLE_OUTLINE,
            name=f"Take away: {text}",
        )
        for at, text in enumerate(here)
    ]
    # Once it is chosen the places take the room of the others; tapped again it is not chosen.
    hurt = [
        chip(
            word,
            form.opener(what="" if word == what else word),
            key=f"what_{at}",
            on=word == what,
        )
        for at, word in enumerate(field.what)
        if what in ("", word)
    ]
    return [
        *([words("Tap one to take it away.", QUIET, SMALL)] if less else []),
        grid(less, 1),
        words("What", bold=True),
        grid(hurt, 3),
        *_places(form, field),
        *_own_words(form, field),
    ]


def _places(form: Form, field: Sentences) -> list[ft.Control]:
    what = form.open.what
    if not what:
        return []

    def place(at: int, where: str) -> ft.Control:
        def add() -> None:
            form.stepper(field.key, lambda now: (*now, f"{what}: {where}"))()
            form.opener(what="")()

        return chip(where.capitalize(), add, key=f"where_{at}")

    places = [place(at, where) for at, where in enumerate(field.where)]
    return [words(f"{what} where?", bold=True), grid(places, 3)]


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
    adding = button("Add it", add, key="add_own", icon=ft.Icons.ADD)
    return [entry, *([adding] if text.strip() else [])]
