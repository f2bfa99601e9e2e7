"""Lamps counted in few words: "two tail lamps and licence-plate lamp".

An item's name is a message that holds the lamp's own name and its side apart, so that lamps which
differ by their side alone can be counted together, in any language. A plan that was stored before
names were messages is listed lamp by lamp.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from walkaround.base.message import Argument, Message, Text, message
from walkaround.plan.steps import Item
from walkaround.words.language import Words


def counted(items: Iterable[Item], words: Words, *, one_side: bool = False) -> str:
    """Items in few words; one that is alone of its kind keeps its side.

    Args:
        items: lamps, reflectors.
        words: the language.
        one_side: they are all on one side of the vehicle, so that no side needs naming. Then lamps
            that differ by one word share the others, in a language that can say so: "front and
            rear side marker lamps".
    """
    groups: dict[Text, list[Text]] = {}
    for item in items:
        groups.setdefault(_without_side(item.name), []).append(item.name)
    told: list[str] = []
    for kind, names in groups.items():
        if len(names) > 1:
            told.append(words("lamps-counted", count=len(names), lamps=_plural(kind)))
        else:
            told.append(words.text(kind if one_side else names[0]))
    return words.listed(_sharing(told, words) if one_side else told)


def _without_side(name: Text) -> Text:
    """The name of a lamp, or of several in one housing, without the side that it is on."""
    if isinstance(name, str):
        return name
    if name.id == "lamp-on-side":
        return _text(name.args["lamp"])
    return _changed(name, _without_side)


def _plural(name: Text) -> Text:
    """The name of several such lamps, or of housings that hold several each."""
    if isinstance(name, Message) and name.id in _OF_SEVERAL:
        return _changed(name, _plural)
    return message("lamp-plural", lamp=name)


_OF_SEVERAL = ("lamp-names", "lamp-over-steady")
"""Names that are made of other lamps' names."""


def _changed(name: Message, change: Callable[[Text], Text]) -> Message:
    """A name made of others' names, with each of these changed; any other as it is."""
    if name.id not in _OF_SEVERAL:
        return name

    def each(value: Argument) -> Argument:
        if isinstance(value, tuple):
            return tuple(change(_text(part)) for part in value)
        return change(_text(value))

    return message(name.id, **{key: each(value) for key, value in name.args.items()})


def _text(value: object) -> Text:
    assert isinstance(value, str | Message)
    return value


def _sharing(names: Sequence[str], words: Words) -> Sequence[str]:
    """Names of which some differ by their first word alone, these told as one."""
    if not words.has("lamps-sharing"):
        return names
    groups: dict[str, list[str]] = {}
    for name in names:
        first, _, lamp = name.partition(" ")
        groups.setdefault(lamp, []).append(first)
    return [
        words("lamps-sharing", firsts=tuple(firsts), lamp=lamp)
        if len(firsts) > 1
        else f"{firsts[0]} {lamp}".strip()
        for lamp, firsts in groups.items()
    ]
