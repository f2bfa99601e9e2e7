"""Figures that causes are computed with, read from a table: each with where it comes from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import NamedTuple

from walkaround.base.provenance import Fact


class Figure(NamedTuple):
    """A number of the table, with where it comes from."""

    value: float
    provenance: str
    current: date | None


class FigureTable:
    """Every figure by its id; a wrong id is a fault of the program."""

    def __init__(self, rows: Iterable[Mapping[str, str]]) -> None:
        """Take the rows of the table: id, value, provenance, current."""
        self._figures = {row["id"]: figure_of(row, "value") for row in rows}

    def __getitem__(self, id_: str) -> float:
        return self._figures[id_].value

    def __iter__(self) -> Iterator[str]:
        return iter(self._figures)

    def facts(self) -> Iterator[Fact]:
        """List each of them with its provenance."""
        for id_, figure in self._figures.items():
            yield Fact(f"cause {id_}", figure.provenance, figure.current)


def figure_of(row: Mapping[str, str], column: str) -> Figure:
    """Take the number of a row, with where the row comes from."""
    return Figure(float(row[column]), row["provenance"], day_of(row))


def day_of(row: Mapping[str, str]) -> date | None:
    """Give the day on which the text that a row is from was in force, or was read."""
    return date.fromisoformat(row["current"]) if row["current"] else None
