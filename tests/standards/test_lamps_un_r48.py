"""Lamps of trailers against UN Regulation No. 48, typed apart from the rule data, from memory."""

from __future__ import annotations

import csv
from collections import Counter
from datetime import date
from pathlib import Path

import pytest

from walkaround.disk.locations import shipped
from walkaround.lamps.required import Lamp, lamps_for, reflectors_for
from walkaround.library.load import load_library
from walkaround.vehicle.model import Vehicle

TABLE = Path(__file__).with_name("lamps_un_r48.csv")
CHECKLISTS = load_library(shipped(), today=date(2025, 11, 1)).checklists


def rows() -> list[dict[str, str]]:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def lamps_of(row: dict[str, str]) -> tuple[Lamp, ...]:
    size = {key: float(row[key]) for key in ("width_mm", "length_mm", "gvwr_kg")}
    vehicle = Vehicle.model_validate(
        {
            "id": "x",
            "kind": "semitrailer",
            "made": date(2015, 1, 1),
            "rules": "unece",
            "electrical": {"volts": 24, "connector": "iso_12098"},
            **size,
        }
    )
    return lamps_for(vehicle, CHECKLISTS) + reflectors_for(vehicle, CHECKLISTS)


@pytest.mark.parametrize("row", rows(), ids=lambda row: "-".join([*row.values()][:3]))
def test_each_trailer_has_the_lamps_that_the_regulation_gives_it(row: dict[str, str]) -> None:
    found = Counter((lamp.rule, lamp.required) for lamp in lamps_of(row))
    written = {rule: f"{count}{'' if needed else '?'}" for (rule, needed), count in found.items()}
    assert written == {rule: row[rule] for rule in list(row)[3:] if row[rule] != "0"}


def test_nothing_here_claims_to_have_been_read() -> None:
    for row in rows():
        for lamp in lamps_of(row):
            assert lamp.provenance == "memory"
            assert "from memory" in lamp.source


def test_colours_are_white_to_the_front_red_to_the_rear_amber_to_the_sides() -> None:
    # UN Regulation No. 48, 5.15 (from memory); plate and reversing lamps white, indicators amber.
    for lamp in lamps_of(rows()[-1]):
        if lamp.kind == "turn" or lamp.rule in ("marker_side", "reflector_row_side"):
            assert lamp.colour == "amber"
        elif lamp.kind in ("licence_plate", "backup") or lamp.spot == "front":
            assert lamp.colour == "white"
        elif lamp.kind != "tape":
            assert lamp.colour == "red"
