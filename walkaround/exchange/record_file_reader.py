"""The reader of record files, which may come from anybody: nothing is trusted before it is checked.

The number of entries is checked before the list of them is read, and the size and compression ratio
of each before any byte of it. Nothing is ever unpacked to a path that the file names.
"""

from __future__ import annotations

import errno
import hashlib
import io
import json
import os
import struct
import zipfile
import zlib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, message
from walkaround.disk.durable import read_error
from walkaround.exchange.record_file import (
    FORM,
    HEAD,
    MOST_LINE_BYTES,
    MOST_PHOTOS_IN_FILE,
    MOST_RATIO,
    MOST_SMALL_BYTES,
    PHOTO,
    SEAL_BYTES,
    SIGNATURE,
    VERSION,
    WALKS,
    digest_of,
    file_text,
    most_bytes,
)
from walkaround.exchange.shop_key import is_signed_by, shop_name

_CHUNK_BYTES = 1 << 18
_END = struct.Struct("<4s4H2LH")
_END_64_AT = struct.Struct("<4sLQL")
_END_64 = struct.Struct("<4sQ2H2L4Q")
_MOST_ENTRIES = MOST_PHOTOS_IN_FILE + 3
_MOST_LIST_BYTES = 300 * _MOST_ENTRIES
_BROKEN = (zipfile.BadZipFile, zlib.error, EOFError, NotImplementedError, ValueError, struct.error)


class RecordFileError(Exception):
    """Raised when a file cannot be read; `why` is the reason as a sentence."""

    def __init__(self, why: Message) -> None:
        self.why = why
        super().__init__(why)


@dataclass(frozen=True, slots=True)
class Signer:
    """The shop that a file says it was signed by.

    Attributes:
        shop, key: its name and its public key, as the file gives them.
        holds: whether the signature is valid and the file is unchanged since.
    """

    shop: str
    key: str
    holds: bool


class RecordFile:
    """An open record file.

    Attributes:
        name: the name of the file, as shown.
        whole: whether every byte is as it was written.
    """

    def __init__(self, file: IO[bytes], name: str) -> None:
        """Check the list of entries.

        Raises:
            RecordFileError: it is no record file, or exceeds a limit.
        """
        self.name = name
        size = file.seek(0, os.SEEK_END)
        try:
            _check_end_record(file, size)
            self._archive = zipfile.ZipFile(file)
        except _BROKEN as error:
            raise RecordFileError(message("exchange-no-record-file")) from error
        except OSError as error:
            # A false list of entries pointed before the beginning of the file.
            if error.errno != errno.EINVAL:
                raise
            raise RecordFileError(message("exchange-no-record-file")) from error
        self._file = file
        self._entries = _entries(self._archive, size)
        self._check_head()
        self.whole = digest_of(file, size - SEAL_BYTES).hex().encode() == self._archive.comment

    @property
    def photos(self) -> list[str]:
        """The digests of the photos in it."""
        return [match[1] for name in self._entries if (match := PHOTO.fullmatch(name))]

    @property
    def walks_bytes(self) -> int:
        """The size of the walks in bytes, as the file says."""
        return self._entries[WALKS].file_size

    def signer(self) -> Signer | None:
        """Return who signed the file; None if nobody did.

        Raises:
            RecordFileError: the signature cannot be read.
        """
        if SIGNATURE not in self._entries:
            return None
        row = self._small_entry(SIGNATURE)
        names = ("shop", "key", "before", "signature")
        if set(row) != set(names) or any(type(row[name]) is not str for name in names):
            raise RecordFileError(message("exchange-entry-unreadable", name=SIGNATURE))
        shop, text = row["shop"], file_text(row["shop"], row["before"])
        before = digest_of(self._file, self._entries[SIGNATURE].header_offset).hex()
        as_signed = before == row["before"] and shop_name(shop) == shop
        return Signer(
            shop, row["key"], as_signed and is_signed_by(row["key"], text, row["signature"])
        )

    def lines(self) -> Iterator[bytes]:
        """Read the lines of the walks.

        Raises:
            RecordFileError: they cannot be read any further.
        """
        try:
            with io.BufferedReader(self._archive.open(self._entries[WALKS]), _CHUNK_BYTES) as walks:  # type: ignore[type-var]
                while line := walks.readline(MOST_LINE_BYTES + 1):
                    if len(line) > MOST_LINE_BYTES:
                        raise RecordFileError(message("exchange-line-too-long"))
                    yield line
        except _BROKEN as error:
            raise RecordFileError(message("exchange-entry-unreadable", name=WALKS)) from error

    def photo(self, photo: str) -> bytes | None:
        """Return the bytes of a photo by its digest; None if it is not there or was changed."""
        entry = self._entries.get(f"photos/{photo}.jpg")
        try:
            data = self._archive.read(entry) if entry else b""
        except _BROKEN:
            return None
        return data if hashlib.sha256(data).hexdigest() == photo else None

    def _check_head(self) -> None:
        head = self._small_entry(HEAD)
        version = head.get("version")
        if head.get("form") == FORM and type(version) is int and version > VERSION:
            raise RecordFileError(message("exchange-later-version"))
        if head != {"form": FORM, "version": VERSION}:
            raise RecordFileError(message("exchange-no-record-file"))

    def _small_entry(self, name: str) -> Mapping[str, Any]:
        try:
            row = json.loads(self._archive.read(self._entries[name]))
        except (*_BROKEN, RecursionError) as error:
            raise RecordFileError(message("exchange-entry-unreadable", name=name)) from error
        return row if isinstance(row, dict) else {}


