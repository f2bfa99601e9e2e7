"""The ABS lamp: it lights as power comes, so it is in view before anything is switched.

Whoever is alone in the cab sees it in the mirror; with a box in hand or a helper called to it is
looked at from where it is. It is shown twice, once from each of its supplies.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from walkaround.base.message import Text, message
from walkaround.lamps.names import pins_named
from walkaround.lamps.required_lamps import Lamp
from walkaround.lamps.wiring import Circuit, Wiring
from walkaround.plan.lamp_items import (
    housings_of,
    item_of,
    other_lamps_item,
    provenance_of,
    spot_named,
)
from walkaround.plan.steps import Look, Step
from walkaround.rounds.power_source import PowerSource
from walkaround.rules.checklist import SPOTS, Station
from walkaround.rules.limits import Provenance

ABS_BY_STOP = "abs_by_stop"
"""The step that feeds a trailer's ABS from its stop circuit."""


def is_abs(circuit: Circuit, lamps: Sequence[Lamp], wiring: Wiring) -> bool:
    """Tell whether the circuit feeds the ABS lamp alone."""
    fed = [lamp for lamp in lamps if wiring.circuit_of[lamp.id] == circuit.id]
    return bool(fed) and all(lamp.kind == "abs" for lamp in fed)


def abs_steps(
    lamps: Sequence[Lamp], wiring: Wiring, source: PowerSource, looks: Sequence[Step]
) -> list[Step]:
    """Put the steps at the ABS lamp among the looks at the others.

    First of all those from the cab, where the mechanic is anyway; else as its spot is come to.
    """
    steps = list(looks)
    for lamp in lamps:
        if lamp.kind != "abs":
            continue
        at = 0
        if source.where != "cab":
            later = SPOTS[SPOTS.index(lamp.spot) :]
            at = next((n for n, step in enumerate(steps) if step.spot in later), len(steps))
        steps[at:at] = _steps_at(lamp, lamps, wiring, source)
    return steps


def _steps_at(
    lamp: Lamp, lamps: Sequence[Lamp], wiring: Wiring, source: PowerSource
) -> Iterator[Step]:
    """Make one step for each supply: FMVSS 121 S5.5.2 has it fed from the stop circuit too."""
    feed = next(c for c in wiring.circuits if c.id == wiring.circuit_of[lamp.id])
    id_, read = f"{feed.id}_{lamp.spot}", provenance_of([lamp])
    step = _step(id_, "abs", feed, lamp, lamps, source, lamp.source, read)
    yield step.model_copy(update={"doubt": lamp.doubt})
    stop = next((c for c in wiring.circuits if c.id == "stop" and c.pins), None)
    if stop:
        by_stop = "FMVSS 121 S5.5.2 (stop circuit as other supply); part 396 App. A 1.l"
        id_ = f"{ABS_BY_STOP}_{lamp.spot}"
        yield _step(id_, "abs-by-stop", stop, lamp, lamps, source, by_stop, "memory")


def _step(
    id_: str,
    way: str,
    feed: Circuit,
    lamp: Lamp,
    lamps: Sequence[Lamp],
    source: PowerSource,
    rule: str,
    provenance: Provenance,
) -> Step:
    """Make a look at the lamp as this circuit is fed; a mirror shows no other lamp well."""
    mirror = source.where == "cab"
    spot: Station = "cab" if mirror else lamp.spot
    here = [] if mirror else [lamp_here for lamp_here in lamps if lamp_here.spot == lamp.spot]
    dark = [housing for housing in housings_of(here) if housing != lamp.housing]
    expect: dict[str, Look] = {**dict.fromkeys(dark, "dark"), lamp.housing: "steady"}
    in_hand = source.where == "spot"
    pins: Text = pins_named(feed.pins) if feed.pins and in_hand else ""
    place = message("lamp-spot-mirror") if mirror else spot_named(spot)
    return Step(
        id=id_,
        part="lamps",
        kind="lamp",
        title=message(f"lamp-step-{way}", spot=place),
        switching=message(f"lamp-{way}-on-{source.where}", circuit=feed.name),
        pins=pins,
        spot=spot,
        round=1,
        power=True,
        circuits_on=(feed.id,),
        expect=expect,
        items=(
            item_of([lamp]),
            *other_lamps_item(lamp_here != lamp.housing for lamp_here in expect),
        ),
        meter_first=feed.why_doubtful if in_hand and feed.meter_first else "",
        source=rule,
        provenance=provenance,
    )
