"""Charged air that cools in its reservoir, worked out from heat transfer, and what is told of it.

- CoolProp: air as a real gas (density, heat capacity, conductivity, viscosity) and its pressure at
  constant density.
- Heat transfer by free convection in turbulent flow, Nu = 0.13 Ra^(1/3) (McAdams; from memory): a
  steel wall keeps its temperature, since it stores fifty times the heat of the air.

A reservoir is a cylinder three times as long as wide. It shares nothing with the code but the
readings.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import curve_fit
from scipy.stats import binom
from support.realair import of_air

from walkaround.airhold.cooling import MOST_COOLING_PSI, TIMES_S, cooled_share
from walkaround.airhold.verdict import Assessment, assess

PSI_PA, ATM_PA = 6894.757293168, 101_325.0
WALL_K = 293.15
LONGEST_S = 300
LOOKS_S = (0.0, 30.0, 60.0, *(60.0 + 15.0 * n for n in range(1, 17)))
LITRES = (20.0, 60.0, 100.0)


@dataclass(frozen=True)
class Air:
    """The air of one reservoir, charged to a pressure while it was too warm by so many C."""

    litres: float
    warmer_c: float
    set_psi: float = 110.0

    @property
    def _width_m(self) -> float:
        return float((4 * self.litres / 1000 / (3 * math.pi)) ** (1 / 3))

    @property
    def density(self) -> float:
        """Of the air, kg/m3; it stays as it is."""
        pascal = self.set_psi * PSI_PA + ATM_PA
        return of_air("D", "P", pascal, "T", WALL_K + self.warmer_c)

    def cooling_per_s(self, warmer_c: float) -> float:
        """How fast it cools while it is so much warmer than its wall, C/s."""
        state = ("D", self.density, "T", WALL_K)
        conducts, thick, heat_p, heat_v = (of_air(name, *state) for name in ("L", "V", "C", "O"))
        width = self._width_m
        rayleigh = (
            9.81 / WALL_K * warmer_c * width**3 * self.density**2 * heat_p / (thick * conducts)
        )
        per_m2_k = 0.13 * rayleigh ** (1 / 3) * conducts / width
        area_m2 = math.pi * width * 3 * width + math.pi * width**2 / 2
        kg = self.density * self.litres / 1000
        return float(per_m2_k * area_m2 * warmer_c / (kg * heat_v))

    @property
    def time_s(self) -> float:
        """With which it begins to cool."""
        return self.warmer_c / self.cooling_per_s(self.warmer_c)

    @property
    def psi(self) -> NDArray[np.float64]:
        """Gauge pressure at each second of a hold."""
        return _psi(self)


@cache
def _psi(air: Air) -> NDArray[np.float64]:
    first, warmer = air.cooling_per_s(1.0), [air.warmer_c]
    for _ in range(LONGEST_S + 10):
        warmer.append(warmer[-1] - first * warmer[-1] ** (4 / 3))
    density = air.density
    pascal = [of_air("P", "D", density, "T", WALL_K + each) for each in warmer]
    return (np.array(pascal) - ATM_PA) / PSI_PA


def test_air_cools_with_the_four_thirds_power_of_how_warm_it_is() -> None:
    """Once that is so, one look at the formula does for every second."""
    air = Air(60.0, 10.0)
    for warmer_c in (1.0, 3.0, 10.0):
        expected = air.cooling_per_s(1.0) * warmer_c ** (4 / 3)
        assert air.cooling_per_s(warmer_c) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("litres", LITRES)
@pytest.mark.parametrize("warmer_c", [5.0, 10.0, 25.0])
def test_the_times_that_are_tried_are_those_in_which_reservoirs_cool(
    litres: float, warmer_c: float
) -> None:
    assert 0.75 * min(TIMES_S) < Air(litres, warmer_c).time_s < 1.1 * max(TIMES_S)


@pytest.mark.parametrize("litres", LITRES)
@pytest.mark.parametrize("warmer_c", [5.0, 15.0, 25.0])
def test_the_curve_of_cooling_is_that_of_the_air(litres: float, warmer_c: float) -> None:
    """Within a tenth of what a gauge read to 1 psi shows."""
    air = Air(litres, warmer_c)
    seconds = np.arange(LONGEST_S + 1.0)
    lost = air.psi[0] - air.psi[: len(seconds)]
    ((amount, time_s), _) = curve_fit(
        lambda at, a, t: a * cooled_share(at, t), seconds, lost, p0=(lost[-1], 30.0)
    )
    assert np.abs(lost - amount * cooled_share(seconds, time_s)).max() < 0.1
    assert time_s == pytest.approx(air.time_s, rel=0.05)
    assert amount <= MOST_COOLING_PSI


def held(air: Air, leak: float, chance: np.random.Generator, step_psi: float = 1.0) -> Assessment:
    """A hold as a mechanic reads it until it is decided; the leak is choked flow."""
    per_s = leak / 60 / (air.set_psi + 14.7)
    readings: list[tuple[float, float]] = []
    offset = chance.uniform(-0.5, 0.5) * step_psi
    for look_s in LOOKS_S:
        at_s = max(0.0, look_s + chance.normal(0, 1.0))
        psi = (np.interp(at_s, np.arange(len(air.psi)), air.psi) + 14.7) * math.exp(-per_s * at_s)
        seen = psi - 14.7 + offset + chance.normal(0, 0.25)
        readings.append((look_s, round(seen / step_psi) * step_psi))
        if look_s >= 60 and assess(readings, 2.0, step_psi).verdict != "undecided":
            break
    return assess(readings, 2.0, step_psi)


def verdicts(air: Air, leak: float, count: int = 40) -> Counter[str]:
    chance = np.random.default_rng([7, round(air.litres), round(air.warmer_c)])
    return Counter(held(air, leak, chance).verdict for _ in range(count))


@pytest.mark.parametrize("litres", LITRES)
@pytest.mark.parametrize("leak", [0.0, 1.0])
def test_six_psi_of_cooling_are_told_as_cooling(litres: float, leak: float) -> None:
    """15 C; at most 1 in 100 may be called something else."""
    told = verdicts(Air(litres, 15.0), leak)
    assert told["settling"] >= 40 - binom.ppf(0.99, 40, 0.01)


@pytest.mark.parametrize("litres", LITRES)
@pytest.mark.parametrize("warmer_c", [5.0, 8.0, 10.0])
def test_a_little_cooling_of_tight_air_is_no_leak(litres: float, warmer_c: float) -> None:
    """2 to 4 psi. What cools no more is within its limit; before that it is cooling."""
    assert verdicts(Air(litres, warmer_c), 0.0)["over"] <= binom.ppf(0.99, 40, 0.01)


@pytest.mark.parametrize("warmer_c", [5.0, 8.0, 10.0])
def test_a_little_cooling_besides_a_leak_within_its_limit_is_seldom_called_a_leak(
    warmer_c: float,
) -> None:
    """An exponential curve had 30 in 100 of those of 8 C called over their limit."""
    told = sum((verdicts(Air(litres, warmer_c), 1.0) for litres in LITRES), Counter())
    assert told["over"] <= 0.2 * told.total()
