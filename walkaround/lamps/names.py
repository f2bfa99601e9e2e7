"""Contacts, lamps and clauses as messages, for whatever names circuits or tells of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce

from walkaround.base.message import Message, Text, message
from walkaround.lamps.required_lamps import Lamp


def pins_named(pins: Sequence[str]) -> Message:
    """Name contacts as people do: "pin 7", "pins A, C, and H"."""
    return message("lamp-pins", count=len(pins), pins=tuple(pins))


def lamps_named(lamps: Iterable[Lamp]) -> Text:
    """Name lamps that are one to the eye: "left tail lamp and left stop lamp"."""
    names = tuple(dict.fromkeys(lamp.name for lamp in lamps))
    return names[0] if len(names) == 1 else message("lamp-names", names=names)


def join_clauses(clauses: Iterable[Text]) -> Text:
    """Join clauses, in which commas may stand, to one text: "key on, engine off; foot brake down".

    Without any the text is empty.
    """
    each = tuple(clauses)
    if not each:
        return ""
    return reduce(lambda first, then: message("clauses", first=first, then=then), each)
