"""A table of a file against its model: the problems of its shape and of its sense, all at once.

Of very many problems the first are told, and how many there are: nobody reads more, and a file
from a stranger may have been made to have them.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, TypeVar

from pydantic import ValidationError

from walkaround.base.errors import InputError, Problem
from walkaround.base.toml_model import Written, problems_of
from walkaround.library.validate import too_much, value_problems

MOST_TOLD = 40
"""Problems told of one file."""

Table = dict[str, Any]
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


def _told(problems: list[Problem], odd: list[Problem], where: str) -> list[Problem]:
    """The problems, and of the odd values those that they do not tell of already."""
    keys = {problem.key for problem in problems}
    every = problems + [problem for problem in odd if problem.key not in keys]
    more = len(every) - MOST_TOLD
    if more <= 0:
        return every
    rest = Problem(where, "", f"has {more} more problems", "mend these first, then check again")
    return [*every[:MOST_TOLD], rest]


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
