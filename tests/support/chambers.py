"""A plan whose one axle has its chambers read and its strokes measured, and the table for them."""

from __future__ import annotations

from typing import Any

from support.walks import plan, step, vehicle

from walkaround.base.message import Quantity, message
from walkaround.plan.steps import Chambers, Plan, Step
from walkaround.vehicle.model import Axle, Brakes

# 49 CFR 393.47(e), clamp chambers: the rows of types 24, 30 and 36, and of bolt chambers type B.
ROWS: tuple[tuple[str, str, bool, float | None, float], ...] = (
    ("clamp", "24", False, None, 1.75),
    ("clamp", "24", True, None, 2.0),
    ("clamp", "24", True, 3.0, 2.5),
    ("clamp", "30", False, None, 2.0),
    ("clamp", "30", True, None, 2.5),
    ("clamp", "36", False, None, 2.5),
    ("bolt", "B", False, None, 1.75),
)
TABLE = tuple(
    Chambers(
        actuator=actuator, type=type_, long_stroke=long, rated_stroke_in=rated, limit_in=limit,
        source="49 CFR 393.47(e)",
    )
    for actuator, type_, long, rated, limit in ROWS
)  # fmt: skip
FILED = Axle(actuator="clamp", type="30", long_stroke=False)
SLACKS, BOLT = "slacks_differ", "caging_bolt"


def row(id_: str, name: str) -> dict[str, Any]:
    return {"id": id_, "name": name, "kind": "wheel_end", "required": True}


CHAMBERS = step(
    "chambers_1",
    "marking",
    "chambers",
    title="Axle 1: mark rods, check chambers",
    short="Mark both rods.",
    air=True,
    must=True,
    soft=True,
    items=(
        row("axle_1_left", "axle 1, left end"),
        row("axle_1_right", "axle 1, right end"),
        row(SLACKS, "slack adjusters differ"),
        row(BOLT, "caging bolt not stowed"),
    ),
)


def stroke(side: str) -> Step:
    measure = {
        "quantity": "in",
        "values": [{"id": "stroke", "name": "pushrod stroke", "at_most": 2.0}],
        "start": 2.0,
        "limit": message("limit-at-most", most=Quantity(value=2, unit="in"), source="filed"),
    }
    item = row(f"axle_1_{side}", f"axle 1, {side} end")
    return step(f"stroke_1_{side}", "axles", "measure", air=True, items=(item,), measure=measure)


LAST = step("off", "leave", "act")


def chamber_plan(axle: Axle = FILED, first: Step = CHAMBERS) -> Plan:
    towed = vehicle().model_copy(update={"brakes": Brakes(system="air", axles=(axle,))})
    steps = (first, stroke("right"), stroke("left"), LAST)
    return plan(steps, vehicle=towed).model_copy(update={"chambers": TABLE})
