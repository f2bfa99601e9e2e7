"""Vehicle and checklists in, the plan of one walk out, in the order that keeps people whole."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from walkaround.airhold.gauge import Gauge
from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Text, message
from walkaround.brakes.strokes import StrokeTable
from walkaround.lamps.connector import Connector
from walkaround.lamps.required_lamps import Lamp, lamps_for, reflectors_for
from walkaround.lamps.wiring import wire
from walkaround.plan.effort import walked_m
from walkaround.plan.lamp_steps import lamp_walk
from walkaround.plan.socket_steps import with_socket_steps
from walkaround.plan.steps import Chambers, Mark, Plan, Scope, Step
from walkaround.plan.written_steps import WrittenStep, written_steps
from walkaround.rounds.power_source import PowerSource
from walkaround.rules.checklist import PARTS, SPOTS, Checklist, Part
from walkaround.rules.limits import Air, Line, ShopFigures, Situation
from walkaround.vehicle.model import POWER_UNITS, Vehicle
from walkaround.vehicle.outline import axle_x_mm

# What a part stands on: brakes as another part leaves them, or let go by one that comes after it.
_PARTS_WITH: Mapping[Part, tuple[Part, ...]] = {
    "marking": ("supply_hold",),
    "applied_hold": ("supply_hold", "release", "clear"),
    "axles": ("applied_hold",),
    "release": ("applied_hold",),
    "strokes": ("marking", "applied_hold"),
    "clear": ("applied_hold",),
}


@dataclass(frozen=True, slots=True)
class Rulebook:
    """All that plans are made from: checklists, connectors and power sources by id, strokes."""

    checklists: tuple[Checklist, ...]
    connectors: Mapping[str, Connector]
    power_sources: Mapping[str, PowerSource]
    strokes: StrokeTable

    def on(self, day: date) -> Rulebook:
        """Give the rules that are in force on a day."""
        checklists = tuple(checklist.on(day) for checklist in self.checklists)
        return replace(self, checklists=checklists, strokes=self.strokes.on(day))


def plan_walk(
    vehicle: Vehicle,
    rules: Rulebook,
    *,
    day: date | None = None,
    scope: Scope = "whole",
    power: str = "",
    together: bool = True,
    air: Air = "shop",
    towed: int = 0,
    shop: ShopFigures | None = None,
    gauges: Mapping[Line, Gauge] | None = None,
    altitude_m: float = 0.0,
    only: Iterable[str] = (),
    recheck_of: str = "",
    former: Plan | None = None,
) -> Plan:
    """Plan a walk at this vehicle.

    Args:
        vehicle: what stands there.
        rules: every checklist known (those that do not apply are left aside), and the rest.
        day: the day of the walk, whose rules the vehicle is judged by; None for all that the
            files have.
        scope: the whole walk, lamps or brakes only, or the recheck of the steps in `only`.
        power: id of what switches the lamp circuits; a box in hand where what is towed is not
            told otherwise, and its own cab where a power unit is not.
        together: light circuits together, in the fewest settings; else one at a time.
        air: where a trailer's air comes from; a power unit makes its own.
        towed: how many units the combination tows, this one included if it is a trailer; a
            trailer that is coupled counts as one at least, one on shop air as none.
        shop: what the shop goes by for a lone trailer on its air; None for what ships.
        gauges: those known so well that they need not be asked; the walk asks for its gauges
            unless all that it reads are among them.
        altitude_m: how high above the sea the site is, as was known with them.
        only: with `recheck`, the ids of the steps to repeat.
        recheck_of: with `recheck`, the walk that found the defects.
        former: with `recheck`, the plan of that walk; a step that would show something else now,
            or is no longer there, is asked as it was.

    Raises:
        InputError: a lamp of this vehicle has no circuit at its connector, there is no such
            source of power for it, or it has more switches than can be searched.
    """
    if day is not None:
        rules = rules.on(day)
    power = power or default_power(vehicle)
    sources = powers_for(vehicle, rules.power_sources)
    if power not in sources:
        what = message("trouble-unknown-power", name=power)
        if power in rules.power_sources:
            what = message("trouble-box-at-power-unit", name=power, kind=vehicle.kind)
        mend = message("problem-use-one-of", names=tuple(sorted(sources)))
        raise InputError([Problem("power", "", what, mend)])
    if vehicle.kind in POWER_UNITS:
        air = "coupled"
    else:
        towed = max(1, towed) if air == "coupled" else 0
    situation = Situation(vehicle, air, towed, shop or ShopFigures())
    lamps = sorted(lamps_for(vehicle, rules.checklists), key=_clockwise)
    reflectors = sorted(reflectors_for(vehicle, rules.checklists), key=_clockwise)
    wiring = wire(vehicle, lamps, rules.connectors)
    source = sources[power]
    at_lamps = lamp_walk(lamps, reflectors, wiring, source, together=together)
    candidates = written_steps(rules.checklists, situation, wiring, rules.strokes)
    steps = [each.step for each in candidates]
    steps += with_socket_steps(at_lamps.steps, vehicle, wiring, source)
    # Of two steps with one id the first counts: an answer names its step by it.
    by_id = {step.id: step for step in reversed(steps)}
    once = [step for step in steps if by_id[step.id] is step]
    wanted_ids = frozenset(only)
    if former:
        once, wanted_ids = _same_steps_as_before(once, wanted_ids, former, power)
    in_order = sorted(once, key=lambda step: PARTS.index(step.part))
    chosen = tuple(
        _told_in_full_once(_explained_once(_in_scope(in_order, scope, wanted_ids)), candidates)
    )
    # Every gauge that some step reads, in the order in which they are first read.
    read = tuple(dict.fromkeys(gauge for step in chosen for gauge in step.gauges))
    known_gauges = {line: gauge for line, gauge in (gauges or {}).items() if line in read}
    gauges_asked = len(known_gauges) < len(read)
    if not gauges_asked:
        chosen = tuple(step for step in chosen if step.kind != "gauges")
    spot_of = {step.id: step.spot for step in chosen}
    trips = [[spot_of[id_] for id_ in trip if id_ in spot_of] for trip in at_lamps.trips]
    walks_lamps = any(step.part == "lamps" for step in chosen)
    return Plan(
        vehicle=vehicle,
        scope=scope,
        power=power,
        together=together,
        rounds=at_lamps.rounds if walks_lamps else 0,
        why_rounds=at_lamps.why if walks_lamps else "",
        walked_m=round(walked_m(vehicle, trips), 1),
        hidden=at_lamps.hidden if walks_lamps else (),
        air=air,
        towed=towed,
        gauges=read,
        known_gauges={} if gauges_asked else known_gauges,
        altitude_m=0.0 if gauges_asked else altitude_m,
        chambers=_chambers(vehicle, rules.strokes, chosen),
        shop=situation.shop if any(s.hold and s.hold.figures for s in chosen) else None,
        steps=chosen,
        marks=_marks(vehicle, [*lamps, *reflectors]),
        recheck_of=recheck_of,
    )


def powers_for(vehicle: Vehicle, sources: Mapping[str, PowerSource]) -> dict[str, PowerSource]:
    """Give the sources of power that may light this vehicle's lamps, by id.

    A box in hand feeds the plug of what is towed. At a power unit's rear socket it would feed back
    into the harness.
    """
    power_unit = vehicle.kind in POWER_UNITS
    return {id_: each for id_, each in sources.items() if not (power_unit and each.where == "spot")}


def default_power(vehicle: Vehicle) -> str:
    """Give the id of the source that lights this vehicle's lamps where none is chosen."""
    return "cab" if vehicle.kind in POWER_UNITS else "box"


