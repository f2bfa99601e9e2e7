"""Every text that the shipped checklists and tables say, by the id it is said by."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import cache

from support.pseudo_language import written_in

from walkaround.base.message import Message
from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.rules.checklist import Checklist

_TEXTS = ("title", "short", "long", "brisk", "caution")
_OF_STEP = (*_TEXTS, "brisk_again", "short_again", "long_again", "caution_again")
_OF_LAMP = ("name", "said", "what", "why")


@cache
def shipped_library() -> Library:
    """What comes with the app."""
    return load_library(shipped(), today=date(2026, 11, 25))


@cache
def shipped_texts() -> dict[str, str]:
    """Each text as its checklist has it; what nobody is shown, such as sources, is left out."""
    library = shipped_library()
    texts = dict(each for checklist in library.checklists for each in _of_checklist(checklist))
    for connector in library.connectors.values():
        said = [connector.name, connector.caution, connector.rated]
        said += [connector.said_of(pin, "function") for pin in connector.pins]
        said += [connector.said_of(pin, "doubt") for pin in connector.pins]
        texts |= {each.id: each.written for each in said if isinstance(each, Message)}
        texts |= {f"connectors/{connector.id}/{p.pin}/colour": p.colour for p in connector.pins}
    for message in written_in(tuple(library.power_sources.values())):
        texts[message.id] = message.written
    return {id_: text for id_, text in texts.items() if text}


def _of_checklist(checklist: Checklist) -> Iterator[tuple[str, str]]:
    for step in checklist.steps:
        place = f"{checklist.id}/{step.id}"
        yield from ((f"{place}/{key}", getattr(step, key)) for key in _OF_STEP)
        yield from ((f"{place}/row/{row.id}", row.name) for row in step.rows)
        yield from ((f"{place}/choice/{choice.id}", choice.text) for choice in step.choices)
        if step.measure:
            yield f"{place}/begin", step.measure.begin
            yield f"{place}/end", step.measure.end
    for row in checklist.lamps:
        place = f"{checklist.id}/{row.id}"
        yield from ((f"{place}/{key}", getattr(row, key)) for key in _OF_LAMP)
        for number, variant in enumerate((*row.variants, *checklist.variants), start=1):
            if variant.what:
                yield f"{place}/variant {number}/what", variant.what
