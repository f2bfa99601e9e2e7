"""The rear socket of what tows: what comes out of it for the vehicle behind.

A converter dolly passes on what it gets. A truck tractor feeds a trailer's ABS as long as its key
is on. Its lamp circuits are not looked at there: they are at the trailer that it draws.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from walkaround.base.message import message
from walkaround.lamps.names import pins_named
from walkaround.lamps.wiring import Circuit, Wiring
from walkaround.plan.steps import Item, Step
from walkaround.rounds.power_source import PowerSource
from walkaround.vehicle.model import Vehicle


def with_socket_steps(
    steps: Sequence[Step], vehicle: Vehicle, wiring: Wiring, source: PowerSource
) -> Iterator[Step]:
    """Put what is measured at the rear socket after a look at the rear with the same switches."""
    rear = [step for step in steps if step.kind == "lamp" and step.spot == "rear"]
    fed = [circuit for circuit in (*wiring.circuits, *wiring.unused) if circuit.pins]
    pins = {pin.fn: pin for pin in wiring.connector.pins}
    added, after = None, rear[-1].id if rear else ""
    if vehicle.kind == "converter dolly" and rear:
        # With all on at once no contact is told from another, but each is seen to be live.
        one_by_one = source.where == "spot"
        if not one_by_one:
            fed = [circuit for circuit in fed if circuit.id in rear[-1].circuits_on]
        added = _passed_on(rear[-1], fed, one_by_one=one_by_one)
    elif vehicle.kind == "truck tractor" and "ABS" in pins and not pins["ABS"].doubt:
        # A turn signal needs the key on, so it still is.
        keyed = [step for step in rear if "flashing" in step.expect.values()]
        keyed = [step for step in keyed if "backup" not in step.circuits_on]
        if keyed:
            after, added = keyed[0].id, _abs_feed(keyed[0], pins["ABS"].pin)
    for step in steps:
        yield step
        if added and step.id == after:
            yield added


def _passed_on(look_step: Step, fed: Sequence[Circuit], *, one_by_one: bool) -> Step:
    way = "in-turn" if one_by_one else "at-once"
    return Step(
        id="rear_socket",
        part="lamps",
        kind="look",
        title=message("socket-passes-on"),
        short=message(f"socket-passes-on-{way}"),
        long=message(f"socket-passes-on-{way}-long"),
        brisk=message(f"socket-passes-on-{way}-brisk"),
        spot="rear",
        round=look_step.round,
        hands_free=not any(circuit.meter_first for circuit in fed),
        power=True,
        items=tuple(
            Item(
                id=f"contact_{'_'.join(circuit.pins).lower()}",
                name=message("socket-contact", pins=pins_named(circuit.pins), circuit=circuit.name),
                kind="contact",
            )
            for circuit in fed
        ),
        source="common practice; 49 CFR 393.42 and 393.43 as background",
        provenance="common practice, no source",
    )


def _abs_feed(look_step: Step, pin: str) -> Step:
    pins = pins_named([pin])
    return Step(
        id="rear_socket_abs",
        part="lamps",
        kind="look",
        title=message("socket-abs-feed", pins=pins),
        short=message("socket-abs-feed-short", pins=pins),
        long=message("socket-abs-feed-long", pins=pins),
        brisk=message("socket-abs-feed-brisk", pins=pins),
        spot="rear",
        round=look_step.round,
        hands_free=True,
        power=True,
        source="FMVSS 121 S5.5.2 (a circuit of its own for a trailer's ABS, fed with the key on)",
        provenance="memory",
    )
