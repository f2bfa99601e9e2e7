"""The cache of the list of walks in one SQLite file, so that a list need not read every walk.

The files of the walks are the only source. The cache may be deleted at any time, and is trusted
only as far as it can be checked:

- A line is stale unless its walk's file still has the size and time of change (`WalkLine.stamp`)
  that it was made from; `walk_list.py` compares them.
- One wrong bit could hide a defect, and SQLite has no checksum of what it stores. So each row has
  one, and a row with a wrong one is left out.
- A file that is damaged, of another version or missing is rebuilt from the walks. It is never
  repaired.

Only the one writer of the data folder calls `save`. Others load; if they cannot, because the file
is missing or busy or they have no access, they read the walks. Nothing is forced to the disk:
SQLite's journal undoes the unfinished change of a killed writer, and a power cut may cost the whole
file, which costs time, but no walk.

Most walks of a vehicle have the same steps OK, so each such list is stored once, by its digest; one
that no walk uses any more does no harm.
"""

from __future__ import annotations

import json
import logging
import os
import sqlite3
from collections.abc import Callable, Iterable, Mapping
from contextlib import closing, suppress
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import Any
from zlib import crc32

from pydantic_core import from_json

from walkaround.base.message import Message
from walkaround.disk.durable import TEMPORARY
from walkaround.records.walk_line import Stamp, WalkLine

_log = logging.getLogger(__name__)

_OK, _STAMP = WalkLine._fields.index("ok"), WalkLine._fields.index("stamp")
_TIMES = [WalkLine._fields.index(name) for name in ("began", "last_answer", "finished")]
_LISTS = [WalkLine._fields.index(name) for name in ("who", "open_defects", "cleared")]
_TITLES = WalkLine._fields.index("titles")
_TABLES = (
    "CREATE TABLE IF NOT EXISTS ok_lists (digest PRIMARY KEY, steps) WITHOUT ROWID",
    "CREATE TABLE IF NOT EXISTS walks (id PRIMARY KEY, line, check_sum) WITHOUT ROWID",
)
_FORMAT = crc32(f"1 {WalkLine._fields}".encode()) & 0x7FFF_FFFF
"""The format of the file that this version writes, stored as SQLite's `user_version`: a digest of
the fields of a line, and of a number for any other change."""
_DAMAGED, _OTHER_FORMAT = "was damaged", "is of another version and made anew"
_BUSY_S = 1.0
"""How long to wait for another process that reads or writes the file."""


class WalkCache:
    """The cache file, for one process."""

    def __init__(self, path: Path) -> None:
        """Use the file at this path, whether it exists or not."""
        self._path = path
        self._sound = True
        self._gave_up = False

    def load(self) -> list[WalkLine]:
        """Read every valid line; damage is logged."""
        lines: list[WalkLine] = []
        problem = ""
        if os.path.lexists(self._path):
            try:
                problem = self._read(lines) if self._path.is_file() else _DAMAGED
            except (sqlite3.Error, OSError, TypeError, ValueError):
                problem = _DAMAGED
            self._sound = not problem
        if problem:
            _log.warning("%s %s; what is missing is read from the walks.", self._path, problem)
        return lines

    def save(
        self, changed: Mapping[str, WalkLine | None], all_lines: Callable[[], Iterable[WalkLine]]
    ) -> None:
        """Write what changed; if that fails, or the file was damaged, rebuild it.

        If that fails too, it is logged and not tried until the next start: the walks are safe.

        Args:
            changed: the changed lines by the walk's id; None for a deleted walk.
            all_lines: returns every line.
        """
        if self._gave_up or (self._sound and not changed):
            return
        if self._sound:
            try:
                _write(self._path, changed)
            except (sqlite3.Error, OSError, ValueError):
                self._sound = False
        if not self._sound:
            temporary_path = self._path.with_name(f"{self._path.name}{TEMPORARY}")
            try:
                temporary_path.unlink(missing_ok=True)
                _write(temporary_path, {line.id: line for line in all_lines()})
                # The journal first: it would be used as that of the new file.
                self._path.with_name(f"{self._path.name}-journal").unlink(missing_ok=True)
                temporary_path.replace(self._path)
                self._sound = True
            except (sqlite3.Error, OSError, ValueError) as error:
                self._gave_up = True
                _log.warning("The list of walks is not kept in %s: %s", self._path, error)
                with suppress(OSError):
                    temporary_path.unlink(missing_ok=True)

    def add(self, lines: Mapping[str, WalkLine]) -> None:
        """Add lines of new walks, if that is possible; loading checks the file."""
        with suppress(sqlite3.Error, OSError, ValueError):
            if not self._path.exists() or self._is_this_version():
                _write(self._path, lines)

    def _is_this_version(self) -> bool:
        with closing(_connect(self._path, "rw")) as database:
            return bool(database.execute("PRAGMA user_version").fetchone() == (_FORMAT,))

    def _read(self, lines: list[WalkLine]) -> str:
        """Add every line with a right checksum; say what is wrong with the file, else empty."""
        with closing(_connect(self._path, "rw")) as database:
            ((format_number,),) = database.execute("PRAGMA user_version")
            if format_number != _FORMAT:
                return _OTHER_FORMAT if format_number else _DAMAGED
            lists = {
                digest: tuple(json.loads(steps))
                for digest, steps in database.execute("SELECT * FROM ok_lists")
                if digest == _digest(steps)
            }
            problem = ""
            for walk_id, text, check_sum in database.execute("SELECT * FROM walks"):
                values = from_json(text) if check_sum == _check_sum(text) else None
                if values and values[0] == walk_id and values[_OK] in lists:
                    values[_OK] = lists[values[_OK]]
                    lines.append(_line_from_values(values))
                else:
                    problem = _DAMAGED
            return problem


