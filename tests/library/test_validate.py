"""Tables of any kind: too deep, too much, and texts and numbers that cannot be."""

from __future__ import annotations

from typing import Any

import pytest

from walkaround.library.validate import (
    LONGEST_LINE,
    LONGEST_TEXT,
    MOST_DEPTH,
    MOST_ITEMS,
    size_problems,
    value_problems,
)


def nested(depth: int) -> Any:
    value: Any = 1
    for _ in range(depth):
        value = {"a": value}
    return value


def said(table: dict[str, Any]) -> list[str]:
    return [str(problem) for problem in size_problems(table, "f") or value_problems(table, "f")]


def test_a_table_that_is_as_deep_and_long_as_may_be_is_no_problem() -> None:
    assert said({"a": nested(MOST_DEPTH - 1)}) == []
    assert said({"a": [1] * MOST_ITEMS, "short": "x" * LONGEST_LINE}) == []
    assert said({"step": [{"long": "x\n" * (LONGEST_TEXT // 2)}], "notes": "a\nb"}) == []


@pytest.mark.parametrize("depth", [MOST_DEPTH, 100_000])
def test_a_table_that_is_too_deep_is_told_alone(depth: int) -> None:
    assert said({"\x00": "\x00", "a": nested(depth)}) == [
        "f, a.a.a: is nested too deep; flatten it."
    ]


def test_a_list_or_table_that_is_too_long_is_told_alone() -> None:
    many = MOST_ITEMS + 1
    [lots] = said({"damage": ["\x00"] * many})
    assert lots.startswith(f"f, damage: holds {many} things, {MOST_ITEMS} at most; keep what")
    assert said({"a": {str(n): 1 for n in range(many)}})[0].startswith("f, a: holds 401 things")
    assert "holds more than 20000 values" in said({"a": [[1] * 300] * 300})[0]


@pytest.mark.parametrize(
    ("table", "sentence"),
    [
        ({"name": "a\u202eb"}, "f, name: holds U+202E RIGHT-TO-LEFT OVERRIDE, which is not seen;"),
        ({"step": [{"short": "\x1b[2J"}]}, "f, step 1.short: holds U+001B, which is not seen;"),
        ({"name": "a\nb"}, "f, name: holds a line break or a tab; write it in one line,"),
        ({"damage": ["ok", "a\u200bb"]}, "f, damage 2: holds U+200B ZERO WIDTH SPACE, which"),
        ({"notes": "a\nb\u2066"}, "f, notes: holds U+2066 LEFT-TO-RIGHT ISOLATE, which"),
        ({"name": "x" * 301}, "f, name: has 301 characters, 300 at most; say it shorter."),
        ({"notes": "x" * 2001}, "f, notes: has 2001 characters, 2000 at most; say it shorter."),
        ({"made": 10**400}, "f, made: is a number too large to be meant; write one up to 1e+09."),
        ({"a": -1e300}, "f, a: is a number too large to be meant;"),
        ({"a": float("inf")}, "f, a: is a number too large to be meant;"),
    ],
)
def test_what_cannot_be_is_told_by_its_key(table: dict[str, Any], sentence: str) -> None:
    [found] = said(table)
    assert found.startswith(sentence)
