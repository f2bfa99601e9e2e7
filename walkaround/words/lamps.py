"""Lamps counted in few words, as a mechanic counts what is seen: "both tails, three ID lamps".

What is counted is housings: a tail and a stop lamp behind one lens are one thing to look at. The
plan of an older walk has no short names; its lamps are listed one by one.
"""

from __future__ import annotations

from collections.abc import Iterable

from walkaround.base.message import message
from walkaround.plan.steps import Item
from walkaround.words.language import Words


def items_text(items: Iterable[Item], words: Words, *, one_side: bool = False) -> str:
    """Write items in few words; one that is alone of its kind keeps its side.

    Args:
        items: lamps, reflectors.
        words: the language.
        one_side: they are all on one side of the vehicle, so that no side needs naming.
    """
    # Front and rear lamps of one name are of rows of their own, but are counted together.
    groups: dict[str, list[Item]] = {}
    for item in items:
        groups.setdefault(words.text(item.said or item.name), []).append(item)
    return words.row(
        _several(name, group, words, one_side=one_side) for name, group in groups.items()
    )


def _several(name: str, items: list[Item], words: Words, *, one_side: bool) -> str:
    sides = [item.side for item in items]
    if len(items) == 1 or items[0].kind == "tape":
        # Tape is no number of things.
        of_side = len(items) == 1 and sides[0] and items[0].said and not one_side
        side = message(f"side-{sides[0]}")
        return words("lamp-on-side", side=side, lamp=name) if of_side else name
    lamps = message("lamp-plural", lamp=name)
    if sorted(sides) == ["left", "right"]:
        return words("lamps-both", lamps=lamps)
    return words("lamps-counted", count=len(items), lamps=lamps)
