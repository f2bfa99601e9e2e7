"""Sealed events: the chain, what breaks it, and that stored events come back the same."""

from __future__ import annotations

import copy
import hashlib
import json
from collections.abc import Iterator
from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError
from support.sealing import resealed
from support.walks import FakeClock, begun, new_ids, some_events

from walkaround.airhold.verdict import JUDGED_BY
from walkaround.walk.events import (
    AirTemperature,
    Answered,
    Began,
    ChamberTold,
    Event,
    Finished,
    GaugesTold,
    Heard,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    Measured,
    Noted,
    OdometerRead,
    Paused,
    Photographed,
    ReadingMended,
    ReadingTaken,
    Repaired,
    Resumed,
    Revisited,
    Signed,
    TakenBack,
    TimerBegan,
    Tried,
)
from walkaround.walk.seals import GENESIS, event_json, good_events, seal

EVENTS: tuple[Event, ...] = some_events()
ROWS: list[dict[str, Any]] = [json.loads(json.dumps(event_json(event))) for event in EVENTS]


def sealed(kind: type[Any], after: Event | None = EVENTS[-1], **body: Any) -> Any:
    return seal(kind, after, id=new_ids()(), at=FakeClock()(), who="Ana", **body)


BODIES: dict[type[Any], dict[str, Any]] = {
    AirTemperature: {"step": "hold", "start_c": 20.0, "end_c": 18.5},
    Answered: {"step": "chocks", "answer": "defect", "seen": {"tail_left": "dim"}},
    ChamberTold: {
        "step": "rods_marked_1",
        "end": "axle_1_left",
        "actuator": "clamp",
        "type": "30",
        "long_stroke": True,
        "rated_stroke_in": 3.0,
    },
    Finished: {},
    Tried: {"trial": "swap:rear_left:stop", "outcome": "cured"},
    TakenBack: {"trial": "swap:rear_left:stop"},
    Heard: {"step": "hold", "places": ["relay_exhaust", "chamber_axle_1_left"]},
    GaugesTold: {
        "step": "gauges",
        "gauges": {"supply": {"name": "supply", "unit": "kPa", "step": 20.0}},
        "altitude_m": 250.0,
        "at_zero": True,
    },
    HoldBegan: {"step": "hold"},
    HoldEnded: {"step": "hold"},
    HoldVoided: {"step": "hold", "why": "The computer slept."},
    Measured: {"step": "stroke", "value_id": "stroke", "value": 1.5, "unit": "in"},
    Noted: {"step": "chocks", "text": "naß"},
    Paused: {},
    Photographed: {"step": "chocks", "photo": "3f" * 32},
    ReadingTaken: {"step": "hold", "gauge": "supply", "at_s": 1.0, "psi": 109.5},
    Repaired: {
        "step": "chocks",
        "done": "open_ground:rear_left",
        "what": {"id": "repair-ground", "args": {}, "written": ""},
        "again": ["chocks", "tail"],
    },
    ReadingMended: {"step": "hold", "gauge": "supply", "at_s": 1.0, "psi": 108.5},
    Resumed: {},
    Revisited: {"step": "chocks", "purpose": "recheck"},
    Signed: {"what": "brakes", "name": "Ana", "strokes": [[[0, 0], [1000, 400]], [[7, 7]]]},
    OdometerRead: {"value": 48213, "unit": "mi"},
    TimerBegan: {"step": "build_up"},
}
"""One of each kind but the first of a walk, which stands in ROWS."""


def test_stored_events_come_back_the_same() -> None:
    assert good_events(ROWS) == EVENTS


@given(
    text=st.text(max_size=500).filter(lambda text: text.isprintable()),
    at_s=st.floats(0, 3600),
    psi=st.floats(0, 300),
)
def test_any_note_and_reading_comes_back_the_same(text: str, at_s: float, psi: float) -> None:
    noted = sealed(Noted, step="chocks", text=text)
    read = sealed(ReadingTaken, noted, step="hold", gauge="supply", at_s=at_s, psi=psi)
    rows = json.loads(json.dumps([*ROWS, event_json(noted), event_json(read)]))
    assert good_events(rows) == (*EVENTS, noted, read)


def test_there_is_a_body_for_each_kind_of_event() -> None:
    assert {Began, *BODIES} == set(get_args(Event))


@pytest.mark.parametrize("kind", BODIES)
def test_what_is_handed_on_is_what_was_sealed(kind: type[Any]) -> None:
    row = json.loads(json.dumps(event_json(sealed(kind, **BODIES[kind]))))
    assert event_json(good_events([*ROWS, row])[-1]) == row


@pytest.mark.parametrize("row", ROWS)
def test_what_is_handed_on_of_a_walk_is_what_was_stored(row: dict[str, Any]) -> None:
    assert event_json(good_events(ROWS)[row["seq"]]) == row


