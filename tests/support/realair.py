"""Air as a real gas, by CoolProp, which takes seconds to load: only once it is asked for."""

from __future__ import annotations


def of_air(wanted: str, one: str, one_value: float, other: str, other_value: float) -> float:
    """A property of air where two others have these values, all in SI units.

    They are named as CoolProp does: P pressure, T temperature, D density, S entropy, H enthalpy,
    L conductivity, V viscosity, C and O heat capacity at constant pressure and volume.
    """
    from CoolProp.CoolProp import PropsSI

    return float(PropsSI(wanted, one, one_value, other, other_value, "Air"))
