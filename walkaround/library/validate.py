"""A table of a file against its model: the problems of its shape and of its sense, all at once.

Files come from strangers. Before a table is understood, whatever it is of, too deep or too much of
anything is refused before it costs time, and no text may hide characters that are not seen.

Of very many problems the first are told, and how many there are: nobody reads more, and a file
from a stranger may have been made to have them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any, TypeVar

from pydantic import ValidationError

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, message
from walkaround.base.plaintext import code_point, hidden_in
from walkaround.base.toml_model import Written, problems_of, written_key

MOST_TOLD = 40
"""Problems told of one file."""

# The deepest file that comes with the app has 8, the longest list 34, the longest text 464.
MOST_DEPTH = 16
MOST_ITEMS = 400
MOST_VALUES = 20_000
LONGEST_LINE = 300
LONGEST_TEXT = 2_000
MOST_NUMBER = 1e9
SEVERAL_LINES = frozenset({"long", "notes", "what", "why"})
"""Keys whose texts may have several lines, and be longer for it."""

Table = dict[str, Any]
_Path = tuple[int | str, ...]
_Model = TypeVar("_Model", bound=Written)


def validated(
    model: type[_Model],
    table: Table,
    where: str,
    check: Callable[[_Model], list[Problem]],
    stand_in: Table,
    check_part: Callable[[_Model], list[Problem]] | None = None,
) -> _Model:
    """The model of a table; raises InputError with the problems of its shape and of its sense.

    The parts that are in shape are checked even when others are not, with `stand_in` in place of
    what is missing, so that a file's problems are told all at once. `check_part` does that where
    `check` needs the whole.
    """
    if alone := too_much(table, where):
        raise InputError(alone)
    odd = value_problems(table, where)
    try:
        item = model.model_validate(table)
    except ValidationError as error:
        problems = problems_of(error, where)
        sound = _sound_part(table, error)
        try:
            rest = (check_part or check)(model.model_validate(stand_in | sound))
        except ValidationError:
            rest = []
        made_up = stand_in.keys() - sound.keys()
        problems += [p for p in rest if re.split(r"[ .]", p.key)[0] not in made_up]
        raise InputError(_told(problems, odd, where)) from None
    problems = check(item)
    if problems or odd:
        raise InputError(_told(problems, odd, where))
    return item


def too_much(table: Mapping[str, Any], where: str) -> list[Problem]:
    """Return the first thing that there is too much of in a table, where there is any."""
    for count, (path, value) in enumerate(_values(table), start=1):
        if len(path) > MOST_DEPTH:
            what, mend = message("problem-nested-too-deep"), message("problem-flatten-it")
            return [Problem(where, written_key(path[:3]), what, mend)]
        if isinstance(value, list | Mapping) and len(value) > MOST_ITEMS:
            what = message("problem-too-many-things", count=len(value), most=MOST_ITEMS)
            mend = message("problem-keep-what-is-needed")
            return [Problem(where, written_key(path), what, mend)]
        if count > MOST_VALUES:
            what = message("problem-too-many-values", most=MOST_VALUES)
            return [Problem(where, "", what, message("problem-split-it"))]
    return []


def value_problems(table: Mapping[str, Any], where: str) -> list[Problem]:
    """List every text and number of a table that cannot be, whatever it is for."""
    faults = ((path, _fault(path, value)) for path, value in _values(table))
    return [Problem(where, written_key(path), *fault) for path, fault in faults if fault]


def _told(problems: list[Problem], odd: list[Problem], where: str) -> list[Problem]:
    """The problems, and of the odd values those that they do not tell of already."""
    keys = {problem.key for problem in problems}
    every = problems + [problem for problem in odd if problem.key not in keys]
    more = len(every) - MOST_TOLD
    if more <= 0:
        return every
    what, mend = message("problem-more-problems", count=more), message("problem-mend-these-first")
    return [*every[:MOST_TOLD], Problem(where, "", what, mend)]


def _sound_part(table: Table, error: ValidationError) -> Table:
    """The table without the keys, or the items of top-level lists, that hold a fault."""
    sound = dict(table)
    faulty: dict[str, set[int]] = {}
    for detail in error.errors(include_url=False):
        key, *inner = detail["loc"]
        if inner and isinstance(inner[0], int):
            faulty.setdefault(str(key), set()).add(inner[0])
        else:
            sound.pop(str(key), None)
    for key, places in faulty.items():
        if key in sound:
            items = enumerate(sound[key])
            sound[key] = [item for place, item in items if place not in places]
    return sound


def _values(table: Mapping[str, Any]) -> Iterator[tuple[_Path, Any]]:
    """Every value of a table and of what is in it; not by recursion, however deep it is."""
    waiting: list[tuple[_Path, Any]] = [((), table)]
    while waiting:
        path, value = waiting.pop()
        yield path, value
        if isinstance(value, Mapping):
            waiting += [((*path, key), inner) for key, inner in reversed(list(value.items()))]
        elif isinstance(value, list):
            places = reversed(range(len(value)))
            waiting += [((*path, place), value[place]) for place in places]


def _fault(path: _Path, value: object) -> tuple[Message, Message] | None:
    """What is wrong with one value by itself, and how to mend it."""
    if isinstance(value, bool):
        return None
    if isinstance(value, int | float) and abs(value) > MOST_NUMBER:
        mend = message("problem-write-one-up-to", most=f"{MOST_NUMBER:g}")
        return message("problem-number-too-large"), mend
    if not isinstance(value, str):
        return None
    lines = next((part for part in path[::-1] if isinstance(part, str)), "") in SEVERAL_LINES
    if hidden := hidden_in(value.replace("\n", "") if lines else value):
        if hidden in "\r\n\t":
            return message("problem-line-break-or-tab"), message("problem-write-in-one-line")
        what = message("problem-hidden-character", character=code_point(hidden))
        return what, message("problem-take-that-character-out")
    most = LONGEST_TEXT if lines else LONGEST_LINE
    if len(value) > most:
        what = message("problem-too-many-characters", count=len(value), most=most)
        return what, message("problem-say-it-shorter")
    return None
