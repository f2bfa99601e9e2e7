"""What the command line prints: documents that outside checks can read, and text for people."""

from __future__ import annotations

import json
import re
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path
from typing import Any, get_args

import pytest
from support.english import ENGLISH
from support.walks import begun

from walkaround.base.errors import Problem
from walkaround.cli_output import check_document, check_text, plan_document, plan_text
from walkaround.cli_walks import walks_document, walks_text
from walkaround.disk.locations import shipped
from walkaround.library.load import Library, load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Look
from walkaround.records.walk_line import NO_STAMP, line_of, unreadable_line
from walkaround.rules.limits import Provenance

POWERS = ("box", "cab", "helper")
BOTH = ("sandbag_semitrailer_7", "pump_trailer_3")
LAMP_KINDS = {
    "headlamp",
    "parking",
    "turn",
    "tail",
    "stop",
    "clearance",
    "identification",
    "side_marker",
    "licence_plate",
    "backup",
    "abs",
    "blackout_marker",
    "blackout_stop",
    "blackout_drive",
    "other",
}


@cache
def library() -> Library:
    return load_library(shipped(), today=date(2026, 11, 25))


def document(id_: str, power: str = "box") -> dict[str, Any]:
    known = library()
    vehicle = next(vehicle for vehicle in known.vehicles if vehicle.id == id_)
    plan = plan_walk(vehicle, known.rules, power=power)
    found: dict[str, Any] = json.loads(json.dumps(plan_document(plan, known, ENGLISH)))
    return found


def test_a_wide_trailer_is_class_d() -> None:
    # 49 CFR 393.11 Table 1: class D, semitrailers and full trailers 80 in (2032 mm) or wider.
    assert {document(id_)["class"] for id_ in BOTH} == {"D"}


@pytest.mark.parametrize("id_", BOTH)
def test_lamps_name_where_they_are_and_what_feeds_them(id_: str) -> None:
    found = document(id_)
    assert found["lamps"]
    for lamp in found["lamps"]:
        assert set(lamp) >= {
            "id",
            "kind",
            "name",
            "colour",
            "place",
            "housing",
            "circuit",
            "cluster",
            "source",
            "provenance",
        }
        assert lamp["kind"] in LAMP_KINDS
        assert lamp["provenance"] in get_args(Provenance)
        for key in ("id", "housing", "circuit", "cluster"):
            assert re.fullmatch(r"[a-z0-9_]+", lamp[key])
    names = [lamp["id"] for lamp in found["lamps"] + found["reflectors"]]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("id_", BOTH)
@pytest.mark.parametrize("power", POWERS)
def test_steps_tell_what_is_on_and_what_to_expect(id_: str, power: str) -> None:
    found = document(id_, power)
    circuits = {lamp["circuit"] for lamp in found["lamps"]}
    housings = {lamp["housing"] for lamp in found["lamps"]}
    for step in found["steps"]:
        assert set(step) >= {
            "id",
            "kind",
            "round",
            "spot",
            "circuits_on",
            "expect",
            "say",
            "source",
        }
        assert re.fullmatch(r"[a-z0-9_]+", step["id"])
        assert set(step["circuits_on"]) <= circuits
        assert set(step["expect"]) <= housings
        assert set(step["expect"].values()) <= set(get_args(Look))
        assert step["say"]
        assert step["round"] <= found["rounds"]
    assert {on for step in found["steps"] for on in step["circuits_on"]} == circuits
    # Circuits are lit together, so that a cab needs fewer rounds than there are circuits.
    assert 1 < found["rounds"] < len(circuits) if power == "cab" else found["rounds"] == 1


@pytest.mark.parametrize("id_", BOTH)
def test_the_text_names_every_lamp_and_every_step(id_: str) -> None:
    found = document(id_)
    text = plan_text(found, ENGLISH)
    assert text.startswith(f"{id_}: class D, {len(found['lamps'])} lamps")
    for thing in found["lamps"]:
        assert thing["name"] in text
    for step in found["steps"]:
        assert f"{step['title']}: {step['say']}" in " ".join(text.split())


def test_problems_are_told_with_the_files_that_were_checked() -> None:
    problem = Problem("seven.toml", "width_mm", "is -1", "write a number above 0")
    files, facts = [Path("seven.toml"), Path("b.toml")], {"read": 1, "none": 0}
    found = json.loads(json.dumps(check_document(files, [problem], facts, ENGLISH)))
    assert found == {
        "files": ["seven.toml", "b.toml"],
        "problems": [
            {
                "where": "seven.toml",
                "key": "width_mm",
                "what": "is -1",
                "mend": "write a number above 0",
            }
        ],
        "provenance": {"read": 1, "none": 0},
    }
    assert check_text([problem], ENGLISH) == "seven.toml, width_mm: is -1; write a number above 0."
    assert check_text([], ENGLISH) == "No problems."


def test_no_walk_is_said_to_be_none() -> None:
    found = walks_document([])
    assert found == {"walks": []}
    assert walks_text(found, ENGLISH) == "No walk is recorded here yet."


def test_walks_that_cannot_be_listed_are_not_said_to_be_none() -> None:
    sentence = "Walks may be missing or out of date here: /w/2024-03 cannot be read."
    found = json.loads(json.dumps(walks_document([], [sentence])))
    assert found == {"unread": [sentence], "walks": []}
    assert walks_text(found, ENGLISH) == "No walk can be listed."


def test_a_walk_has_a_line_with_how_far_it_is_and_what_is_wrong() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    found = json.loads(json.dumps(walks_document([line_of(teller.walk)])))
    walk = found["walks"][0]
    assert (walk["answered"], walk["steps"], walk["open_defects"]) == (2, 7, ["tail_rear"])
    assert datetime.fromisoformat(walk["began"]) == datetime(2026, 11, 25, 8, 15, 2, tzinfo=UTC)
    assert walks_text(found, ENGLISH) == (
        f"{teller.walk.id}  Pump trailer 3  2/7 answered, 1 open defect(s), stepping"
    )


def test_a_walk_that_cannot_be_read_is_listed_with_its_trouble() -> None:
    line = unreadable_line("20261125_081502_4f3a9c", NO_STAMP, "Its file is damaged.")
    assert walks_text(walks_document([line]), ENGLISH).endswith("partial: Its file is damaged.")