@contextmanager
def open_record_file(path: Path) -> Iterator[RecordFile]:
    """Open a record file.

    Raises:
        RecordFileError: it is no record file, or exceeds a limit.
        InputError: there is no such file.
        MachineError: it cannot be read.
    """
    try:
        with path.open("rb") as file:
            yield RecordFile(file, path.name)
    except FileNotFoundError as error:
        what, mend = message("trouble-no-file", path=str(path)), message("file-mend-no-such-file")
        raise InputError([Problem(path.name, "", what, mend)]) from error
    except OSError as error:
        raise read_error(error, path) from error


def _check_end_record(file: IO[bytes], size: int) -> None:
    """Check the size of the list of entries before it is read.

    The end record says where it is, and has a fixed size, since the comment has; see APPNOTE.TXT of
    the zip format, 4.3.14 to 4.3.16.

    Raises:
        zipfile.BadZipFile: this is no archive with a seal.
        RecordFileError: there are too many entries.
    """
    at = size - SEAL_BYTES - _END.size
    if at < 0:
        raise zipfile.BadZipFile
    file.seek(at)
    mark, *_, entries, list_bytes, _, comment_bytes = _END.unpack(file.read(_END.size))
    if mark != b"PK\x05\x06" or comment_bytes != SEAL_BYTES:
        raise zipfile.BadZipFile
    if at >= _END_64_AT.size:
        file.seek(at - _END_64_AT.size)
        mark, _, end_64_at, _ = _END_64_AT.unpack(file.read(_END_64_AT.size))
        if mark == b"PK\x06\x07":
            # Some readers use the offset given, some the record right before this one.
            if end_64_at != at - _END_64_AT.size - _END_64.size:
                raise zipfile.BadZipFile
            file.seek(end_64_at)
            end = _END_64.unpack(file.read(_END_64.size))
            entries, list_bytes = max(end[6], end[7]), end[8]
    if entries > _MOST_ENTRIES or list_bytes > _MOST_LIST_BYTES:
        raise RecordFileError(message("exchange-too-many-entries", most=_MOST_ENTRIES))


def _entries(archive: zipfile.ZipFile, size: int) -> dict[str, zipfile.ZipInfo]:
    entries = {entry.filename: entry for entry in archive.infolist()}
    names = [name for name in entries if not PHOTO.fullmatch(name)]
    if len(entries) != len(archive.infolist()):
        raise RecordFileError(message("exchange-twice"))
    if names not in ([HEAD, WALKS, SIGNATURE], [HEAD, WALKS]):
        raise RecordFileError(message("exchange-other-entries"))
    for name, entry in entries.items():
        limit = min(most_bytes(name), MOST_RATIO * entry.compress_size + MOST_SMALL_BYTES)
        if entry.file_size > limit:
            raise RecordFileError(message("exchange-entry-too-large", name=name[:80]))
        if not 0 <= entry.header_offset < size:
            raise RecordFileError(message("exchange-entry-unreadable", name=name[:80]))
        plain = entry.compress_type in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
        if entry.flag_bits & 1 or not plain:
            raise RecordFileError(message("exchange-entry-unreadable", name=name[:80]))
    if sum(entry.compress_size for entry in entries.values()) > size:
        raise RecordFileError(message("exchange-entries-overlap"))
    return entries
