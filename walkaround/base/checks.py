"""What is checked in every file that people write, whatever the file is of.

The shape of a file is checked by its model (`toml_model`); what a shape cannot show is a list of
checks. A check takes what was read and yields a flaw for each thing wrong with it; it never
raises, and it needs not know which file that was. To add one, write it and name it in the list of
its package: `rules.checks`, `rounds.power_checks`, `lamps.wiring_checks`, `garage.checks`.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple, TypeVar

from walkaround.base.errors import Problem
from walkaround.base.message import Text
from walkaround.base.toml_model import nearest

_Item = TypeVar("_Item")


class Flaw(NamedTuple):
    """One thing wrong in a file still to be named; `key`, `what`, `mend` as in `Problem`."""

    key: str
    what: str
    mend: str


def problems_found(
    checks: Iterable[Callable[[_Item], Iterable[Flaw]]], item: _Item, where: str
) -> list[Problem]:
    """Run checks on what was read from the file `where`."""
    return [Problem(where, *flaw) for check in checks for flaw in check(item)]


def too_many(counted: Iterable[tuple[str, int, int]], mend: str) -> Iterator[Flaw]:
    """Tell of what there is more than there may be: its key, how many there are, and the most."""
    for key, count, most in counted:
        if count > most:
            yield Flaw(key, f"stands {count} times, {most} at most", mend)


def standing_twice(keys: Iterable[str], mend: str = "give each its own id") -> Iterator[Flaw]:
    """Tell of keys, with the ids in them, that more than one table has."""
    for key, count in Counter(keys).items():
        if count > 1:
            yield Flaw(key, f"stands {'twice' if count == 2 else f'{count} times'}", mend)


def empty(texts: Iterable[tuple[str, Text]]) -> Iterator[Flaw]:
    """Tell of texts, with their keys, that say nothing."""
    for key, text in texts:
        if not str(text).strip():
            yield Flaw(key, "is empty", "write the text")


def too_long(texts: Iterable[tuple[str, str, int]], mend: str = "say it shorter") -> Iterator[Flaw]:
    """Tell of texts, with their keys, that have more characters than they may have."""
    for key, text, most in texts:
        if len(text) > most:
            yield Flaw(key, f"has {len(text)} characters, {most} at most", mend)


def above(numbers: Iterable[tuple[str, float | None, float]]) -> Iterator[Flaw]:
    """Tell of numbers, with their keys, that are larger than they may be, or as far below 0."""
    for key, number, most in numbers:
        if number is not None and abs(number) > most:
            yield Flaw(key, f"is {number:g}", f"write {most:g} at most")


def outside(
    numbers: Iterable[tuple[str, float | None, tuple[float, float]]], meant: str
) -> Iterator[Flaw]:
    """Tell of numbers, with their keys, outside their range; `meant` is what they should be."""
    for key, number, (least, most) in numbers:
        if number is not None and not least <= number <= most:
            mend = f"write a value from {least:g} to {most:g}"
            yield Flaw(key, f"is {number:g}, not {meant}", mend)


def unknown(key: str, noun: str, name: str, known: Iterable[str], instead: str = "") -> Flaw:
    """Tell of a name that nothing has, and of the one that may be meant.

    Args:
        key: where it is named.
        noun: what should have the name.
        name: what was written.
        known: the names that there are; may be none.
        instead: how to mend it where there are none.
    """
    names = list(known)
    mend = nearest(name, names) if names else instead or "take it out"
    return Flaw(key, f"no {noun} is called {name}", mend)
