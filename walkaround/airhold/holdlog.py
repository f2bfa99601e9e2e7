"""The log of an air hold: a table of text with the columns `seconds` and `psi`, line by line.

Spreadsheets and recorders write it in many ways: columns parted by commas, semicolons or tabs,
decimal points or commas, Windows line ends, a byte order mark, other columns. All of these are
read; blank lines and lines that begin with # are left out.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator
from itertools import islice
from typing import NamedTuple

from walkaround.airhold.readings import MOST_READINGS, Reading, reading_problems
from walkaround.base.errors import InputError, Problem

COLUMNS = ("seconds", "psi")
_NUMBER = re.compile(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?")
_LONGEST_SHOWN = 20
_UTF_16 = (b"\xff\xfe", b"\xfe\xff")


class _Row(NamedTuple):
    line: int
    cells: list[str]


def readings_in(data: bytes, where: str) -> tuple[Reading, ...]:
    """The readings of a log, (seconds, psi) each.

    Args:
        data: what the file holds; only the names of columns and numbers matter, so characters
            that cannot be read are no problem elsewhere.
        where: the file, for messages.

    Raises:
        InputError: the first thing wrong with it, with its line.
    """
    # One for the names of the columns, one that is too many.
    rows = list(islice(_rows(data, where), MOST_READINGS + 2))
    if len(rows) > MOST_READINGS + 1:
        what, mend = f"holds more than {MOST_READINGS} readings", "leave out the others"
        raise _wrong(where, "", what, mend)
    if not rows:
        raise _wrong(where, "", "holds nothing", "write a line seconds,psi and the readings")
    header, *body = rows
    seconds_at, psi_at = _columns(header, where)
    readings = []
    for row in body:
        if any(row.cells[len(header.cells) :]):
            what = f"has {len(row.cells)} values for {len(header.cells)} columns"
            mend = "part columns with ; where a comma is the decimal point"
            raise _wrong(where, f"line {row.line}", what, mend)
        seconds, psi = (_number(row, at, header.cells[at], where) for at in (seconds_at, psi_at))
        readings.append((seconds, psi))
    for problem in reading_problems(readings):
        raise InputError([_placed(problem, where, [row.line for row in body])])
    return tuple(readings)


def _rows(data: bytes, where: str) -> Iterator[_Row]:
    text = data.decode("utf-16" if data[:2] in _UTF_16 else "utf-8-sig", errors="replace")
    delimiter = ""
    for number, line in enumerate(re.split(r"\r\n|\r|\n", text), start=1):
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        delimiter = delimiter or next((mark for mark in ";\t" if mark in line), ",")
        try:
            cells = [cell.strip() for cell in next(csv.reader([line], delimiter=delimiter))]
        except csv.Error as error:
            raise _wrong(where, f"line {number}", f"{error}", "write plain numbers") from None
        if any(cells):
            yield _Row(number, cells)


def _columns(header: _Row, where: str) -> list[int]:
    names = [cell.lower() for cell in header.cells]
    for name in COLUMNS:
        if names.count(name) != 1:
            found = f"{names.count(name) or 'no'} columns {name}"
            mend = "name the columns in the first line: seconds,psi"
            raise _wrong(where, f"line {header.line}", f"has {found}", mend)
    return [names.index(name) for name in COLUMNS]


def _number(row: _Row, at: int, name: str, where: str) -> float:
    cell = row.cells[at] if at < len(row.cells) else ""
    point = cell.replace(",", ".") if cell.count(",") == 1 and "." not in cell else cell
    if not _NUMBER.fullmatch(point):
        what = f"{name} is {cell[:_LONGEST_SHOWN]!a}"
        raise _wrong(where, f"line {row.line}", what, "write a plain number")
    return float(point)


def _placed(problem: Problem, where: str, lines: list[int]) -> Problem:
    """The same problem, told by the line of the log instead of the number of the reading."""
    number = problem.key.removeprefix("reading ")
    place = f"line {lines[int(number) - 1]}" if number else ""
    return Problem(where, place, problem.what, problem.mend)


def _wrong(where: str, place: str, what: str, mend: str) -> InputError:
    return InputError([Problem(where, place, what, mend)])
