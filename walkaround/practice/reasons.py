"""What was wrong with a vehicle in practice, and why it looked so, in words."""

from __future__ import annotations

from collections.abc import Iterator

from walkaround.base.message import Message, Quantity, message
from walkaround.brakes.chambers import chamber_named
from walkaround.causes.messages import fault_named
from walkaround.causes.messages import why_fault as why_lamps
from walkaround.leaks.messages import end_named, part_named
from walkaround.leaks.messages import why_leak as why_leak
from walkaround.leaks.variants import AirPart
from walkaround.practice.vehicle import PracticeVehicle
from walkaround.vehicle.model import Axle


def fault_words(vehicle: PracticeVehicle) -> Iterator[Message]:
    """Name what was put into a vehicle, then say why it looked as it did."""
    lamps, leak, chamber = vehicle.fault
    if lamps is not None:
        yield fault_named(lamps.fault, vehicle.study.names)
        yield why_lamps(lamps.fault, vehicle.study.names)
    if leak is not None:
        part = AirPart(leak.way.kind, leak.way.place)
        yield part_named(part)
        yield why_leak(part)
    if chamber is not None:
        axle = Axle.model_validate(chamber.chamber.model_dump(exclude={"limit_in", "source"}))
        yield message(
            "practice-odd-chamber", end=end_named(chamber.end), chamber=chamber_named(axle)
        )
        limit = Quantity(value=chamber.chamber.limit_in or 0.0, unit="in")
        stroke, over = Quantity(value=chamber.stroke_in, unit="in"), chamber.chamber.long_stroke
        yield message(
            "practice-why-odd-chamber", stroke=stroke, limit=limit, over="no" if over else "yes"
        )
