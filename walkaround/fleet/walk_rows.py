"""The database rows of walks, as COPY reads them; they can be made in any process.

Each walk is read, its seals are checked and its events are folded once; its facts come from that
one fold. A process returns bytes that are sent to the database unchanged.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

import orjson

from walkaround.base.errors import NotNowError
from walkaround.base.garbage_collection import garbage_collection_off
from walkaround.base.message import Text, message
from walkaround.exchange.record_file import Copy, photos_of
from walkaround.exchange.share import Shared, copies_of
from walkaround.exchange.shop_key import ShopKey
from walkaround.exchange.signatures import canonical_json
from walkaround.fleet.tables import COPY_COLUMNS, FACT_COLUMNS
from walkaround.library.languages import message_files
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import WalkReader
from walkaround.report.facts import report_facts
from walkaround.report.tables import walk_row
from walkaround.walk.advance import states
from walkaround.walk.seals import GENESIS
from walkaround.walk.state import Walk
from walkaround.words.language import Words


@dataclass(frozen=True, slots=True)
class WalkGroup:
    """Walks to make rows of.

    Attributes:
        data: their data folder.
        ids: the ids that all their copies are stored under, in order.
        database_tips: the last seal of each copy that the database has, by the walk.
    """

    data: Path
    ids: tuple[str, ...]
    database_tips: Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True)
class WalkRows:
    """The rows of one copy of a walk that the database does not have.

    Attributes:
        walk_id, tip: its key in the database; `tip` is the seal of its last event.
        only_copy: the database has no copy of the walk, and there is no other one here.
        photos: the digests of its photos.
        events, facts: lines as COPY reads them, in the order of EVENT_COLUMNS and of walk, tip,
            place and FACT_COLUMNS.
        copy: its row of `copies`.
        signatures: its rows of `signatures`.
    """

    walk_id: str
    tip: str
    only_copy: bool
    photos: tuple[str, ...]
    events: bytes
    facts: bytes
    copy: tuple[Any, ...]
    signatures: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class GroupRows:
    """The rows of a group of walks.

    Attributes:
        new: the rows of each copy that is new to the database.
        same: the number of copies that the database has.
        left_out: why a walk was left out, by its id.
    """

    new: tuple[WalkRows, ...]
    same: int
    left_out: dict[str, Text]


def prepare_group(group: WalkGroup) -> GroupRows:
    """Make the rows of some walks.

    Raises:
        MachineError: this shop's key cannot be read.
    """
    shared, new, same = Shared(), list[WalkRows](), 0
    reader, photos, key = _opened_data(group.data)
    with garbage_collection_off():
        copies = list(copies_of(reader, photos, group.ids, key, shared))
        walks = [copy.walk_id for copy in copies]
        for copy in copies:
            tips = group.database_tips.get(copy.walk_id, frozenset())
            if copy.seals[-1] in tips:
                same += 1
                continue
            try:
                walk_states = states(copy.events)
            except NotNowError as error:
                why = message("walk-not-understood", walk=copy.walk_id, why=error.text)
                shared.left_out[copy.walk_id] = why
                continue
            only_copy = not tips and walks.count(copy.walk_id) == 1
            new.append(_walk_rows(copy, walk_states, only_copy=only_copy))
    return GroupRows(tuple(new), same, shared.left_out)


@cache
def _opened_data(data: Path) -> tuple[WalkReader, PhotoFolder, ShopKey]:
    return WalkReader(data), PhotoFolder(data), ShopKey.of(data)


@cache
def _english() -> Words:
    """English words: views compare names of facts, whichever language a depot reads."""
    return Words("en", message_files("en"))


def _walk_rows(copy: Copy, walk_states: Sequence[Walk], *, only_copy: bool) -> WalkRows:
    walk, tip = replace(walk_states[-1], id=copy.walk_id), copy.seals[-1]
    # The depot is the shop that signed it whole, which made it if it came from elsewhere.
    whole_signatures = [one for one in copy.signed if one.entries == len(copy.rows)]
    row = walk_row(walk)
    row |= {"tip": tip, "depot": whole_signatures[0].shop if whole_signatures else ""}
    row |= {"last_utc": row["last_answer_utc"] or row["began_utc"]}
    return WalkRows(
        copy.walk_id,
        tip,
        only_copy,
        tuple(photos_of(copy.rows)),
        _lines(_events(copy)),
        _lines(_facts(walk, tip, walk_states)),
        tuple(_storable(row[name]) for name in COPY_COLUMNS),
        tuple((copy.walk_id, one.key, one.tip, canonical_json(one.row())) for one in copy.signed),
    )


def _events(copy: Copy) -> Iterator[Sequence[str]]:
    before = GENESIS
    for row in copy.rows:
        digest = row["digest"]
        yield copy.walk_id, digest, before, str(row["seq"]), _escaped(_body(row))
        before = digest


def _body(row: Mapping[str, Any]) -> str:
    with suppress(TypeError):
        return orjson.dumps(row).decode()
    # With escapes: a row may have a lone surrogate, which a database does not accept.
    return json.dumps(row)


def _facts(walk: Walk, tip: str, walk_states: Sequence[Walk]) -> Iterator[Sequence[str]]:
    for place, fact in enumerate(report_facts(walk, _english(), walk_states=walk_states)):
        cells = [_NULL if (value := fact[name]) is None else _cell(value) for name in FACT_COLUMNS]
        yield (walk.id, tip, str(place), *cells)


_NULL = r"\N"
"""How COPY writes NULL."""


def _cell(value: str | float) -> str:
    if isinstance(value, str):
        if value.isascii() and value.isprintable() and "\\" not in value:
            return value
        return _escaped(_storable(value))
    # A float with all its digits, as psycopg writes it.
    return ("t" if value else "f") if isinstance(value, bool) else repr(value)


def _escaped(text: str) -> str:
    """Escape a text for COPY, in which a tab or a line end separates values."""
    if "\\" in text:
        text = text.replace("\\", "\\\\")
    if text.isprintable():
        return text
    return text.replace("\t", "\\t").replace("\n", "\\n").replace("\r", "\\r")


def _lines(rows: Iterable[Sequence[str]]) -> bytes:
    return "".join("\t".join(row) + "\n" for row in rows).encode()


def _storable(value: Any) -> Any:
    """Make a text storable: the database accepts no zero byte and no lone surrogate."""
    if not isinstance(value, str) or (value.isascii() and "\0" not in value):
        return value
    return value.replace("\0", "").encode("utf-8", "replace").decode()
