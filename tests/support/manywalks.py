"""A data folder with very many walks in it, made quickly: nothing is forced to the disk."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

from support.walks import STEPS, FakeClock, Teller, plan, vehicle

from walkaround.disk import locations
from walkaround.records.walk_file import Encoder, new_tables, rows_of
from walkaround.records.walk_line import month_of
from walkaround.walk.events import Answered, Finished

VEHICLES = 50
FIRST = datetime(2020, 1, 1, 6, tzinfo=UTC)
A_PLAN = plan(tuple(step for step in STEPS if step.id in ("tail_rear", "reflectors_rear")))
PLANS = [
    A_PLAN.model_copy(update={"vehicle": vehicle(f"trailer_{number}")})
    for number in range(VEHICLES)
]


def fill(data: Path, count: int, minutes_apart: int) -> None:
    """So many finished walks of two steps, begun one after another; each fiftieth has a defect.

    An hour's walks fit in a month of 720, a year of 8,760.
    """
    for number in range(1, count + 1):
        began = FIRST + timedelta(minutes=minutes_apart * number)
        walk_id = f"{began:%Y%m%d_%H%M%S}_{number % 0x1000000:06x}"
        _write(locations.walks(data) / month_of(walk_id), walk_id, began, number)


def _write(folder: Path, walk_id: str, began: datetime, number: int) -> None:
    teller = Teller(clock=FakeClock(began=began, step_s=60.0))
    teller.begin(PLANS[number % VEHICLES], walk_id, number)
    found = "defect" if number % 50 == 7 else "ok"
    teller.tell(Answered, step="tail_rear", answer=found)
    teller.tell(Answered, step="reflectors_rear", answer="ok")
    before = teller.walk.events
    after = teller.tell(Finished).events
    if not folder.is_dir():
        folder.mkdir(parents=True)
    file = folder / f"{walk_id}.json"
    for path, events in ((file, after), (file.with_name(file.name + ".prev"), before)):
        path.write_bytes(Encoder().encode(new_tables(rows_of(events))))
