"""The file of one walk: how it is written, read, and recovered when damaged.

The file has two tables. `about` says in which format the rest is written; `events` has the walk's
events in order, one on a line. Each event is sealed and chained to the one before (see
`walk.seals`), so that events with a valid chain are known to be what was written.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import orjson

from walkaround.base.errors import MachineError
from walkaround.base.message import message
from walkaround.walk.events import Event
from walkaround.walk.seals import event_json, good_events

Row = Mapping[str, Any]
Tables = dict[str, dict[str, Any]]

SCHEMA = 1
"""The format that this version writes; a higher one was written by a later version."""

_ROW_STARTS = re.compile(r'\{\s*"seq"')


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a walk was brought from.

    Attributes:
        elsewhere: whether it began in another data folder, where its number comes from.
        signed: its signatures by shops, as stored, see `exchange.signatures`.
    """

    elsewhere: bool = False
    signed: tuple[Row, ...] = ()

    def rows(self) -> Row:
        """Return what is stored of it; empty for a walk made here and signed by nobody."""
        elsewhere = {"elsewhere": True} if self.elsewhere else {}
        return elsewhere | ({"signed": [*self.signed]} if self.signed else {})


HERE = Origin()
"""The origin of a walk that was made in this data folder."""


@dataclass(frozen=True, slots=True)
class WalkFile:
    """The content of one walk's file.

    Attributes:
        rows: the events as stored, each chained to the one before.
        events: the same, parsed.
        sound: whether the file has these and nothing else.
        damage: a sentence about past damage; empty if there was none.
        origin: where the walk was brought from.
    """

    rows: tuple[Row, ...]
    events: tuple[Event, ...]
    sound: bool
    damage: str = ""
    origin: Origin = HERE


def json_text(row: Row) -> str:
    """Return a row as it is stored: one line of JSON."""
    return json.dumps(row, ensure_ascii=False, separators=(",", ":"))


def quick_text(row: Row) -> str:
    """Return a row as JSON, much faster; numbers such as 1e-05 differ from `json_text`.

    Raises:
        TypeError: this cannot write it, such as a lone surrogate.
    """
    return orjson.dumps(row).decode()


class Encoder:
    """Encodes the content of one file, again and again while it grows.

    The text of a sealed row is made once and stored under its digest. So a tap costs the text of
    one event, not of all events before it.
    """

    def __init__(self, text: Callable[[Row], str] = json_text) -> None:
        """Write each row with this function."""
        self._text_of = text
        self._sealed: dict[str, str] = {}

    def encode(self, tables: Tables) -> bytes:
        """Return the tables as JSON in UTF-8, one row on a line."""
        parts = [
            f"{json.dumps(name)}:{{\n"
            + ",\n".join(f'"{key}":{self._text(row)}' for key, row in table.items())
            for name, table in tables.items()
        ]
        text = "{" + "\n},\n".join(parts) + "\n}}\n" if parts else "{}\n"
        # A lone surrogate, which JSON may have and UTF-8 may not, is written as it was read.
        return text.encode("utf-8", "surrogatepass")

    def _text(self, row: Row) -> str:
        digest = row.get("digest")
        if digest is None:
            return json_text(row)
        if digest not in self._sealed:
            self._sealed[digest] = self._text_of(row)
        return self._sealed[digest]


def tables_in(data: bytes) -> Tables | None:
    """Parse the tables; return None if this is not what an `Encoder` makes."""
    try:
        tables = json.loads(data)
    except (ValueError, RecursionError):
        return None
    if not isinstance(tables, dict):
        return None
    for table in tables.values():
        if not isinstance(table, dict) or not all(map(str.isdecimal, table)):
            return None
        if not all(isinstance(row, dict) for row in table.values()):
            return None
    return tables


def new_tables(rows: Sequence[Row], damage: str = "", origin: Origin = HERE) -> Tables:
    """Make the tables of a walk with these events."""
    about = {"schema": SCHEMA, "form": _form(SCHEMA), "damage": damage, **origin.rows()}
    return {"about": {"1": about}, "events": {str(row["seq"] + 1): dict(row) for row in rows}}


def rows_of(events: Iterable[Event]) -> tuple[Row, ...]:
    """Return the events as they are stored."""
    return tuple(event_json(event) for event in events)


def read_sound(data: bytes) -> WalkFile | None:
    """Parse a walk's file; return None if the file is damaged.

    Raises:
        MachineError: a later version wrote it.
    """
    tables = tables_in(data)
    if tables is None:
        return None
    about = tables.get("about", {}).get("1", {})
    schema, form, damage = about.get("schema"), about.get("form"), str(about.get("damage", ""))
    # The version is stored twice, so that one wrong bit cannot change it.
    if isinstance(schema, int) and schema > SCHEMA and form == _form(schema):
        raise MachineError(message("walk-of-a-later-version"))
    if form != _form(SCHEMA) or set(tables) != {"about", "events"}:
        return None
    rows = tuple(tables["events"].values())
    events = good_events(rows)
    if not events or len(events) < len(rows):
        return None
    # Seals prove that no event was changed; the rest of the file must be as it was written too.
    origin = _origin(about)
    if not _is_written_as(new_tables(rows, damage, origin), data):
        return None
    return WalkFile(rows, events, True, damage, origin)


def _is_written_as(tables: Tables, data: bytes) -> bool:
    with suppress(TypeError):
        if Encoder(quick_text).encode(tables) == data:
            return True
    return Encoder().encode(tables) == data


def read_damaged(current: bytes | None, previous: bytes | None) -> WalkFile:
    """Recover the longest chain of events from a damaged file and its backup.

    Both are beginnings of the same chain, so one may have an event that the other has lost.

    Args:
        current: the content of the walk's file; None if it is missing.
        previous: the content of its backup; None if it is missing.
    """
    rows_at: dict[int, list[Row]] = {}
    for row in [*_find_rows(current), *_find_rows(previous)]:
        rows_at.setdefault(row["seq"], []).append(row)
    rows: list[Row] = []
    events: list[Event] = []
    while True:
        previous_event = events[-1] if events else None
        for row in rows_at.get(len(events), []):
            if fitting := good_events([row], previous_event):
                rows.append(row)
                events += fitting
                break
        else:
            tables = [tables_in(data) or {} for data in (current, previous) if data is not None]
            origins = [_origin(each.get("about", {}).get("1", {})) for each in tables]
            origin = next((each for each in origins if each != HERE), HERE)
            return WalkFile(tuple(rows), tuple(events), False, origin=origin)


def _origin(about: Row) -> Origin:
    signed = about.get("signed")
    rows = signed if isinstance(signed, list) else []
    is_valid = all(isinstance(row, dict) for row in rows)
    return Origin(about.get("elsewhere") is True, tuple(rows) if is_valid else ())


def _find_rows(data: bytes | None) -> list[Row]:
    """Find every complete row in a file, also in a damaged one."""
    text = (data or b"").decode(errors="replace")
    decoder = json.JSONDecoder()
    starts = [start.start() for start in _ROW_STARTS.finditer(text)]
    rows = []
    # A row ends before the next one begins; reading further takes very long if starts are nested.
    for start, end in pairwise([*starts, len(text)]):
        try:
            row, _ = decoder.raw_decode(text[start:end])
        except (ValueError, RecursionError):
            continue
        if type(row.get("seq")) is int:
            rows.append(row)
    return rows


def _form(schema: int) -> str:
    return f"walkaround walk, schema {schema}"
