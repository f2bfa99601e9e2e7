"""Validating the table of a file: all problems of its structure and of its content at once.

Files may come from strangers. Before a table is validated, one that is too deep or too large is
refused, so that it cannot cost time, and no text may have invisible characters.

If there are very many problems, only the first and the number of others are reported: nobody reads
more, and a stranger may have made a file to have them.
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

MOST_PROBLEMS = 40
"""The most problems that are reported for one file."""

# The deepest shipped file has 8 levels, the longest list 34 items, the longest text 464 characters.
MOST_DEPTH = 16
MOST_ITEMS = 400
MOST_VALUES = 20_000
LONGEST_LINE = 300
LONGEST_TEXT = 2_000
MOST_NUMBER = 1e9
SEVERAL_LINES = frozenset({"long", "notes", "what", "why"})
"""The keys whose texts may have several lines, and may be longer."""

Table = dict[str, Any]
_Path = tuple[int | str, ...]
_Model = TypeVar("_Model", bound=Written)


def validate_table(
    model: type[_Model],
    table: Table,
    where: str,
    check: Callable[[_Model], list[Problem]],
    defaults: Table,
    check_part: Callable[[_Model], list[Problem]] | None = None,
) -> _Model:
    """Validate a table.

    If the structure of some parts is wrong, the other parts are still checked, so that all problems
    of a file are reported at once.

    Args:
        model: the model of the table.
        table: the table.
        where: the path of the file, for problems.
        check: returns the problems of the content.
        defaults: values in place of the parts whose structure is wrong.
        check_part: used in place of `check` if some parts are missing.

    Raises:
        InputError: with all problems.
    """
    if problems := size_problems(table, where):
        raise InputError(problems)
    faulty_values = value_problems(table, where)
    try:
        item = model.model_validate(table)
    except ValidationError as error:
        problems = problems_of(error, where)
        valid_part = _valid_part(table, error)
        try:
            other_problems = (check_part or check)(model.model_validate(defaults | valid_part))
        except ValidationError:
            other_problems = []
        replaced = defaults.keys() - valid_part.keys()
        problems += [p for p in other_problems if re.split(r"[ .]", p.key)[0] not in replaced]
        raise InputError(_shortened(problems, faulty_values, where)) from None
    problems = check(item)
    if problems or faulty_values:
        raise InputError(_shortened(problems, faulty_values, where))
    return item


def size_problems(table: Mapping[str, Any], where: str) -> list[Problem]:
    """Return the first problem of a table's size, as a list; empty if there is none."""
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
    """Return the problems of texts and numbers that are never valid, whatever they are for."""
    faults = ((path, _fault(path, value)) for path, value in _values(table))
    return [Problem(where, written_key(path), *fault) for path, fault in faults if fault]


def _shortened(problems: list[Problem], faulty_values: list[Problem], where: str) -> list[Problem]:
    """Return all problems, each key once, and at most MOST_PROBLEMS of them."""
    keys = {problem.key for problem in problems}
    all_problems = problems + [problem for problem in faulty_values if problem.key not in keys]
    more = len(all_problems) - MOST_PROBLEMS
    if more <= 0:
        return all_problems
    what, mend = message("problem-more-problems", count=more), message("problem-mend-these-first")
    return [*all_problems[:MOST_PROBLEMS], Problem(where, "", what, mend)]


def _valid_part(table: Table, error: ValidationError) -> Table:
    """Return the table without the keys, or the items of top-level lists, that have errors."""
    valid_part = dict(table)
    faulty: dict[str, set[int]] = {}
    for detail in error.errors(include_url=False):
        key, *inner = detail["loc"]
        if inner and isinstance(inner[0], int):
            faulty.setdefault(str(key), set()).add(inner[0])
        else:
            valid_part.pop(str(key), None)
    for key, places in faulty.items():
        if key in valid_part:
            items = enumerate(valid_part[key])
            valid_part[key] = [item for place, item in items if place not in places]
    return valid_part


def _values(table: Mapping[str, Any]) -> Iterator[tuple[_Path, Any]]:
    """Return every value of a table with its path; without recursion, since it may be deep."""
    stack: list[tuple[_Path, Any]] = [((), table)]
    while stack:
        path, value = stack.pop()
        yield path, value
        if isinstance(value, Mapping):
            stack += [((*path, key), inner) for key, inner in reversed(list(value.items()))]
        elif isinstance(value, list):
            places = reversed(range(len(value)))
            stack += [((*path, place), value[place]) for place in places]


def _fault(path: _Path, value: object) -> tuple[Message, Message] | None:
    """Return what is wrong with a value by itself, and how to mend it; None if nothing is."""
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
    limit = LONGEST_TEXT if lines else LONGEST_LINE
    if len(value) > limit:
        what = message("problem-too-many-characters", count=len(value), most=limit)
        return what, message("problem-say-it-shorter")
    return None
