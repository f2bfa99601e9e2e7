"""A leak in plain terms: how much air is lost, through what hole, and when that matters.

All of it needs the volume of the trapped air, which a hold alone does not tell: twice the volume
at the same psi/min is twice the leak. What a leak lets out follows from the fall of pressure in
that volume at constant temperature; the hole follows from the ideal flow of a gas through an
orifice (Saint-Venant and Wantzel), which is choked above about 13 psi at sea level and then goes
with the absolute pressure inside alone, so that the pressure falls exponentially.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from walkaround.airhold.atmosphere import ZERO_C_IN_K, absolute_psi, check_within
from walkaround.base.units import PSI_KPA

DISCHARGE = 0.65
"""Share of the ideal flow that a sharp-edged hole lets through: the footnote of a printed table of
the discharge of air through orifices (0.97 for a rounded one), read. Others print 0.64 (read) and
0.61 (from memory); from 0.61 the hole would come out 3 % wider."""
WARNING_PSI = 60.0
"""Where the low-pressure warning comes on at the latest: 49 CFR 570.57(a)(3), read: "not less than
60 psi" for vehicles built to FMVSS 121, 50 psi for others."""
SPRING_BRAKES_PSI = 45.0
"""Where spring brakes may begin to apply. 49 CFR 393.43(b), read, has the towing unit apply the
trailer's emergency brakes by itself between 20 and 45 psi, and drivers' manuals name the same span
for spring brakes (second hand); the higher end is reached first."""

_ATM_KPA = 101.325  # one standard atmosphere, NIST SP 811 (2008), B.8
_FREE_AIR_K = ZERO_C_IN_K + 20.0
_AIR_R = 287.05  # J/(kg K), dry air; with gamma, from memory
_GAMMA = 1.4
_CRITICAL = (2.0 / (_GAMMA + 1.0)) ** (_GAMMA / (_GAMMA - 1.0))
_MOST_L, _MOST_PSI, _MOST_RATE = 10_000.0, 300.0, 10_000.0


@dataclass(frozen=True, slots=True)
class LeakSize:
    """A leak as flow and as a hole.

    Attributes:
        volume_l: the trapped air that it was worked out from.
        l_per_min: what leaks out, as free air at 1 atm and 20 degrees C.
        hole_mm: width of the round sharp-edged hole that lets as much through, by `DISCHARGE`.
    """

    volume_l: float
    l_per_min: float
    hole_mm: float


def leak_size(
    volume_l: float, psi: float, rate_psi_per_min: float, altitude_m: float = 0.0
) -> LeakSize:
    """Work out the leak that takes pressure from trapped air at this rate; 0 if pressure rose.

    Args:
        volume_l: trapped air, liters.
        psi: gauge pressure at which the rate was seen.
        rate_psi_per_min: what was lost, positive when pressure fell.
        altitude_m: of the site.

    Raises:
        InputError: a number that cannot be.
    """
    check_within("volume_l", volume_l, 0.01, _MOST_L)
    check_within("psi", psi, 1.0, _MOST_PSI)
    check_within("rate_psi_per_min", rate_psi_per_min, -_MOST_RATE, _MOST_RATE)
    l_per_min = volume_l * max(rate_psi_per_min, 0.0) * PSI_KPA / _ATM_KPA
    kg_per_s = l_per_min / 60_000.0 * _ATM_KPA * 1000.0 / (_AIR_R * _FREE_AIR_K)
    area_m2 = kg_per_s / (DISCHARGE * _ideal_kg_per_m2_s(psi, altitude_m))
    return LeakSize(
        volume_l=volume_l,
        l_per_min=l_per_min,
        hole_mm=1000.0 * math.sqrt(4.0 * area_m2 / math.pi),
    )


def minutes_to_psi(
    from_psi: float, to_psi: float, rate_psi_per_min_at_from: float, altitude_m: float = 0.0
) -> float | None:
    """Return the minutes until a leak has brought trapped air from one gauge pressure to another.

    Args:
        from_psi: where it starts.
        to_psi: where it ends; 0 minutes if it is there already.
        rate_psi_per_min_at_from: what is lost at the start; None is returned if nothing is.
        altitude_m: of the site.

    Raises:
        InputError: a number that cannot be, or an end at which the flow is no longer choked.
    """
    choked_psi = absolute_psi(0.0, altitude_m) * (1.0 / _CRITICAL - 1.0)
    check_within("to_psi", to_psi, choked_psi, _MOST_PSI)
    check_within("from_psi", from_psi, 0.0, _MOST_PSI)
    check_within("rate_psi_per_min_at_from", rate_psi_per_min_at_from, -_MOST_RATE, _MOST_RATE)
    if rate_psi_per_min_at_from <= 0:
        return None
    inside, then = absolute_psi(from_psi, altitude_m), absolute_psi(to_psi, altitude_m)
    return max(0.0, inside / rate_psi_per_min_at_from * math.log(inside / then))


def _ideal_kg_per_m2_s(psi: float, altitude_m: float) -> float:
    """Return the ideal mass flow of air at 20 degrees C through each m2 of a hole."""
    inside_pa = 1000.0 * PSI_KPA * absolute_psi(psi, altitude_m)
    # Past the critical ratio less pressure outside draws no more air: the flow is choked.
    ratio = max(absolute_psi(0.0, altitude_m) / absolute_psi(psi, altitude_m), _CRITICAL)
    fall = ratio ** (2.0 / _GAMMA) - ratio ** ((_GAMMA + 1.0) / _GAMMA)
    factor = math.sqrt(2.0 * _GAMMA / (_GAMMA - 1.0) * fall)
    return inside_pa / math.sqrt(_AIR_R * _FREE_AIR_K) * factor
