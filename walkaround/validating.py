"""A table of a file against its model: the problems of its shape and of its sense, all at once."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any, TypeVar

from pydantic import ValidationError

from walkaround.errors import InputError, Problem
from walkaround.written import Written, problems_of

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
        raise InputError(problems) from None
    if problems := check(item):
        raise InputError(problems)
    return item


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
