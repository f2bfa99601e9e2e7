"""Record files from strangers: whatever is in one, a sentence at once, and nothing is lost.

The shapes of hostile archives are those of CWE-409 (bombs), CWE-22 (paths) and of archives whose
entries lie in one another (Fifield, "A better zip bomb", 2019).
"""

from __future__ import annotations

import io
import json
import struct
import tracemalloc
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.shops import Shop, as_lines, lines, rewritten, sealed, walk_of

from walkaround.base.errors import InputError
from walkaround.exchange.record_file import MOST_PHOTOS_IN_FILE, SEAL_BYTES
from walkaround.exchange.verify import verify

HEAD = json.dumps({"form": "walkaround record file", "version": 1}).encode()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    shop = Shop(tmp_path / "north", "Depot North")
    shop.keep(1, "ab")
    return shop.share(tmp_path / "north.zip")


def made(path: Path, entries: Callable[[zipfile.ZipFile], None]) -> Path:
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("walkaround.json", HEAD)
        entries(archive)
        archive.comment = b"0" * SEAL_BYTES
    return sealed(path)


def bomb(archive: zipfile.ZipFile) -> None:
    with archive.open("walks.ndjson", "w") as walks:
        for _ in range(100):
            walks.write(b"0" * 1_000_000)


def path_outside(archive: zipfile.ZipFile) -> None:
    archive.writestr("walks.ndjson", b"")
    archive.writestr("../../escaped.json", b"{}")


def path_of_the_system(archive: zipfile.ZipFile) -> None:
    archive.writestr("walks.ndjson", b"")
    archive.writestr("photos//etc/passwd.jpg", b"{}")


def twice(archive: zipfile.ZipFile) -> None:
    archive.writestr("walks.ndjson", b"")
    with pytest.warns(UserWarning, match="Duplicate name"):
        archive.writestr("walks.ndjson", b"")


def too_many(archive: zipfile.ZipFile) -> None:
    archive.writestr("walks.ndjson", b"")
    for number in range(MOST_PHOTOS_IN_FILE + 2):
        archive.writestr(zipfile.ZipInfo(f"photos/{number:064x}.jpg"), b"")


def photo_too_large(archive: zipfile.ZipFile) -> None:
    archive.writestr("walks.ndjson", b"")
    name = zipfile.ZipInfo(f"photos/{7:064x}.jpg")
    archive.writestr(name, b"0" * 3_000_001)


def line_too_long(archive: zipfile.ZipFile) -> None:
    text = json.dumps([str(n) for n in range(600_000)]).encode()
    archive.writestr("walks.ndjson", text)


def nested(archive: zipfile.ZipFile) -> None:
    archive.writestr("walks.ndjson", b"".join(b"[%d," % n for n in range(50_000)) + b"\n")


def other_compression(archive: zipfile.ZipFile) -> None:
    archive.writestr("walks.ndjson", b"x" * 1000, zipfile.ZIP_LZMA)


def nothing(archive: zipfile.ZipFile) -> None:
    assert archive.namelist() == ["walkaround.json"]


HOSTILE = [
    bomb, path_outside, path_of_the_system, twice, too_many, photo_too_large, line_too_long, nested,
    other_compression, nothing,
]  # fmt: skip


@pytest.mark.parametrize("entries", HOSTILE, ids=lambda made_by: made_by.__name__)
def test_a_hostile_archive_gets_a_sentence_and_nothing_is_lost(
    tmp_path: Path, entries: Callable[[zipfile.ZipFile], None]
) -> None:
    shop = Shop(tmp_path / "south")
    shop.keep(1, "a")
    before = {path: path.read_bytes() for path in (shop.data / "walks").rglob("*.json")}
    hostile = made(tmp_path / "hostile.zip", entries)
    assert verify(hostile, {}).faults
    if entries is nested:
        assert len(shop.merge(hostile).refused) == 1
    else:
        with pytest.raises(InputError) as refused:
            shop.merge(hostile)
        assert str(refused.value).count("\n") == 0
    assert {path: path.read_bytes() for path in (shop.data / "walks").rglob("*.json")} == before
    assert not list(tmp_path.rglob("escaped.json"))


