"""Tables: one row a fact, each lamp its own, numbers with their units; read by three readers."""

from __future__ import annotations

import csv
import io
import json
from functools import cache
from pathlib import Path
from typing import Any

import duckdb
import pandas as pd
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support import handed_over
from support.english import ENGLISH
from support.walks import HOLD, STEPS, Teller, begun, plan, step

from walkaround.plan.steps import Item
from walkaround.report.facts import COLUMNS, report_facts
from walkaround.report.html import page_html
from walkaround.report.page import contents_of
from walkaround.report.tables import (
    WALK_COLUMNS,
    rows_csv,
    rows_lines,
    walk_csv,
    walk_lines,
    walk_row,
)
from walkaround.walk.events import Answered, Finished, Repaired, Tried
from walkaround.walk.state import Walk

README = (Path(__file__).resolve().parents[2] / "README.md").read_text(encoding="utf-8")


@cache
def found() -> Walk:
    return handed_over.with_findings()


def rows(walk: Walk, fact: str = "", step_id: str = "") -> list[dict[str, Any]]:
    return [
        row
        for row in report_facts(walk, ENGLISH)
        if fact in ("", row["fact"]) and step_id in ("", row["step"])
    ]


def test_every_row_has_every_column_in_order() -> None:
    assert {tuple(row) for row in rows(found())} == {COLUMNS}
    assert walk_csv(found(), ENGLISH).splitlines()[0] == ",".join(COLUMNS)
    assert walk_csv(found(), ENGLISH).count("\r\n") == len(rows(found())) + 1


def test_the_first_row_alone_carries_the_notice() -> None:
    first, *others = rows(found())
    assert "396.17" in first["notice"]
    assert not any(row["notice"] for row in others)
    assert not any("396.17" in line for line in walk_csv(found(), ENGLISH).splitlines()[2:])


def test_every_row_names_vehicle_plate_and_vin() -> None:
    told = {(row["vehicle"], row["plate"], row["vin"]) for row in rows(found())}
    assert told == {("Sandbag semitrailer 7", "FR 0714", handed_over.VIN)}


def test_each_answer_has_one_row_and_the_walk_has_no_other() -> None:
    given = [event.step for event in found().events if isinstance(event, Answered)]
    assert [row["step"] for row in rows(found(), "answer")] == given


def test_each_lamp_has_a_row_of_its_own() -> None:
    lamps = rows(found(), "lamp", "look_2_rear")
    told = {row["item"]: (row["answer"], row["seen"], row["defect"]) for row in lamps}
    assert told["rear_left"] == ("defect", "dark", "open")
    assert told["identification_rear_centre"] == ("defect", "dim", "open")
    assert told["rear_right"] == ("no fault named", None, None)
    assert len(lamps) == len(told)
    assert all("," not in str(row["item"]) for row in lamps)


def test_a_housing_with_several_lamps_has_a_row_for_each() -> None:
    bar = Item(id="bar", name="bar", kind="tail", lamps=("bar_left", "bar_right"))
    teller = begun(plan((STEPS[0], STEPS[1].model_copy(update={"items": (bar,)}), STEPS[2])))
    teller.ok("chocks")
    teller.found("tail_rear", bar="dark")
    teller.tell(Finished)
    told = [(row["item"], row["lamp"], row["seen"], row["defect"]) for row in rows(teller.walk)]
    assert [row for row in told if row[0] == "bar"] == [
        ("bar", "bar_left", "dark", "open"),
        ("bar", "bar_right", "dark", "open"),
    ]
    # Also where nobody got to it.
    assert ("backup_centre", "backup_centre", None, None) in told


def test_no_cell_names_two_lamps_and_no_lamp_has_two_rows_of_one_answer() -> None:
    lamps = rows(found(), "lamp")
    assert not [row for row in lamps if row["lamp"] and " " in row["lamp"]]
    keys = [(row["time_utc"], row["step"], row["item"], row["lamp"]) for row in lamps]
    assert len(set(keys)) == len(keys)


def test_what_later_walks_say_stands_beside_what_is_open_and_nowhere_else() -> None:
    walk = found()
    step_id = walk.open_defects[0].step
    later = {step_id: ("cured", "20261126_081502_4f3a9c"), "chocks": ("open", "x")}
    told = [*report_facts(walk, ENGLISH, later=later)]  # type: ignore[arg-type]
    beside = [row for row in told if row["later"]]
    assert {(row["step"], row["defect"]) for row in beside} == {(step_id, "open")}
    assert {(row["later"], row["later_walk"]) for row in beside} == {later[step_id]}
    # What the walk itself found is not written anew.
    assert [row | {"later": None, "later_walk": None} for row in told] == rows(walk)


