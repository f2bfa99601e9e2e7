"""Pulling: the walks of one vehicle merged from a fleet's database into the records here.

Whoever may write to the database may change what it stores. So the walks are written as an unsigned
record file, and merged like any such file: the chain, signatures and photos of each walk are
checked, and a walk that fails is refused alone, by its id.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any
from uuid import uuid4

from psycopg import Connection

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message
from walkaround.disk import locations
from walkaround.disk.durable import TEMPORARY, make_folder, write_error
from walkaround.exchange.merge import Merged, merge
from walkaround.exchange.record_file import Copy, photos_of, write_record_file
from walkaround.exchange.signatures import signatures_in
from walkaround.fleet.connection import connect, connection_errors
from walkaround.records.open_walks import OpenWalks
from walkaround.records.store import WalkStore
from walkaround.records.walk_line import is_walk_id, original_id
from walkaround.walk.seals import GENESIS, good_events


def pull(address: str, vehicle: str, data: Path, store: WalkStore, open_walks: OpenWalks) -> Merged:
    """Pull every walk of a vehicle.

    Args:
        address: the address of the database.
        vehicle: the vehicle's id, plate or VIN.
        data, store, open_walks: the data folder, and the objects that write in it.

    Raises:
        InputError: there is no walk of such a vehicle, or no such address.
        MachineError: the database cannot be reached, or a walk cannot be saved.
    """
    folder = locations.sharing(data)
    make_folder(folder)
    path = folder / f"{uuid4().hex}.zip{TEMPORARY}"
    try:
        with connection_errors(address), connect(address) as connection:
            walks_query = """SELECT DISTINCT walk FROM walkaround.copies
                WHERE vehicle_id = %s OR plate = %s OR vin = %s ORDER BY walk"""
            walks = [row[0] for row in connection.execute(walks_query, [vehicle] * 3)]
            walks = [walk for walk in walks if is_walk_id(walk) and original_id(walk) == walk]
            if not walks:
                what, mend = message("fleet-no-walk"), message("fleet-name-a-vehicle")
                raise InputError([Problem(message("argument"), vehicle, what, mend)])
            photo_ids = set[str]()
            try:
                write_record_file(
                    path,
                    _copies(connection, walks, photo_ids),
                    _photos(connection, photo_ids),
                    None,
                )
            except OSError as error:
                raise write_error(error, path) from error
        return merge([path], data, store, open_walks, vehicle)
    finally:
        with suppress(OSError):
            path.unlink(missing_ok=True)


def _copies(connection: Connection, walks: Sequence[str], photo_ids: set[str]) -> Iterator[Copy]:
    for walk in walks:
        events_query = "SELECT digest, before, body FROM walkaround.events WHERE walk = %s"
        events = {
            digest: (before, body)
            for digest, before, body in connection.execute(events_query, [walk])
        }
        signatures_query = "SELECT body FROM walkaround.signatures WHERE walk = %s"
        bodies = [_parsed(row[0]) for row in connection.execute(signatures_query, [walk])]
        signatures = [one for one in signatures_in(bodies) if one is not None]
        last_seals = sorted(events.keys() - {before for before, _ in events.values()})
        chains = [_chain(end, events) for end in last_seals]
        sealed = {seal for seals, _ in chains for seal in seals if seals[0] == GENESIS}
        for seals, rows in chains:
            # A signature of an event that is in no whole chain shows that the walk was cut.
            signed = tuple(one for one in signatures if one.tip in seals or one.tip not in sealed)
            photo_ids.update(photos_of(rows[: len(good_events(rows))]))
            yield Copy(walk, rows, signed)


def _chain(end: str, events: dict[str, tuple[str, str]]) -> tuple[list[str], tuple[Any, ...]]:
    """Collect the events that lead to the one with this seal, as far as the database has them.

    Returns:
        The seal before the first event and the seal of each, and the events.
    """
    seals, rows, at = [end], list[Any](), end
    while at in events and len(rows) <= len(events):
        at, body = events[at]
        seals.append(at)
        row = _parsed(body)
        rows.append(row if isinstance(row, dict) else {})
    return seals[::-1], tuple(rows[::-1])


def _photos(connection: Connection, photo_ids: set[str]) -> Iterator[tuple[str, bytes]]:
    for photo in sorted(photo_ids):
        photo_query = "SELECT jpeg FROM walkaround.photos WHERE photo = %s"
        for row in connection.execute(photo_query, [photo]):
            yield photo, bytes(row[0])


def _parsed(body: str) -> Any:
    try:
        return json.loads(body)
    except (ValueError, RecursionError):
        return None
