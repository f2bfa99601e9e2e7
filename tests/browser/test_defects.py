"""What is wrong, from the tap on Defect to its repair; and the rarer answers."""

from __future__ import annotations

import csv
import io
import re

import pytest
from support.english import ENGLISH

from browser.phone import Phone
from browser.seeds import PUMP_TRAILER, SEMITRAILER, place_of, plan_for, walked
from browser.serving import Served
from walkaround.report.tables import walk_csv
from walkaround.walk.state import Walk

pytestmark = [pytest.mark.browser, pytest.mark.usefixtures("one_page")]

TAIL = "tail_rear"


def _open(app: Served, phone: Phone, upto: str, vehicle_id: str = SEMITRAILER) -> tuple[str, int]:
    """A page at this step of a new walk: the walk's id, the step's number."""
    place = place_of(plan_for(app.parts, vehicle_id), upto)
    walk_id = walked(app.parts, vehicle_id, upto)
    phone.open(app.address, f"walk/{walk_id}")
    phone.at(place)
    return walk_id, place


def _tell(phone: Phone, item: str, seen: str) -> None:
    """Say what is wrong with one of the step's lamps."""
    phone.answer("Defect")
    phone.headed("Which one is wrong?")
    phone.tap(re.compile(f"{item}$"))
    phone.sees("What do you see?")
    phone.tap(seen)
    phone.answer("Record it")


def _row(walk: Walk, step_id: str, stands: str = "yes") -> dict[str, str]:
    """The row of an answer, with what its lamps' rows say was seen."""
    table = csv.DictReader(io.StringIO(walk_csv(walk, ENGLISH)))
    rows = [row for row in table if (row["step"], row["stands"]) == (step_id, stands)]
    seen = [f"{row['item_name']} {row['seen']}" for row in rows if row["seen"]]
    return next(row for row in rows if row["fact"] == "answer") | {"seen": ", ".join(seen)}


def test_a_defect_stays_in_sight_until_its_step_is_repeated_and_ok(
    app: Served, phone: Phone
) -> None:
    walk_id, place = _open(app, phone, TAIL)
    _tell(phone, "left tail lamp", "Dark")
    phone.at(place + 1)
    phone.answer("OK")
    phone.at(place + 2)
    phone.tap("1 open defect")
    phone.sees("left tail lamp dark")
    phone.answer("Repaired")
    phone.answer("Lamp, bulb or lens changed")
    phone.at(place)
    phone.stays("1 open defect")
    phone.answer("OK")
    phone.at(place + 2)
    phone.gone("1 open defect")
    walk = app.parts.open_walks.walk(walk_id)
    assert walk.defects[TAIL].state == "rechecked"
    found = _row(walk, TAIL, stands="no")
    assert (found["answer"], found["seen"]) == ("defect", "left tail lamp dark")
    assert found["defect"] == "rechecked"
    assert _row(walk, TAIL)["answer"] == "ok"


def test_a_required_lamp_that_is_not_there_is_missing(app: Served, phone: Phone) -> None:
    walk_id, place = _open(app, phone, TAIL)
    phone.tap("Other")
    phone.headed("Not checked, because")
    phone.gone("Not fitted")
    phone.tap("Back")
    _tell(phone, "right tail lamp", "Missing")
    phone.at(place + 1)
    phone.stays("1 open defect")
    row = _row(app.parts.open_walks.walk(walk_id), TAIL)
    assert (row["answer"], row["seen"]) == ("missing", "right tail lamp missing")


def test_a_lamp_that_nobody_requires_may_be_absent(app: Served, phone: Phone) -> None:
    walk_id, place = _open(app, phone, "blackout_stop_rear", PUMP_TRAILER)
    phone.tap("Other")
    phone.answer("Not fitted")
    phone.at(place + 1)
    assert app.parts.open_walks.walk(walk_id).answers["blackout_stop_rear"].answer == "not_fitted"
    assert not app.parts.open_walks.walk(walk_id).open_defects


def test_not_checked_keeps_its_reason(app: Served, phone: Phone) -> None:
    walk_id, place = _open(app, phone, TAIL)
    phone.tap("Other")
    phone.answer("Load or dirt in the way")
    phone.at(place + 1)
    row = _row(app.parts.open_walks.walk(walk_id), TAIL)
    assert (row["answer"], row["reason"]) == ("not checked", "load or dirt in the way")


def test_a_note_is_kept_with_its_step(app: Served, phone: Phone) -> None:
    walk_id, place = _open(app, phone, TAIL)
    phone.tap("Note")
    phone.types("Note", "Lens cracked, left")
    phone.answer("Save the note")
    phone.at(place)
    phone.sees("Note: Lens cracked, left")
    assert app.parts.open_walks.walk(walk_id).notes[TAIL] == "Lens cracked, left"


def test_back_and_another_answer_change_a_mistaken_tap(app: Served, phone: Phone) -> None:
    walk_id, place = _open(app, phone, TAIL)
    _tell(phone, "left tail lamp", "Dim")
    phone.at(place + 1)
    phone.stays("1 open defect")
    phone.tap("Back")
    phone.at(place)
    phone.sees("Answered: Defect, left tail lamp dim")
    phone.answer("OK")
    phone.answer("It was no defect: take it back")
    phone.at(place + 1)
    phone.gone("1 open defect")
    walk = app.parts.open_walks.walk(walk_id)
    assert walk.defects[TAIL].state == "withdrawn"
    assert (_row(walk, TAIL)["answer"], _row(walk, TAIL, "no")["answer"]) == ("ok", "defect")


def test_looking_back_changes_nothing(app: Served, phone: Phone) -> None:
    walk_id, place = _open(app, phone, TAIL)
    events = app.parts.open_walks.walk(walk_id).events
    phone.tap("Back")
    phone.at(place - 1)
    phone.sees("Answered: OK")
    phone.tap("Return")
    phone.at(place)
    assert app.parts.open_walks.walk(walk_id).events == events


def test_a_step_that_must_be_done_offers_nothing_else(app: Served, phone: Phone) -> None:
    _open(app, phone, "chocks_on")
    phone.stays("Done")
    for name in ("Defect", "Other"):
        phone.gone(name)
