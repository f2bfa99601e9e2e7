"""The shipped tables, read from CSV: bulbs, brake strokes, figures of causes."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from walkaround.brakes.strokes import StrokeTable, stroke_table
from walkaround.causes.figures import LampFigures
from walkaround.disk.locations import shipped
from walkaround.lamps.bulbs import Bulb, bulbs_of
from walkaround.leaks.tables import AirTables


@dataclass(frozen=True, slots=True)
class StandardTables:
    """The shipped tables, besides checklists and connectors.

    Attributes:
        bulbs: the bulbs.
        strokes: the limits of brake strokes.
        figures: the figures for likely causes at lamps.
        air: the tables for likely causes of lost air.
    """

    bulbs: tuple[Bulb, ...]
    strokes: StrokeTable
    figures: LampFigures
    air: AirTables


@cache
def standard_tables() -> StandardTables:
    """Return the shipped tables, which a crew cannot change."""
    return StandardTables(
        bulbs=bulbs_of(_rows(shipped() / "bulbs.csv")),
        strokes=stroke_table(_rows(shipped() / "pushrod_stroke_limits.csv")),
        figures=LampFigures(
            _rows(shipped() / "lamp_causes.csv"), _rows(shipped() / "lamp_looks.csv")
        ),
        air=AirTables(
            _rows(shipped() / "air_feeds.csv"),
            _rows(shipped() / "air_leaks.csv"),
            _rows(shipped() / "air_leak_figures.csv"),
        ),
    )


def _rows(path: Path) -> list[dict[str, str]]:
    lines = path.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))