def test_an_older_row_that_lacks_any_field_with_a_default_is_handed_on_as_it_was_sealed() -> None:
    lacked = set()
    rows = [(ROWS[:at], row) for at, row in enumerate(ROWS)]
    rows += [(ROWS, event_json(sealed(kind, **body))) for kind, body in BODIES.items()]
    for before, row in rows:
        for path, older in _with_one_key_left_out(row):
            chained = resealed(older, before[-1]["digest"] if before else GENESIS)
            events = good_events([*before, chained])
            if len(events) > len(before):
                assert event_json(events[-1]) == chained
                lacked.add(path)
    # Some that are known to have a default, at the top of a row and deep in a plan.
    assert {"number", "at.asleep_s", "unit", "how", "seen", "plan.towed"} <= lacked
    assert {"plan.steps.4.hold.seconds", "plan.vehicle.name", "gauges.supply.crossing"} <= lacked


def test_events_are_numbered_and_chained() -> None:
    assert [event.seq for event in EVENTS] == list(range(len(EVENTS)))
    assert len({event.digest for event in EVENTS}) == len(EVENTS)


def test_the_digest_is_sha_256_of_the_digest_before_and_the_row() -> None:
    """Computed again here from the stored JSON alone, with the standard library's SHA-256."""
    link = GENESIS
    for row in ROWS:
        body = {key: row[key] for key in sorted(row) if key != "digest"}
        text = json.dumps(body, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
        link = hashlib.sha256(link.encode() + b"\n" + text.encode()).hexdigest()
        assert row["digest"] == link


@pytest.mark.parametrize("at", range(len(ROWS)))
def test_a_changed_value_anywhere_in_a_row_ends_the_good_run_there(at: int) -> None:
    changed = 0
    for broken in _with_one_value_changed(ROWS[at]):
        rows = [*ROWS[:at], broken, *ROWS[at + 1 :]]
        assert good_events(rows) == EVENTS[:at]
        changed += 1
    assert changed > 10


@pytest.mark.parametrize("at", range(len(ROWS)))
def test_a_flipped_bit_in_any_byte_of_a_row_ends_the_good_run_there(at: int) -> None:
    line = json.dumps(ROWS[at], ensure_ascii=False).encode()
    for place in range(len(line)):
        torn = bytearray(line)
        torn[place] ^= 1 << place % 7
        rows = [*ROWS[:at], _parsed(bytes(torn)), *ROWS[at + 1 :]]
        # A flip may leave the row what it was, as in 1e5 and 1E5; then it is no damage.
        if rows[at] != ROWS[at]:
            assert good_events(rows) == EVENTS[:at], torn[place - 20 : place + 20]


def test_a_row_left_out_ends_the_good_run() -> None:
    assert good_events(ROWS[:1] + ROWS[2:]) == EVENTS[:1]


def test_rows_in_another_order_end_the_good_run() -> None:
    assert good_events([ROWS[0], ROWS[2], ROWS[1], ROWS[3]]) == EVENTS[:1]


@pytest.mark.parametrize("junk", [None, {}, {"kind": "began"}])
def test_what_stands_between_two_events_ends_the_good_run_there(junk: object) -> None:
    assert good_events([*ROWS[:2], junk, *ROWS[2:]]) == EVENTS[:2]


def test_an_event_of_another_walk_does_not_follow() -> None:
    other = [event_json(event) for event in some_events("20261126_081502_4f3a9c")]
    assert good_events([*ROWS[:2], *other[2:]]) == EVENTS[:2]


@pytest.mark.parametrize("junk", [None, 3, "began", [], {}, {"kind": "began"}, {"seq": 0}])
def test_what_is_no_event_ends_the_good_run(junk: object) -> None:
    assert good_events([*ROWS, junk]) == EVENTS


def test_a_field_that_a_later_version_adds_with_a_default_breaks_no_seal() -> None:
    """Stored here is a row without `asleep_s`, as a version before that field would have."""
    noted = sealed(Noted, step="chocks", text="before")
    row = event_json(noted)
    del row["at"]["asleep_s"]
    old = good_events([*ROWS, resealed(row, EVENTS[-1].digest)])[-1]
    assert isinstance(old, Noted)
    assert (old.text, old.at.asleep_s) == ("before", 0.0)


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        (Noted, {"step": "chocks", "text": "x" * 501}),
        (Noted, {"step": "no such step!", "text": ""}),
        (Noted, {"step": "chocks", "text": None}),
        (Noted, {"step": "chocks"}),
        (Answered, {"step": "chocks", "answer": "safe"}),
        (Answered, {"step": "chocks", "answer": "defect", "seen": {"tail_left": "odd"}}),
        (ReadingTaken, {"step": "hold", "gauge": "supply", "at_s": float("nan"), "psi": 1.0}),
        (ReadingTaken, {"step": "hold", "gauge": "supply", "at_s": 1.0, "psi": 301.0}),
        (HoldVoided, {"step": "hold", "why": ""}),
    ],
)
def test_what_cannot_be_is_not_sealed(kind: type[Any], body: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        sealed(kind, **body)


@pytest.mark.parametrize(
    ("kind", "field", "least", "most"),
    [
        (ReadingTaken, "at_s", 0, 3600),
        (ReadingTaken, "psi", 0, 300),
        (ReadingTaken, "shown", 0, 3000),
        (HoldEnded, "at_s", 0, 3600),
        (AirTemperature, "start_c", -60, 80),
        (AirTemperature, "end_c", -60, 80),
        (GaugesTold, "altitude_m", -500, 6000),
        (Measured, "value", 0, 5000),
    ],
)
def test_a_number_at_its_bound_is_sealed_and_one_beyond_it_is_not(
    kind: type[Any], field: str, least: float, most: float
) -> None:
    for value in (least, most):
        assert getattr(sealed(kind, **{**BODIES[kind], field: value}), field) == value
    for value in (least - 0.5, most + 0.5, float("inf"), float("nan")):
        with pytest.raises(ValidationError):
            sealed(kind, **{**BODIES[kind], field: value})


def test_texts_and_tables_as_long_as_they_may_be_are_sealed_and_longer_ones_are_not() -> None:
    assert len(sealed(Noted, step="chocks", text="x" * 500).text) == 500
    assert len(sealed(HoldVoided, step="hold", why="x" * 300).why) == 300
    one = {"id": new_ids()(), "at": FakeClock()(), "after": EVENTS[-1]}
    assert len(seal(Paused, **one, who="x" * 80).who) == 80
    with pytest.raises(ValidationError):
        seal(Paused, **one, who="x" * 81)
    with pytest.raises(ValidationError):
        sealed(HoldVoided, step="hold", why="x" * 301)
    with pytest.raises(ValidationError):
        sealed(GaugesTold, **{**BODIES[GaugesTold], "gauges": {}})


def test_what_a_record_of_an_earlier_version_leaves_out_means_what_was_so_then() -> None:
    """Holds ended with their minute, by the plain rule; gauges were read in psi."""
    ended = sealed(HoldEnded, step="hold")
    assert ended.judged_by == JUDGED_BY
    row = {name: value for name, value in event_json(ended).items() if name != "judged_by"}
    assert HoldEnded.model_validate(row).judged_by == 1
    assert (ended.how, ended.at_s) == ("early", 60.0)
    assert sealed(ReadingTaken, **BODIES[ReadingTaken]).unit == "psi"
    body = {
        name: value for name, value in event_json(EVENTS[0]).items() if name in ("walk", "plan")
    }
    assert sealed(Began, None, **body).number == 0
    with pytest.raises(ValidationError):
        sealed(Began, None, **body, number=-1)


def test_what_was_typed_is_sealed_without_the_characters_that_are_not_seen() -> None:
    noted = seal(
        Noted,
        EVENTS[-1],
        id=new_ids()(),
        at=FakeClock()(),
        who="An\u202ea\x1b\n",
        step="chocks",
        text="Left hub:\r\n\u2066grease\x00 \ud800\n",
    )
    assert (noted.who, noted.text) == ("Ana", "Left hub:\ngrease")
    signed = sealed(Signed, what="repaired", name="Oks\u200bana\u202e\n Lysenko")
    assert signed.name == "Oksana Lysenko"


def test_an_older_note_with_a_character_that_is_not_seen_is_read_as_it_was_sealed() -> None:
    row = resealed(
        {**event_json(sealed(Noted, step="chocks", text="a")), "text": "a\x07"}, ROWS[-1]["digest"]
    )
    assert event_json(good_events([*ROWS, row])[-1]) == row


def test_an_event_cannot_be_changed() -> None:
    event = begun().walk.events[0]
    with pytest.raises(ValidationError):
        event.who = "someone else"


def _with_one_value_changed(value: Any) -> list[Any]:
    """Copies of a JSON value, each with one number, text or truth in it changed."""
    if isinstance(value, dict):
        return [
            _put(value, key, new) for key in value for new in _with_one_value_changed(value[key])
        ]
    if isinstance(value, list):
        places = range(len(value))
        return [_put(value, at, new) for at in places for new in _with_one_value_changed(value[at])]
    if isinstance(value, bool):
        return [not value]
    if isinstance(value, (int, float)):
        return [value + 1]
    return [f"{value}x"] if isinstance(value, str) else ["x"]


def _with_one_key_left_out(value: Any, at: str = "") -> Iterator[tuple[str, Any]]:
    """Copies of a JSON value, each with one key anywhere in it left out, by the key's path."""
    if isinstance(value, dict):
        for key in value:
            yield f"{at}{key}", {other: value[other] for other in value if other != key}
    inside = value.items() if isinstance(value, dict) else ()
    for key, inner in enumerate(value) if isinstance(value, list) else inside:
        for path, less in _with_one_key_left_out(inner, f"{at}{key}."):
            yield path, _put(value, key, less)


def _put(container: Any, key: Any, new: Any) -> Any:
    changed = copy.copy(container)
    changed[key] = new
    return changed


def _parsed(line: bytes) -> object:
    try:
        return json.loads(line)
    except ValueError:
        return None