def test_a_lamp_that_was_rechecked_has_a_row_for_each_answer() -> None:
    told = [
        (row["answer"], row["stands"], row["defect"], row["who"])
        for row in rows(found(), "lamp", "look_1_right_side")
        if row["item"] == "side_marker_middle_right"
    ]
    assert told == [("defect", False, "rechecked", "Ana"), ("ok", True, None, "Bohdan")]


def test_a_lamp_that_was_not_checked_says_why() -> None:
    [lamp] = rows(found(), "lamp", "abs_left_side")
    assert (lamp["answer"], lamp["reason"]) == ("not checked", "load or dirt in the way")


def test_lamps_left_when_the_walk_ended_are_not_checked() -> None:
    walk = handed_over.Walker(handed_over.planned(), upto="look_1_rear").closed()
    lamps = rows(walk, "lamp", "look_1_rear")
    assert len(lamps) > 5
    assert {(row["answer"], row["reason"]) for row in lamps} == {("not checked", "walk ended")}
    assert {row["partial"] for row in lamps} == {True}


def test_a_step_found_wrong_with_no_lamp_named_tells_of_no_lamp() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.tell(Answered, step="tail_rear", answer="defect")
    assert rows(teller.walk, "lamp") == []
    assert rows(teller.walk, "answer", "tail_rear")[0]["defect"] == "open"


def test_an_air_hold_has_its_readings_and_its_rate_in_numbers() -> None:
    """110, 109 and 108 psi at 0, 30 and 60 s: 2 psi a minute by least squares and by the rule."""
    readings = rows(found(), "reading", HOLD)
    assert [(row["gauge"], row["at_s"], row["value_psi"]) for row in readings] == [
        ("supply", 0.0, 110.0),
        ("supply", 30.0, 109.0),
        ("supply", 60.0, 108.0),
    ]
    [hold] = rows(found(), "hold", HOLD)
    assert hold["rate_psi_per_min"] == pytest.approx(2.0)
    assert hold["rule_rate_psi_per_min"] == pytest.approx(2.0)
    assert hold["rate_low_psi_per_min"] < 2.0 < hold["rate_high_psi_per_min"]
    assert (hold["at_most_psi_per_min"], hold["verdict"]) == (2.0, "undecided")


def test_a_stroke_has_its_value_and_its_limit_in_inches() -> None:
    [stroke] = rows(found(), "value", "stroke_2_left")
    assert (stroke["value_in"], stroke["at_most_in"]) == (2.75, 2.5)
    assert (stroke["read"], stroke["verdict"]) == ("2 3/4 in", "over")


def test_a_drop_has_percent_beside_its_pressure() -> None:
    walk = handed_over.Walker(handed_over.planned("depot_tractor_2")).closed()
    drops = [row for row in rows(walk, "value") if row["value_percent"] is not None]
    assert drops
    for row in drops:
        assert row["value_psi"] is not None
        assert row["at_most_percent"] is not None
        assert row["at_most_psi"] is None


def test_chambers_that_were_read_have_a_row_for_each_wheel_end() -> None:
    chambers = rows(found(), "chamber", "rods_marked_1")
    assert [row["item"] for row in chambers] == ["axle_1_left", "axle_1_right"]
    assert all("30" in row["result"] for row in chambers)


def test_one_row_a_walk_adds_up() -> None:
    row = walk_row(found())
    assert tuple(row) == WALK_COLUMNS
    answers = ("ok", "defect", "missing", "not_fitted", "not_checked")
    assert sum(row[answer] for answer in answers) == row["steps"]  # type: ignore[misc]
    assert row["defects_open"] == len(found().open_defects)
    assert row["who"] == "Ana, Bohdan"


# Read by others


def test_the_csv_reads_in_pandas_as_it_was_written() -> None:
    read = pd.read_csv(io.StringIO(walk_csv(found(), ENGLISH)), dtype=str, keep_default_na=False)
    again = csv.DictReader(io.StringIO(walk_csv(found(), ENGLISH), newline=""))
    assert read.to_dict("records") == list(again)


TEXT = st.text(max_size=30)


