"""Walks as they lie on disk, read and listed beside whoever writes there: no lock, no change.

The index is a list of lines kept so that a list of walks need not read each walk. Its lines tell
by the size of the walk's file whether they are stale, and stale ones are made anew from the
walk, so that a lost or late index costs time, never a walk.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from pydantic import ValidationError

from walkaround import locations
from walkaround.errors import InputError, MachineError, NotNowError, Problem
from walkaround.events import Event
from walkaround.files import read_error, read_file
from walkaround.lines import WalkLine, line_of, line_without, month_of
from walkaround.walk import fold
from walkaround.walkfile import WalkFile, read_damaged, read_sound, tables_in

_MONTH = re.compile(r"[0-9]{4}-[0-9]{2}")
_FILE = ".json"
_BEFORE = ".prev"


@dataclass(frozen=True, slots=True)
class Loaded:
    """A walk as read: its events, and one sentence about damage if its file suffered any."""

    events: tuple[Event, ...]
    notice: str = ""


class WalkReader:
    """Walks of a data folder, read beside whoever writes there: no lock, no change."""

    def __init__(self, data: Path) -> None:
        self._walks = locations.walks(data)
        self._index = locations.index(data)

    def load(self, walk_id: str) -> Loaded:
        """Read a walk.

        Raises:
            InputError: there is no such walk.
            MachineError: its file cannot be opened, or a later version wrote it.
        """
        return self._loaded(walk_id, self._read(walk_id))

    def lines(self, months: int | None = None) -> tuple[WalkLine, ...]:
        """A line for each walk, newest first.

        Args:
            months: of the latest so many months with walks; None for all.

        Raises:
            MachineError: the folder of walks cannot be read.
        """
        try:
            folders = sorted(_months_in(self._walks), reverse=True)[:months]
            lines = [line for month in folders for line in self._month(month)]
        except OSError as error:
            raise read_error(error, self._walks) from error
        return tuple(sorted(lines, key=lambda line: line.id, reverse=True))

    def _month(self, month: str) -> list[WalkLine]:
        known = self._indexed(month)
        return [self._line(walk_id, known) for walk_id in self._walk_ids(month)]

    def _walk_ids(self, month: str) -> list[str]:
        """Walks of which there is a file, or at least the one kept before its last change."""
        files = (self._walks / month).glob("*.json*")
        found = {name for file in files for name in [_named(file.name)] if _is_in(name, month)}
        return sorted(found)

    def _indexed(self, month: str) -> dict[str, WalkLine]:
        """The lines that the index holds; one that cannot be read is left to be made anew."""
        lines = {}
        with suppress(MachineError):
            tables = tables_in(read_file(self._index_path(month)) or b"{}") or {}
            for row in tables.get("walks", {}).values():
                with suppress(ValidationError):
                    line = WalkLine.model_validate(row)
                    lines[line.id] = line
        return lines

    def _line(self, walk_id: str, known: Mapping[str, WalkLine]) -> WalkLine:
        """The known line, unless the walk's file has grown since or something was wrong with it."""
        line = known.get(walk_id)
        size = file_bytes(self._path(walk_id))
        fresh = line and line.file_bytes == size and not line.trouble
        return line if line and fresh else self._new_line(walk_id, size)

    def _new_line(self, walk_id: str, size: int) -> WalkLine:
        try:
            loaded = self._loaded(walk_id, self._read(walk_id))
            if not loaded.events:
                return line_without(walk_id, size, loaded.notice)
            return line_of(fold(loaded.events), size, loaded.notice)
        except (MachineError, InputError, NotNowError) as error:
            return line_without(walk_id, size, str(error))

    def _path(self, walk_id: str) -> Path:
        return self._walks / month_of(walk_id) / f"{walk_id}{_FILE}"

    def _index_path(self, month: str) -> Path:
        return self._index / f"{month}.json"

    def _read(self, walk_id: str) -> WalkFile:
        path = self._path(walk_id)
        now = read_file(path)
        found = read_sound(now) if now is not None else None
        if found:
            return found
        before = read_file(kept_before(path))
        if now is None and before is None:
            raise InputError([Problem("walk", walk_id, "there is no such walk", "list the walks")])
        return read_damaged(now, before)

    def _loaded(self, walk_id: str, found: WalkFile) -> Loaded:
        notice = found.damage
        if not found.events:
            notice = (
                f"Nothing of walk {walk_id} can be read; its file is left as it is, "
                f"at {self._path(walk_id)}."
            )
        elif not found.sound:
            notice = f"{damage(walk_id, found)}."
        return Loaded(found.events, notice)


def kept_before(path: Path) -> Path:
    """Where a walk's file as it was before its last change is kept."""
    return path.with_name(path.name + _BEFORE)


def damage(walk_id: str, found: WalkFile) -> str:
    """What to tell people of a damaged file, as a sentence without its full stop."""
    return (
        f"The file of walk {walk_id} was damaged: its first {len(found.events)} entries fit "
        "together and are kept, anything after them is lost"
    )


def file_bytes(path: Path) -> int:
    """The size of a file, 0 if there is none."""
    return path.stat().st_size if path.exists() else 0


def _months_in(walks: Path) -> list[str]:
    found = walks.iterdir() if walks.is_dir() else ()
    return [folder.name for folder in found if _MONTH.fullmatch(folder.name)]


def _named(file: str) -> str:
    return file.removesuffix(_BEFORE).removesuffix(_FILE)


def _is_in(name: str, month: str) -> bool:
    try:
        return month_of(name) == month
    except InputError:
        return False
