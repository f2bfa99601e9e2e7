"""Publishing: the walks of this data folder put into a fleet's database.

Walks go in groups, each in one transaction: its rows arrive by COPY in tables of their own and are
then put beside what is there, by the walk's id and the event's seal. So a group is there whole or
not at all, a second time changes nothing, and depots do not get in each other's way. Where the
link drops, the group is sent again.
"""

from __future__ import annotations

import json
import logging
import time
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby, islice
from typing import Any
from uuid import uuid4

import psycopg
from psycopg import Connection, sql

from walkaround.base.errors import NotNowError
from walkaround.base.message import Text, message
from walkaround.exchange.record_file import Copy, photos_of
from walkaround.exchange.share import Shared, copies_of
from walkaround.exchange.shop_key import ShopKey
from walkaround.exchange.signatures import canonical
from walkaround.fleet.link import again, connected, told
from walkaround.fleet.tables import COPY_COLUMNS, EVENT_COLUMNS, FACT_COLUMNS, bring_up_to_date
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import WalkReader
from walkaround.records.walk_line import original_id
from walkaround.report.facts import report_facts
from walkaround.report.tables import walk_row
from walkaround.walk.advance import fold
from walkaround.walk.seals import GENESIS
from walkaround.walk.state import Walk
from walkaround.words.language import Words

WALKS_AT_ONCE = 50
TRIES = 5
"""How often a group is sent before its link is given up."""

_log = logging.getLogger(__name__)


@dataclass(slots=True)
class Published:
    """What became of the walks.

    Attributes:
        walks, facts: how many are new there.
        same: how many walks were there already as they are here.
        left_out: why a walk was not published, by its id.
    """

    walks: int = 0
    facts: int = 0
    same: int = 0
    left_out: dict[str, Text] = field(default_factory=dict)


def publish(
    address: str, reader: WalkReader, photos: PhotoFolder, key: ShopKey, words: Words,
    again_s: float = 2.0,
) -> Published:  # fmt: skip
    """Publish every walk of a data folder, with its copies and photos.

    Args:
        address: of the database, `postgresql://...`.
        reader, photos: of the data folder.
        key: of this shop, which signs what nobody has signed.
        words: the language of what facts are called in the tables.
        again_s: how long to wait before a group is sent again, longer each time.

    Raises:
        InputError: this is no address of a database.
        MachineError: it cannot be reached, or the link dropped too often. What was published stays.
    """
    published, sender = Published(), _Sender(reader, photos, key, words)
    link = connected(address)
    try:
        with told(address):
            bring_up_to_date(link)
            walks = (list(group) for _, group in groupby(reader.ids(), original_id))
            while group := list(islice(walks, WALKS_AT_ONCE)):
                for attempt in range(1, TRIES + 1):
                    try:
                        if link.closed:
                            link = again(address)
                        sent = sender.send(link, [id_ for copies in group for id_ in copies])
                        break
                    except psycopg.OperationalError:
                        if attempt == TRIES:
                            raise
                        # No word of why: it may hold more than the log should.
                        _log.warning("The fleet's database is tried again in %g s.", again_s)
                        time.sleep(again_s * attempt)
                published.walks += sent.walks
                published.facts += sent.facts
                published.same += sent.same
                published.left_out |= sent.left_out
    finally:
        link.close()
    return published


