"""Shops for tests: each a data folder of its own, whose walks go out and come in as record files.

A walk here is told by its entries, one letter each: "abc" begins "abcd" and parts from "abd" at its
third. The same letters are the same entries wherever they are told.
"""

from __future__ import annotations

import json
import zipfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import timedelta
from functools import cache
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any

from PIL import Image
from support.walks import BEGAN, FakeClock, Teller, plan

from walkaround.exchange.merge import Merged, merge
from walkaround.exchange.record_file import SEAL_BYTES
from walkaround.exchange.share import Shared, share
from walkaround.exchange.shop_key import ShopKey, save_known_shop
from walkaround.records.open_walks import OpenWalks
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.records.walk_file import WalkFile, rows_of
from walkaround.records.walk_line import original_id
from walkaround.walk.events import Event, Noted, Photographed
from walkaround.walk.seals import event_json

PLAN = plan()


def walk_of(number: int) -> str:
    return f"202611{number:02d}_081502_4f3a9c"


@cache
def told(number: int, letters: str) -> tuple[Event, ...]:
    """The entries of a walk: its first, then a note for each letter."""
    began = BEGAN + timedelta(days=number)
    teller = Teller(clock=FakeClock(began=began, step_s=60.0))
    for so_far in [letters[:count] for count in range(len(letters) + 1)]:
        id_ = sha256(f"{number} {so_far}".encode()).hexdigest()[:32]
        teller.new_id = iter([id_]).__next__
        if so_far:
            teller.tell(Noted, step="chocks", text=so_far)
        else:
            teller.begin(PLAN, walk_of(number), number)
    return teller.walk.events


@cache
def picture(color: int = 0) -> bytes:
    """A small photo."""
    out = BytesIO()
    Image.new("RGB", (32, 24), (color, 80, 120)).save(out, "JPEG")
    return out.getvalue()


@dataclass
class Shop:
    """One data folder."""

    data: Path
    name: str = ""

    def __post_init__(self) -> None:
        self.data.mkdir(parents=True, exist_ok=True)
        if self.name:
            save_known_shop(self.data, ShopKey.of(self.data).public, self.name)

    @contextmanager
    def open(self) -> Iterator[tuple[WalkStore, OpenWalks]]:
        store = WalkStore(self.data)
        try:
            yield store, OpenWalks(store, FakeClock())
        finally:
            store.close()

    def keep(self, number: int, letters: str) -> None:
        """Keep this walk as one that was made here."""
        events = told(number, letters)
        with self.open() as (store, _):
            store.import_walk(walk_of(number), WalkFile(rows_of(events), events, True))

    def photograph(self, number: int, data: bytes) -> str:
        """Take a photo at the first step of a walk that is kept here."""
        photo = PhotoFolder(self.data).save(walk_of(number), data)
        with self.open() as (_, walks):
            walks.do(walk_of(number), "Ana", (Photographed, {"step": "chocks", "photo": photo}))
        return photo

    def share(self, file: Path, *walks: str) -> Path:
        self.shared: Shared = share(
            file, WalkReader(self.data), PhotoFolder(self.data), walks, ShopKey.of(self.data)
        )
        return file

    def merge(self, *files: Path) -> Merged:
        with self.open() as (store, walks):
            return merge(files, self.data, store, walks)

    def walks(self) -> dict[str, set[str]]:
        """The last note of every copy of every walk, as it can be read here."""
        reader, kept = WalkReader(self.data), dict[str, set[str]]()
        for line in reader.overview().lines:
            events = reader.load(line.id).events
            notes = [event.text for event in events if isinstance(event, Noted)]
            kept.setdefault(original_id(line.id), set()).add(notes[-1] if notes else "")
        return kept


def contents(file: Path) -> dict[str, bytes]:
    """Every entry of a record file but who signed the file."""
    with zipfile.ZipFile(file) as archive:
        return {x: archive.read(x) for x in archive.namelist() if x != "signature.json"}


def rewritten(
    file: Path, out: Path, changes: Mapping[str, Callable[[bytes], bytes | None]]
) -> Path:
    """The file with some entries changed, or left out where that gives None, zipped anew."""
    with zipfile.ZipFile(file) as archive, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for name in archive.namelist():
            data = changes.get(name, lambda data: data)(archive.read(name))
            if data is not None:
                new.writestr(name, data)
        new.comment = b"0" * SEAL_BYTES
    return sealed(out)


def sealed(file: Path) -> Path:
    """The file with its comment put right, as whoever changes one knowingly would do."""
    body = file.read_bytes()[:-SEAL_BYTES]
    file.write_bytes(body + sha256(body).hexdigest().encode())
    return file


def lines(data: bytes) -> list[dict[str, Any]]:
    return [json.loads(line) for line in data.splitlines()]


def as_lines(rows: Iterable[object]) -> bytes:
    dumped = (
        json.dumps(x, sort_keys=True, ensure_ascii=False, separators=(",", ":")) for x in rows
    )
    return "".join(f"{line}\n" for line in dumped).encode()


def plain_rows(number: int, letters: str) -> list[dict[str, Any]]:
    return [event_json(event) for event in told(number, letters)]