def test_a_bomb_is_not_unpacked(tmp_path: Path) -> None:
    hostile = made(tmp_path / "hostile.zip", bomb)
    tracemalloc.start()
    try:
        verify(hostile, {})
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert peak < 5_000_000


def test_entries_that_lie_in_one_another_are_refused(file: Path, tmp_path: Path) -> None:
    """Two names in the list for the same bytes, and sizes that add up to more than the file."""
    archive = zipfile.ZipFile(file)
    walks = archive.getinfo("walks.ndjson")
    data = file.read_bytes()
    start = archive.start_dir
    several = []
    for number in range(9):
        clone = zipfile.ZipInfo(f"photos/{number:064x}.jpg")
        clone.header_offset, clone.CRC = walks.header_offset, walks.CRC
        clone.compress_size, clone.file_size = walks.compress_size, walks.file_size
        clone.compress_type, clone.flag_bits = walks.compress_type, 0
        several.append(clone)
    out = io.BytesIO(data[:start])
    with zipfile.ZipFile(io.BytesIO(), "w") as new:
        new.filelist = [*archive.filelist[:2], *several, archive.filelist[2]]
        new.fp, new.start_dir, new._comment = out, start, b"0" * SEAL_BYTES
        out.seek(start)
        new._didModify = False
        new._write_end_record()  # type: ignore[attr-defined]
        new.fp = None
    (tmp_path / "overlap.zip").write_bytes(out.getvalue())
    faults = [str(what) for _, what in verify(sealed(tmp_path / "overlap.zip"), {}).faults]
    assert faults == ["its parts lie in one another"]


def test_a_list_of_entries_is_bounded_before_it_is_read(file: Path, tmp_path: Path) -> None:
    data = bytearray(file.read_bytes())
    at = len(data) - SEAL_BYTES - 22
    struct.pack_into("<HH", data, at + 8, 65_000, 65_000)
    (tmp_path / "many.zip").write_bytes(data)
    faults = [str(what) for _, what in verify(sealed(tmp_path / "many.zip"), {}).faults]
    assert faults == [f"it has more than {MOST_PHOTOS_IN_FILE + 3:,} parts"]


def test_one_bad_walk_of_a_file_that_nobody_signed_is_refused_alone(
    file: Path, tmp_path: Path
) -> None:
    north = Shop(tmp_path / "north")
    north.keep(2, "a")
    file = north.share(tmp_path / "two.zip")

    def change(data: bytes) -> bytes:
        rows = lines(data)
        rows[0]["events"][1]["text"] = "all is well"
        return as_lines(rows)

    changes: dict[str, Callable[[bytes], bytes | None]] = {
        "walks.ndjson": change,
        "signature.json": lambda _: None,
    }
    south = Shop(tmp_path / "south")
    merged = south.merge(rewritten(file, tmp_path / "bad.zip", changes))
    assert set(merged.refused) == {walk_of(1)}
    assert merged.added == {walk_of(2)}
    assert set(south.walks()) == {walk_of(2)}


def test_a_bad_file_among_several_stops_before_anything_is_taken(
    file: Path, tmp_path: Path
) -> None:
    south = Shop(tmp_path / "south")
    (tmp_path / "cut.zip").write_bytes(file.read_bytes()[:-100])
    with pytest.raises(InputError, match=r"cut\.zip: it is no record file, or damaged"):
        south.merge(file, tmp_path / "cut.zip")
    assert south.walks() == {}


@given(data=st.binary(max_size=300))
def test_any_bytes_get_a_sentence(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    path = tmp_path_factory.mktemp("any") / "any.zip"
    path.write_bytes(data)
    assert len(verify(path, {}).faults) == 1


@given(
    value=st.recursive(
        st.none() | st.booleans() | st.integers() | st.text(max_size=5) | st.just(walk_of(1)),
        lambda inner: (
            st.lists(inner, max_size=3)
            | st.dictionaries(
                st.sampled_from(["walk", "events", "signed", "seq"]), inner, max_size=4
            )
        ),
        max_leaves=12,
    )
)
def test_any_json_in_place_of_a_walk_gets_a_sentence(
    tmp_path_factory: pytest.TempPathFactory, value: object
) -> None:
    path = tmp_path_factory.mktemp("any") / "any.zip"
    line = as_lines([value])
    made(path, lambda archive: archive.writestr("walks.ndjson", line))
    assert verify(path, {}).faults
