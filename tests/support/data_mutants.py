"""Tables with one figure changed by one step: a count, a size, a day, a class, a limit, a contact.

What only draws (where a lamp lies), what only begins an entry, and the days on which a text was
read are no facts of a rule and are left as they are.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

from support.mutants import ROOT, Mutant

_SPARED = re.compile(r"\s*(#|current\b|along\b|across\b|start\b|id\b|source\b|set_psi\b)")
_FIGURES = re.compile(
    r"\b(quantity|from|over|under|up_to|gap_mm|front_gap_mm|rear_gap_mm|at_least|at_most"
    r"|per_extra_towed|limit_psi_per_min|seconds|pin_count|nominal_volts)( = )(\d+(?:\.\d+)?)"
)
_DAYS = re.compile(r"\b(made_from|made_before|valid_from|valid_to)( = )(\d{4}-\d\d-\d\d)")
_CLASSES = re.compile(r"^(classes = \[)(.*)(\])$")
_FLAGS = re.compile(r"^(required|equal_passes)( = )(true|false)$")
_HEIGHT = re.compile(r'^(height = ".*?)(\d+)( (?:inches|mm)|(?= to \d))')
_CONTACT = re.compile(r'(\bfn = )"([A-Z_]+)"')
_COLUMNS = {
    "pushrod_stroke_limits.csv": (
        *("type", "outside_diameter_in_decimal", "outside_diameter_mm", "limit_in"),
        *("limit_in_decimal", "limit_mm", "rated_stroke_in_required", "share_of_rated_stroke"),
        *("valid_from", "valid_to", "stroke_class"),
    ),
}
_INCH_STEPS = {"1 1/4": "1 3/8", "1 3/8": "1 1/2", "1 1/2": "1 3/4", "1 3/4": "2", "2": "2 1/4"}


def mutants_of(name: str) -> Iterator[Mutant]:
    """Make every mutant of a data file of `checklists/`, in the order of its lines."""
    right = (ROOT / "checklists" / name).read_text(encoding="utf-8")
    lines = right.splitlines()
    changed = _cells(lines, name) if name.endswith(".csv") else _keys(lines)
    for at, line in changed:
        code = "\n".join([*lines[:at], line, *lines[at + 1 :], ""])
        yield Mutant(f"../checklists/{name}", at + 1, lines[at], line, code)


def _keys(lines: list[str]) -> Iterator[tuple[int, str]]:
    for at, line in enumerate(lines):
        if _SPARED.match(line):
            continue
        for found in _FIGURES.finditer(line):
            yield at, _with(line, found, 3, _one_more(found[3]))
        for found in _DAYS.finditer(line):
            yield at, _with(line, found, 3, _next_day(found[3]))
        if found := _CLASSES.match(line):
            letters = found[2].split(", ")
            others = letters[1:] or ['"B"' if letters != ['"B"'] else '"A"']
            yield at, _with(line, found, 2, ", ".join(others))
        if found := _FLAGS.match(line):
            yield at, _with(line, found, 3, "false" if found[3] == "true" else "true")
        if found := _CONTACT.search(line):
            yield at, _with(line, found, 2, "FOG" if found[2] != "FOG" else "REV")
        if (found := _HEIGHT.match(line)) and not line.startswith('height = "no'):
            yield at, _with(line, found, 2, str(int(found[2]) + 1))


def _cells(lines: list[str], name: str) -> Iterator[tuple[int, str]]:
    head = next(at for at, line in enumerate(lines) if not line.startswith("#"))
    columns = next(csv.reader([lines[head]]))
    for at in range(head + 1, len(lines)):
        cells = next(csv.reader([lines[at]]))
        for column in _COLUMNS[name]:
            number = columns.index(column)
            value = _other(column, cells[number])
            if value is not None:
                yield at, _row([*cells[:number], value, *cells[number + 1 :]])


def _other(column: str, cell: str) -> str | None:
    if not cell or cell in ("any", "not listed", "n/a"):
        return None
    if column.startswith("valid"):
        return _next_day(cell)
    if column == "stroke_class":
        return "long" if cell == "standard" else "standard"
    if column == "type":
        return "7" if cell.isdigit() else "H"
    if column == "limit_in":
        return _INCH_STEPS.get(cell, "1")
    return _one_more(cell)


def _row(cells: list[str]) -> str:
    return ",".join(f'"{cell}"' if "," in cell or '"' in cell else cell for cell in cells)


def _with(line: str, found: re.Match[str], group: int, value: str) -> str:
    return line[: found.start(group)] + value + line[found.end(group) :]


def _one_more(number: str) -> str:
    """One more in the last figure that is written."""
    decimals = len(number.partition(".")[2])
    if decimals == 1 and number.endswith(".0"):
        return f"{float(number) + 1:.1f}"
    return f"{float(number) + 10**-decimals:.{decimals}f}"


def _next_day(day: str) -> str:
    return (date.fromisoformat(day) + timedelta(days=1)).isoformat()


def data_files() -> list[str]:
    """List the data files that have a figure to change."""
    names = [path.name for path in sorted(Path(ROOT / "checklists").glob("*.toml"))]
    return [name for name in (*names, *_COLUMNS) if any(mutants_of(name))]
