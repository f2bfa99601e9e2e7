"""The file of one walk, byte by byte: what is kept of it when any of them is wrong or missing."""

from __future__ import annotations

import json
from itertools import cycle

import pytest
from support.walks import begun, flipped, row_at, row_spans, small_events

from walkaround.base.errors import MachineError
from walkaround.records.walk_file import (
    Encoder,
    WalkFile,
    new_tables,
    read_damaged,
    read_sound,
    rows_of,
    tables_in,
)
from walkaround.walk.events import Event
from walkaround.walk.seals import event_json

EVENTS = small_events()
NOW = Encoder().encode(new_tables(rows_of(EVENTS)))
BEFORE = Encoder().encode(new_tables(rows_of(EVENTS[:-1])))
ROWS = row_spans(NOW)
LAST = len(EVENTS) - 1


def kept(now: bytes | None, before: bytes | None) -> tuple[Event, ...]:
    sound = read_sound(now) if now is not None else None
    return (sound or read_damaged(now, before)).events


def test_a_sound_file_gives_back_its_events_and_the_rows_they_were_stored_in() -> None:
    assert read_sound(NOW) == WalkFile(rows_of(EVENTS), EVENTS, True)
    assert json.loads(NOW)["events"] == {str(e.seq + 1): event_json(e) for e in EVENTS}


def test_a_file_cut_anywhere_keeps_every_whole_event() -> None:
    for length in range(len(NOW)):
        torn = NOW[:length]
        whole = sum(end <= length for _, end in ROWS)
        assert read_sound(torn) is None
        assert read_damaged(torn, None).events == EVENTS[:whole]
        assert read_damaged(torn, BEFORE).events == EVENTS[: max(whole, LAST)]


def test_a_bad_bit_anywhere_costs_no_event_but_the_one_it_is_in() -> None:
    """One bit of each byte, another from byte to byte; test_soak_every_byte.py takes more."""
    for at, mask in zip(range(len(NOW)), cycle((0x01, 0x02, 0x20, 0x80))):
        torn = flipped(NOW, at, mask)
        hit = row_at(ROWS, at)
        assert read_sound(torn) is None, torn[at - 20 : at + 20]
        assert kept(torn, None) == EVENTS[:hit]
        assert kept(torn, BEFORE) == EVENTS[: LAST if hit == LAST else None]


def test_a_hole_in_each_file_is_filled_from_the_other() -> None:
    (second, _), (last, _) = ROWS[1], ROWS[LAST]
    assert read_damaged(flipped(NOW, second + 5, 1), BEFORE).events == EVENTS
    assert read_damaged(NOW[:last], BEFORE[:second]).events == EVENTS[:LAST]
    torn = flipped(NOW, second + 5, 1)
    assert read_damaged(torn, flipped(BEFORE, 200, 1)).events == EVENTS
    assert read_damaged(torn, flipped(BEFORE, second + 5, 1)).events == EVENTS[:1]


def test_events_of_another_walk_are_not_mixed_in() -> None:
    other = begun(walk_id="20261126_081502_4f3a9c")
    other.ok("chocks")
    strange = Encoder().encode(new_tables(rows_of(other.walk.events)))
    assert read_damaged(flipped(NOW, ROWS[1][0] + 5, 1), strange).events == EVENTS[:1]


@pytest.mark.parametrize(
    "junk",
    [b"", b"{}", b"[]", b"null", b"\xff" * 99, b"[" * 100_000, b'{"seq":' * 5000, b'{"seq":{}}'],
)
def test_junk_is_no_walk(junk: bytes) -> None:
    assert read_sound(junk) is None
    assert read_damaged(junk, None).events == ()
    assert read_damaged(junk, BEFORE).events == EVENTS[:LAST]


def test_rows_left_out_doubled_or_in_another_order_are_not_sound() -> None:
    rows = rows_of(EVENTS)
    tables = new_tables(rows)
    left_out = {key: row for key, row in tables["events"].items() if key != "2"}
    renamed = {str(at + 2): row for at, row in enumerate(rows)}
    more = {**tables, "more": {"1": {}}}
    for wrong in ({**tables, "events": left_out}, {**tables, "events": renamed}, more):
        assert read_sound(Encoder().encode(wrong)) is None


def test_damage_stays_on_the_record() -> None:
    sound = read_sound(Encoder().encode(new_tables(rows_of(EVENTS), "It was damaged.")))
    assert sound
    assert sound.damage == "It was damaged."


def test_a_later_form_is_refused_but_one_bad_bit_makes_none() -> None:
    later = NOW.replace(b'"schema":1', b'"schema":7').replace(b"schema 1", b"schema 7")
    with pytest.raises(MachineError, match="later version"):
        read_sound(later)
    assert kept(NOW.replace(b'"schema":1', b'"schema":7'), None) == EVENTS
    assert kept(NOW.replace(b"schema 1", b"schema 7"), None) == EVENTS


@pytest.mark.parametrize(
    "tables",
    [{}, {"a": {}}, {"a": {"1": {"b": "ü\n"}}, "c": {}}, {"a": {"1": {"\ud800": "\udfff"}}}],
)
def test_tables_come_back_as_they_were(tables: dict[str, dict[str, object]]) -> None:
    assert tables_in(Encoder().encode(tables)) == tables
    assert json.loads(Encoder().encode(tables)) == tables


def test_a_file_that_grows_is_the_same_as_one_made_at_once() -> None:
    encoder = Encoder()
    grown = [encoder.encode(new_tables(rows_of(EVENTS[:length]))) for length in range(5)]
    at_once = [Encoder().encode(new_tables(rows_of(EVENTS[:length]))) for length in range(5)]
    assert grown == at_once
    changed = {"about": {"1": {"schema": 1}}}
    assert encoder.encode(changed) == Encoder().encode(changed)
