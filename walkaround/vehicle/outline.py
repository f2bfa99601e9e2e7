"""Where the big parts of a vehicle are on its plan: body, axles, drawbar.

A vehicle file does not say where its axles sit, so they are placed as vehicles of that kind
usually carry them (common practice, no source). The plan shows where to look; it is no drawing
to measure from.
"""

from __future__ import annotations

from walkaround.vehicle.model import Vehicle

AXLE_SPREAD_MM = 1300.0
"""Distance between neighboring axles of a group, where the vehicle is long enough."""
DRAWBAR_MM = 1600.0
"""How far the drawbar of a full trailer or dolly reaches ahead of its body."""


def axle_x_mm(vehicle: Vehicle) -> tuple[float, ...]:
    """Place each axle: its distance behind the foremost point, first axle first."""
    count, length = len(vehicle.brakes.axles), vehicle.length_mm
    if count == 0:
        return ()
    if vehicle.kind == "converter dolly" or (vehicle.kind == "full trailer" and count == 1):
        return _group(count, 0.6 * length, length)
    if vehicle.kind in ("semitrailer", "pole trailer"):
        return _group(count, 0.82 * length, length)
    front = drawbar_mm(vehicle) + 0.14 * (length - drawbar_mm(vehicle))
    return (front, *_group(count - 1, 0.8 * length, length))


def drawbar_mm(vehicle: Vehicle) -> float:
    """Tell how much of the vehicle's length is drawbar, ahead of the body."""
    has_drawbar = vehicle.kind in ("full trailer", "converter dolly", "pole trailer")
    return min(DRAWBAR_MM, 0.3 * vehicle.length_mm) if has_drawbar else 0.0


def _group(count: int, centre_mm: float, length_mm: float) -> tuple[float, ...]:
    """Place axles about a center; the last one stays under the vehicle."""
    room_mm = 2 * (0.97 * length_mm - centre_mm)
    gap_mm = min(AXLE_SPREAD_MM, room_mm / max(1, count - 1))
    first = centre_mm - gap_mm * (count - 1) / 2
    return tuple(first + gap_mm * number for number in range(count))
