"""What of a vehicle's brakes is not checked here, said before a walk and in its record."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from walkaround.vehicle.model import BrakeSystem, Vehicle, has_abs, has_air_brakes

_BY_SYSTEM: Mapping[BrakeSystem, str] = {
    "air_over_hydraulic": (
        "Air over hydraulic brakes: fluid level, fluid leaks, the travel of the air-powered "
        "hydraulic cylinders and the linings are not checked here."
    ),
    "electric": (
        "Electric brakes: their magnets, wiring, controller, breakaway switch and battery, and "
        "the linings are not checked here."
    ),
    "surge": (
        "Surge brakes: the travel of the coupling, fluid level, fluid leaks, the breakaway cable "
        "and the linings are not checked here."
    ),
    "none": (
        "The vehicle's file names no brakes: if it has brakes, they are not checked here, and "
        "whether it must have brakes is not told here."
    ),
}
_AIR = (
    "Braking force and stopping distance are not measured here, and the inside of drums, "
    "chambers and valves is not seen."
)
_ABS = "Of the ABS the lamp alone is checked here, not its sensors, valves and stored codes."


def not_covered(vehicle: Vehicle) -> tuple[str, ...]:
    """What this app does not check of the brakes, one plain sentence each, most important first."""
    sentences = [_BY_SYSTEM.get(vehicle.brakes.system, _AIR)]
    discs = [
        str(number)
        for number, axle in enumerate(vehicle.brakes.axles, start=1)
        if axle.foundation == "disc"
    ]
    if has_air_brakes(vehicle) and discs:
        sentences.append(
            f"Disc brakes on {_axles(discs)}: rotors, calipers and their guide pins are not "
            "checked here, nor the stroke of a pushrod that cannot be seen."
        )
    if has_abs(vehicle):
        sentences.append(_ABS)
    return tuple(sentences)


def _axles(numbers: Sequence[str]) -> str:
    if len(numbers) == 1:
        return f"axle {numbers[0]}"
    return f"axles {', '.join(numbers[:-1])} and {numbers[-1]}"
