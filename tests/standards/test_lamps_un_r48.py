"""Lamps of trailers against UN Regulation No. 48, typed apart from the rule data."""

from __future__ import annotations

import csv
from collections import Counter
from datetime import date
from itertools import pairwise
from pathlib import Path

import pytest

from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import Lamp, lamps_for, reflectors_for
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
            "kind": row["kind"],
            "made": date.fromisoformat(row["made"]),
            "rules": "unece",
            "electrical": {"volts": 24, "connector": "iso_12098"},
            **size,
        }
    )
    return lamps_for(vehicle, CHECKLISTS) + reflectors_for(vehicle, CHECKLISTS)


@pytest.mark.parametrize("row", rows(), ids=lambda row: "-".join([*row.values()][:5]))
def test_each_trailer_has_the_lamps_that_the_regulation_gives_it(row: dict[str, str]) -> None:
    found = Counter((lamp.rule, lamp.required) for lamp in lamps_of(row))
    written = {rule: f"{count}{'' if needed else '?'}" for (rule, needed), count in found.items()}
    assert written == {rule: row[rule] for rule in list(row)[5:] if row[rule] != "0"}


@pytest.mark.parametrize("row", rows(), ids=lambda row: "-".join([*row.values()][:5]))
def test_lamps_along_a_side_keep_every_greatest_gap(row: dict[str, str]) -> None:
    # 6.17.4.3, 6.18.4.3: 3 m (4 m) from the front, 3 m apart, one in the middle third, 1 m from the
    # rear.
    long_mm = float(row["length_mm"])
    first_mm = 4000 if row["kind"] == "semitrailer" and row["made"] >= "2022-06-22" else 3000
    lamps = [x for x in lamps_of(row) if x.rule == "marker_side" and x.spot == "left_side"]
    at_mm = sorted(lamp.x_mm for lamp in lamps)
    if at_mm:
        assert at_mm[0] <= first_mm + 1e-6
        assert max(b - a for a, b in pairwise(at_mm)) <= 3000 + 1e-6
        assert long_mm - at_mm[-1] <= 1000 + 1e-6
        assert any(long_mm / 3 <= x <= 2 * long_mm / 3 for x in at_mm)


# 6.9.4.2, 6.10.4.2, 6.7.4.2.1, 6.5.4.2, 6.11.4.2, 6.4.4.2, 6.18.4.2, 6.15.4.2: least, most, mm.
HEIGHTS_MM = {
    "position_front": (250, 1500),
    "position_rear": (350, 1500),
    "stop_rear": (350, 1500),
    "indicator_rear": (350, 1500),
    "indicator_side_front": (500, 1500),
    "indicator_side_middle": (500, 1500),
    "indicator_side_rear": (500, 1500),
    "fog_rear": (250, 1000),
    "reversing": (250, 1200),
    "marker_side": (250, 1500),
    "reflector_triangle": (250, 900),
    "reflector_front": (250, 900),
    "reflector_row_side": (250, 900),
}


def test_lamps_may_be_as_low_and_as_high_as_the_regulation_says() -> None:
    height = {lamp.rule: lamp.height for lamp in lamps_of(rows()[8])}
    for rule, (least, most) in HEIGHTS_MM.items():
        assert height[rule].startswith(f"{least} to {most} mm")
    # 6.9.4.2: category O2, up to 3500 kg, as high as 2100 mm.
    light = {lamp.rule: lamp.height for lamp in lamps_of(rows()[2])}
    assert light["position_front"].startswith("250 to 2100 mm")
    heavier = {lamp.rule: lamp.height for lamp in lamps_of(rows()[4])}
    assert (rows()[2]["gvwr_kg"], rows()[4]["gvwr_kg"]) == ("3500", "3501")
    assert heavier["position_front"].startswith("250 to 1500 mm")


def test_colours_are_white_to_the_front_red_to_the_rear_amber_to_the_sides() -> None:
    # UN Regulation No. 48, 5.15; plate and reversing lamps white, indicators amber.
    for lamp in lamps_of(rows()[-1]):
        if lamp.kind == "turn" or lamp.rule in ("marker_side", "reflector_row_side"):
            assert lamp.colour == "amber"
        elif lamp.kind in ("licence_plate", "backup") or lamp.spot == "front":
            assert lamp.colour == "white"
        elif lamp.kind != "tape":
            assert lamp.colour == "red"
