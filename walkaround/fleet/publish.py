"""Publishing: the walks of this data folder sent to a fleet's database.

Walks are sent in batches, each in one transaction, so a batch is stored whole or not at all. New
walks are copied into the tables. If the database has something of a walk, its rows are copied into
staging tables and then merged by the walk's id and the event's seal. So sending a walk twice
changes nothing, and depots do not disturb each other. If the connection drops, the batch is sent
again.
"""

from __future__ import annotations

import logging
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import chain, groupby, islice
from pathlib import Path
from typing import Any, TypeVar
from uuid import uuid4

import psycopg
from psycopg import Connection, Cursor, sql

from walkaround.base.message import Text
from walkaround.exchange.processes import usable_processes, work_in_processes
from walkaround.exchange.shop_key import ShopKey
from walkaround.fleet.connection import connect, connection_errors, reconnect
from walkaround.fleet.tables import COPY_COLUMNS, EVENT_COLUMNS, FACT_COLUMNS, bring_up_to_date
from walkaround.fleet.walk_rows import WalkGroup, WalkRows, prepare_group
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import WalkReader
from walkaround.records.walk_line import original_id

WALKS_AT_ONCE = 50
FEW_GROUPS = 8
"""This many are prepared before another process would have started."""
MOST_BATCH_BYTES = 2_000_000
"""The most bytes of rows in one transaction, unless one group has more."""
TRIES = 5
"""How often a batch is sent before the connection is given up."""

_SIGNATURE_COLUMNS = ("walk", "shop_key", "tip", "body")
_T = TypeVar("_T")
_log = logging.getLogger(__name__)


@dataclass(slots=True)
class Published:
    """The result of publishing.

    Attributes:
        walks, facts: how many were new to the database.
        same: how many walks the database had already.
        left_out: why a walk was not published, by its id.
    """

    walks: int = 0
    facts: int = 0
    same: int = 0
    left_out: dict[str, Text] = field(default_factory=dict)


def publish(address: str, data: Path, retry_wait_s: float = 2.0) -> Published:
    """Publish every walk of a data folder, with its copies and photos.

    This shop signs what nobody has signed.

    Args:
        address: the address of the database, `postgresql://...`.
        data: the data folder.
        retry_wait_s: how long to wait before a batch is sent again, longer each time.

    Raises:
        InputError: this is no address of a database.
        MachineError: the database cannot be reached, or the connection dropped too often. What was
            published stays.
    """
    published, batch, batch_bytes = Published(), list[WalkRows](), 0
    # The key is made here if there is none: several processes would make several.
    ShopKey.of(data)
    sender = _Sender(address, connect(address), PhotoFolder(data), retry_wait_s)
    try:
        with connection_errors(address):
            bring_up_to_date(sender.connection)
            groups = _groups(WalkReader(data))
            first = list(islice(groups, FEW_GROUPS))
            process_count = usable_processes() if len(first) == FEW_GROUPS else 1
            walk_groups = (sender.group(data, ids) for ids in chain(first, groups))
            for _, group_rows in work_in_processes(prepare_group, walk_groups, process_count):
                published.same += group_rows.same
                published.left_out |= group_rows.left_out
                batch += group_rows.new
                batch_bytes += sum(len(each.events) + len(each.facts) for each in group_rows.new)
                if batch_bytes > MOST_BATCH_BYTES:
                    published.facts += sender.send(batch)
                    published.walks += len(batch)
                    batch, batch_bytes = [], 0
            if batch:
                published.facts += sender.send(batch)
                published.walks += len(batch)
    finally:
        sender.connection.close()
    return published


def _groups(reader: WalkReader) -> Iterator[tuple[str, ...]]:
    """Group the ids that walks are stored under, all copies of a walk in one group."""
    walks = (list(copies) for _, copies in groupby(reader.ids(), original_id))
    while group := list(islice(walks, WALKS_AT_ONCE)):
        yield tuple(chain.from_iterable(group))


