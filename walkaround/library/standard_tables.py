"""Reads the standards' tables that come with the app as CSV: bulbs and brake strokes."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from walkaround.brakes.strokes import StrokeTable, stroke_table
from walkaround.disk.locations import shipped
from walkaround.lamps.bulbs import Bulb, bulbs_of


@dataclass(frozen=True, slots=True)
class StandardTables:
    """What vehicles are checked against besides the connector table."""

    bulbs: tuple[Bulb, ...]
    strokes: StrokeTable


@cache
def standard_tables() -> StandardTables:
    """The tables that came with the app; they are no files of the crew's."""
    return StandardTables(
        bulbs=bulbs_of(_rows(shipped() / "bulbs.csv")),
        strokes=stroke_table(_rows(shipped() / "pushrod_stroke_limits.csv")),
    )


def _rows(path: Path) -> list[dict[str, str]]:
    lines = path.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))
