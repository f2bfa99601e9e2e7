"""The lines of all walks, kept in one SQLite file, so that a list need not read every walk.

The walks' own files are the only truth. This file may be deleted at any time, and what it says is
believed only as far as it can be checked:

- A line is stale unless its walk's file still has the size and time of change (`WalkLine.stamp`)
  that it was made from; whoever lists walks compares them (see `walk_list.py`).
- One bad bit could hide a defect, and SQLite keeps no check sum of what it stores. So each row
  has one, and a row that it does not fit is left out.
- A file that is damaged, of another version, or no such file at all is made anew from the walks and
  put in its place. Nothing of it is mended.

Only the one writer of the data folder calls `save`. Others load; where they cannot, because the
file is gone or busy or its folder shut, they read the walks. Nothing is forced to the disk: what a
killed writer changed by half is taken back by SQLite's journal, and a power cut may cost the whole
file, which is time and no walk.

Most walks of a vehicle have the same steps OK, so each such list is stored once, by its digest; one
that no walk has any more does no harm.
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
_FORM = crc32(f"1 {WalkLine._fields}".encode()) & 0x7FFF_FFFF
"""Which form of the file this version writes, for SQLite to keep as `user_version`: it follows from
the fields of a line, and from a number for whatever else may change."""
_DAMAGED, _OTHER_FORM = "was damaged", "is of another version and made anew"
_BUSY_S = 1.0
"""How long a list of walks waits for another process that reads or writes the file."""


class WalkCache:
    """The file, for one process."""

    def __init__(self, path: Path) -> None:
        """Take where the file is, whether it is there or not."""
        self._path = path
        self._sound = True
        self._given_up = False

    def load(self) -> list[WalkLine]:
        """Read every line that is as it was written; that something is wrong is logged."""
        lines: list[WalkLine] = []
        wrong = ""
        if os.path.lexists(self._path):
            try:
                wrong = self._read(lines) if self._path.is_file() else _DAMAGED
            except (sqlite3.Error, OSError, TypeError, ValueError):
                wrong = _DAMAGED
            self._sound = not wrong
        if wrong:
            _log.warning("%s %s; what is missing is read from the walks.", self._path, wrong)
        return lines

    def save(
        self, changed: Mapping[str, WalkLine | None], all_lines: Callable[[], Iterable[WalkLine]]
    ) -> None:
        """Write what changed; where that fails, or the file was damaged, make it anew.

        A file that cannot be made is logged and let be until the next start: the walks are safe.

        Args:
            changed: by a walk's id its line, None if it is gone.
            all_lines: gives every line.
        """
        if self._given_up or (self._sound and not changed):
            return
        if self._sound:
            try:
                _write(self._path, changed)
            except (sqlite3.Error, OSError, ValueError):
                self._sound = False
        if not self._sound:
            fresh = self._path.with_name(f"{self._path.name}{TEMPORARY}")
            try:
                fresh.unlink(missing_ok=True)
                _write(fresh, {line.id: line for line in all_lines()})
                # The journal first: it would be taken for that of the new file.
                self._path.with_name(f"{self._path.name}-journal").unlink(missing_ok=True)
                fresh.replace(self._path)
                self._sound = True
            except (sqlite3.Error, OSError, ValueError) as error:
                self._given_up = True
                _log.warning("The list of walks is not kept in %s: %s", self._path, error)
                with suppress(OSError):
                    fresh.unlink(missing_ok=True)

    def add(self, lines: Mapping[str, WalkLine]) -> None:
        """Write lines of walks that it does not know yet; a file that does not take them is let be.

        Loading tells whether it is sound.
        """
        with suppress(sqlite3.Error, OSError, ValueError):
            if not self._path.exists() or self._of_this_version():
                _write(self._path, lines)

    def _of_this_version(self) -> bool:
        with closing(_opened(self._path, "rw")) as database:
            return bool(database.execute("PRAGMA user_version").fetchone() == (_FORM,))

    def _read(self, lines: list[WalkLine]) -> str:
        """Add every line whose check sum fits; say what is wrong with the file, if anything."""
        with closing(_opened(self._path, "rw")) as database:
            ((form,),) = database.execute("PRAGMA user_version")
            if form != _FORM:
                return _OTHER_FORM if form else _DAMAGED
            lists = {
                digest: tuple(json.loads(steps))
                for digest, steps in database.execute("SELECT * FROM ok_lists")
                if digest == _digest(steps)
            }
            wrong = ""
            for walk_id, text, check_sum in database.execute("SELECT * FROM walks"):
                values = from_json(text) if check_sum == _check_sum(text) else None
                if values and values[0] == walk_id and values[_OK] in lists:
                    values[_OK] = lists[values[_OK]]
                    lines.append(_line_in(values))
                else:
                    wrong = _DAMAGED
            return wrong


def _opened(path: Path, mode: str) -> sqlite3.Connection:
    address = f"{path.absolute().as_uri()}?mode={mode}"
    return sqlite3.connect(address, timeout=_BUSY_S, isolation_level=None, uri=True)


def _write(path: Path, lines: Mapping[str, WalkLine | None]) -> None:
    with closing(_opened(path, "rwc")) as database:
        database.execute("PRAGMA synchronous=OFF")
        database.execute("BEGIN IMMEDIATE")
        for table in _TABLES:
            database.execute(table)
        database.execute(f"PRAGMA user_version={_FORM}")
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
            text = _text_of(line, digests[line.ok])
            database.execute(
                "INSERT OR REPLACE INTO walks VALUES (?, ?, ?)", (walk_id, text, _check_sum(text))
            )
        database.execute("COMMIT")


def _text_of(line: WalkLine, ok: str) -> str:
    """The line as JSON, the digest of the list in place of `ok`."""
    values: list[Any] = list(line)
    values[_OK] = ok
    values[_TITLES] = [
        title if isinstance(title, str) else title.model_dump(mode="json", exclude_defaults=True)
        for title in line.titles
    ]
    for at in _TIMES:
        values[at] = values[at] and values[at].isoformat()
    # A path in what is said of trouble may hold half a character, which is no JSON for everyone.
    return json.dumps(values, ensure_ascii=False).encode(errors="replace").decode()


def _line_in(values: list[Any]) -> WalkLine:
    """The line that `_text_of` wrote these values of, its list of `ok` put back."""
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
