"""A pressure gauge as it is: its unit and its marks."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Self

from pydantic import BaseModel, ConfigDict, Field, model_validator

from walkaround.base.message import message
from walkaround.base.units import PressureUnit, from_psi, mark_text, nearest_whole, to_psi

GAUGE_STEPS: Mapping[PressureUnit, tuple[float, ...]] = {
    "psi": (1.0, 2.0, 5.0, 10.0),
    "kPa": (5.0, 10.0, 20.0, 50.0),
    "bar": (0.05, 0.1, 0.2, 0.5),
}
"""Steps on offer, from fine to coarse: common practice, no source."""
COARSEST_PSI = 50.0
"""No gauge for brakes has marks further apart."""


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
            step = f"{self.step:g}"
            raise ValueError(message("gauge-too-coarse", step=step, unit=self.unit, most=most))
        return self

    @property
    def step_psi(self) -> float:
        """How far apart its marks are, in psi."""
        return to_psi(self.step, self.unit)

    def label(self, psi: float) -> str:
        """Return the number on its dial next to this pressure, without the unit."""
        return mark_text(self._mark(psi), self.step)

    def _mark(self, psi: float) -> float:
        return nearest_whole(from_psi(psi, self.unit) / self.step) * self.step