def _connect(path: Path, mode: str) -> sqlite3.Connection:
    address = f"{path.absolute().as_uri()}?mode={mode}"
    return sqlite3.connect(address, timeout=_BUSY_S, isolation_level=None, uri=True)


def _write(path: Path, lines: Mapping[str, WalkLine | None]) -> None:
    with closing(_connect(path, "rwc")) as database:
        database.execute("PRAGMA synchronous=OFF")
        database.execute("BEGIN IMMEDIATE")
        for table in _TABLES:
            database.execute(table)
        database.execute(f"PRAGMA user_version={_FORMAT}")
        digests: dict[tuple[str, ...], str] = {}
        for walk_id, line in lines.items():
            if line is None:
                database.execute("DELETE FROM walks WHERE id = ?", (walk_id,))
                continue
            if line.ok not in digests:
                steps = json.dumps(line.ok)
                digests[line.ok] = _digest(steps)
                row = (digests[line.ok], steps)
                database.execute("INSERT OR IGNORE INTO ok_lists VALUES (?, ?)", row)
            text = _line_text(line, digests[line.ok])
            database.execute(
                "INSERT OR REPLACE INTO walks VALUES (?, ?, ?)", (walk_id, text, _check_sum(text))
            )
        database.execute("COMMIT")


def _line_text(line: WalkLine, ok: str) -> str:
    """Return a line as JSON, with the digest of the list in place of `ok`."""
    values: list[Any] = list(line)
    values[_OK] = ok
    values[_TITLES] = [
        title if isinstance(title, str) else title.model_dump(mode="json", exclude_defaults=True)
        for title in line.titles
    ]
    for at in _TIMES:
        values[at] = values[at] and values[at].isoformat()
    # A path in `trouble` may have a lone surrogate, which not every JSON reader accepts.
    return json.dumps(values, ensure_ascii=False).encode(errors="replace").decode()


def _line_from_values(values: list[Any]) -> WalkLine:
    """Return the line of these values, see `_line_text`; the list of `ok` is in its place."""
    for at in _TIMES:
        values[at] = values[at] and datetime.fromisoformat(values[at])
    for at in _LISTS:
        values[at] = tuple(values[at])
    values[_TITLES] = tuple(
        title if isinstance(title, str) else Message.model_validate(title)
        for title in values[_TITLES]
    )
    values[_STAMP] = Stamp(*values[_STAMP])
    return WalkLine._make(values)


def _digest(steps: object) -> str:
    return sha256(str(steps).encode()).hexdigest()[:16]


def _check_sum(text: object) -> int:
    return crc32(str(text).encode())
