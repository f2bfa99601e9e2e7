"""Very many walks, made quickly: in a data folder, nothing forced to the disk, or in a record file.

A walk of each vehicle is made by the product itself. The others of that vehicle are the same but
for their id, number and times, and are sealed anew here.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime, timedelta
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

import orjson
from support.walks import STEPS, FakeClock, Teller, plan, vehicle

from walkaround.disk import locations
from walkaround.exchange.record_file import Copy, write_record_file
from walkaround.exchange.shop_key import ShopKey
from walkaround.exchange.signatures import Signature
from walkaround.records.walk_file import Encoder, new_tables
from walkaround.records.walk_line import month_of
from walkaround.walk.events import Answered, Event, Finished
from walkaround.walk.seals import GENESIS, event_json
from walkaround.walk.state import Walk

VEHICLES = 50
FIRST = datetime(2020, 1, 1, 6, tzinfo=UTC)
STEP_S = 60.0
A_PLAN = plan(tuple(step for step in STEPS if step.id in ("tail_rear", "reflectors_rear")))


def fill(data: Path, count: int, minutes_apart: int, like: Walk | None = None) -> None:
    """So many finished walks, begun one after another.

    They are `like` a walk that is given, or else of two steps, each fiftieth with a defect. An
    hour's walks fit in a month of 720, a year of 8,760.
    """
    for walk_id, rows in _walks(count, minutes_apart, like):
        folder = locations.walks(data) / month_of(walk_id)
        if not folder.is_dir():
            folder.mkdir(parents=True)
        encoder, file = Encoder(), folder / f"{walk_id}.json"
        for path, there in ((file, rows), (file.with_name(file.name + ".prev"), rows[:-1])):
            path.write_bytes(encoder.encode(new_tables(there)))


def write_shared(path: Path, count: int, minutes_apart: int, key: ShopKey) -> None:
    """The record file that a shop shares of a data folder filled like that."""
    write_record_file(path, _signed(count, minutes_apart, key), (), key)


def _signed(count: int, minutes_apart: int, key: ShopKey) -> Iterator[Copy]:
    for walk_id, rows in _walks(count, minutes_apart):
        signature = Signature.create(key, walk_id, [row["digest"] for row in rows])
        yield Copy(walk_id, tuple(rows), (signature,))


def _walks(
    count: int, minutes_apart: int, like: Walk | None = None
) -> Iterator[tuple[str, list[dict[str, Any]]]]:
    given = _timed(like.events) if like else None
    for number in range(1, count + 1):
        began = FIRST + timedelta(minutes=minutes_apart * number)
        walk_id = f"{began:%Y%m%d_%H%M%S}_{number % 0x1000000:06x}"
        rows, before = list[dict[str, Any]](), GENESIS
        for after, model in given or _short(number % VEHICLES, number % 50 == 7):
            utc = began + after
            row = model | {"at": model["at"] | {"utc": f"{utc:%Y-%m-%dT%H:%M:%SZ}"}}
            if not rows:
                row |= {"walk": walk_id, "number": number}
            body = {name: value for name, value in row.items() if name != "digest"}
            sealed = orjson.dumps(body, option=orjson.OPT_SORT_KEYS)
            before = sha256(f"{before}\n".encode() + sealed).hexdigest()
            rows.append(row | {"digest": before})
        yield walk_id, rows


@cache
def _short(of_vehicle: int, defect: bool) -> list[tuple[timedelta, dict[str, Any]]]:
    teller = Teller(clock=FakeClock(began=FIRST, step_s=STEP_S))
    of = A_PLAN.model_copy(update={"vehicle": vehicle(f"trailer_{of_vehicle}")})
    teller.begin(of, f"{FIRST:%Y%m%d_%H%M%S}_000000", 1)
    teller.tell(Answered, step="tail_rear", answer="defect" if defect else "ok")
    teller.tell(Answered, step="reflectors_rear", answer="ok")
    return _timed(teller.tell(Finished).events)


def _timed(events: Sequence[Event]) -> list[tuple[timedelta, dict[str, Any]]]:
    """Events as they are stored, each with its time after the first."""
    return [(event.at.utc - events[0].at.utc, event_json(event)) for event in events]
