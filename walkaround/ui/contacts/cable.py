"""A lamp cable from end to end: one tap if it is straight, else what each wrong contact reached."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import flet as ft

from walkaround.contacts.cable import CableFault, cable_faults
from walkaround.contacts.check_record import MOST_NAME_CHARS
from walkaround.lamps.connector import Connector
from walkaround.ui.contacts.overview import store_check, stored_checks
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import caution, notice, page_column, stretched, top_bar
from walkaround.ui.kit.sheet import chip, grid, option_line
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.text_field import text_field
from walkaround.ui.kit.theme import BAD, QUIET, SMALL
from walkaround.ui.kit.zones import ok_zone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View

_COLUMNS = 3
_EARLIER = 3
"""How many names of cables are offered, those checked last."""


@dataclass(frozen=True)
class CableAnswers:
    """The answers given so far.

    Attributes:
        plug: the connector's id; empty before it is chosen.
        name: of the cable.
        reached, weak: of the near end's contacts that are not as they should be.
        open: the contact being told of, or nothing.
    """

    plug: str = ""
    name: str = ""
    reached: Mapping[str, frozenset[str]] = field(default_factory=dict)
    weak: frozenset[str] = frozenset()
    open: str = ""

    def reached_from(self, contact: str) -> frozenset[str]:
        """Tell what a contact reaches."""
        return self.reached.get(contact, frozenset({contact}))

    def reaching(self, far: frozenset[str], *, weakly: bool = False) -> CableAnswers:
        """Return the same with the open contact reaching these."""
        weak = self.weak | {self.open} if weakly else self.weak - {self.open}
        return replace(self, reached={**self.reached, self.open: far}, weak=weak)


Tell = Callable[[Callable[[CableAnswers], CableAnswers]], None]


@screen
def cable_screen(view: View) -> ft.Control:
    """Ask for the plugs, then the name, then for each contact what it reaches."""
    words = view.words
    answers, tell = use_unfinished(view.unfinished, "told", CableAnswers())
    name = _name(view, answers.name, tell)
    connector = view.parts.library.connectors.get(answers.plug)
    if connector is None:
        bar = top_bar(words, words("contacts-cable"), back=view.to("/contacts"))
        return page_column(bar, [heading(words("cable-which-plug")), _plugs(view, tell)])
    contacts = tuple(pin.pin for pin in connector.pins)
    close = _taps(tell, open="")
    if answers.open:
        bar = top_bar(words, words("cable-reaches", contact=answers.open), back=close)
        return page_column(bar, _contact_question(view, contacts, answers, tell, close))
    faults = cable_faults(contacts, answers.reached, answers.weak)
    bar = top_bar(words, words.text(connector.name), back=_taps(tell, plug=""))
    keys = [_contact(view, contact, answers, _taps(tell, open=contact)) for contact in contacts]
    body: list[ft.Control] = [
        caution(words("cable-caution"), SMALL),
        name,
        *_names(view, answers, tell),
        label(words("cable-how")),
        label(words("cable-tap-wrong"), QUIET, SMALL),
        grid(keys, _COLUMNS),
        *_contacts_to_ask(view, answers),
        *(label(words.text(fault.text), BAD, bold=True) for fault in faults),
        *([notice(words("cable-advice"))] if faults else []),
    ]
    return page_column(bar, body, _record(view, connector, answers, faults))


def _taps(tell: Tell, **changes: Any) -> Tap:
    return lambda: tell(lambda now: replace(now, **changes))


def _plugs(view: View, tell: Tell) -> ft.Control:
    connectors = view.parts.library.connectors.values()
    return stretched(
        [
            option_line(
                view.words.text(each.name),
                _taps(tell, plug=each.id),
                key=f"plug_{each.id}",
                about=each.standard,
            )
            for each in connectors
            if each.feeds_lamps
        ],
        8,
    )


def _name(view: View, name: str, tell: Tell) -> ft.Control:
    def typed(text: str) -> None:
        tell(lambda now: replace(now, name=text))

    # Not drawn anew at each letter, or those typed meanwhile would be lost.
    return ft.use_memo(
        lambda: text_field(
            view.words("cable-name"), name, MOST_NAME_CHARS, key="cable_name", change=typed
        ),
        dependencies=[],
    )


def _names(view: View, entered: CableAnswers, tell: Tell) -> list[ft.Control]:
    """Offer the names of cables checked before, while none is typed."""
    if entered.name:
        return []
    same = [
        each.name
        for each in stored_checks(view)
        if each.connector == entered.plug and not each.vehicle
    ]
    last = [*dict.fromkeys(reversed(same))][:_EARLIER]
    chips = [
        chip(view.words, name, _taps(tell, name=name), key=f"name_{at}")
        for at, name in enumerate(last)
    ]
    return [grid(chips, 1)] if chips else []


def _contacts_to_ask(view: View, entered: CableAnswers) -> list[ft.Control]:
    """List the contacts that others were found to reach: they tell a swap from a short."""
    fars = sorted({far for near, fars in entered.reached.items() for far in fars - {near}})
    untold = tuple(far for far in fars if far not in entered.reached)
    return [notice(view.words("cable-tell-too", contacts=untold), key="tell_too")] if untold else []


def _contact(view: View, contact: str, entered: CableAnswers, tap: Tap) -> ft.Control:
    words, far, word = view.words, entered.reached_from(contact), contact
    if not far:
        word = words("cable-contact-open", contact=contact)
    elif far != {contact}:
        word = words("cable-contact-to", contact=contact, far=tuple(sorted(far)))
    elif contact in entered.weak:
        word = words("cable-contact-weak", contact=contact)
    return chip(words, word, tap, key=f"contact_{contact}", on=word != contact)


def _contact_question(
    view: View, contacts: tuple[str, ...], entered: CableAnswers, tell: Tell, shut: Tap
) -> list[ft.Control]:
    """Ask what one contact reaches."""
    words, own = view.words, frozenset({entered.open})

    def answer(far: frozenset[str], *, weakly: bool = False) -> Tap:
        return lambda: tell(lambda now: replace(now.reaching(far, weakly=weakly), open=""))

    def other(contact: str) -> Tap:
        return lambda: tell(lambda now: now.reaching(now.reached_from(now.open) ^ {contact}))

    other_contacts = [
        chip(
            words,
            each,
            other(each),
            key=f"to_{each}",
            on=each in entered.reached_from(entered.open),
        )
        for each in contacts
    ]
    return [
        wide_button(words("cable-only-its-own", contact=entered.open), answer(own), key="its_own"),
        wide_button(words("cable-nothing"), answer(frozenset()), key="nothing"),
        wide_button(words("cable-weakly"), answer(own, weakly=True), key="weakly"),
        label(words("cable-these"), bold=True),
        grid(other_contacts, _COLUMNS),
        wide_button(words("form-done"), shut, key="these_done", icon=ft.Icons.CHECK, height=64),
    ]


def _record(
    view: View, connector: Connector, entered: CableAnswers, faults: tuple[CableFault, ...]
) -> list[ft.Control]:
    words, name = view.words, entered.name.strip()

    async def record() -> None:
        result = {
            "kind": "cable",
            "name": name,
            "connector": connector.id,
            "reached": {near: tuple(sorted(far)) for near, far in entered.reached.items()},
            "weak": tuple(sorted(entered.weak)),
        }
        await store_check(view, result, tuple(fault.text for fault in faults))

    if not name:
        return [notice(words("cable-needs-name"), key="needs_name")]
    if faults:
        count = len({contact for fault in faults for contact in fault.contacts})
        word, icon = words("cable-record", count=count), ft.Icons.CHECK
        return [wide_button(word, record, key="record", bad=True, icon=icon, height=96)]
    return [ft.Row([ok_zone(words, record, word=words("cable-straight"))])]