def _same_steps_as_before(
    steps: Sequence[Step], wanted_ids: frozenset[str], former: Plan, power: str
) -> tuple[list[Step], frozenset[str]]:
    """Find the steps that show again what the wanted ones showed before, and their ids.

    Ids of lamp steps count settings, and which settings there are may have changed since. A step
    from before comes before the others of its part, so that what follows a gear follows it too.
    With another source of power nothing can be switched as it was: all lamps at that spot are
    looked at again.
    """
    by_id = {step.id: step for step in steps}
    before: list[Step] = []
    shown_again: set[str] = set()
    for id_ in wanted_ids:
        then, now = former.step(id_), by_id.get(id_)
        same = now and then and (now.spot, now.circuits_on) == (then.spot, then.circuits_on)
        if then is None or same:
            shown_again.add(id_)
        elif then.kind == "lamp" and former.power != power:
            shown_again |= {s.id for s in steps if s.kind == "lamp" and s.spot == then.spot}
        else:
            before.append(then)
            shown_again.add(id_)
    other_steps = [step for step in steps if step.id not in {then.id for then in before}]
    return [*before, *other_steps], frozenset(shown_again)


def _told_in_full_once(steps: Iterable[Step], candidates: Iterable[WrittenStep]) -> Iterable[Step]:
    """Word in full what comes first in this walk; at other axles use the shorter text."""
    written_of = {each.step.id: each for each in candidates}
    rules: set[str] = set()
    set_so: Text = ""
    for step in steps:
        if step.stays and step.switching != set_so:
            yield step.model_copy(update={"stays": False})
        elif step.id in written_of and written_of[step.id].rule in rules:
            yield written_of[step.id].again or step
        else:
            yield step
        if step.id in written_of:
            rules.add(written_of[step.id].rule)
        set_so = step.switching or set_so


