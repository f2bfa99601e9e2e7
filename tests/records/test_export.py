"""Walks as files: which kinds there are, what they are called, tables of all of them."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from support.english import ENGLISH
from support.stores import OTHER_ID, path_of, saved
from support.walks import WALK_ID, begun, plan, vehicle

from walkaround.base.errors import InputError, MachineError
from walkaround.records.export import FILE_KINDS, FileKind, export_walk, file_name, kind_by_ending
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.records.walk_table import TABLE_KINDS, write_walks
from walkaround.report.facts import COLUMNS
from walkaround.report.page import WalkContext
from walkaround.report.tables import WALK_COLUMNS

BEGINS: dict[FileKind, bytes] = {
    "pdf": b"%PDF-1.",
    "html": b"<!DOCTYPE html>",
    "csv": b"walk,vehicle_id,",
    "ndjson": b'{"walk": "',
    "json": b"{\n",
}


@pytest.mark.parametrize("kind", FILE_KINDS)
def test_each_kind_of_file_is_what_its_ending_says(kind: FileKind) -> None:
    teller = begun()
    teller.ok("chocks")
    assert export_walk(teller.walk, kind, ENGLISH).startswith(BEGINS[kind])


@pytest.mark.parametrize("kind", FILE_KINDS)
def test_damage_is_told_in_each_of_them(kind: FileKind) -> None:
    teller = begun()
    teller.ok("chocks")
    whole, lossy = (
        export_walk(teller.walk, kind, ENGLISH, WalkContext(damage)) for damage in ("", "Damaged.")
    )
    assert whole != lossy
    assert kind == "pdf" or b"Damaged." in lossy


def test_a_file_is_named_by_its_vehicle_and_when_its_walk_began(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("walkaround.base.clock.Moment.local", lambda moment: moment.utc)
    walk = begun(plan(vehicle=vehicle("flood_trailer_12"))).walk
    assert file_name(walk, "pdf") == "flood_trailer_12_2026-11-25_0815.pdf"


def test_the_ending_of_a_name_says_the_kind() -> None:
    assert kind_by_ending(Path("a/b.PDF"), FILE_KINDS) == "pdf"
    assert kind_by_ending(Path("walks.csv"), TABLE_KINDS) == "csv"


@pytest.mark.parametrize("name", ["page", "page.doc", ".pdf", "pdf"])
def test_another_ending_is_refused_in_one_sentence(name: str) -> None:
    with pytest.raises(InputError, match=r"let it end in \.pdf, .* or \.json\.$"):
        kind_by_ending(Path(name), FILE_KINDS)


@pytest.fixture
def data(tmp_path: Path) -> Path:
    store = WalkStore(tmp_path)
    for walk_id in (WALK_ID, OTHER_ID):
        saved(store, walk_id)
    store.close()
    return tmp_path


def table(data: Path, *, facts: bool) -> list[dict[str, str]]:
    reader, path = WalkReader(data), data / "table.csv"
    write_walks(path, reader, reader.overview(), "csv", ENGLISH, facts=facts)
    text = path.read_bytes().decode()
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_a_table_of_walks_has_one_row_a_walk_the_oldest_first(data: Path) -> None:
    rows = table(data, facts=False)
    assert [row["walk"] for row in rows] == [WALK_ID, OTHER_ID]
    assert tuple(rows[0]) == WALK_COLUMNS
    assert (rows[0]["steps"], rows[0]["ok"], rows[0]["defects_open"]) == ("7", "1", "1")


def test_a_table_of_facts_holds_those_of_every_walk_under_one_head(data: Path) -> None:
    rows = table(data, facts=True)
    assert tuple(rows[0]) == COLUMNS
    assert {row["walk"] for row in rows} == {WALK_ID, OTHER_ID}
    assert sum(bool(row["notice"]) for row in rows) == 2


@pytest.mark.parametrize("facts", [False, True])
def test_json_lines_tell_the_same_as_the_csv(data: Path, facts: bool) -> None:
    reader, path = WalkReader(data), data / "table.ndjson"
    write_walks(path, reader, reader.overview(), "ndjson", ENGLISH, facts=facts)
    lines = [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines()]
    told = table(data, facts=facts)
    assert [line["walk"] for line in lines] == [row["walk"] for row in told]
    assert [list(line) for line in lines] == [list(row) for row in told]


def test_a_walk_that_cannot_be_read_has_a_row_that_says_why(data: Path) -> None:
    path_of(data).write_bytes(b"\0" * 100)
    for before in path_of(data).parent.glob(f"{WALK_ID}*.prev"):
        before.unlink()
    first, second = table(data, facts=False)
    assert first["walk"] == WALK_ID
    assert first["trouble"]
    assert first["vehicle"] == ""
    assert (second["walk"], second["trouble"]) == (OTHER_ID, "")
    assert {row["walk"] for row in table(data, facts=True)} == {OTHER_ID}


def test_a_table_that_cannot_be_written_leaves_nothing_behind(data: Path) -> None:
    reader = WalkReader(data)
    with pytest.raises(MachineError):
        write_walks(data / "none" / "t.csv", reader, reader.overview(), "csv", ENGLISH, facts=False)
    (data / "folder.csv").mkdir()
    with pytest.raises(MachineError):
        write_walks(data / "folder.csv", reader, reader.overview(), "csv", ENGLISH, facts=False)
    assert not list(data.glob("folder.csv?*"))
