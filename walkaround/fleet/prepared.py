"""What a fleet's database takes of some walks, made in any process: rows as COPY reads them.

Each walk is read, its seals are checked and it is folded once; its facts come from that one fold. A
process gives back bytes that are handed to the database as they are.
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
from walkaround.exchange.signatures import canonical
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
class Group:
    """Walks to make rows of.

    Attributes:
        data: the data folder that they are in.
        ids: what every copy of each is kept under, in order.
        there: the last seal of each copy that the database has, by the walk.
    """

    data: Path
    ids: tuple[str, ...]
    there: Mapping[str, frozenset[str]]


@dataclass(frozen=True, slots=True)
class Ready:
    """What the database takes of one copy of a walk that it does not have.

    Attributes:
        walk_id, tip: its key there; `tip` is the seal of its last event.
        alone: nothing of the walk is there, nor is another copy of it here.
        photos: digests of those that it took.
        events, facts: lines as COPY reads them, in the order of EVENT_COLUMNS and of walk, tip,
            place and FACT_COLUMNS.
        copy: its row of `copies`.
        signatures: its rows of `signatures`.
    """

    walk_id: str
    tip: str
    alone: bool
    photos: tuple[str, ...]
    events: bytes
    facts: bytes
    copy: tuple[Any, ...]
    signatures: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class Prepared:
    """What came of a group of walks.

    Attributes:
        ready: the copies that are new to the database.
        same: how many of them it has.
        left_out: why a walk is not among them, by its id.
    """

    ready: tuple[Ready, ...]
    same: int
    left_out: dict[str, Text]


def prepared(group: Group) -> Prepared:
    """Make the rows of some walks.

    Raises:
        MachineError: this shop's key cannot be read.
    """
    shared, ready, same = Shared(), list[Ready](), 0
    reader, photos, key = _of(group.data)
    with garbage_collection_off():
        several = list(copies_of(reader, photos, group.ids, key, shared))
        walks = [copy.walk_id for copy in several]
        for copy in several:
            tips = group.there.get(copy.walk_id, frozenset())
            if copy.seals[-1] in tips:
                same += 1
                continue
            try:
                along = states(copy.events)
            except NotNowError as error:
                why = message("walk-not-understood", walk=copy.walk_id, why=error.text)
                shared.left_out[copy.walk_id] = why
                continue
            alone = not tips and walks.count(copy.walk_id) == 1
            ready.append(_ready(copy, along, alone=alone))
    return Prepared(tuple(ready), same, shared.left_out)


@cache
def _of(data: Path) -> tuple[WalkReader, PhotoFolder, ShopKey]:
    return WalkReader(data), PhotoFolder(data), ShopKey.of(data)


@cache
def _english() -> Words:
    """Views ask for what facts are called, whichever language a depot reads."""
    return Words("en", message_files("en"))


def _ready(copy: Copy, along: Sequence[Walk], *, alone: bool) -> Ready:
    walk, tip = replace(along[-1], id=copy.walk_id), copy.seals[-1]
    # Who signed it whole: the shop that made it, if it came from elsewhere.
    whole = [one for one in copy.signed if one.entries == len(copy.rows)]
    row = walk_row(walk)
    row |= {"tip": tip, "depot": whole[0].shop if whole else ""}
    row |= {"last_utc": row["last_answer_utc"] or row["began_utc"]}
    return Ready(
        copy.walk_id,
        tip,
        alone,
        tuple(photos_of(copy.rows)),
        _lines(_events(copy)),
        _lines(_facts(walk, tip, along)),
        tuple(_storable(row[name]) for name in COPY_COLUMNS),
        tuple((copy.walk_id, one.key, one.tip, canonical(one.row())) for one in copy.signed),
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
    # Letters as their codes: a database takes no half character, which a row may hold.
    return json.dumps(row)


def _facts(walk: Walk, tip: str, along: Sequence[Walk]) -> Iterator[Sequence[str]]:
    for place, fact in enumerate(report_facts(walk, _english(), along=along)):
        cells = [
            _NOTHING if (value := fact[name]) is None else _cell(value) for name in FACT_COLUMNS
        ]
        yield (walk.id, tip, str(place), *cells)


_NOTHING = r"\N"
"""How COPY reads that there is no value."""


def _cell(value: str | float) -> str:
    if isinstance(value, str):
        if value.isascii() and value.isprintable() and "\\" not in value:
            return value
        return _escaped(_storable(value))
    # A float to its last digit, as psycopg writes it.
    return ("t" if value else "f") if isinstance(value, bool) else repr(value)


def _escaped(text: str) -> str:
    """A text as COPY reads it, in which a tab or the end of a line would end it."""
    if "\\" in text:
        text = text.replace("\\", "\\\\")
    if text.isprintable():
        return text
    return text.replace("\t", "\\t").replace("\n", "\\n").replace("\r", "\\r")


def _lines(rows: Iterable[Sequence[str]]) -> bytes:
    return "".join("\t".join(row) + "\n" for row in rows).encode()


def _storable(value: Any) -> Any:
    """A text as the database takes it: no zero byte, no half character."""
    if not isinstance(value, str) or (value.isascii() and "\0" not in value):
        return value
    return value.replace("\0", "").encode("utf-8", "replace").decode()