class _Sender:
    """Sends one group of walks after another."""

    def __init__(self, reader: WalkReader, photos: PhotoFolder, key: ShopKey, words: Words) -> None:
        self._reader = reader
        self._photos = photos
        self._key = key
        self._words = words

    def send(self, link: Connection, ids: Sequence[str]) -> Published:
        sent, shared, new = Published(), Shared(), list[tuple[Copy, Walk]]()
        run, walks = uuid4().hex, sorted({original_id(id_) for id_ in ids})
        there = "SELECT walk, tip FROM walkaround.copies WHERE walk = ANY(%s)"
        with link.transaction():
            known = set(link.execute(there, [walks]).fetchall())
            for copy in copies_of(self._reader, self._photos, ids, self._key, shared):
                if (copy.walk_id, copy.seals[-1]) in known:
                    sent.same += 1
                    continue
                try:
                    new.append((copy, replace(fold(copy.events), id=copy.walk_id)))
                except NotNowError as error:
                    why = message("walk-not-understood", walk=copy.walk_id, why=error.text)
                    sent.left_out[copy.walk_id] = why
            sent.left_out |= shared.left_out
            if new:
                self._put_photos(link, [copy for copy, _ in new])
                copied = [copy for copy, _ in new]
                _arrive(link, run, "events", EVENT_COLUMNS, _events(copied), "walk, digest")
                columns = ("walk", "tip", "place", *FACT_COLUMNS)
                rows = self._facts(new)
                sent.facts = _arrive(link, run, "facts", columns, rows, "walk, tip, place")
                sent.walks = len(new)
                self._put_copies(link, new)
                _supersede(link, walks)
        return sent

    def _facts(self, new: Iterable[tuple[Copy, Walk]]) -> Iterator[tuple[Any, ...]]:
        for copy, walk in new:
            tip = copy.seals[-1]
            for place, fact in enumerate(report_facts(walk, self._words)):
                told_of = (fact.get(name) for name in FACT_COLUMNS)
                yield (copy.walk_id, tip, place, *map(_storable, told_of))

    def _put_photos(self, link: Connection, copies: Iterable[Copy]) -> None:
        walk_of_photo = {photo: copy.walk_id for copy in copies for photo in photos_of(copy.rows)}
        there = "SELECT photo FROM walkaround.photos WHERE photo = ANY(%s)"
        present = (
            {row[0] for row in link.execute(there, [sorted(walk_of_photo)])}
            if walk_of_photo
            else set()
        )
        for photo in sorted(walk_of_photo.keys() - present):
            jpeg = self._photos.read(walk_of_photo[photo], photo)
            put = "INSERT INTO walkaround.photos VALUES (%s, %s) ON CONFLICT DO NOTHING"
            link.execute(put, [photo, jpeg])

    def _put_copies(self, link: Connection, new: Iterable[tuple[Copy, Walk]]) -> None:
        copies, signatures = list[tuple[Any, ...]](), list[tuple[str, ...]]()
        for copy, walk in new:
            row, tip = walk_row(walk), copy.seals[-1]
            # Who signed it whole: the shop that made it, if it came from elsewhere.
            whole = [one for one in copy.signed if one.entries == len(copy.rows)]
            told_of: dict[str, Any] = {
                "tip": tip,
                "depot": whole[0].shop if whole else "",
                "last_utc": row["last_answer_utc"] or row["began_utc"],
            }
            copies.append(tuple(_storable((row | told_of)[name]) for name in COPY_COLUMNS))
            for one in copy.signed:
                signatures.append((copy.walk_id, one.key, one.tip, canonical(one.row())))
        with link.cursor() as cursor:
            put = "INSERT INTO walkaround.{} VALUES ({}) ON CONFLICT DO NOTHING"
            for table, rows in (("copies", copies), ("signatures", signatures)):
                blanks = ", ".join(["%s"] * len(rows[0]))
                cursor.executemany(put.format(table, blanks), sorted(rows))


def _arrive(
    link: Connection,
    run: str,
    table: str,
    columns: Sequence[str],
    rows: Iterable[Sequence[Any]],
    order: str,
) -> int:
    """Let rows arrive by COPY, and put those that are new beside the others; tell how many."""
    names = {
        "names": sql.SQL(", ").join(map(sql.Identifier, columns)),
        "table": sql.Identifier("walkaround", table),
        "arriving": sql.Identifier("walkaround", f"arriving_{table}"),
        "order": sql.SQL(order),
    }
    with link.cursor() as cursor:
        copy_in = sql.SQL("COPY {arriving} (run, {names}) FROM STDIN").format(**names)
        with cursor.copy(copy_in) as copy:
            for row in rows:
                copy.write_row((run, *row))
        # In order, so that two depots with the same walks wait for each other, not for ever.
        put = "INSERT INTO {table} ({names}) SELECT {names} FROM {arriving} WHERE run = %s"
        put += " ORDER BY {order} ON CONFLICT DO NOTHING"
        cursor.execute(sql.SQL(put).format(**names), [run])
        count = cursor.rowcount
        cursor.execute(sql.SQL("DELETE FROM {arriving} WHERE run = %s").format(**names), [run])
        return count


def _events(copies: Iterable[Copy]) -> Iterator[tuple[Any, ...]]:
    for copy in copies:
        before = GENESIS
        for row in copy.rows:
            # Letters as their codes: a database takes no half character, which a row may hold.
            yield copy.walk_id, row["digest"], before, row["seq"], json.dumps(row)
            before = row["digest"]


def _supersede(link: Connection, walks: Sequence[str]) -> None:
    """Take away the facts of copies that have gone on since; the views leave them out anyway."""
    gone_on = """SELECT c.walk, c.tip FROM walkaround.copies c WHERE c.walk = ANY(%s) AND EXISTS (
        SELECT 1 FROM walkaround.events e WHERE e.walk = c.walk AND e.before = c.tip)"""
    for walk, tip in link.execute(gone_on, [walks]).fetchall():
        link.execute("DELETE FROM walkaround.facts WHERE walk = %s AND tip = %s", [walk, tip])


def _storable(value: Any) -> Any:
    """A text as the database takes it: no zero byte, no half character."""
    if not isinstance(value, str) or (value.isascii() and "\0" not in value):
        return value
    return value.replace("\0", "").encode("utf-8", "replace").decode()
