"""The chambers that a walk finds at the wheel ends, and the stroke limits that follow from them.

The vehicle's file says what each axle has; whoever marks the rods reads it off the chamber. What is
read counts: a stroke is held against the limit of the chamber that is there. Where it cannot be
told whether a chamber is a long-stroke one, the standard limit counts, which is the lower one in
every row of 49 CFR 393.47(e), and the record says so.
"""

from __future__ import annotations

from dataclasses import replace
from types import MappingProxyType

from walkaround.base.message import Message, Quantity, Text, message
from walkaround.brakes.chambers import chamber_named
from walkaround.plan.steps import WHEEL_END, Chambers, Plan, Step
from walkaround.plan.values import Measure
from walkaround.vehicle.model import Axle
from walkaround.walk.events import ChamberTold
from walkaround.walk.state import Walk


def ends_of(step: Step) -> tuple[str, ...]:
    """List the wheel ends whose chambers this step asks for, by their id."""
    if step.kind != "chambers":
        return ()
    places = dict.fromkeys(item.place for item in step.items)
    return tuple(place for place in places if WHEEL_END.fullmatch(place))


def chamber_at(walk: Walk, end: str) -> Chambers:
    """Return the chamber at a wheel end: as it was read there, else as the vehicle's file says."""
    chamber = walk.chambers.get(end)
    if chamber is None:
        axle = axle_of(walk.plan, end)
        return Chambers(
            actuator=axle.actuator,
            type=axle.type,
            long_stroke=axle.long_stroke,
            rated_stroke_in=axle.rated_stroke_in,
        )
    return Chambers(
        actuator=chamber.actuator,
        type=chamber.type,
        long_stroke=bool(chamber.long_stroke),
        rated_stroke_in=chamber.rated_stroke_in,
    )


def chambers_match(walk: Walk, step: Step) -> bool:
    """Tell whether the chambers at the two ends of an axle are the same: 49 CFR 393.47(b).

    What could not be read at one end is unlike what was read at the other. A rated stroke that no
    row of the table asks for makes no difference.
    """
    ends = ends_of(step)
    return len({(_with_listed_stroke(walk, end), in_doubt(walk, end)) for end in ends}) <= 1


def chamber_words(walk: Walk, end: str) -> Message:
    """Name the chamber at a wheel end, and say where its class is in doubt."""
    looked_at = walk.chambers.get(end)
    if looked_at is not None and not looked_at.type and looked_at.actuator != "other":
        return message("chamber-not-read")
    chamber = chamber_at(walk, end)
    name = chamber_named(Axle.model_validate(chamber.model_dump(include=_OF_AXLE)))
    return message("chamber-class-in-doubt", chamber=name) if in_doubt(walk, end) else name


def with_chamber(walk: Walk, chamber: ChamberTold) -> Walk:
    """Return the walk in which the limits at this wheel end follow from the chamber found there."""
    chambers = MappingProxyType({**walk.chambers, chamber.end: chamber})
    walk = replace(walk, chambers=chambers)
    assert walk.plan is not None
    steps = tuple(
        _with_limit(walk, step, chamber) if measured_at(step) == chamber.end else step
        for step in walk.steps
    )
    return replace(walk, plan=walk.plan.model_copy(update={"steps": steps}))


def limit_at(walk: Walk, end: str) -> float | None:
    """Return the limit of a stroke at this wheel end now, inches; None if none is known.

    That of the step that measures it, else that of the plan's table.
    """
    for step in walk.steps:
        if measured_at(step) == end:
            assert step.measure is not None
            return step.measure.values[0].at_most
    limit = _limit_of(walk.plan, chamber_at(walk, end))
    return limit.limit_in if limit else None


def in_doubt(walk: Walk, end: str) -> bool:
    """Tell whether somebody read the chamber there and could not tell its size or its class."""
    chamber = walk.chambers.get(end)
    if chamber is None or chamber.actuator == "other":
        return False
    return not chamber.type or chamber.long_stroke is None


def stroke_taken(walk: Walk, step: Step) -> bool:
    """Tell whether a stroke at one of its ends has its answer, which chambers must not change."""
    ends = ends_of(step)
    return any(measured_at(each) in ends and each.id in walk.answers for each in walk.steps)


