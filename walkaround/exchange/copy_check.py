"""The check of one walk of a record file: its chain of events and its signatures.

Each fault is a sentence. The photos and signatures of a walk follow from its sealed events, so none
can be swapped, and a signed walk cannot be cut.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import orjson

from walkaround.base.message import Message, message
from walkaround.exchange.record_file import Copy
from walkaround.exchange.shop_key import is_signed_by, shop_label, short_key
from walkaround.exchange.signatures import MOST_SIGNATURES, Signature, signatures_in
from walkaround.records.walk_line import is_walk_id, original_id
from walkaround.walk.events import Began, Event
from walkaround.walk.seals import GENESIS, fits_digest, good_events


@dataclass(frozen=True, slots=True)
class CheckedCopy:
    """A walk of a record file.

    Attributes:
        copy: the walk, up to its last valid event.
        events: its valid events, parsed.
        faults: everything wrong with it; empty if it is as it was shared.
    """

    copy: Copy
    events: tuple[Event, ...]
    faults: tuple[Message, ...]


def check_copy(line: bytes, place: int) -> CheckedCopy:
    """Check a line of a record file, except that its photos are in the file.

    Args:
        line: the line.
        place: the number of the line, from 1.
    """
    try:
        row = orjson.loads(line)
    except ValueError:
        # The standard library's reader accepts what may have been shared too, such as a lone
        # surrogate.
        try:
            row = json.loads(line)
        except (ValueError, RecursionError):
            row = None
    if not _is_copy(row):
        unreadable = message("exchange-line-unreadable", place=place)
        return CheckedCopy(Copy("", ()), (), (unreadable,))
    walk_id, rows = row["walk"], row["events"]
    events = good_events(rows)
    faults = list(_chain_faults(walk_id, rows, events))
    first = events[0] if events else None
    if isinstance(first, Began) and first.walk != walk_id:
        faults.append(message("exchange-walk-renamed", walk=walk_id, other=first.walk[:40]))
    copy = Copy(walk_id, tuple(rows[: len(events)]))
    seals, valid = copy.seals, list[Signature]()
    for signature in signatures_in(row["signed"]):
        if signature is not None and signature.holds(walk_id, seals):
            valid.append(signature)
        else:
            faults.append(_signature_fault(walk_id, signature, seals))
    return CheckedCopy(Copy(walk_id, copy.rows, tuple(valid)), events, tuple(faults))


def _is_copy(row: Any) -> bool:
    return (
        isinstance(row, dict)
        and set(row) == {"walk", "events", "signed"}
        and isinstance(row["walk"], str)
        and is_walk_id(row["walk"])
        and original_id(row["walk"]) == row["walk"]
        and isinstance(row["events"], list)
        and len(row["events"]) > 0
        and all(isinstance(event, dict) for event in row["events"])
        and isinstance(row["signed"], list)
        and len(row["signed"]) <= MOST_SIGNATURES
    )


def _chain_faults(
    walk_id: str, rows: Sequence[dict[str, Any]], events: Sequence[Event]
) -> Sequence[Message]:
    if len(events) == len(rows):
        return ()
    bad, link = rows[len(events)], events[-1].digest if events else GENESIS
    arguments: dict[str, str | int] = {
        "walk": walk_id,
        "number": len(events) + 1,
        "count": len(rows),
    }
    if bad.get("seq") == len(events) and fits_digest(bad, link):
        return (message("exchange-entry-of-later-version", **arguments),)
    return (message("exchange-chain-cut", **arguments),)


def _signature_fault(walk_id: str, bad: Signature | None, seals: Sequence[str]) -> Message:
    if bad is None:
        return message("exchange-signature-unreadable", walk=walk_id)
    arguments = {"walk": walk_id, "shop": shop_label(bad.shop), "key": short_key(bad.key)}
    if not is_signed_by(bad.key, bad.text(walk_id), bad.signature):
        return message("exchange-signature-forged", **arguments)
    if bad.entries > len(seals):
        return message("exchange-walk-cut", signed=bad.entries, count=len(seals), **arguments)
    return message("exchange-changed-since", **arguments)
