"""Checks that apply to every file that people write, whatever it describes.

The shape of a file is checked by its model (`toml_model`); what a shape cannot show is a list of
checks. A check takes what was read and yields a flaw for each thing wrong with it; it never
raises, and it needs not know which file that was. To add one, write it and name it in the list of
its package: `rules.checks`, `rounds.power_checks`, `lamps.wiring_checks`, `vehicle_editor.checks`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from types import MappingProxyType
from typing import NamedTuple, TypeVar

from walkaround.base.errors import Problem
from walkaround.base.message import Message, Text, message, unfilled_placeholders
from walkaround.base.toml_model import nearest

_Item = TypeVar("_Item")


class Flaw(NamedTuple):
    """One thing wrong in a file still to be named; `key`, `what`, `mend` as in `Problem`."""

    key: str
    what: Text
    mend: Text


def problems_found(
    checks: Iterable[Callable[[_Item], Iterable[Flaw]]], item: _Item, where: str
) -> list[Problem]:
    """Run checks on what was read from the file `where`."""
    return [Problem(where, *flaw) for check in checks for flaw in check(item)]


def too_many(counts: Iterable[tuple[str, int, int]], mend: Message) -> Iterator[Flaw]:
    """Tell of what there is more than there may be: its key, how many there are, and the most."""
    for key, count, most in counts:
        if count > most:
            yield Flaw(key, message("problem-too-many", count=count, most=most), mend)


def standing_twice(keys: Iterable[str], mend: Message | None = None) -> Iterator[Flaw]:
    """Tell of keys, with the ids in them, that more than one table has."""
    mend = mend or message("problem-give-each-its-own-id")
    for key, count in Counter(keys).items():
        if count > 1:
            yield Flaw(key, message("problem-stands-twice", count=count), mend)


def empty(texts: Iterable[tuple[str, Text]]) -> Iterator[Flaw]:
    """Tell of texts, with their keys, that say nothing."""
    for key, text in texts:
        if not str(text).strip():
            yield Flaw(key, message("problem-is-empty"), message("problem-write-the-text"))


def not_filled(
    texts: Iterable[tuple[str, Text]],
    placeholders: Collection[str] = (),
    elsewhere: Mapping[str, Message] = MappingProxyType({}),
) -> Iterator[Flaw]:
    """Tell of texts, with their keys, in whose braces stands what nobody can say.

    Args:
        texts: what a file writes for people.
        placeholders: the names that are filled where these texts are said.
        elsewhere: of names that are filled in other places, how to have them filled here.
    """
    mend = message("problem-write-a-quantity")
    if placeholders:
        names = tuple(f"{{{name}}}" for name in sorted(placeholders))
        mend = message("problem-use-a-placeholder", names=names)
    for key, text in texts:
        for placeholder in unfilled_placeholders(str(text), placeholders):
            what = message("trouble-placeholder-unfilled", placeholder=placeholder)
            yield Flaw(key, what, elsewhere.get(placeholder.strip("{}"), mend))


def too_long(texts: Iterable[tuple[str, str, int]], mend: Message | None = None) -> Iterator[Flaw]:
    """Tell of texts, with their keys, that have more characters than they may have."""
    mend = mend or message("problem-say-it-shorter")
    for key, text, most in texts:
        if len(text) > most:
            what = message("problem-too-many-characters", count=len(text), most=most)
            yield Flaw(key, what, mend)


def above(numbers: Iterable[tuple[str, float | None, float]]) -> Iterator[Flaw]:
    """Tell of numbers, with their keys, that are larger than they may be, or as far below 0."""
    for key, number, most in numbers:
        if number is not None and abs(number) > most:
            mend = message("problem-write-at-most", most=f"{most:g}")
            yield Flaw(key, message("problem-is", value=f"{number:g}"), mend)


def outside(
    numbers: Iterable[tuple[str, float | None, tuple[float, float]]], meant: Message
) -> Iterator[Flaw]:
    """Tell of numbers, with their keys, outside their range; `meant` is what they should be."""
    for key, number, (least, most) in numbers:
        if number is not None and not least <= number <= most:
            what = message("problem-is-not", value=f"{number:g}", meant=meant)
            mend = message("problem-write-from-to", least=f"{least:g}", most=f"{most:g}")
            yield Flaw(key, what, mend)


def unknown(
    key: str, what: Message, name: str, allowed: Iterable[str], instead: Message | None = None
) -> Flaw:
    """Tell of a name that stands at `key` and nothing has, and of the known one that may be meant.

    `what` says so, and `instead` how to mend it where no name is known.
    """
    names = list(allowed)
    mend = nearest(name, names) if names else instead or message("problem-take-it-out")
    return Flaw(key, what, mend)
