"""What altitude and temperature do to a pressure gauge.

A gauge shows how far the air inside is above the air around it. Where the air around is thinner,
the same trapped air shows more; where the trapped air is colder, it shows less, by its absolute
temperature (Gay-Lussac). One degree Celsius of cooling in a minute at 100 psi looks like a leak of
0.39 psi/min.

The air around is the International Standard Atmosphere (ISO 2533:1975) up to 11 km: the altitude
alone is known, not the weather, which moves it by about 0.5 psi either way (from memory).
"""

from __future__ import annotations

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message
from walkaround.base.units import PSI_KPA

PSI_PA = 1000.0 * PSI_KPA
ZERO_C_IN_K = 273.15
ZERO_AGAIN_M = 300.0
"""The zero of the gauges is looked at again after this change of altitude: common practice, no
source. It is about 0.5 psi of air, half the mark of a gauge that is read to the psi; a gauge with
a sealed case is off by that much."""

# ISO 2533:1975, sea level and the first layer; exponent g0 / (R * lapse rate).
_SEA_LEVEL_PA = 101_325.0
_SEA_LEVEL_K = 288.15
_LAPSE_K_PER_M = 0.0065
_EXPONENT = 9.80665 / (287.05287 * _LAPSE_K_PER_M)
_LOWEST_M, _HIGHEST_M = -500.0, 11_000.0
_COLDEST_C, _HOTTEST_C = -100.0, 150.0


def isa_temperature_k(altitude_m: float) -> float:
    """Return the standard atmosphere's temperature at a geopotential altitude, kelvin.

    Raises:
        InputError: the altitude is not within -500 to 11,000 m.
    """
    check_within("altitude_m", altitude_m, _LOWEST_M, _HIGHEST_M)
    return _SEA_LEVEL_K - _LAPSE_K_PER_M * altitude_m


def isa_pressure_pa(altitude_m: float) -> float:
    """Return the standard atmosphere's pressure at a geopotential altitude, pascal.

    Raises:
        InputError: the altitude is not within -500 to 11,000 m.
    """
    return float(_SEA_LEVEL_PA * (isa_temperature_k(altitude_m) / _SEA_LEVEL_K) ** _EXPONENT)


def absolute_psi(gauge_psi: float, altitude_m: float) -> float:
    """Add gauge pressure and the standard atmosphere at this altitude, psi."""
    return gauge_psi + isa_pressure_pa(altitude_m) / PSI_PA


def sealed_reading_psi(
    gauge_psi: float, from_m: float, to_m: float, *, with_temperature: bool
) -> float:
    """Tell what a gauge on trapped air shows after a move from one altitude to another.

    Args:
        gauge_psi: what it showed at `from_m`.
        from_m, to_m: geopotential altitudes.
        with_temperature: False: the air is as warm as before. True: it takes on the temperature
            of the standard atmosphere, at both altitudes.
    """
    inside = absolute_psi(gauge_psi, from_m)
    if with_temperature:
        inside *= isa_temperature_k(to_m) / isa_temperature_k(from_m)
    return inside - absolute_psi(0.0, to_m)


def temperature_change_psi(
    gauge_psi: float, start_c: float, end_c: float, altitude_m: float = 0.0
) -> float:
    """Tell how much a gauge on trapped air moves when that air goes from `start_c` to `end_c`.

    Raises:
        InputError: a temperature is not within -100 to 150 degrees C.
    """
    for name, value in (("start_c", start_c), ("end_c", end_c)):
        check_within(name, value, _COLDEST_C, _HOTTEST_C)
    return absolute_psi(gauge_psi, altitude_m) * (end_c - start_c) / (start_c + ZERO_C_IN_K)


def corrected_rate_psi_per_min(
    rate_psi_per_min: float,
    gauge_psi: float,
    start_c: float,
    end_c: float,
    seconds: float,
    altitude_m: float = 0.0,
) -> float:
    """Return the loss of a hold without what the temperature of its air did.

    Args:
        rate_psi_per_min: what was lost, positive when pressure fell.
        gauge_psi: pressure at the start of the hold.
        start_c, end_c: temperature of the trapped air at its start and end.
        seconds: how long it was held.
        altitude_m: of the site.

    Raises:
        InputError: a temperature that cannot be, or a hold of less than a second.
    """
    check_within("seconds", seconds, 1.0, 86_400.0)
    change = temperature_change_psi(gauge_psi, start_c, end_c, altitude_m)
    return rate_psi_per_min + change * 60.0 / seconds


def zero_is_due(checked_at_m: float | None, site_m: float) -> bool:
    """Tell whether the gauges must be seen at zero, lines vented, before they are read here."""
    return checked_at_m is None or abs(site_m - checked_at_m) > ZERO_AGAIN_M


def check_within(name: str, value: float, least: float, most: float) -> None:
    """Refuse what is not a number within its bounds.

    Raises:
        InputError: with the name, the value and the bounds.
    """
    if not least <= value <= most:
        mend = message("argument-mend", least=f"{least:g}", most=f"{most:g}")
        bad = message("argument-bad", value=f"{value}")
        raise InputError([Problem(message("argument"), name, bad, mend)])
