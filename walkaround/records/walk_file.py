"""What the file of one walk says, and what can be saved of a damaged one.

The file holds two tables. `about` says in which form the rest is written; `events` holds the
walk's events in order, one on a line. Each event is sealed and chained to the one before (see
`events.py`), so that what fits together is known to be what was written.
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
"""The form in which this version writes; a higher one was written by a later version."""

_ROW_STARTS = re.compile(r'\{\s*"seq"')


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a walk was brought from.

    Attributes:
        elsewhere: it began in another data folder, whose order its number tells.
        signed: what shops have signed of it, as `exchange.signatures` has it.
    """

    elsewhere: bool = False
    signed: tuple[Row, ...] = ()

    def rows(self) -> Row:
        """Write it as a walk's file holds it; of a walk made here and signed by none nothing."""
        elsewhere = {"elsewhere": True} if self.elsewhere else {}
        return elsewhere | ({"signed": [*self.signed]} if self.signed else {})


HERE = Origin()
"""Of a walk that was made in this data folder."""


@dataclass(frozen=True, slots=True)
class WalkFile:
    """What was read of one walk.

    Attributes:
        rows: the events as stored, each following and fitting the one before.
        events: the same, parsed.
        sound: the file holds these and nothing else.
        damage: a sentence about damage it suffered in the past; empty if none.
        origin: where it was brought from, if not made in this data folder.
    """

    rows: tuple[Row, ...]
    events: tuple[Event, ...]
    sound: bool
    damage: str = ""
    origin: Origin = HERE


def json_text(row: Row) -> str:
    """Write a row as it is stored: one line of JSON."""
    return json.dumps(row, ensure_ascii=False, separators=(",", ":"))


def quick_text(row: Row) -> str:
    """Write a row much faster; figures such as 1e-05 come out otherwise than by `json_text`.

    Raises:
        TypeError: it holds what this cannot write, such as half a character.
    """
    return orjson.dumps(row).decode()


class Encoder:
    """Makes the bytes of one file, again and again while it grows.

    The text of a sealed row is made once and kept: its digest says that it is the same row. So
    a tap costs the text of one event, not of all that were before it.
    """

    def __init__(self, text: Callable[[Row], str] = json_text) -> None:
        """Write each row by this function."""
        self._text_of = text
        self._sealed: dict[str, str] = {}

    def encode(self, tables: Tables) -> bytes:
        """Write the tables as JSON in UTF-8, one row on a line."""
        parts = [
            f"{json.dumps(name)}:{{\n"
            + ",\n".join(f'"{key}":{self._text(row)}' for key, row in table.items())
            for name, table in tables.items()
        ]
        text = "{" + "\n},\n".join(parts) + "\n}}\n" if parts else "{}\n"
        # What JSON may hold and UTF-8 may not, half a character, goes back as it came.
        return text.encode("utf-8", "surrogatepass")

    def _text(self, row: Row) -> str:
        digest = row.get("digest")
        if digest is None:
            return json_text(row)
        if digest not in self._sealed:
            self._sealed[digest] = self._text_of(row)
        return self._sealed[digest]


def tables_in(data: bytes) -> Tables | None:
    """Read the tables; None if this is not what an `Encoder` makes."""
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
    """Write the events as they are stored."""
    return tuple(event_json(event) for event in events)


def read_sound(data: bytes) -> WalkFile | None:
    """Read a walk from its file; None if the file is not all sound.

    Raises:
        MachineError: a later version wrote it.
    """
    tables = tables_in(data)
    if tables is None:
        return None
    about = tables.get("about", {}).get("1", {})
    schema, form, damage = about.get("schema"), about.get("form"), str(about.get("damage", ""))
    # That it is later is written down twice, so that one bad bit cannot make it so.
    if isinstance(schema, int) and schema > SCHEMA and form == _form(schema):
        raise MachineError(message("walk-of-a-later-version"))
    if form != _form(SCHEMA) or set(tables) != {"about", "events"}:
        return None
    rows = tuple(tables["events"].values())
    events = good_events(rows)
    if not events or len(events) < len(rows):
        return None
    # Seals say that no event was changed; what else is in the file must be as it is written too.
    origin = _origin(about)
    if not _is_written_so(new_tables(rows, damage, origin), data):
        return None
    return WalkFile(rows, events, True, damage, origin)


def _is_written_so(tables: Tables, data: bytes) -> bool:
    with suppress(TypeError):
        if Encoder(quick_text).encode(tables) == data:
            return True
    return Encoder().encode(tables) == data


def read_damaged(now: bytes | None, before: bytes | None) -> WalkFile:
    """Put together the longest run of events from what is left of two files.

    Both are beginnings of the same run, so where one has a hole the other may fill it.

    Args:
        now: what the walk's file holds; None if it is gone.
        before: what it held before its last change; None if that is gone.
    """
    rows_at: dict[int, list[Row]] = {}
    for row in [*_scan(now), *_scan(before)]:
        rows_at.setdefault(row["seq"], []).append(row)
    rows: list[Row] = []
    events: list[Event] = []
    while True:
        after = events[-1] if events else None
        for row in rows_at.get(len(events), []):
            if fitting := good_events([row], after):
                rows.append(row)
                events += fitting
                break
        else:
            tables = [tables_in(data) or {} for data in (now, before) if data is not None]
            origins = [_origin(each.get("about", {}).get("1", {})) for each in tables]
            origin = next((each for each in origins if each != HERE), HERE)
            return WalkFile(tuple(rows), tuple(events), False, origin=origin)


def _origin(about: Row) -> Origin:
    signed = about.get("signed")
    rows = signed if isinstance(signed, list) else []
    good = all(isinstance(row, dict) for row in rows)
    return Origin(about.get("elsewhere") is True, tuple(rows) if good else ())


def _scan(data: bytes | None) -> list[Row]:
    """Find every whole row in a file, sound or not."""
    text = (data or b"").decode(errors="replace")
    decoder = json.JSONDecoder()
    starts = [start.start() for start in _ROW_STARTS.finditer(text)]
    rows = []
    # A row ends before the next one begins; looking further takes ages where starts are nested.
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
