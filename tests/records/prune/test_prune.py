"""What goes with a walk: its file, what was kept of it before, photos that no other walk has."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.app import app
from support.stores import files_in, path_of, saved

from walkaround.base.errors import InputError
from walkaround.bootstrap import Parts
from walkaround.records.prune.prune import photos_of, prune
from walkaround.walk.events import Photographed

ONE, OTHER = "20240115_081502_4f3a9c", "20240116_081502_4f3a9c"


def photographed(parts: Parts, walk_id: str, data: bytes) -> str:
    photo = parts.photos.save(walk_id, data)
    parts.open_walks.do(walk_id, "Ana", (Photographed, {"step": "chocks", "photo": photo}))
    return photo


async def test_a_walk_goes_whole_and_what_it_shared_stays(tmp_path: Path) -> None:
    async with app(tmp_path) as depot:
        parts = depot.parts
        for walk_id in (ONE, OTHER):
            saved(parts.store, walk_id)
        shared = photographed(parts, ONE, b"shared")
        own = photographed(parts, ONE, b"own")
        assert photographed(parts, OTHER, b"shared") == shared
        assert photos_of(parts.store, ONE) == {own, shared}
        prune(parts.store, parts.open_walks, parts.photos, parts.store.overview(), [ONE])
        assert not any(name.startswith(ONE) for name in files_in(tmp_path))
        assert parts.photos.read(OTHER, shared) == b"shared"
        assert not parts.photos.path(ONE, own).exists()
        assert [line.id for line in parts.store.overview().lines] == [OTHER]
        with pytest.raises(InputError):
            parts.open_walks.walk(ONE)


async def test_two_that_share_a_photo_take_it_with_them(tmp_path: Path) -> None:
    async with app(tmp_path) as depot:
        parts = depot.parts
        for walk_id in (ONE, OTHER):
            saved(parts.store, walk_id)
            photographed(parts, walk_id, b"shared")
        prune(parts.store, parts.open_walks, parts.photos, parts.store.overview(), [ONE, OTHER])
        assert not [name for name in files_in(tmp_path) if name.endswith(".jpg")]
        assert not path_of(tmp_path, OTHER).exists()
