"""A walk as one JSON document: answers in words, sealed events, the notice."""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from typing import Any

import pytest
from support.english import ENGLISH
from support.walks import STEPS, Teller, begun, plan, step

from walkaround.airhold.gauge import Gauge
from walkaround.brakes.not_covered import not_covered
from walkaround.plan.steps import Step
from walkaround.report.json_document import walk_json
from walkaround.report.walk_texts import result_text
from walkaround.rules.limits import ShopFigures
from walkaround.walk.advance import fold
from walkaround.walk.events import (
    AirTemperature,
    Answered,
    Finished,
    GaugesTold,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    Measured,
    Noted,
    ReadingTaken,
)
from walkaround.walk.seals import event_json, good_events
from walkaround.walk.state import Walk, answer_counts

HOLD = "supply_hold"
KEYS = (
    *("walk", "vehicle", "scope", "partial", "time_utc", "who", "part", "step", "title", "answer"),
    *("stands", "defect", "reason", "seen", "readings", "result", "note", "source", "provenance"),
    *("notice", "doubt"),
)
"""As documents have had them from the first on, but the last: whoever reads one goes by them."""


def rows(walk: Walk) -> list[dict[str, str]]:
    told: list[dict[str, str]] = document(walk)["answers"]
    return told


def document(walk: Walk) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(walk_json(walk, ENGLISH))
    return found


