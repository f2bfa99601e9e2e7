"""What the file of one walk says, and what can be saved of a damaged one.

The file holds two tables. `about` says in which form the rest is written; `events` holds the
walk's events in order, one on a line. Each event is sealed and chained to the one before (see
`events.py`), so that what fits together is known to be what was written.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from walkaround.errors import MachineError
from walkaround.events import Event, good_events, plain

Row = Mapping[str, Any]
Tables = dict[str, dict[str, Any]]

SCHEMA = 1
"""The form in which this version writes; a higher one was written by a later version."""

_ROW_STARTS = re.compile(r'\{\s*"seq"')


@dataclass(frozen=True, slots=True)
class WalkFile:
    """What was read of one walk.

    Attributes:
        rows: the events as stored, each following and fitting the one before.
        events: the same, parsed.
        sound: the file holds these and nothing else.
        damage: a sentence about damage it suffered in the past; empty if none.
    """

    rows: tuple[Row, ...]
    events: tuple[Event, ...]
    sound: bool
    damage: str = ""


def encode(tables: Tables) -> bytes:
    """The tables as JSON in UTF-8, one row on a line."""
    parts = [
        f"{json.dumps(name)}:{{\n" + ",\n".join(_line(key, row) for key, row in table.items())
        for name, table in tables.items()
    ]
    return ("{" + "\n},\n".join(parts) + "\n}}\n").encode() if parts else b"{}\n"


def tables_in(data: bytes) -> Tables | None:
    """The tables, None if this is not what `encode` makes."""
    try:
        tables = json.loads(data)
    except (ValueError, RecursionError):
        return None
    return tables if isinstance(tables, dict) and all(map(_is_table, tables.values())) else None


def new_tables(rows: Sequence[Row], damage: str = "") -> Tables:
    """The tables of a walk with these events."""
    about = {"schema": SCHEMA, "form": _form(SCHEMA), "damage": damage}
    return {"about": {"1": about}, "events": {str(row["seq"] + 1): dict(row) for row in rows}}


def rows_of(events: Iterable[Event]) -> tuple[Row, ...]:
    """The events as they are stored."""
    return tuple(plain(event) for event in events)


def read_sound(data: bytes) -> WalkFile | None:
    """Read a walk from its file; None if the file is not all sound.

    Raises:
        MachineError: a later version wrote it.
    """
    tables = tables_in(data)
    if tables is None:
        return None
    about = tables.get("about", {}).get("1", {})
    _refuse_later(about.get("schema"), about.get("form"))
    if about.get("form") != _form(SCHEMA) or set(tables) != {"about", "events"}:
        return None
    rows = tuple(tables["events"].values())
    events = good_events(rows)
    in_order = list(tables["events"]) == [str(number + 1) for number in range(len(rows))]
    if not events or len(events) < len(rows) or not in_order:
        return None
    return WalkFile(rows, events, True, str(about.get("damage", "")))


def read_damaged(now: bytes | None, before: bytes | None) -> WalkFile:
    """Put together the longest run of events from what is left of two files.

    Both are beginnings of the same run, so where one has a hole the other may fill it.

    Args:
        now: what the walk's file holds; None if it is gone.
        before: what it held before its last change; None if that is gone.
    """
    by_seq = {row["seq"]: row for row in _scan(now)}
    older = _scan(before)
    known_good = {row["seq"]: row for row in older[: len(good_events(older))]}
    runs = [_in_order(by_seq), _in_order({**by_seq, **known_good})]
    rows, events = max(((run, good_events(run)) for run in runs), key=lambda found: len(found[1]))
    return WalkFile(tuple(rows[: len(events)]), events, False)


def _refuse_later(schema: object, form: object) -> None:
    """Refuse a later form. It is written down twice, so that one bad bit cannot make it later."""
    if isinstance(schema, int) and schema > SCHEMA and form == _form(schema):
        raise MachineError("A later version of walkaround wrote this walk; update this one.")


def _in_order(by_seq: Mapping[int, Row]) -> list[Row]:
    return [by_seq[seq] for seq in sorted(by_seq)]


def _scan(data: bytes | None) -> list[Row]:
    """Every whole row in a file, sound or not."""
    text = (data or b"").decode(errors="replace")
    decoder = json.JSONDecoder()
    rows = []
    for start in _ROW_STARTS.finditer(text):
        try:
            row, _ = decoder.raw_decode(text, start.start())
        except (ValueError, RecursionError):
            continue
        if type(row.get("seq")) is int:
            rows.append(row)
    return rows


def _form(schema: int) -> str:
    return f"walkaround walk, schema {schema}"


def _line(key: str, row: Row) -> str:
    return f"{json.dumps(key)}:{json.dumps(row, ensure_ascii=False, separators=(',', ':'))}"


def _is_table(table: object) -> bool:
    return isinstance(table, dict) and all(
        key.isdecimal() and isinstance(row, dict) for key, row in table.items()
    )
