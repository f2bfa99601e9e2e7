"""The readings of an air hold: read from a log, and what can be wrong with their numbers.

A log is a table of text with the column `seconds` and one of `psi`, `kpa` and `bar`.
Spreadsheets and recorders write it in many ways: columns parted by commas, semicolons or tabs,
decimal points or commas, Windows line ends, a byte order mark, other columns. All of these are
read; blank lines and lines that begin with # are left out.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import islice, pairwise
from typing import NamedTuple

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, Text, message
from walkaround.base.units import PressureUnit, from_psi, to_psi
from walkaround.rules.limits import MOST_HOLD_S, MOST_PSI

Reading = tuple[float, float]
"""Seconds into the hold, and psi gauge."""

MOST_READINGS = 10_000
"""No hold has more; a recorder that reads oftener tells nothing new."""
LEAST_GAP_S = 0.01
"""Readings closer than this are one reading: no rate can be told from them."""
_ON_MARK = 0.01
"""Share of a step by which a mark may be off, from changing units."""

SECONDS_COLUMN = "seconds"
PRESSURE_COLUMNS: Mapping[str, PressureUnit] = {"psi": "psi", "kpa": "kPa", "bar": "bar"}
"""The columns of a log, in small letters: the time, and one of these for the pressure."""
_NUMBER = re.compile(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?")
_LONGEST_SHOWN = 20
_UTF_16 = (b"\xff\xfe", b"\xfe\xff")


class Log(NamedTuple):
    """The content of a log: its readings in psi, and the unit they were written in."""

    readings: tuple[Reading, ...]
    unit: PressureUnit


class _Row(NamedTuple):
    line: int
    cells: list[str]


def log_of(data: bytes, where: str) -> Log:
    """Read the log of a hold.

    Args:
        data: what the file holds; only the names of columns and numbers matter, so characters
            that cannot be read are no problem elsewhere.
        where: the file, for messages.

    Raises:
        InputError: the first thing wrong with it, with its line and column.
    """
    # One for the names of the columns, one that is too many.
    rows = list(islice(_rows(data, where), MOST_READINGS + 2))
    if len(rows) > MOST_READINGS + 1:
        more = message("log-too-many", most=f"{MOST_READINGS}")
        raise _wrong(where, more, message("log-too-many-mend"))
    if not rows:
        raise _wrong(where, message("log-empty"), message("log-empty-mend"))
    header, *body = rows
    seconds_at, pressure_at = _columns(header, where)
    unit = PRESSURE_COLUMNS[header.cells[pressure_at].lower()]
    readings = []
    for row in body:
        if any(row.cells[len(header.cells) :]):
            wide = message("log-wide", values=len(row.cells), columns=len(header.cells))
            raise _wrong(_line(where, row), wide, message("log-wide-mend"))
        seconds, pressure = (
            _number(row, at, header.cells[at], where) for at in (seconds_at, pressure_at)
        )
        readings.append((seconds, to_psi(pressure, unit)))
    lines = [_line(where, row) for row in body]
    columns = header.cells[seconds_at], header.cells[pressure_at]
    problems = reading_problems(
        readings, lambda n: lines[n - 1] if n else where, columns=columns, unit=unit
    )
    if problem := next(problems, None):
        raise InputError([problem])
    return Log(tuple(readings), unit)


def _reading(number: int) -> Text:
    """Say where a reading stands, by its number from 1; 0 is all of them."""
    return message("reading-number", number=f"{number}") if number else message("readings")


def reading_problems(
    readings: Sequence[Reading],
    place: Callable[[int], Text] = _reading,
    *,
    least: int = 2,
    columns: tuple[str, str] = ("", ""),
    unit: PressureUnit = "psi",
) -> Iterator[Problem]:
    """Find everything wrong with the readings of one gauge.

    Args:
        readings: in order of time.
        place: where a reading stands, by its number from 1; 0 is all of them.
        least: so many there must be.
        columns: what times and pressures are called where they stand.
        unit: in which pressures were written.
    """

    def bad(number: int, what: Message, mend: Message, column: str = "") -> Problem:
        return Problem(place(number), column, what, mend)

    in_time, in_pressure = columns
    count = len(readings)
    if count < least:
        yield bad(
            0,
            message("readings-few", count=f"{count}"),
            message("readings-few-mend", least=f"{least}"),
        )
        return
    if count > MOST_READINGS:
        yield bad(
            0,
            message("readings-many", count=f"{count}"),
            message("readings-many-mend", most=f"{MOST_READINGS}"),
        )
        return
    for number, (seconds, psi) in enumerate(readings, start=1):
        if not 0 <= seconds <= MOST_HOLD_S:
            no_time = message("reading-no-time", seconds=f"{seconds:.6g}")
            mend = message("reading-no-time-mend", most=f"{MOST_HOLD_S:g}")
            yield bad(number, no_time, mend, in_time)
        if not 0 <= psi <= MOST_PSI:
            written, most = from_psi(psi, unit), from_psi(MOST_PSI, unit)
            no_pressure = message("reading-no-pressure", pressure=f"{written:.6g}", unit=unit)
            mend = message("reading-no-pressure-mend", most=f"{most:.4g}", unit=unit)
            yield bad(number, no_pressure, mend, in_pressure)
    times = [seconds for seconds, _ in readings]
    for number, (earlier, later) in enumerate(pairwise(times), start=2):
        if later - earlier < LEAST_GAP_S:
            late, mend = message("reading-not-later"), message("reading-not-later-mend")
            yield bad(number, late, mend, in_time)


def crossing_problems(
    crossings: Sequence[Reading], watched_s: float, mark_step_psi: float
) -> Iterator[Problem]:
    """Find everything wrong with taps at marks; a fault that makes the rest moot comes alone."""
    if problems := [*reading_problems(crossings, least=1)]:
        yield from problems
        return
    last_s, first_psi = crossings[-1][0], crossings[0][1]
    if not last_s <= watched_s <= MOST_HOLD_S or watched_s - crossings[0][0] < LEAST_GAP_S:
        mend = message("watched-mend", most=f"{MOST_HOLD_S:g}")
        yield _bad_argument("watched_s", watched_s, mend)
    for number, (earlier, later) in enumerate(pairwise(crossings), start=2):
        if earlier[1] == later[1]:
            twice, once = message("crossing-twice"), message("crossing-twice-mend")
            yield Problem(_reading(number), "", twice, once)
    for number, (_, psi) in enumerate(crossings, start=1):
        steps = (psi - first_psi) / mark_step_psi if mark_step_psi else 0.5
        if abs(steps - round(steps)) > _ON_MARK:
            no_mark = message("crossing-no-mark", psi=f"{psi:g}")
            mend = message("crossing-no-mark-mend", step=f"{mark_step_psi:g}")
            yield Problem(_reading(number), "", no_mark, mend)


def argument_problems(arguments: Mapping[str, float]) -> Iterator[Problem]:
    """Find arguments, by name, that are no numbers from 0 to `MOST_PSI`."""
    for name, value in arguments.items():
        if not 0 <= value <= MOST_PSI:
            yield _bad_argument(
                name, value, message("argument-mend", least="0", most=f"{MOST_PSI:g}")
            )


def _bad_argument(name: str, value: float, mend: Message) -> Problem:
    return Problem(message("argument"), name, message("argument-bad", value=f"{value}"), mend)


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
            row = _Row(number, [])
            raise _wrong(_line(where, row), f"{error}", message("log-no-row-mend")) from None
        if any(cells):
            yield _Row(number, cells)


def _columns(header: _Row, where: str) -> tuple[int, int]:
    """Find where time and pressure stand in each row."""
    names = [cell.lower() for cell in header.cells]
    pressures = [name for name in names if name in PRESSURE_COLUMNS]
    for indexes, allowed in (
        ([n for n in names if n == SECONDS_COLUMN], (SECONDS_COLUMN,)),
        (pressures, PRESSURE_COLUMNS),
    ):
        if len(indexes) != 1:
            called = tuple(dict.fromkeys(indexes)) or tuple(allowed)
            what = message("log-columns", count=len(indexes), names=called)
            raise _wrong(_line(where, header), what, message("log-columns-mend"))
    return names.index(SECONDS_COLUMN), names.index(pressures[0])


def _number(row: _Row, at: int, name: str, where: str) -> float:
    cell = row.cells[at] if at < len(row.cells) else ""
    point = cell.replace(",", ".") if cell.count(",") == 1 and "." not in cell else cell
    if not _NUMBER.fullmatch(point):
        what = message("log-no-number", name=name, cell=f"{cell[:_LONGEST_SHOWN]!a}")
        raise _wrong(_line(where, row), what, message("log-no-number-mend"))
    return float(point)


def _line(where: str, row: _Row) -> Message:
    return message("line-in-file", where=where, line=f"{row.line}")


def _wrong(place: Text, what: Text, mend: Text) -> InputError:
    return InputError([Problem(place, "", what, mend)])
