"""The figures that causes are reckoned with, read from tables: laws, joints, priors, minutes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import Literal, NamedTuple, get_args

from walkaround.base.provenance import Fact

Look = Literal[
    "bright", "lit", "dim", "glow", "dark", "flicker", "pulsing", "fast", "slow", "steady",
    "some_out",
]  # fmt: skip
"""What can be seen of a housing: `lit` as it should be, `bright` too bright, `glow` hardly at all.

`flicker` is by no rhythm, `pulsing` in that of a turn signal that is on elsewhere. Of a turn
signal `fast`, `slow` and `steady` (it does not flash). `some_out`: of an LED some diodes are out.
"""
LOOKS: tuple[Look, ...] = get_args(Look)


class Figure(NamedTuple):
    """A number of the table, with where it comes from."""

    value: float
    provenance: str
    current: date | None


class Figures:
    """Every figure by its id; a wrong id is a fault of the program."""

    def __init__(
        self, rows: Iterable[Mapping[str, str]], said: Iterable[Mapping[str, str]]
    ) -> None:
        """Take the rows of the figures and those of what people say of a look."""
        self._figures = {
            row["id"]: Figure(float(row["value"]), row["provenance"], _day(row)) for row in rows
        }
        self._said = {
            (row["truly"], row["said"]): Figure(float(row["fits"]), row["provenance"], _day(row))
            for row in said
        }

    def __getitem__(self, id_: str) -> float:
        return self._figures[id_].value

    def __iter__(self) -> Iterator[str]:
        return iter(self._figures)

    def fits(self, truly: Look, said: Look) -> float:
        """How well this word fits a lamp that looks so, 1 being the right one."""
        figure = self._said.get((truly, said))
        return figure.value if figure else 0.0

    def facts(self) -> Iterator[Fact]:
        """List each of them with its provenance."""
        for id_, figure in self._figures.items():
            yield Fact(f"cause {id_}", figure.provenance, figure.current)
        for (truly, said), figure in self._said.items():
            yield Fact(f"look {truly} said {said}", figure.provenance, figure.current)


def _day(row: Mapping[str, str]) -> date | None:
    return date.fromisoformat(row["current"]) if row["current"] else None
