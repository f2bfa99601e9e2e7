"""How thin the linings and pads of air brakes may be: 49 CFR 393.47(d).

Part 396 App. A 1.a(6) says it once more and differs for steering axles, so both are given. A
lining as thick as its limit passes in both ("less than" fails).
"""

from __future__ import annotations

from dataclasses import dataclass

from walkaround.base.message import Message, Quantity, message
from walkaround.vehicle.model import POWER_UNITS, Axle, Vehicle

_STEERING = "49 CFR 393.47(d)(1)"
_OTHERS = "49 CFR 393.47(d)(2)"
_APPENDIX = "part 396 App. A 1.a(6)(d)"
_AT_CENTER = "at the center of the shoe"


@dataclass(frozen=True, slots=True)
class LiningLimit:
    """The least thickness that passes.

    Attributes:
        source: where it stands.
        also: what else is published for the same lining, a clause each with its source.
    """

    limit_in: float
    source: str
    also: tuple[Message, ...]


def is_steering_axle(vehicle: Vehicle, axle_number: int) -> bool:
    """Tell whether 393.47(d)(1) counts this axle, from 1 at the front, as a steering axle.

    It names trucks, truck tractors and buses; the front axle of a full trailer goes with the
    others. A second steered axle, which vehicle files do not tell, goes by the thicker limit.
    """
    return axle_number == 1 and vehicle.kind in POWER_UNITS


def lining_limit(axle: Axle, steer: bool) -> LiningLimit:
    """Find the least thickness of the linings or pads of an air-braked axle.

    Args:
        axle: its foundation brake, drum or disc, decides.
        steer: whether it is a steering axle, as `is_steering_axle` says. Whether its shoes have
            one strip or two pads no vehicle file tells, so the thicker limit counts.
    """
    rule = _STEERING if steer else _OTHERS
    if axle.foundation == "disc":
        return LiningLimit(0.125, rule, ())
    mark_text = message("brake-lining-marked", source=rule)
    source = f"{rule}, {_AT_CENTER}"
    if not steer:
        return LiningLimit(0.25, source, (mark_text,))
    strip = message(
        "brake-lining-one-strip", limit=Quantity(value=3 / 16, unit="in"), source=_STEERING
    )
    return LiningLimit(0.25, f"{source}, and {_APPENDIX}", (strip, mark_text))
