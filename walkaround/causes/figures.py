"""The figures that causes are computed with, read from tables: laws, joints, priors, minutes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Literal, get_args

from walkaround.base.provenance import Fact
from walkaround.diagnosis.figures import FigureTable, figure_of

LampLook = Literal[
    "bright", "lit", "dim", "glow", "dark", "flicker", "pulsing", "fast", "slow", "steady",
    "some_out",
]  # fmt: skip
"""What can be seen of a housing: `lit` as it should be, `bright` too bright, `glow` hardly at all.

`flicker` is by no rhythm, `pulsing` in that of a turn signal that is on elsewhere. Of a turn
signal `fast`, `slow` and `steady` (it does not flash). `some_out`: of an LED some diodes are out.
"""
LAMP_LOOKS: tuple[LampLook, ...] = get_args(LampLook)


class LampFigures(FigureTable):
    """Every figure by its id, and what people say of a look."""

    def __init__(
        self, rows: Iterable[Mapping[str, str]], looks: Iterable[Mapping[str, str]]
    ) -> None:
        """Take the rows of the figures and those of what people say of a look."""
        super().__init__(rows)
        self._said = {(row["truly"], row["said"]): figure_of(row, "fits") for row in looks}

    def fits(self, truly: LampLook, reported: LampLook) -> float:
        """Tell how well this word fits a lamp that looks so, 1 being the right one."""
        figure = self._said.get((truly, reported))
        return figure.value if figure else 0.0

    def facts(self) -> Iterator[Fact]:
        """List each of them with its provenance."""
        yield from super().facts()
        for (truly, said_look), figure in self._said.items():
            yield Fact(f"look {truly} said {said_look}", figure.provenance, figure.current)
