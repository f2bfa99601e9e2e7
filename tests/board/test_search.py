"""What is typed finds what SQLite's own matching finds in the same texts."""

from __future__ import annotations

import sqlite3
from contextlib import closing

from hypothesis import given
from hypothesis import strategies as st
from support.english import ENGLISH
from support.shop import walks

from walkaround.board.search import WalkSearch
from walkaround.records.walk_line import WalkLine, line_of

LINES = [line_of(walk) for walk in walks()]
TYPED = ("rear", "sandbag", "stop", "bohdan", "2026-11", "ky", "4711", "1m8gdm", "hose", "zz", "a")


def columns(line: WalkLine) -> str:
    began = line.began.astimezone()
    told = (line.vehicle_name, line.plate, line.vin, *line.who, line.id, f"{began:%Y-%m-%d %H:%M}")
    return "\n".join((*told, *map(ENGLISH.text, line.titles)))


@given(st.lists(st.sampled_from(TYPED), max_size=3))
def test_each_typed_word_has_to_stand_somewhere_by_sqlite(typed: list[str]) -> None:
    with closing(sqlite3.connect(":memory:")) as database:
        database.execute("CREATE TABLE walks (id, told)")
        rows = [(line.id, columns(line)) for line in LINES]
        database.executemany("INSERT INTO walks VALUES (?, ?)", rows)
        where = " AND ".join(["told LIKE '%' || ? || '%'"] * len(typed)) or "1"
        wanted = {row[0] for row in database.execute(f"SELECT id FROM walks WHERE {where}", typed)}
    hits = WalkSearch().find(LINES, " ".join(typed), ENGLISH.text)
    assert {line.id for line in hits} == wanted


def test_plate_person_day_and_defect_are_found() -> None:
    search = WalkSearch()
    for typed, count in (("ky 4711", 1), ("bohdan", 2), ("2026-05-03", 1), ("rear", 2), ("xyz", 0)):
        assert len(search.find(LINES, typed, ENGLISH.text)) == count, typed


def test_a_line_that_changed_is_read_anew() -> None:
    search, line = WalkSearch(), LINES[0]
    assert not search.find([line], "newname", ENGLISH.text)
    assert search.find([line._replace(vehicle_name="Newname")], "newname", ENGLISH.text)


def test_each_reader_finds_defects_in_their_own_language() -> None:
    search = WalkSearch()
    for _ in range(2):
        assert len(search.find(LINES, "rear", ENGLISH.text)) == 2
        assert not search.find(LINES, "rear", lambda _: "vuelta")
        assert search.find(LINES, "vuelta", lambda _: "vuelta")
        assert not search.find(LINES, "vuelta", ENGLISH.text)
