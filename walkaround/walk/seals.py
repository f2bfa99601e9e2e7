"""The seals of a walk's events: digests that are chained, each to the one before.

The seal of an event is the SHA-256 digest (FIPS 180-4) of the seal before it and of the event's own
fields as JSON with sorted keys. So a byte that changed, an event left out, put in or moved, by a
disk or by hand, is found: its seal, or that of the next one, does not fit any more. What follows
cannot be told from an invention, so the first event that does not fit ends what is known to be
good.

What the seals cannot show: events missing at the end, since nothing comes after them; and who wrote
them. There is no key in them: whoever rewrites every event from the first change on can seal them
anew. Only a copy that somebody else has kept shows that.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Mapping
from typing import Annotated, Any, TypeVar, cast

import orjson
from pydantic import Field, TypeAdapter

from walkaround.airhold.verdict import JUDGED_BY
from walkaround.base.clock import Moment
from walkaround.base.plaintext import one_line, some_lines
from walkaround.walk.events import Event, Happened, HoldEnded, Noted, Signed

GENESIS = "0" * 64
"""What the first event of every walk is chained to."""

_EVENT: TypeAdapter[Event] = TypeAdapter(Annotated[Event, Field(discriminator="kind")])
_E = TypeVar("_E", bound=Happened)


def seal(kind: type[_E], after: Event | None, *, id: str, at: Moment, who: str, **body: Any) -> _E:
    """Return the event that follows `after`, with its number and digest.

    Args:
        kind: the event's class.
        after: the event before it, None for the first.
        id: 32 hex digits, new for each event.
        at: when it happened.
        who: who did it.
        body: the other fields of `kind`.

    What people typed is sealed without the characters in it that are not seen.
    """
    if kind is Noted and isinstance(body.get("text"), str):
        body["text"] = some_lines(body["text"])
    if kind is Signed and isinstance(body.get("name"), str):
        body["name"] = one_line(body["name"])
    if kind is HoldEnded:
        body.setdefault("judged_by", JUDGED_BY)
    seq = after.seq + 1 if after else 0
    row = kind(seq=seq, id=id, at=at, who=one_line(who), digest=GENESIS, **body).model_dump(
        mode="json"
    )
    row["digest"] = _digest(row, after.digest if after else GENESIS)
    # Made anew from the row, so that every field of it is set, and `event_json` gives them all.
    return kind.model_validate(row)


def event_json(event: Event) -> dict[str, Any]:
    """Return the event as JSON values: exactly what was sealed.

    Of an event that an earlier version sealed these are the fields which that version knew, so
    that the digest fits what is handed on as it fits what is stored.
    """
    return event.model_dump(mode="json", exclude_unset=True)


def good_events(rows: Iterable[object], after: Event | None = None) -> tuple[Event, ...]:
    """Return the longest run of stored events that parse, follow and fit their digest.

    Args:
        rows: events as stored.
        after: the event that the first of them follows; None if it begins the walk.
    """
    good: list[Event] = []
    before = after
    for row in rows:
        event = _parsed(row)
        if event is None or event.seq != (before.seq + 1 if before else 0):
            break
        if not fits_digest(cast(Mapping[str, Any], row), before.digest if before else GENESIS):
            break
        good.append(event)
        before = event
    return tuple(good)


def fits_digest(row: Mapping[str, Any], link: str) -> bool:
    """Tell whether a stored event is as it was sealed, whether or not this version knows its kind.

    Args:
        row: the event as stored.
        link: the seal of the event before it, `GENESIS` for the first.
    """
    if fits_as_quickly_written(row, link):
        return True
    try:
        return row.get("digest") == _digest(row, link)
    except (ValueError, RecursionError):
        # Half a character, or brackets without end: no seal was ever made of these.
        return False


def fits_as_quickly_written(row: Mapping[str, Any], link: str) -> bool:
    """Tell whether it fits as orjson writes it, which but for figures such as 1e-05 is as sealed.

    Then orjson writes each value of it as it was sealed, in whatever order they stand.
    """
    body = {key: value for key, value in row.items() if key != "digest"}
    try:
        quick = orjson.dumps(body, option=orjson.OPT_SORT_KEYS)
    except TypeError:
        return False
    return bool(row.get("digest") == hashlib.sha256(f"{link}\n".encode() + quick).hexdigest())


def _parsed(row: object) -> Event | None:
    try:
        return _EVENT.validate_python(row)
    except ValueError:
        return None


def _digest(row: Mapping[str, Any], link: str) -> str:
    """Compute the digest of what was stored, not of what today's models make of it.

    A field that a later version adds with a default must not break the seal of older records.
    """
    body = {key: value for key, value in row.items() if key != "digest"}
    text = json.dumps(body, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(f"{link}\n{text}".encode()).hexdigest()
