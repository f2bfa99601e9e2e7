"""A pressure gauge as it is: its unit, its marks, and what altitude does to it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Self

from pydantic import BaseModel, ConfigDict, Field, model_validator

from walkaround.airhold.atmosphere import ZERO_C_IN_K, isa_temperature_k, sealed_reading_psi
from walkaround.base.units import (
    PressureUnit,
    from_psi,
    mark_text,
    nearest_whole,
    pressure_text,
    to_psi,
)

GAUGE_STEPS: Mapping[PressureUnit, tuple[float, ...]] = {
    "psi": (1.0, 2.0, 5.0, 10.0),
    "kPa": (5.0, 10.0, 20.0, 50.0),
    "bar": (0.05, 0.1, 0.2, 0.5),
}
"""Steps on offer, from fine to coarse: common practice, no source."""
COARSEST_PSI = 50.0
"""No gauge for brakes has marks further apart."""

# One decimal more than a gauge shows: altitude moves it by little.
_DECIMALS: Mapping[PressureUnit, int] = {"psi": 1, "kPa": 0, "bar": 2}
_LEAST_MOVE_PSI = 0.05


class Gauge(BaseModel):
    """One gauge of a walk.

    Attributes:
        name: what it is called on screen; its line or circuit.
        unit: the unit on its dial.
        step: how far apart the values are that can be told on it, in that unit.
        crossing: read by tapping as the needle crosses a mark, not by a number.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    name: str = Field(min_length=1, max_length=40)
    unit: PressureUnit = "psi"
    step: float = Field(default=1.0, ge=0.01, allow_inf_nan=False)
    crossing: bool = False

    @model_validator(mode="after")
    def _no_coarser_than_gauges_are(self) -> Self:
        if self.step_psi > COARSEST_PSI:
            most = mark_text(from_psi(COARSEST_PSI, self.unit), 0.1)
            raise ValueError(
                f"step is {self.step:g} {self.unit}, which no brake gauge has; "
                f"give at most {most} {self.unit}"
            )
        return self

    @property
    def step_psi(self) -> float:
        """How far apart its marks are, in psi."""
        return to_psi(self.step, self.unit)

    def label(self, psi: float) -> str:
        """The number on its dial next to this pressure, without the unit."""
        return mark_text(self._mark(psi), self.step)

    def _mark(self, psi: float) -> float:
        return nearest_whole(from_psi(psi, self.unit) / self.step) * self.step


def altitude_words(set_psi: float, from_m: float, to_m: float, unit: PressureUnit) -> str:
    """What a gauge on air trapped at one altitude shows at another, for people.

    Two sentences, with the air as warm as before and with it as cold or warm as the standard
    atmosphere; one if the move does not show.
    """
    same_warmth = sealed_reading_psi(set_psi, from_m, to_m, with_temperature=False)
    if abs(same_warmth - set_psi) < _LEAST_MOVE_PSI:
        return f"A gauge shows the same at {to_m:.0f} m as at {from_m:.0f} m."
    taken_on = sealed_reading_psi(set_psi, from_m, to_m, with_temperature=True)
    thinner, colder = ("thinner", "cold") if to_m > from_m else ("denser", "warm")
    return (
        f"Trapped air that shows {_shown(set_psi, unit)} at {from_m:.0f} m shows "
        f"{_shown(same_warmth, unit)} at {to_m:.0f} m if it stays as warm, "
        f"as the air outside is {thinner}. "
        f"If it turns as {colder} as standard air ({_degrees(from_m)} °C at {from_m:.0f} m, "
        f"{_degrees(to_m)} °C at {to_m:.0f} m), it shows {_shown(taken_on, unit)}."
    )


def _shown(psi: float, unit: PressureUnit) -> str:
    return pressure_text(psi, unit, _DECIMALS[unit])


def _degrees(altitude_m: float) -> str:
    return f"{isa_temperature_k(altitude_m) - ZERO_C_IN_K:z.0f}"