def _explained_once(steps: Iterable[Step]) -> Iterable[Step]:
    """Mark what an earlier step explains, so that it is not explained aloud again.

    A lamp is explained where it is lit.
    """
    taught: set[Text] = set()
    for step in steps:
        items = tuple(
            item.model_copy(update={"taught": True}) if item.what in taught else item
            for item in step.items
        )
        taught |= {item.what for item in items if step.expect.get(item.id) != "dark"}
        yield step.model_copy(update={"items": items}) if items else step


def _clockwise(lamp: Lamp) -> tuple[int, float]:
    """Order lamps of one side as a mechanic who walks clockwise comes to them."""
    along_mm = {"right_side": lamp.x_mm, "left_side": -lamp.x_mm}.get(lamp.spot, 0.0)
    return SPOTS.index(lamp.spot), along_mm


def _in_scope(steps: Sequence[Step], scope: Scope, only: frozenset[str]) -> Iterable[Step]:
    """Leave out what this scope does not ask.

    A recheck keeps the acts of the parts it needs: nobody applies air to an unchocked trailer
    because only one axle is to be heard again.
    """
    if scope == "whole":
        return steps
    wanted_steps = [step for step in steps if step.id in only]
    air = scope == "brakes" or any(step.air for step in wanted_steps)
    power = scope == "lamps" or any(step.power for step in wanted_steps)
    # The parts whose acts a recheck needs, besides getting ready and leaving.
    parts: set[Part] = {"secure", "connect", "charge", "finish", "leave"}
    stood_on = [step.part for step in wanted_steps]
    while stood_on:
        part = stood_on.pop()
        if part not in parts:
            parts.add(part)
            stood_on += _PARTS_WITH.get(part, ())

    def is_kept(step: Step) -> bool:
        if (step.air and not air) or (step.power and not power):
            return False
        if scope != "recheck":
            return True
        readies = step.must or step.kind in ("act", "gauges", "chambers")
        return step.id in only or step.part == "finish" or (readies and step.part in parts)

    return [step for step in steps if is_kept(step)]


def _chambers(vehicle: Vehicle, table: StrokeTable, steps: Iterable[Step]) -> tuple[Chambers, ...]:
    """List the chambers that may be found instead of the file's: those with table rows."""
    if not any(step.kind == "chambers" for step in steps):
        return ()
    kinds = {axle.actuator for axle in vehicle.brakes.axles} - {"wedge", "other"} or {"clamp"}
    return tuple(
        Chambers(
            actuator=row.actuator,
            type=row.type,
            long_stroke=row.long_stroke,
            rated_stroke_in=row.rated_stroke_in,
            limit_in=row.limit_in,
            source=row.source,
        )
        for row in table.rows
        if row.actuator in kinds
    )


def _marks(vehicle: Vehicle, lamps: Sequence[Lamp]) -> tuple[Mark, ...]:
    marks = {
        lamp.housing: Mark(id=lamp.housing, x_mm=lamp.x_mm, y_mm=lamp.y_mm, colour=lamp.colour)
        for lamp in lamps
    }
    for number, x_mm in enumerate(axle_x_mm(vehicle), start=1):
        for side, sign in (("left", -1), ("right", 1)):
            id_ = f"axle_{number}_{side}"
            marks[id_] = Mark(id=id_, x_mm=x_mm, y_mm=sign * (vehicle.width_mm / 2 - 200))
    return tuple(marks.values())
