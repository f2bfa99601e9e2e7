"""What of a vehicle's brakes is not checked here, said before a walk and in its record."""

from __future__ import annotations

from walkaround.base.message import Message, message
from walkaround.vehicle.model import Vehicle, has_abs, has_air_brakes


def not_covered(vehicle: Vehicle) -> tuple[Message, ...]:
    """Say what this app does not check of the brakes, a sentence each, most important first."""
    system = vehicle.brakes.system
    sentences = [message(f"brake-not-covered-{system.replace('_', '-')}")]
    discs = tuple(
        number
        for number, axle in enumerate(vehicle.brakes.axles, start=1)
        if axle.foundation == "disc"
    )
    if has_air_brakes(vehicle) and discs:
        sentences.append(message("brake-not-covered-discs", count=len(discs), axles=discs))
    if has_abs(vehicle):
        sentences.append(message("brake-not-covered-abs"))
    return tuple(sentences)
