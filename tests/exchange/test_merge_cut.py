"""A merge that is cut in its middle: each walk is there whole, or not at all."""

from __future__ import annotations

import errno
import os
import shutil
from itertools import islice
from pathlib import Path

import pytest
from support.forgetfuldisk import ForgetfulDisk, lay_out
from support.powercuts import no_sync
from support.shops import Shop, walk_of

from walkaround.base.errors import MachineError
from walkaround.disk import batch_write
from walkaround.exchange.merge import merge
from walkaround.exchange.shop_key import ShopKey

WHOLE = {walk_of(1): {"ab"}, walk_of(2): {"b"}}


@pytest.fixture
def file(tmp_path: Path) -> Path:
    north = Shop(tmp_path / "north", "Depot North")
    north.keep(1, "ab")
    north.keep(2, "b")
    return north.share(tmp_path / "north.zip")


def test_a_power_cut_leaves_each_walk_whole_or_absent_and_takes_none_that_was_told(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    root = tmp_path / "south"
    root.mkdir()
    disk = ForgetfulDisk(root)
    with disk.followed(monkeypatch):
        for walk in sorted(Shop(root).merge(file).added):
            disk.tell(walk)
    no_sync(monkeypatch)
    seen: set[object] = set()
    for moment in disk.cuts:
        for tree in islice(moment.trees(), 40):
            if (state := (frozenset(tree.items()), moment.told)) in seen:
                continue
            seen.add(state)
            lay_out(tree, tmp_path / "found")
            there = Shop(tmp_path / "found").walks()
            assert there.items() <= WHOLE.items()
            assert set(moment.told) <= there.keys()
            shutil.rmtree(tmp_path / "found")
    assert len(seen) > 40


def test_a_merge_that_was_killed_before_the_names_is_done_by_the_next_one(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    south = Shop(tmp_path / "south")
    ShopKey.of(south.data)
    with monkeypatch.context() as patch:
        patch.setattr(batch_write, "force_to_disk", _killed)
        with pytest.raises(KeyboardInterrupt):
            south.merge(file)
    assert len(list(south.data.rglob("*.json.tmp"))) == 2
    assert south.walks() == {}
    assert south.merge(file).added == WHOLE.keys()
    assert south.walks() == WHOLE
    assert not list(south.data.rglob("*.tmp"))


def test_a_disk_that_does_not_take_the_walks_is_told_and_nothing_half_is_left(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    south = Shop(tmp_path / "south")
    with monkeypatch.context() as patch:
        patch.setattr(batch_write, "force_to_disk", full)
        with pytest.raises(MachineError, match="no room left"):
            south.merge(file)
    assert south.walks() == {}
    assert not list(south.data.rglob("*.tmp"))


def test_a_merge_into_an_open_app_lists_what_came_without_reading_it_again(
    file: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    south = Shop(tmp_path / "south")
    with south.open() as (store, walks):
        assert store.overview().lines == ()
        merge([file], south.data, store, walks)
        monkeypatch.setattr(store, "read", None)
        assert {line.id for line in store.overview().lines} == WHOLE.keys()


def _killed(_: object) -> None:
    raise KeyboardInterrupt
