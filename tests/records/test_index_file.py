"""The index of a month, byte by byte: no line of it is believed unless it is as it was written."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.walks import FakeClock, Teller, begun, flipped, plan, vehicle

from walkaround.records.index_file import Index, index_in, index_tables
from walkaround.records.walk_file import Encoder
from walkaround.records.walk_line import WalkLine, line_of, line_without
from walkaround.walk.events import Answered, Finished


def _lines() -> list[WalkLine]:
    """One under way with a defect, one finished, one that cannot be read."""
    going = begun()
    going.ok("chocks")
    going.found("tail_rear", tail_left="dim")
    done = Teller(clock=FakeClock(step_s=5.0))
    done.begin(plan(vehicle=vehicle("trailer_2")), "20261126_081502_4f3a9c")
    done.tell(Answered, step="chocks", answer="ok")
    done.tell(Finished)
    lost = line_without("20261127_081502_4f3a9c", 12, 'It holds {"nothing"},"crc":"00000000"}.')
    return [line_of(going.walk, 800), line_of(done.walk, 900), lost]


LINES = _lines()
BY_ID = {line.id: line for line in LINES}
FOLDER_NS = 1_764_000_000_000_000_001
DATA = Encoder().encode(index_tables(LINES, FOLDER_NS))


def test_what_was_written_is_read_again() -> None:
    assert index_in(DATA) == Index(BY_ID, FOLDER_NS, sound=True)
    assert index_in(Encoder().encode(index_tables([], FOLDER_NS))) == Index({}, FOLDER_NS)


def test_walks_with_the_same_steps_ok_share_one_list_of_them() -> None:
    tables = index_tables([*LINES, *LINES], 0)
    assert len(tables["lists"]) == len({line.ok for line in LINES})


@pytest.mark.parametrize("mask", [0x01, 0x02, 0x08, 0x20, 0x80])
def test_a_bad_bit_anywhere_is_seen_and_no_wrong_line_is_believed(mask: int) -> None:
    for at in range(len(DATA)):
        found = index_in(flipped(DATA, at, mask))
        assert not found.sound, DATA[at - 20 : at + 20]
        assert found.folder_ns == 0
        assert found.lines.items() <= BY_ID.items()


def test_a_file_cut_anywhere_is_seen_and_no_wrong_line_is_believed() -> None:
    for length in range(len(DATA)):
        found = index_in(DATA[:length])
        assert not found.sound
        assert found.lines.items() <= BY_ID.items()


def test_a_line_left_out_or_doubled_is_seen() -> None:
    texts = DATA.split(b"\n")
    for at in range(len(texts)):
        less, more = texts[:at] + texts[at + 1 :], texts[: at + 1] + texts[at:]
        assert not index_in(b"\n".join(less)).sound
        assert not index_in(b"\n".join(more)).sound


def test_the_index_of_another_version_is_made_anew() -> None:
    older = index_tables(LINES, FOLDER_NS)
    older["walks"] = {key: {"id": line.id} for key, line in zip("123", LINES, strict=True)}
    found = index_in(Encoder().encode(older))
    assert (found.lines, found.sound) == ({}, False)


@given(st.binary())
def test_junk_is_no_index(junk: bytes) -> None:
    assert index_in(junk) == Index({}, 0, sound=False)
