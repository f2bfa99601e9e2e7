"""Publishing: the walks of this data folder put into a fleet's database.

Walks go in heaps, each in one transaction, so a batch is there whole or not at all. What is new
there arrives by COPY; of a walk of which something is there, rows arrive by COPY in tables of their
own and are then put beside the others, by the walk's id and the event's seal. So a second time
changes nothing, and depots do not get in each other's way. Where the link drops, the batch is sent
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
from walkaround.exchange.processes import processes_at_hand, work_in_processes
from walkaround.exchange.shop_key import ShopKey
from walkaround.fleet.link import again, connected, link_errors
from walkaround.fleet.prepared import Group, Ready, prepared
from walkaround.fleet.tables import COPY_COLUMNS, EVENT_COLUMNS, FACT_COLUMNS, bring_up_to_date
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import WalkReader
from walkaround.records.walk_line import original_id

WALKS_AT_ONCE = 50
FEW_GROUPS = 8
"""So many are made ready before another process would have started."""
MOST_BATCH_BYTES = 2_000_000
"""Of rows that are sent in one transaction, unless one group has more."""
TRIES = 5
"""How often a batch is sent before its link is given up."""

_SIGNATURE_COLUMNS = ("walk", "shop_key", "tip", "body")
_T = TypeVar("_T")
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


def publish(address: str, data: Path, again_s: float = 2.0) -> Published:
    """Publish every walk of a data folder, with its copies and photos.

    This shop signs what nobody has signed.

    Args:
        address: of the database, `postgresql://...`.
        data: the data folder.
        again_s: how long to wait before a batch is sent again, longer each time.

    Raises:
        InputError: this is no address of a database.
        MachineError: it cannot be reached, or the link dropped too often. What was published stays.
    """
    published, batch, batch_bytes = Published(), list[Ready](), 0
    # Made here if there is none: several processes would make several.
    ShopKey.of(data)
    sender = _Sender(address, connected(address), PhotoFolder(data), again_s)
    try:
        with link_errors(address):
            bring_up_to_date(sender.link)
            groups = _groups(WalkReader(data))
            first = list(islice(groups, FEW_GROUPS))
            processes = processes_at_hand() if len(first) == FEW_GROUPS else 1
            to_prepare = (sender.asked(data, ids) for ids in chain(first, groups))
            for _, made in work_in_processes(prepared, to_prepare, processes):
                published.same += made.same
                published.left_out |= made.left_out
                batch += made.ready
                batch_bytes += sum(len(each.events) + len(each.facts) for each in made.ready)
                if batch_bytes > MOST_BATCH_BYTES:
                    published.facts += sender.sent(batch)
                    published.walks += len(batch)
                    batch, batch_bytes = [], 0
            if batch:
                published.facts += sender.sent(batch)
                published.walks += len(batch)
    finally:
        sender.link.close()
    return published


def _groups(reader: WalkReader) -> Iterator[tuple[str, ...]]:
    """What the copies of so many walks are kept under, all of a walk in one group."""
    walks = (list(copies) for _, copies in groupby(reader.ids(), original_id))
    while group := list(islice(walks, WALKS_AT_ONCE)):
        yield tuple(chain.from_iterable(group))


@dataclass
class _Sender:
    """Asks the database and sends rows to it, on a new link where one drops."""

    address: str
    link: Connection
    photos: PhotoFolder
    again_s: float

    def asked(self, data: Path, ids: tuple[str, ...]) -> Group:
        """These walks, with what the database has of them."""
        walks, there = sorted({*map(original_id, ids)}), dict[str, frozenset[str]]()

        def ask(link: Connection) -> Sequence[Any]:
            tips = "SELECT walk, tip FROM walkaround.copies WHERE walk = ANY(%s)"
            return link.execute(tips, [walks]).fetchall()

        for walk, tip in self._tried(ask):
            there[walk] = there.get(walk, frozenset()) | {tip}
        return Group(data, ids, there)

    def sent(self, batch: Sequence[Ready]) -> int:
        """Send what is new in one transaction; tell how many facts are new there."""
        alone = [each for each in batch if each.alone]
        others = [each for each in batch if not each.alone]

        def send(link: Connection) -> int:
            nonlocal alone, others
            try:
                with link.transaction():
                    return self._put(link, alone, others)
            except psycopg.errors.UniqueViolation:
                # Another depot has sent one of these walks since the database was asked.
                alone, others = [], [*batch]
            with link.transaction():
                return self._put(link, alone, others)

        return self._tried(send)

    def _tried(self, work: Callable[[Connection], _T]) -> _T:
        attempt = 0
        while True:
            try:
                if self.link.closed:
                    self.link = again(self.address)
                return work(self.link)
            except psycopg.OperationalError:
                # A link that dropped in the middle of a copy may look as if it were still there.
                self.link.close()
                attempt += 1
                if attempt == TRIES:
                    raise
                # No word of why: it may hold more than the log should.
                _log.warning("The fleet's database is tried again in %g s.", self.again_s)
                time.sleep(self.again_s * attempt)

    def _put(self, link: Connection, alone: Sequence[Ready], others: Sequence[Ready]) -> int:
        self._put_photos(link, [*alone, *others])
        columns, count = ("walk", "tip", "place", *FACT_COLUMNS), 0
        with link.cursor() as cursor:
            if alone:
                _copied(cursor, "events", EVENT_COLUMNS, _events(alone))
                count += _copied(cursor, "facts", columns, (each.facts for each in alone))
                for table, names, rows in _small(alone):
                    with cursor.copy(_COPY.format(**_names(table, table, names))) as copy:
                        for row in rows:
                            copy.write_row(row)
            if others:
                _arrived(cursor, "events", EVENT_COLUMNS, _events(others), "walk, digest")
                facts = (each.facts for each in others)
                count += _arrived(cursor, "facts", columns, facts, "walk, tip, place")
                put = "INSERT INTO walkaround.{} VALUES ({}) ON CONFLICT DO NOTHING"
                for table, names, rows in _small(others):
                    blanks = ", ".join(["%s"] * len(names))
                    cursor.executemany(put.format(table, blanks), sorted(rows))
                _supersede(link, [each.walk_id for each in others])
        return count

    def _put_photos(self, link: Connection, copies: Iterable[Ready]) -> None:
        taken = {photo: copy.walk_id for copy in copies for photo in copy.photos}
        there = "SELECT photo FROM walkaround.photos WHERE photo = ANY(%s)"
        known = {row[0] for row in link.execute(there, [sorted(taken)])} if taken else set()
        for photo in sorted(taken.keys() - known):
            jpeg = self.photos.read(taken[photo], photo)
            put = "INSERT INTO walkaround.photos VALUES (%s, %s) ON CONFLICT DO NOTHING"
            link.execute(put, [photo, jpeg])


def _events(copies: Iterable[Ready]) -> Iterator[bytes]:
    return (copy.events for copy in copies)


def _small(
    copies: Iterable[Ready],
) -> Iterator[tuple[str, Sequence[str], list[tuple[Any, ...]]]]:
    """Tables of a few rows a walk: their names, columns and rows."""
    yield "copies", COPY_COLUMNS, [each.copy for each in copies]
    yield "signatures", _SIGNATURE_COLUMNS, [row for each in copies for row in each.signatures]


_COPY = sql.SQL("COPY {arriving} ({names}) FROM STDIN")


def _names(table: str, arriving: str, columns: Iterable[str]) -> dict[str, sql.Composable]:
    return {
        "names": sql.SQL(", ").join(map(sql.Identifier, columns)),
        "table": sql.Identifier("walkaround", table),
        "arriving": sql.Identifier("walkaround", arriving),
    }


def _copied(cursor: Cursor, table: str, columns: Sequence[str], rows: Iterable[bytes]) -> int:
    """Copy rows that are new into their table; tell how many they were."""
    with cursor.copy(_COPY.format(**_names(table, table, columns))) as copy:
        for lines in rows:
            copy.write(lines)
    return cursor.rowcount


def _arrived(
    cursor: Cursor, table: str, columns: Sequence[str], rows: Iterable[bytes], order: str
) -> int:
    """Let rows arrive, and put those that are new beside the others; tell how many."""
    run, arriving = uuid4().hex, f"arriving_{table}"
    with cursor.copy(_COPY.format(**_names(table, arriving, ("run", *columns)))) as copy:
        for lines in rows:
            # An end of a line is that of a row: within one it is written otherwise.
            copy.write(b"".join(b"%s\t%s" % (run.encode(), row) for row in lines.splitlines(True)))
    names = _names(table, arriving, columns)
    # In order, so that two depots with the same walks wait for each other, not for ever.
    put = "INSERT INTO {table} ({names}) SELECT {names} FROM {arriving} WHERE run = %s"
    put += f" ORDER BY {order} ON CONFLICT DO NOTHING"
    cursor.execute(sql.SQL(put).format(**names), [run])
    count = cursor.rowcount
    cursor.execute(sql.SQL("DELETE FROM {arriving} WHERE run = %s").format(**names), [run])
    return count


def _supersede(link: Connection, walks: Sequence[str]) -> None:
    """Take away the facts of copies that have gone on since; the views leave them out anyway."""
    gone_on = """SELECT c.walk, c.tip FROM walkaround.copies c WHERE c.walk = ANY(%s) AND EXISTS (
        SELECT 1 FROM walkaround.events e WHERE e.walk = c.walk AND e.before = c.tip)"""
    for walk, tip in link.execute(gone_on, [walks]).fetchall():
        link.execute("DELETE FROM walkaround.facts WHERE walk = %s AND tip = %s", [walk, tip])
