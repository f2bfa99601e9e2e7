"""Bringing walks together: a union, whatever the order, and nothing that was saved is lost."""

from __future__ import annotations

import itertools
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.shops import Shop, contents, picture, told, walk_of

from walkaround.base.errors import MachineError
from walkaround.exchange.merge import merge
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import WalkReader
from walkaround.records.walk_line import ELSEWHERE
from walkaround.walk.events import Answered, Noted

Kept = frozenset[tuple[int, str]]
WALKS = st.frozensets(st.tuples(st.integers(1, 2), st.text("ab", max_size=3)), max_size=3)
"""What a shop keeps: some walks, each as far as these entries."""


@pytest.fixture(scope="module")
def files(tmp_path_factory: pytest.TempPathFactory) -> Files:
    return Files(tmp_path_factory.mktemp("files"))


class Files:
    """Record files of what shops keep, each made once, by a shop of its own."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._made: dict[Kept, Path] = {}

    def of(self, kept: Kept) -> Path:
        if kept not in self._made:
            place = self._folder / str(len(self._made))
            shop = Shop(place, f"Shop {len(self._made)}")
            for number, letters in sorted(kept, key=lambda one: len(one[1])):
                shop.merge(self.one(number, letters))
            self._made[kept] = shop.share(place / "walks.zip")
        return self._made[kept]

    def one(self, number: int, letters: str) -> Path:
        place = self._folder / f"one_{number}_{letters}"
        if not place.exists():
            shop = Shop(place, f"Maker {number}{letters}")
            shop.keep(number, letters)
            shop.share(place / "walks.zip")
        return place / "walks.zip"


def brought_together(orders: Sequence[Sequence[Path]]) -> Iterator[dict[str, bytes]]:
    """What a new shop shares after these files came in this order."""
    for order in orders:
        with tempfile.TemporaryDirectory() as folder:
            shop = Shop(Path(folder))
            for file in order:
                assert shop.merge(file).refused == {}
            yield contents(shop.share(Path(folder) / "out.zip"))


@settings(max_examples=12)
@given(kept=st.lists(WALKS, min_size=2, max_size=3))
def test_in_whichever_order_and_however_often_files_come_the_same_comes_of_it(
    files: Files, kept: list[Kept]
) -> None:
    paths = [files.of(each) for each in kept]
    orders = [*itertools.permutations(paths), [*paths, paths[0], paths[-1]]]
    first, *others = brought_together(orders[:3] + orders[-1:])
    assert all(other == first for other in others)


@settings(max_examples=8)
@given(kept=st.lists(WALKS, min_size=3, max_size=3))
def test_what_was_brought_together_elsewhere_first_makes_no_difference(
    files: Files, kept: list[Kept]
) -> None:
    one, two, three = (files.of(each) for each in kept)
    with tempfile.TemporaryDirectory() as folder:
        first = Shop(Path(folder) / "first")
        first.merge(two, three)
        together = first.share(Path(folder) / "together.zip")
        step_by_step, at_once = brought_together([[one, two, three], [one, together]])
    assert step_by_step == at_once


@settings(max_examples=15)
@given(kept=st.lists(WALKS, min_size=1, max_size=3))
def test_every_copy_that_is_no_beginning_of_another_is_kept(
    files: Files, kept: list[Kept], tmp_path_factory: pytest.TempPathFactory
) -> None:
    shop = Shop(tmp_path_factory.mktemp("shop"))
    for each in kept:
        shop.merge(files.of(each))
    expected: dict[str, set[str]] = {}
    for number in (1, 2):
        all_ = {letters for each in kept for n, letters in each if n == number}
        if all_:
            longest = {a for a in all_ if not any(b != a and b.startswith(a) for b in all_)}
            expected[walk_of(number)] = longest
    assert shop.walks() == expected


def test_what_is_shared_on_is_the_same_but_for_who_shares_it(tmp_path: Path) -> None:
    north, south = Shop(tmp_path / "north", "Depot North"), Shop(tmp_path / "south", "Depot South")
    north.keep(1, "ab")
    north.keep(2, "")
    north.photograph(1, picture())
    first = north.share(tmp_path / "north.zip")
    south.merge(first)
    second = south.share(tmp_path / "south.zip")
    assert contents(first) == contents(second)
    assert first.read_bytes() != second.read_bytes()
    assert north.share(tmp_path / "again.zip").read_bytes() == first.read_bytes()
    assert north.merge(second).same == {walk_of(1), walk_of(2)}


def test_what_becomes_of_each_walk_is_told(tmp_path: Path) -> None:
    north, south = Shop(tmp_path / "north"), Shop(tmp_path / "south")
    for number, letters in ((1, "ab"), (2, "abc"), (3, "aa"), (4, "a")):
        north.keep(number, letters)
    for number, letters in ((1, "ab"), (2, "ab"), (3, "ab")):
        south.keep(number, letters)
    merged = south.merge(north.share(tmp_path / "north.zip"))
    assert merged.same == {walk_of(1)}
    assert merged.added == {walk_of(2), walk_of(4)}
    assert merged.conflicts == {walk_of(3)}
    assert merged.refused == {}
    assert south.walks()[walk_of(3)] == {"aa", "ab"}
    again = south.merge(tmp_path / "north.zip")
    assert again.same == {walk_of(number) for number in (1, 2, 3, 4)}


def test_both_copies_of_a_walk_are_listed_and_both_can_be_gone_on_with(tmp_path: Path) -> None:
    north, south = Shop(tmp_path / "north"), Shop(tmp_path / "south")
    north.keep(1, "aa")
    south.keep(1, "ab")
    south.merge(north.share(tmp_path / "north.zip"))
    overview = WalkReader(south.data).overview()
    one, other = overview.copies[walk_of(1)]
    assert {line.id for line in overview.lines} == {one, other}
    with south.open() as (_, walks):
        for id_ in (one, other):
            note = {"step": "chocks", "text": f"more of {id_}"}
            walks.do(id_, "Ana", (Noted, note))
            assert walks.walk(id_).id == id_
    assert south.walks()[walk_of(1)] == {f"more of {one}", f"more of {other}"}


def test_a_walk_that_is_under_way_goes_on_from_where_it_was_brought(tmp_path: Path) -> None:
    north, south = Shop(tmp_path / "north"), Shop(tmp_path / "south")
    north.keep(1, "ab")
    south.keep(1, "a")
    file = north.share(tmp_path / "north.zip")
    with south.open() as (store, walks):
        told_of: list[int] = []
        walks.watch(walk_of(1), lambda: told_of.append(len(walks.walk(walk_of(1)).events)))
        walks.do(walk_of(1), "Ana", (Answered, {"step": "chocks", "answer": "ok"}))
        conflict = merge([file], south.data, store, walks)
        assert conflict.conflicts == {walk_of(1)}
        walks.do(walk_of(1), "Ana", (Noted, {"step": "chocks", "text": "goes on"}))
    assert told_of[-1] == 4
    assert south.walks()[walk_of(1)] == {"ab", "goes on"}


def test_a_walk_open_on_a_page_is_gone_on_with_where_the_other_shop_went_on(tmp_path: Path) -> None:
    north, south = Shop(tmp_path / "north"), Shop(tmp_path / "south")
    north.keep(1, "abb")
    south.keep(1, "a")
    file = north.share(tmp_path / "north.zip")
    with south.open() as (store, walks):
        assert len(walks.walk(walk_of(1)).events) == 2
        assert merge([file], south.data, store, walks).added == {walk_of(1)}
        assert walks.walk(walk_of(1)).events == told(1, "abb")
        walks.do(walk_of(1), "Ana", (Answered, {"step": "chocks", "answer": "ok"}))
    assert WalkReader(south.data).load(walk_of(1)).events[:-1] == told(1, "abb")


def test_a_walk_from_elsewhere_takes_no_place_in_the_order_of_numbers(tmp_path: Path) -> None:
    north, south = Shop(tmp_path / "north"), Shop(tmp_path / "south")
    north.keep(7, "")
    south.keep(5, "")
    south.keep(9, "")
    south.merge(north.share(tmp_path / "north.zip"))
    lines = WalkReader(south.data).overview().lines
    assert [line.number for line in lines] == [9, ELSEWHERE, 5]
    with south.open() as (store, _):
        assert store.next_number() == 10


def test_a_photo_comes_with_its_walk(tmp_path: Path) -> None:
    north, south = Shop(tmp_path / "north"), Shop(tmp_path / "south")
    north.keep(1, "a")
    photo = north.photograph(1, picture())
    south.merge(north.share(tmp_path / "north.zip"))
    assert PhotoFolder(south.data).read(walk_of(1), photo) == picture()


def test_a_walk_of_our_own_that_comes_back_is_not_written_again(tmp_path: Path) -> None:
    north = Shop(tmp_path / "north")
    north.keep(1, "a")
    file = north.share(tmp_path / "north.zip")
    (kept,) = (north.data / "walks").rglob(f"{walk_of(1)}.json")
    before = kept.stat()
    assert north.merge(file).same == {walk_of(1)}
    assert kept.stat().st_mtime_ns == before.st_mtime_ns


def test_a_walk_whose_file_here_was_damaged_is_whole_again(tmp_path: Path) -> None:
    north, south = Shop(tmp_path / "north"), Shop(tmp_path / "south")
    north.keep(1, "ab")
    file = north.share(tmp_path / "north.zip")
    south.merge(file)
    (kept,) = (south.data / "walks").rglob(f"{walk_of(1)}.json")
    kept.write_bytes(kept.read_bytes()[:300])
    assert south.merge(file).added == {walk_of(1)}
    assert WalkReader(south.data).load(walk_of(1)).events == told(1, "ab")
    assert list(kept.parent.glob("*.damaged-1"))


def test_a_full_disk_costs_nothing_that_was_saved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    north, south = Shop(tmp_path / "north"), Shop(tmp_path / "south")
    north.keep(1, "ab")
    south.keep(1, "a")
    file = north.share(tmp_path / "north.zip")

    def full(*_: object, **__: object) -> None:
        raise MachineError("There is no room left.")

    with monkeypatch.context() as patched:
        patched.setattr("walkaround.records.store.write_durably", full)
        with pytest.raises(MachineError, match="no room"):
            south.merge(file)
    assert south.walks() == {walk_of(1): {"a"}}