@dataclass
class _Sender:
    """Queries the database and sends rows to it; reconnects if the connection drops."""

    address: str
    connection: Connection
    photos: PhotoFolder
    retry_wait_s: float

    def group(self, data: Path, ids: tuple[str, ...]) -> WalkGroup:
        """Return these walks, with the copies that the database has of them."""
        walks, database_tips = sorted({*map(original_id, ids)}), dict[str, frozenset[str]]()

        def query(connection: Connection) -> Sequence[Any]:
            tips_query = "SELECT walk, tip FROM walkaround.copies WHERE walk = ANY(%s)"
            return connection.execute(tips_query, [walks]).fetchall()

        for walk, tip in self._retry(query):
            database_tips[walk] = database_tips.get(walk, frozenset()) | {tip}
        return WalkGroup(data, ids, database_tips)

    def send(self, batch: Sequence[WalkRows]) -> int:
        """Send a batch in one transaction; return the number of facts that were new."""
        new_walks = [each for each in batch if each.only_copy]
        other_walks = [each for each in batch if not each.only_copy]

        def send_once(connection: Connection) -> int:
            nonlocal new_walks, other_walks
            try:
                with connection.transaction():
                    return self._insert(connection, new_walks, other_walks)
            except psycopg.errors.UniqueViolation:
                # Another depot has sent one of these walks since the query.
                new_walks, other_walks = [], [*batch]
            with connection.transaction():
                return self._insert(connection, new_walks, other_walks)

        return self._retry(send_once)

    def _retry(self, work: Callable[[Connection], _T]) -> _T:
        attempt = 0
        while True:
            try:
                if self.connection.closed:
                    self.connection = reconnect(self.address)
                return work(self.connection)
            except psycopg.OperationalError:
                # A connection that dropped in the middle of a copy may seem to be open still.
                self.connection.close()
                attempt += 1
                if attempt == TRIES:
                    raise
                # Without the reason: it may contain what must not be logged.
                _log.warning("The fleet's database is tried again in %g s.", self.retry_wait_s)
                time.sleep(self.retry_wait_s * attempt)

    def _insert(
        self, connection: Connection, new_walks: Sequence[WalkRows], other_walks: Sequence[WalkRows]
    ) -> int:
        self._insert_photos(connection, [*new_walks, *other_walks])
        columns, count = ("walk", "tip", "place", *FACT_COLUMNS), 0
        with connection.cursor() as cursor:
            if new_walks:
                _copy_rows(cursor, "events", EVENT_COLUMNS, _events(new_walks))
                count += _copy_rows(cursor, "facts", columns, (each.facts for each in new_walks))
                for table, names, rows in _small_tables(new_walks):
                    with cursor.copy(_COPY.format(**_names(table, table, names))) as copy:
                        for row in rows:
                            copy.write_row(row)
            if other_walks:
                _merge_rows(cursor, "events", EVENT_COLUMNS, _events(other_walks), "walk, digest")
                facts = (each.facts for each in other_walks)
                count += _merge_rows(cursor, "facts", columns, facts, "walk, tip, place")
                insert = "INSERT INTO walkaround.{} VALUES ({}) ON CONFLICT DO NOTHING"
                for table, names, rows in _small_tables(other_walks):
                    blanks = ", ".join(["%s"] * len(names))
                    cursor.executemany(insert.format(table, blanks), sorted(rows))
                _delete_superseded(connection, [each.walk_id for each in other_walks])
        return count

    def _insert_photos(self, connection: Connection, copies: Iterable[WalkRows]) -> None:
        walk_of_photo = {photo: copy.walk_id for copy in copies for photo in copy.photos}
        photos_query = "SELECT photo FROM walkaround.photos WHERE photo = ANY(%s)"
        stored_photos = (
            {row[0] for row in connection.execute(photos_query, [sorted(walk_of_photo)])}
            if walk_of_photo
            else set()
        )
        for photo in sorted(walk_of_photo.keys() - stored_photos):
            jpeg = self.photos.read(walk_of_photo[photo], photo)
            insert = "INSERT INTO walkaround.photos VALUES (%s, %s) ON CONFLICT DO NOTHING"
            connection.execute(insert, [photo, jpeg])


def _events(copies: Iterable[WalkRows]) -> Iterator[bytes]:
    return (copy.events for copy in copies)


def _small_tables(
    copies: Iterable[WalkRows],
) -> Iterator[tuple[str, Sequence[str], list[tuple[Any, ...]]]]:
    """Return the tables with few rows for each walk: their names, columns and rows."""
    yield "copies", COPY_COLUMNS, [each.copy for each in copies]
    yield "signatures", _SIGNATURE_COLUMNS, [row for each in copies for row in each.signatures]


_COPY = sql.SQL("COPY {arriving} ({names}) FROM STDIN")


def _names(table: str, copy_target: str, columns: Iterable[str]) -> dict[str, sql.Composable]:
    return {
        "names": sql.SQL(", ").join(map(sql.Identifier, columns)),
        "table": sql.Identifier("walkaround", table),
        "arriving": sql.Identifier("walkaround", copy_target),
    }


def _copy_rows(cursor: Cursor, table: str, columns: Sequence[str], rows: Iterable[bytes]) -> int:
    """Copy new rows into their table; return how many they were."""
    with cursor.copy(_COPY.format(**_names(table, table, columns))) as copy:
        for lines in rows:
            copy.write(lines)
    return cursor.rowcount


def _merge_rows(
    cursor: Cursor, table: str, columns: Sequence[str], rows: Iterable[bytes], order: str
) -> int:
    """Copy rows into a staging table, and insert those that are new; return how many."""
    run, staging_table = uuid4().hex, f"arriving_{table}"
    with cursor.copy(_COPY.format(**_names(table, staging_table, ("run", *columns)))) as copy:
        for lines in rows:
            # A line end is the end of a row: within a row it is escaped.
            copy.write(b"".join(b"%s\t%s" % (run.encode(), row) for row in lines.splitlines(True)))
    names = _names(table, staging_table, columns)
    # In order, so that two depots with the same walks do not deadlock.
    insert = "INSERT INTO {table} ({names}) SELECT {names} FROM {arriving} WHERE run = %s"
    insert += f" ORDER BY {order} ON CONFLICT DO NOTHING"
    cursor.execute(sql.SQL(insert).format(**names), [run])
    count = cursor.rowcount
    cursor.execute(sql.SQL("DELETE FROM {arriving} WHERE run = %s").format(**names), [run])
    return count


def _delete_superseded(connection: Connection, walks: Sequence[str]) -> None:
    """Delete the facts of copies that were continued since; the views leave them out anyway."""
    query = """SELECT c.walk, c.tip FROM walkaround.copies c WHERE c.walk = ANY(%s) AND EXISTS (
        SELECT 1 FROM walkaround.events e WHERE e.walk = c.walk AND e.before = c.tip)"""
    for walk, tip in connection.execute(query, [walks]).fetchall():
        connection.execute("DELETE FROM walkaround.facts WHERE walk = %s AND tip = %s", [walk, tip])