def actuator_at(plan: Plan, end: str) -> str:
    """Return the kind of chamber that may be told there: the file's, if the table has it."""
    kinds = dict.fromkeys(row.actuator for row in plan.chambers)
    filed = axle_of(plan, end).actuator
    return filed if filed in kinds else next(iter(kinds), "other")


def chamber_sizes(plan: Plan, actuator: str) -> tuple[str, ...]:
    """List the types of this kind that the plan's table lists, by size."""
    types = {row.type for row in plan.chambers if row.actuator == actuator}
    return tuple(sorted(types, key=lambda type_: (int(type_) if type_.isdigit() else 0, type_)))


def comes_long(plan: Plan, actuator: str, type_: str) -> bool:
    """Tell whether the plan's table has a long stroke of this size, with a limit of its own."""
    return any(
        row.long_stroke and (row.actuator, row.type) == (actuator, type_) for row in plan.chambers
    )


def rated_strokes_in(plan: Plan, actuator: str, type_: str) -> tuple[float, ...]:
    """List the rated strokes, inches, of long-stroke chambers of this size that have a row."""
    return tuple(
        row.rated_stroke_in
        for row in plan.chambers
        if row.rated_stroke_in is not None
        and (row.actuator, row.type, row.long_stroke) == (actuator, type_, True)
    )


def axle_of(plan: Plan | None, end: str) -> Axle:
    """Return the axle of a wheel end, as the vehicle's file has it."""
    assert plan is not None
    return plan.vehicle.brakes.axles[int(end.split("_")[1]) - 1]


_OF_AXLE = {"actuator", "type", "long_stroke", "rated_stroke_in"}


def _with_listed_stroke(walk: Walk, end: str) -> Chambers:
    chamber = chamber_at(walk, end)
    assert walk.plan is not None
    listed_strokes = rated_strokes_in(walk.plan, chamber.actuator, chamber.type)
    return chamber if listed_strokes else chamber.model_copy(update={"rated_stroke_in": None})


def measured_at(step: Step) -> str:
    """Return the wheel end at which this step measures a stroke; empty if it does not."""
    lengths = step.measure is not None and step.measure.quantity == "in"
    return step.items[0].place if lengths and step.items else ""


def _with_limit(walk: Walk, step: Step, chamber: ChamberTold) -> Step:
    """Return the stroke's step with the limit of the chamber that is there, in its words too."""
    assert step.measure is not None
    limit = _limit_of(walk.plan, chamber)
    most = limit.limit_in if limit else None
    if limit is None or most is None:
        unread = not chamber.type and chamber.actuator != "other"
        limit_said: Message = message("brake-stroke-unread" if unread else "brake-stroke-unlisted")
        spoken: Message | Quantity = message("brake-stroke-not-known")
    else:
        spoken = Quantity(value=most, unit="in")
        source: Text = limit.source
        if chamber.long_stroke is None:
            source = message("limit-class-in-doubt", source=limit.source)
        limit_said = message("limit-at-most", most=spoken, source=source)
    [value] = step.measure.values
    measure: Measure = step.measure.model_copy(
        update={
            "values": (value.model_copy(update={"at_most": most}),),
            "start": most or step.measure.start,
            "known": most is not None,
            "limit": limit_said,
        }
    )
    args = {"stroke_limit": spoken, "chamber": chamber_words(walk, chamber.end)}
    texts = {
        name: _refilled(text, args)
        for name in ("title", "brisk", "short", "long", "caution")
        if isinstance(text := getattr(step, name), Message)
    }
    return step.model_copy(update={"measure": measure, **texts})


def _limit_of(plan: Plan | None, chamber: ChamberTold | Chambers) -> Chambers | None:
    """Find the row of the plan's table for this chamber; one for its rated stroke goes first."""
    assert plan is not None
    rows = [
        row
        for row in plan.chambers
        if (row.actuator, row.type, row.long_stroke)
        == (chamber.actuator, chamber.type, bool(chamber.long_stroke))
        and row.rated_stroke_in in (None, chamber.rated_stroke_in)
    ]
    return max(rows, key=lambda row: row.rated_stroke_in or 0.0, default=None)


def _refilled(text: Message, args: dict[str, Message | Quantity]) -> Message:
    new_args = {name: args.get(name, arg) for name, arg in text.args.items()}
    return text.model_copy(update={"args": new_args})
