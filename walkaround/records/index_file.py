"""What the file of one month of the index says: a line for each walk, each with a check sum.

The index holds nothing that the walks do not hold, so a damaged line is no loss. But a line that
is wrong could hide a defect: one bad bit must be seen, and the line made anew from its walk.
"""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any
from zlib import crc32

from pydantic_core import from_json

from walkaround.records.walk_file import Row, Tables, json_text
from walkaround.records.walk_line import WalkLine, line_in, values_of

SCHEMA = 2
"""The form in which this version writes; an index of any other form is made anew."""

_OK = WalkLine._fields.index("ok")
_CRC = b',"crc":"'
_CRC_BYTES = len(_CRC) + len('00000000"}')


@dataclass(frozen=True, slots=True)
class Index:
    """What was read of the index of one month.

    Attributes:
        lines: by the walk's id; those that cannot be trusted are left out.
        folder_ns: when the folder of that month's walks had last changed as this was written, in
            nanoseconds; 0 if a walk may have changed since without a trace.
        sound: it is just what `index_tables` makes.
    """

    lines: dict[str, WalkLine] = field(default_factory=dict)
    folder_ns: int = 0
    sound: bool = True


def index_tables(lines: Iterable[WalkLine], folder_ns: int) -> Tables:
    """The tables of a month's index. Walks mostly share their list of OK steps: it is said once."""
    lists: dict[tuple[str, ...], int] = {}
    walks: dict[str, Row] = {}
    for line in lines:
        values = values_of(line)
        values[_OK] = lists.setdefault(line.ok, len(lists))
        walks[str(len(walks) + 1)] = _checked({"line": values})
    shared = {str(at + 1): _checked({"at": at, "ok": list(ok)}) for ok, at in lists.items()}
    about = {"schema": SCHEMA, "folder_ns": folder_ns, "walks": len(walks), "lists": len(lists)}
    return {"about": {"1": _checked(about)}, "lists": shared, "walks": walks}


def index_in(data: bytes) -> Index:
    """What can be trusted of a month's index."""
    # Nothing of this is thrown away in circles, and looking for such costs twice what reading does.
    collecting = gc.isenabled()
    gc.disable()
    try:
        rows, frame = _rows(data)
        about: dict[str, Any] = next((row for row in rows if "schema" in row), {})
        lists = {row["at"]: row["ok"] for row in rows if "at" in row}
        lines = dict(_lines(rows, lists)) if about.get("schema", SCHEMA) == SCHEMA else {}
    finally:
        if collecting:
            gc.enable()
    counts = len(lists), len(lines)
    sound = (about.get("lists"), about.get("walks")) == counts and frame == _frame(*counts)
    return Index(lines, about["folder_ns"] if sound else 0, sound)


def _rows(data: bytes) -> tuple[list[dict[str, Any]], list[bytes]]:
    """The rows whose check sums fit, and what stands on the file's lines beside them."""
    rows: list[dict[str, Any]] = []
    frame: list[bytes] = []
    for text in data.split(b"\n"):
        start, end = text.find(b"{"), text.rfind(_CRC)
        body = text[start:end] + b"}" if 0 <= start < end else b""
        whole = end + _CRC_BYTES
        if body and text[end:whole] == b'%s%08x"}' % (_CRC, crc32(body)):
            rows.append(from_json(body))
            text = text[:start] + text[whole:]
        frame.append(text)
    return rows, frame


def _lines(
    rows: Iterable[dict[str, Any]], lists: Mapping[int, list[str]]
) -> Iterator[tuple[str, WalkLine]]:
    shared = {at: tuple(ok) for at, ok in lists.items()}
    for row in rows:
        # A row of another version is as good as none.
        with suppress(LookupError, TypeError, ValueError):
            values = row["line"]
            values[_OK] = shared[values[_OK]]
            line = line_in(values)
            yield line.id, line


def _frame(lists: int, walks: int) -> list[bytes]:
    """The file's lines without the rows on them."""

    def rows(count: int) -> list[bytes]:
        texts = [b'"%d":%s' % (n, b"," if n < count else b"") for n in range(1, count + 1)]
        return texts or [b""]

    return [
        *(b'{"about":{', *rows(1), b"},"),
        *(b'"lists":{', *rows(lists), b"},"),
        *(b'"walks":{', *rows(walks), b"}}", b""),
    ]


def _checked(row: Row) -> Row:
    return {**row, "crc": f"{crc32(json_text(row).encode()):08x}"}