def digest_of(row: Mapping[str, Any], link: str) -> str:
    """SHA-256 (FIPS 180-4) over the digest before and the row, as the record's reader would do."""
    body = {key: value for key, value in row.items() if key != "digest"}
    text = json.dumps(body, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(f"{link}\n{text}".encode()).hexdigest()


def assert_chained(rows: list[dict[str, Any]]) -> None:
    link = "0" * 64
    for row in rows:
        assert row["digest"] == digest_of(row, link)
        link = row["digest"]


def up_to_the_hold() -> Teller:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dim")
    teller.ok("backup_rear", "reflectors_rear")
    return teller


def test_the_file_carries_the_notice_of_what_the_record_is_not() -> None:
    walk = up_to_the_hold().walk
    assert "396.17" in ENGLISH("record-notice")
    assert "396.25" in ENGLISH("record-notice")
    assert {row["notice"] for row in rows(walk)} == {ENGLISH("record-notice")}
    assert document(walk)["notice"] == ENGLISH("record-notice")


def test_the_file_never_calls_a_vehicle_safe() -> None:
    teller = up_to_the_hold()
    teller.hold()
    teller.ok(HOLD, "leaks_axle_1", "vent")
    teller.tell(Finished)
    text = walk_json(teller.walk, ENGLISH)
    assert not re.search(r"(?i)\b(safe|roadworthy|passed)\b", text)


def test_each_answer_has_a_row_in_order_with_the_same_keys() -> None:
    walk = up_to_the_hold().walk
    assert {tuple(row) for row in rows(walk)} == {KEYS}
    found = rows(walk)
    assert [row["step"] for row in found] == [
        "chocks", "tail_rear", "backup_rear", "reflectors_rear",
    ]  # fmt: skip
    assert [row["answer"] for row in found] == ["ok", "defect", "ok", "ok"]
    assert (found[1]["seen"], found[1]["defect"]) == ("tail left dim", "open")
    assert {row["who"] for row in found} == {"Ana"}
    assert found[0]["time_utc"] == "2026-11-25T08:15:02+00:00"


def test_what_is_uncertain_about_a_rule_stands_beside_its_source() -> None:
    doubted = STEPS[0].model_copy(update={"doubt": "read in a digest"})
    teller = begun(plan((doubted, *STEPS[1:])))
    teller.ok(doubted.id)
    [row, *_] = rows(teller.walk)
    assert (row["source"], row["doubt"]) == (doubted.source, "read in a digest")
    assert document(teller.walk)["answers"][0]["doubt"] == "read in a digest"


def test_an_answer_that_was_changed_stays_in_the_file_and_no_longer_stands() -> None:
    teller = up_to_the_hold()
    teller.back("tail_rear")
    teller.ok("tail_rear")
    tail = [row for row in rows(teller.walk) if row["step"] == "tail_rear"]
    assert [(row["answer"], row["stands"], row["defect"]) for row in tail] == [
        ("defect", "no", "withdrawn"),
        ("ok", "yes", ""),
    ]


def test_a_defect_that_was_rechecked_says_so() -> None:
    teller = up_to_the_hold()
    teller.back("tail_rear", "recheck")
    teller.ok("tail_rear")
    tail = [row["defect"] for row in rows(teller.walk) if row["step"] == "tail_rear"]
    assert tail == ["rechecked", ""]
    assert document(teller.walk)["open_defects"] == []
    assert answer_counts(teller.walk)["defects_rechecked"] == 1


def test_steps_left_when_the_walk_ended_are_not_checked() -> None:
    teller = up_to_the_hold()
    teller.tell(Finished)
    left = rows(teller.walk)[4:]
    assert [row["step"] for row in left] == [HOLD, "leaks_axle_1", "vent"]
    assert {(row["answer"], row["reason"]) for row in left} == {("not checked", "walk ended")}
    assert {row["partial"] for row in rows(teller.walk)} == {"yes"}
    assert document(teller.walk)["partial"] is True
    assert document(teller.walk)["finished"].startswith("2026-11-25T")


def test_an_air_hold_tells_its_readings_its_result_and_its_bounds() -> None:
    teller = up_to_the_hold()
    teller.hold(end_psi=108.0)
    teller.ok(HOLD)
    row = rows(teller.walk)[-1]
    assert row["readings"] == "supply 0 s 110 psi, supply 60 s 108 psi"
    assert row["result"].startswith(
        "Supply gauge: undecided, between 0.8 and 3.2, and the limit is 2. "
        "By the plain rule it lost 2 psi/min: within the limit of 2 psi/min. "
    )
    assert re.search(r"Losing \d\.\d to \d\.\d psi/min\. ", row["result"])
    assert row["result"].count("undecided") == 1
    assert "Ended early at 60 seconds" in row["result"]
    assert row["result"].endswith("Limit at most 2 psi/min: invented (from memory).")


def test_a_hold_with_a_reading_that_does_not_fit_tells_no_bounds_and_names_it() -> None:
    teller = up_to_the_hold()
    teller.tell(HoldBegan, step=HOLD)
    for at_s, psi in ((0.0, 110.0), (30.0, 100.0), (60.0, 109.0), (75.0, 109.0)):
        teller.tell(ReadingTaken, step=HOLD, gauge="supply", at_s=at_s, psi=psi)
    teller.tell(HoldEnded, step=HOLD, how="settling", at_s=75.0)
    teller.tell(Answered, step=HOLD, answer="not_checked", reason="no_time")
    assert rows(teller.walk)[-1]["result"].startswith(
        "Supply gauge: no result. 100 at 30 s does not fit: misread? "
        "Plain rule: lost 0.8 psi/min, within. Nothing can be told"
    )


def test_what_the_airs_temperature_did_to_a_hold_is_recorded() -> None:
    """Gay-Lussac: 110 psi gauge at 30 C lose 124.7 / 303.15 = 0.41 psi with 1 C; 2 were lost."""
    teller = up_to_the_hold()
    teller.hold(end_psi=108.0)
    teller.tell(AirTemperature, step=HOLD, start_c=30.0, end_c=29.0)
    teller.ok(HOLD)
    result = rows(teller.walk)[-1]["result"]
    assert "Air 86 °F at the start, 84 °F at the end." in result
    assert "Loss without what that did: supply 1.6 psi/min." in result
    assert "the verdict stays" in result


def test_each_answer_to_a_hold_keeps_the_readings_it_was_given_on() -> None:
    teller = up_to_the_hold()
    teller.hold(end_psi=105.0)
    teller.found(HOLD)
    teller.back(HOLD, "recheck")
    teller.hold(end_psi=110.0)
    teller.ok(HOLD)
    held = [row for row in rows(teller.walk) if row["step"] == HOLD]
    assert ["60 s 105 psi" in row["readings"] for row in held] == [True, False]
    assert ["lost 5 psi/min" in row["result"] for row in held] == [True, False]
    assert ["lost 0 psi/min" in row["result"] for row in held] == [False, True]
    assert held[0]["defect"] == "rechecked"


def test_a_void_hold_says_why_and_gives_no_rate() -> None:
    teller = up_to_the_hold()
    teller.tell(HoldBegan, step=HOLD)
    teller.tell(HoldVoided, step=HOLD, why="A hose came off.")
    teller.tell(Answered, step=HOLD, answer="not_checked", reason="no_air")
    row = rows(teller.walk)[-1]
    assert (row["readings"], row["result"]) == ("", "void: A hose came off.")
    assert row["reason"] == "no air"
    hold = teller.walk.holds[HOLD]
    assert result_text(teller.walk, hold, ENGLISH) == "void: A hose came off."


def stroke(side: str) -> Step:
    item = {"id": f"axle_1_{side}", "name": f"axle 1, {side} end", "kind": "wheel_end"}
    value = {"id": "stroke", "name": "pushrod stroke", "at_most": 2.0}
    measure = {"quantity": "in", "values": (value,), "limit": "at most 2 in: invented"}
    return step(f"stroke_{side}", "strokes", "measure", items=(item,), measure=measure)


def measured(*strokes: tuple[str, float, str, str]) -> Teller:
    """A walk in which these strokes were measured, as (side, value, unit, answer)."""
    teller = begun(plan((stroke("right"), stroke("left"))))
    for side, value, unit, answer in strokes:
        id_ = f"stroke_{side}"
        teller.tell(Measured, step=id_, value_id="stroke", value=value, unit=unit)
        teller.tell(Answered, step=id_, answer=answer)
    return teller


def test_a_measured_step_tells_its_values_in_the_unit_read_and_what_they_came_to() -> None:
    right, left = rows(measured(("right", 1.25, "in", "ok"), ("left", 44.0, "mm", "ok")).walk)
    assert (right["readings"], left["readings"]) == (
        "pushrod stroke 1 1/4 in",
        "pushrod stroke 44 mm",
    )
    assert right["result"] == ("1 1/4 in, at most 2 in: within. Limit: at most 2 in: invented.")
    # 44 mm are 1.732 in, 0.482 in (12 mm) from the other end.
    assert left["result"].startswith("44 mm, at most 50.8 mm: within. Axle 1: left 44 mm, ")
    assert "12 mm apart. That is more than 1/4 in apart" in left["result"]


def test_each_answer_to_a_measured_step_keeps_the_values_it_was_given_on() -> None:
    teller = measured(("right", 2.5, "in", "defect"))
    assert document(teller.walk)["open_defects"][0]["measured"] == ("2 1/2 in, at most 2 in: over.")
    teller.back("stroke_right", "recheck")
    teller.tell(Measured, step="stroke_right", value_id="stroke", value=1.5, unit="in")
    teller.ok("stroke_right")
    told = [row["readings"] for row in rows(teller.walk)]
    assert told == ["pushrod stroke 2 1/2 in", "pushrod stroke 1 1/2 in"]


def test_the_gauges_step_tells_what_the_gauges_are_like() -> None:
    teller = begun(plan((step("gauges", "connect", "gauges"),)))
    gauges = {"supply": {"name": "supply", "step": 2.0}}
    teller.tell(GaugesTold, step="gauges", gauges=gauges, altitude_m=250.0, at_zero=True)
    teller.ok("gauges")
    [row] = rows(teller.walk)
    assert row["readings"] == "supply: psi, marks of 2; zero seen at 820 ft"


@pytest.mark.parametrize(
    ("of_plan", "told"),
    [
        ({"air": "shop"}, ["Air from the shop's line."]),
        ({"air": "coupled", "towed": 2}, ["Air from the vehicle that tows it.", "Units towed: 2."]),
        ({"scope": "lamps", "steps": (STEPS[0],)}, []),
    ],
)
def test_the_record_tells_where_the_air_came_from_and_what_was_towed(
    of_plan: dict[str, Any], told: list[str]
) -> None:
    a_plan = plan().model_copy(update=of_plan)
    found = document(begun(a_plan).walk)
    covered = [*map(str, not_covered(a_plan.vehicle))] if a_plan.scope != "lamps" else []
    assert found["about"] == told + covered
    assert (found["air"], found["towed"]) == (a_plan.air, a_plan.towed)


def test_the_json_holds_the_sealed_events_and_leads_to_the_same_walk() -> None:
    teller = up_to_the_hold()
    teller.tell(Noted, step="chocks", text="naß, 5 °C")
    stored = document(teller.walk)["events"]
    assert fold(good_events(stored)) == teller.walk
    assert_chained(stored)


def test_the_json_of_an_older_record_can_be_checked_from_the_file_alone() -> None:
    """Stored here as a version did that knew neither sleep nor the number of a walk."""
    before, rows = "0" * 64, []
    for event in up_to_the_hold().walk.events:
        row = event_json(event)
        row.pop("number", None)
        row.pop("digest")
        del row["at"]["asleep_s"]
        before = digest_of(row, before)
        rows.append({**row, "digest": before})
    stored = document(fold(good_events(rows)))["events"]
    assert stored == rows
    assert_chained(stored)


def test_whoever_changes_an_answer_in_the_json_breaks_its_seal() -> None:
    stored = document(up_to_the_hold().walk)["events"]
    stored[2]["answer"] = "ok"
    stored[2]["seen"] = {}
    assert len(good_events(stored)) == 2


def test_counts_add_up_to_the_steps() -> None:
    teller = up_to_the_hold()
    found = answer_counts(teller.walk)
    answers = ("ok", "defect", "missing", "not_fitted", "not_checked")
    assert sum(found[answer] for answer in answers) == found["steps"] == len(STEPS)
    assert (found["ok"], found["defect"], found["not_checked"]) == (3, 1, 3)
    assert (found["defects_open"], found["defects_rechecked"]) == (1, 0)
    assert document(teller.walk)["counts"] == found


def test_a_recheck_names_the_walk_that_found_the_defects() -> None:
    walk = begun(plan((STEPS[0],), "recheck", recheck_of="20261124_070000_abcdef")).walk
    found = document(walk)
    assert (found["scope"], found["recheck_of"]) == ("recheck", "20261124_070000_abcdef")
    assert found["partial"] is True


def test_the_record_names_gauges_that_were_remembered_and_the_shops_figures() -> None:
    known = {"supply": Gauge(name="supply", unit="bar", step=0.1)}
    own = ShopFigures(supply_psi=105.0, own=True)
    more = {"known_gauges": known, "altitude_m": 250.0, "shop": own}
    teller = begun(plan().model_copy(update=more))
    about = " ".join(json.loads(walk_json(teller.walk, ENGLISH))["about"])
    assert "Gauges as remembered" in about
    assert "supply: bar, marks of 0.1; the site 820 ft above the sea" in about
    assert "This shop's own figures" in about
    assert "supply 105 psi" in about


def test_a_record_of_what_was_asked_names_neither() -> None:
    about = " ".join(json.loads(walk_json(begun().walk, ENGLISH))["about"])
    assert "remembered" not in about
    assert "figures" not in about
