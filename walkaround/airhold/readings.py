"""The readings of an air hold: read from a log, and what can be wrong with their numbers.

A log is a table of text with the columns `seconds` and `psi`. Spreadsheets and recorders write it
in many ways: columns parted by commas, semicolons or tabs, decimal points or commas, Windows line
ends, a byte order mark, other columns. All of these are read; blank lines and lines that begin
with # are left out.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import islice, pairwise
from typing import NamedTuple

from walkaround.base.errors import InputError, Problem
from walkaround.rules.limits import MOST_HOLD_S, MOST_PSI

Reading = tuple[float, float]
"""Seconds into the hold, and psi gauge."""

MOST_READINGS = 10_000
"""No hold has more; a recorder that reads oftener tells nothing new."""
LEAST_GAP_S = 0.01
"""Readings closer than this are one reading: no rate can be told from them."""
_ON_MARK = 0.01
"""Share of a step by which a mark may be off, from changing units."""

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


def reading_problems(readings: Sequence[Reading], least: int = 2) -> Iterator[Problem]:
    """Everything wrong with the readings of one gauge; there must be `least` of them."""
    if not least <= len(readings) <= MOST_READINGS:
        few = len(readings) < least
        mend = f"take at least {least}" if few else f"leave out all but {MOST_READINGS}"
        yield Problem("readings", "", f"{'only ' * few}{len(readings)} given", mend)
        return
    for number, (seconds, psi) in enumerate(readings, start=1):
        if not 0 <= seconds <= MOST_HOLD_S:
            yield _bad(number, f"{seconds} s is no time in a hold", f"0 to {MOST_HOLD_S:g} s is")
        if not 0 <= psi <= MOST_PSI:
            yield _bad(number, f"{psi} psi is no gauge pressure", f"0 to {MOST_PSI:g} psi is")
    times = [seconds for seconds, _ in readings]
    for number, (earlier, later) in enumerate(pairwise(times), start=2):
        if later - earlier < LEAST_GAP_S:
            yield _bad(number, "its time does not rise", "put readings in order of time")


def crossing_problems(
    crossings: Sequence[Reading], watched_s: float, mark_step_psi: float
) -> Iterator[Problem]:
    """Everything wrong with taps at marks, the first that makes the others meaningless alone."""
    if problems := [*reading_problems(crossings, least=1)]:
        yield from problems
        return
    last_s, first_psi = crossings[-1][0], crossings[0][1]
    if not last_s <= watched_s <= MOST_HOLD_S or watched_s - crossings[0][0] < LEAST_GAP_S:
        mend = f"give a time after the last tap, {MOST_HOLD_S:g} s at most"
        yield Problem("argument", "watched_s", f"{watched_s} cannot be", mend)
    for number, (earlier, later) in enumerate(pairwise(crossings), start=2):
        if earlier[1] == later[1]:
            yield _bad(number, "it is the mark of the tap before", "tap each mark once")
    for number, (_, psi) in enumerate(crossings, start=1):
        steps = (psi - first_psi) / mark_step_psi if mark_step_psi else 0.5
        if abs(steps - round(steps)) > _ON_MARK:
            mend = f"marks are {mark_step_psi:g} psi apart"
            yield _bad(number, f"{psi:g} psi is no mark", mend)


def argument_problems(given: Mapping[str, float]) -> Iterator[Problem]:
    """Arguments, by name, that are no numbers from 0 to `MOST_PSI`."""
    for name, value in given.items():
        if not 0 <= value <= MOST_PSI:
            yield Problem("argument", name, f"{value} cannot be", f"give 0 to {MOST_PSI:g}")


def _bad(number: int, what: str, mend: str) -> Problem:
    return Problem("readings", f"reading {number}", what, mend)


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
