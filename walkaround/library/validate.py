"""What can be wrong with any table that people write, whatever it is of, before it is understood.

Files come from strangers: too deep or too much of anything is refused before it costs time, and
no text hides characters that are not seen.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from walkaround.base.errors import Problem
from walkaround.base.plaintext import code_point, hidden_in
from walkaround.base.toml_model import written_key

# The deepest file that comes with the app has 8, the longest list 34, the longest text 464.
MOST_DEPTH = 16
MOST_ITEMS = 400
MOST_VALUES = 20_000
LONGEST_LINE = 300
LONGEST_TEXT = 2_000
MOST_NUMBER = 1e9
SEVERAL_LINES = frozenset({"long", "notes", "what", "why"})
"""Keys whose texts may have several lines, and be longer for it."""

_Path = tuple[int | str, ...]


def too_much(table: Mapping[str, Any], where: str) -> list[Problem]:
    """The first thing that there is too much of in a table, where there is any."""
    for count, (path, value) in enumerate(_values(table), start=1):
        if len(path) > MOST_DEPTH:
            return [Problem(where, written_key(path[:3]), "is nested too deep", "flatten it")]
        if isinstance(value, list | Mapping) and len(value) > MOST_ITEMS:
            what = f"holds {len(value)} things, {MOST_ITEMS} at most"
            mend = "keep what is needed, or split the file"
            return [Problem(where, written_key(path), what, mend)]
        if count > MOST_VALUES:
            what = f"holds more than {MOST_VALUES} values"
            return [Problem(where, "", what, "split it into smaller files")]
    return []


def value_problems(table: Mapping[str, Any], where: str) -> list[Problem]:
    """Every text and number of a table that cannot be, whatever it is for."""
    faults = ((path, _fault(path, value)) for path, value in _values(table))
    return [Problem(where, written_key(path), *fault) for path, fault in faults if fault]


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


def _fault(path: _Path, value: object) -> tuple[str, str] | None:
    """What is wrong with one value by itself, and how to mend it."""
    if isinstance(value, bool):
        return None
    if isinstance(value, int | float) and abs(value) > MOST_NUMBER:
        return "is a number too large to be meant", f"write one up to {MOST_NUMBER:g}"
    if not isinstance(value, str):
        return None
    lines = next((part for part in path[::-1] if isinstance(part, str)), "") in SEVERAL_LINES
    if hidden := hidden_in(value.replace("\n", "") if lines else value):
        if hidden in "\r\n\t":
            return "holds a line break or a tab", "write it in one line, with blanks"
        return f"holds {code_point(hidden)}, which is not seen", "take that character out"
    most = LONGEST_TEXT if lines else LONGEST_LINE
    if len(value) > most:
        return f"has {len(value)} characters, {most} at most", "say it shorter"
    return None
