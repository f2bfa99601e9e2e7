"""The format of a record file: its entries in order, their size limits, and how it is written.

The same walks give the same bytes (with one version of zlib): entries have no times, walks and
photos are in order. Two seals protect them. The shop that shares the file signs every byte before
the last entry, which holds its signature. The archive's comment is the SHA-256 digest of every byte
before it, so that any changed byte is noticed, whether or not anybody signed.
"""

from __future__ import annotations

import hashlib
import json
import re
import zipfile
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

from walkaround.exchange.shop_key import ShopKey
from walkaround.exchange.signatures import Signature, canonical_json, merge_signatures
from walkaround.records.photos import MOST_PHOTO_BYTES
from walkaround.records.reader import MAX_BYTES
from walkaround.records.walk_file import Row
from walkaround.walk.events import Event

VERSION = 1
"""Of the format; a higher one was written by a later version of the app."""
FORM = "walkaround record file"
HEAD, WALKS, SIGNATURE = "walkaround.json", "walks.ndjson", "signature.json"
PHOTO = re.compile("photos/([0-9a-f]{64})[.]jpg")

MOST_PHOTOS_IN_FILE = 20_000
MOST_LINE_BYTES = MAX_BYTES + 20_000
"""The limit of one walk with its signatures."""
MOST_WALKS_BYTES = 40_000_000_000
MOST_SMALL_BYTES = 2_000
"""The limit of the first and of the last entry."""
MOST_RATIO = 200
"""The highest compression ratio of an entry; that of walks is ten to twenty."""
SEAL_BYTES = 64
"""The size of the archive's comment."""

_TIME = (1980, 1, 1, 0, 0, 0)
_CHUNK_BYTES = 1 << 20


def most_bytes(name: str) -> int:
    """Return the size limit of an entry of this name, in bytes."""
    if name == WALKS:
        return MOST_WALKS_BYTES
    return MOST_PHOTO_BYTES if PHOTO.fullmatch(name) else MOST_SMALL_BYTES


@dataclass(frozen=True, slots=True)
class Copy:
    """One walk, or one of several copies of it that were continued differently.

    Attributes:
        walk_id: the walk's own id.
        rows: its events as they were stored.
        signed: the valid signatures of it.
        events: its events, parsed, if it was read from a data folder; else empty.
    """

    walk_id: str
    rows: tuple[Row, ...]
    signed: tuple[Signature, ...] = ()
    events: tuple[Event, ...] = ()

    @property
    def seals(self) -> Sequence[str]:
        """The seal of each event."""
        return [row["digest"] for row in self.rows]

    def line(self) -> bytes:
        """Write it as a line of `walks.ndjson`."""
        signed = [each.row() for each in merge_signatures(self.signed)]
        text = canonical_json({"walk": self.walk_id, "events": self.rows, "signed": signed})
        return f"{text}\n".encode()


def photos_of(rows: Iterable[Row]) -> Iterator[str]:
    """Return the digests of the photos in these events."""
    return (row["photo"] for row in rows if row["kind"] == "photographed")


def write_record_file(
    path: Path,
    copies: Iterable[Copy],
    photos: Iterable[tuple[str, bytes]],
    key: ShopKey | None,
) -> None:
    """Write a record file.

    Args:
        path: the path of the file, in an existing folder.
        copies: the walks in the order of their ids, copies of a walk by their last seals.
        photos: digest and bytes of each, in order; read once all walks are written.
        key: of the shop that shares the file; None to leave it unsigned.

    Raises:
        OSError: it could not be written.
    """
    with path.open("w+b") as file:
        with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as archive:
            head = canonical_json({"form": FORM, "version": VERSION})
            archive.writestr(_entry(HEAD), head.encode())
            with archive.open(_entry(WALKS), "w", force_zip64=True) as walks:
                for copy in copies:
                    walks.write(copy.line())
            for photo, data in photos:
                archive.writestr(_entry(f"photos/{photo}.jpg", zipfile.ZIP_STORED), data)
            if key:
                before = digest_of(file, file.tell()).hex()
                archive.writestr(_entry(SIGNATURE), json.dumps(file_signature(key, before)))
            archive.comment = b"0" * SEAL_BYTES
        size = file.tell() - SEAL_BYTES
        seal = digest_of(file, size).hex().encode()
        file.seek(size)
        file.write(seal)


def digest_of(file: IO[bytes], size: int) -> bytes:
    """Return the SHA-256 digest of the first `size` bytes of a file, and leave it after them."""
    digest = hashlib.sha256()
    file.seek(0)
    while size > 0 and (chunk := file.read(min(size, _CHUNK_BYTES))):
        digest.update(chunk)
        size -= len(chunk)
    return digest.digest()


def file_signature(key: ShopKey, before: str) -> dict[str, Any]:
    """Sign a file; `before` is the digest of its bytes before the signature, in hex."""
    return {
        "shop": key.shop,
        "key": key.public,
        "before": before,
        "signature": key.sign(file_text(key.shop, before)),
    }


def file_text(shop: str, before: str) -> bytes:
    """Return the text that a shop signs for a whole file."""
    return canonical_json({"form": FORM, "shop": shop, "before": before}).encode()


def _entry(name: str, how: int = zipfile.ZIP_DEFLATED) -> zipfile.ZipInfo:
    entry = zipfile.ZipInfo(name, _TIME)
    entry.compress_type = how
    # The same on every system, and readable for whoever unpacks it.
    entry.create_system = 3
    entry.external_attr = 0o644 << 16
    return entry