@settings(max_examples=60, deadline=None)
@given(name=TEXT, note=TEXT, who=TEXT)
def test_any_text_goes_through_pandas_and_back(name: str, note: str, who: str) -> None:
    """Newlines, commas, quotes, formulas, letters of any script; but for a guarding apostrophe."""
    vehicle = plan().vehicle.model_copy(update={"name": name})
    odd = step("chocks", "secure", "act").model_copy(update={"title": note})
    teller = Teller(who=who)
    teller.begin(plan((odd,), vehicle=vehicle))
    teller.ok("chocks")
    text = walk_csv(teller.walk, ENGLISH).encode("utf-8", "replace")
    [row] = pd.read_csv(
        io.BytesIO(text), dtype=str, keep_default_na=False, lineterminator=None, engine="python"
    ).to_dict("records")

    def shown(value: str) -> str:
        return value.encode("utf-8", "replace").decode()

    for told, given_text in ((row["vehicle"], name), (row["title"], note)):
        assert told.replace("\r\n", "\n") in {
            f"{guard}{shown(given_text)}".replace("\r\n", "\n") for guard in ("", "'")
        }


def test_json_lines_read_in_pandas_with_numbers_as_numbers() -> None:
    read = pd.read_json(io.StringIO(walk_lines(found(), ENGLISH)), lines=True)
    assert len(read) == len(rows(found()))
    strokes = read.query("fact == 'value'")
    assert strokes["value_in"].max() == 2.75


def query() -> str:
    return README.partition("```sql\n")[2].partition("```")[0]


def test_the_query_of_the_readme_finds_what_is_open_in_duckdb_and_in_pandas(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "facts.ndjson").write_text(walk_lines(found(), ENGLISH), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    told = duckdb.sql(query()).fetchall()
    open_steps = {
        str(s.title) for d in found().open_defects for s in found().steps if s.id == d.step
    }
    assert {row[2] for row in told} == open_steps
    assert {row[0] for row in told} == {"Sandbag semitrailer 7"}
    in_python = README.partition("```python\n")[2].partition("```")[0]
    assert len(eval(in_python, {"pandas": pd})) == len(told)


def test_both_tables_of_several_walks_read_in_duckdb(tmp_path: Path) -> None:
    walks = [found(), handed_over.partial(), handed_over.ended_early()]
    path = tmp_path / "walks.ndjson"
    path.write_text(rows_lines(map(walk_row, walks)), encoding="utf-8")
    told = duckdb.sql(f"SELECT scope, steps, defects_open FROM '{path}'").fetchall()
    assert told == [(w.plan and w.plan.scope, len(w.steps), len(w.open_defects)) for w in walks]
    path = tmp_path / "walks.csv"
    path.write_text(rows_csv(WALK_COLUMNS, map(walk_row, walks)), encoding="utf-8", newline="")
    assert duckdb.sql(f"SELECT sum(steps) FROM '{path}'").fetchall() == [
        (sum(len(walk.steps) for walk in walks),)
    ]


def test_json_lines_hold_what_was_typed_as_it_was_typed() -> None:
    vehicle = plan().vehicle.model_copy(update={"name": "=1+1"})
    teller = begun(plan(STEPS, vehicle=vehicle))
    teller.ok("chocks")
    teller.tell(Finished)
    assert json.loads(walk_lines(teller.walk, ENGLISH).splitlines()[0])["vehicle"] == "=1+1"
    assert "'=1+1" in walk_csv(teller.walk, ENGLISH)


def test_a_repair_is_a_row_of_its_own_that_says_what_was_done_by_whom() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    what = {"id": "repair-ground"}
    teller.tell(Repaired, step="tail_rear", done="ground", what=what, again=["tail_rear"])
    [row] = [row for row in report_facts(teller.walk, ENGLISH) if row["fact"] == "repair"]
    assert (row["step"], row["result"], row["who"]) == ("tail_rear", "Ground mended", "Ana")
    assert row["time_utc"]


def test_what_was_tried_is_a_row_that_stands_until_it_comes_out_otherwise() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    for outcome in ("tripped", "in"):
        teller.tell(Tried, trial="breaker:stop", outcome=outcome)
    rows = [row for row in report_facts(teller.walk, ENGLISH) if row["fact"] == "trial"]
    assert [(row["item"], row["result"], row["stands"]) for row in rows] == [
        ("breaker:stop", "tripped", False),
        ("breaker:stop", "in", True),
    ]
    assert {row["who"] for row in rows} == {"Ana"}


def test_each_answer_says_with_what_it_was_given_in_the_table_and_on_the_page() -> None:
    teller = begun()
    teller.tell(Answered, step="chocks", answer="ok")
    assert "by key" not in page_html(contents_of(teller.walk, ENGLISH))
    walk = teller.tell(Answered, step="tail_rear", answer="ok", by="key")
    given = {row["step"]: row["by"] for row in rows(walk, "answer")}
    assert given == {"chocks": "tapped", "tail_rear": "by key"}
    assert "Answers: 1 by key and 1 tapped." in page_html(contents_of(walk, ENGLISH))
