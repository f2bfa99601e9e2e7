"""How lamps, sides, contacts and what files write about them are named: as messages."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import reduce

from walkaround.base.message import Message, Text, message


def written(id_: str, text: str) -> Message:
    """Make a message of a text that a file writes.

    Args:
        id_: the path to it, such as `connectors/sae_j560/title`: its translation has the same.
        text: as the file has it.
    """
    return Message(id=id_, written=text)


def pins_named(pins: Sequence[str]) -> Message:
    """Name contacts as people do: "pin 7", "pins A, C, and H"."""
    return message("lamp-pins", count=len(pins), pins=tuple(pins))


def joined(clauses: Iterable[Text]) -> Text:
    """Join clauses, in which commas may stand, to one text: "key on, engine off; foot brake down".

    Without any the text is empty.
    """
    each = tuple(clauses)
    if not each:
        return ""
    return reduce(lambda first, then: message("clauses", first=first, then=then), each)
