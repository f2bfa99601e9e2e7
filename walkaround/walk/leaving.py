"""How a vehicle is left: what is said to one who takes the chocks away, or goes away for now.

What stands under air is computed from how far the walk is, not from gauges: a walk that stopped
between charging and venting left air in the lines (common practice, no source).
"""

from __future__ import annotations

from walkaround.base.message import Message, message
from walkaround.plan.steps import Step
from walkaround.rules.checklist import PARTS, Part
from walkaround.walk.state import Walk


def brake_defects(walk: Walk) -> int:
    """Tell how many open defects are of the air brakes."""
    steps = {step.id: step for step in walk.steps}
    return sum(steps[defect.step].air for defect in walk.open_defects)


def leaving_step(walk: Walk, step: Step) -> Step:
    """Return the step on how the vehicle is left, worded for the defects that are open."""
    count = brake_defects(walk)
    if step.part != "leave" or not step.choices or not count:
        return step
    stay, count_said = message("leave-chocks-in"), message("leave-brake-defects", count=count)
    before = message("sentences", first=count_said, then=step.caution)
    return step.model_copy(
        update={
            "caution": before if step.caution else count_said,
            **dict.fromkeys(("short", "long", "brisk"), stay),
        }
    )


def under_air(walk: Walk) -> tuple[Message, ...]:
    """Say what must be done before one walks away from the vehicle now; empty if nothing."""
    if walk.place is None:
        return ()
    at = PARTS.index(walk.place.part)
    orders = []
    if _begun(walk, "applied_hold") and at <= PARTS.index("clear"):
        orders.append(message("leave-applied"))
    if _begun(walk, "charge") and at <= PARTS.index("finish"):
        orders.append(message("leave-charged"))
    return tuple(orders)


def _begun(walk: Walk, part: Part) -> bool:
    return any(step.part == part and step.air and step.id in walk.answers for step in walk.steps)
