"""A shop of a few vehicles and a year of walks: defects of every age, a tag, a walk under way."""

from __future__ import annotations

from datetime import UTC, datetime
from functools import cache
from pathlib import Path

from support.handed_over import Walker, planned

from walkaround.plan.steps import Plan
from walkaround.records.store import WalkStore
from walkaround.walk.events import Began, Finished, Signed
from walkaround.walk.state import Walk

LINE = ((100, 300), (180, 60), (260, 300), (340, 80), (420, 320), (900, 200))
"""A signature."""
TRACTOR, PUMP = "depot_tractor_2", "pump_trailer_3"
HOLDS = (1.0, 1.0, 2.0, 2.0, 3.0)
"""psi that the supply hold of the semitrailer lost, month after month."""


def day(month: int, date: int = 3, year: int = 2026) -> datetime:
    return datetime(year, month, date, 8, 15, 2, tzinfo=UTC)


def save(store: WalkStore, walk: Walk) -> None:
    """Save a walk as it is."""
    first, *others = walk.events
    assert isinstance(first, Began)
    store.create(first)
    if others:
        store.append(walk.id, others)
    store.refresh(walk)


@cache
def walks() -> tuple[Walk, ...]:
    """The shop's walks, in order."""
    semitrailer, lamps = planned(), planned(scope="lamps")
    made: list[Walk] = []

    def add(plan: Plan, **how: object) -> None:
        walker = Walker(plan, number=len(made) + 1, **how)  # type: ignore[arg-type]
        made.append(walker.closed() if not how.get("upto") else walker.walked().walk)

    for number, drop in enumerate(HOLDS):
        add(
            semitrailer,
            began=day(5 + number),
            drops={"supply_hold": drop},
            strokes={"stroke_1_left": 1.5 + 0.125 * number},
        )
    dark = {"look_3_rear": {"rear_right": "dark"}}
    add(lamps, began=day(10), bad=dark)
    add(lamps, began=day(11), bad=dark, who="Bohdan")
    walker = Walker(
        planned(PUMP, plate="KY 4711"),
        began=day(11, 20),
        number=len(made) + 1,
        drops={"supply_hold": 6.0},
        bad={"lines_on": {"red_hose": "worn"}},
    )
    teller = walker.walked()
    teller.tell(Signed, what="tag_placed", name="Bohdan Shevchuk", strokes=(LINE,))
    made.append(teller.tell(Finished))
    add(planned(TRACTOR, scope="lamps"), began=day(11, 24), upto="look_1_rear")
    return tuple(made)


def fill(data: Path) -> None:
    """Save them all in a data folder."""
    store = WalkStore(data)
    for walk in walks():
        save(store, walk)
    store.overview()
    store.close()
