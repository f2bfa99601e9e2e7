"""Air holds on a simulated truth that shares nothing with the code under test.

A reservoir loses air through a hole by the formula for choked flow of an ideal gas,
m' = C A p sqrt(g / (R T)) (2 / (g + 1))^((g + 1) / (2 (g - 1))), at constant temperature; air that
was just charged gives its heat away besides and loses pressure as A (1 - exp(-t / T)). A mechanic
reads the gauge: the look comes some time early or late, the eye errs, the scale is read to its
nearest mark. The true rate is the mean loss through the hole over the hold that was held.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice

import numpy as np

from walkaround.airhold.verdict import Assessment, assess, assess_crossings

PSI_PA = 6894.757293168
ATMOSPHERE_PA = 101_325.0
GAMMA, GAS_J_PER_KG_K, AIR_K = 1.4, 287.05, 293.15
DISCHARGE = 0.65
"""Sharp-edged hole; footnote of a published discharge table. Any other would do: it only says
how large the hole is that loses so much."""
CHOKED = math.sqrt(GAMMA * GAS_J_PER_KG_K * AIR_K) * (2 / (GAMMA + 1)) ** (
    (GAMMA + 1) / (2 * (GAMMA - 1))
)
"""Volume flow through a square metre of ideal hole, m/s, at the reservoir's own density."""

READ_SD_PSI, TIME_SD_S = 0.25, 1.0
LOOKS_S = (0.0, 30.0, 60.0, *(60.0 + 15.0 * n for n in range(1, 17)))
SAME_S = 5.0
"""In so little time a leak does not slow down by a hundredth of a psi/min."""
SET_PSI = {2.0: 110.0, 3.0: 90.0}
"""What a gauge is set to where that many psi/min are the limit."""


@dataclass(frozen=True)
class Reservoir:
    """A reservoir, its leak and its cooling air."""

    litres: float
    psi: float
    hole_mm2: float
    cooling_psi: float = 0.0
    cooling_s: float = 30.0

    def leaked_to_psi(self, at_s: float) -> float:
        """Gauge pressure without the cooling."""
        per_s = DISCHARGE * self.hole_mm2 * 1e-6 * CHOKED / (self.litres * 1e-3)
        start_pa = self.psi * PSI_PA + ATMOSPHERE_PA
        return (start_pa * math.exp(-per_s * at_s) - ATMOSPHERE_PA) / PSI_PA

    def psi_at(self, at_s: float) -> float:
        """Gauge pressure; nothing happens before the hold begins."""
        at_s = max(0.0, at_s)
        cooled = self.cooling_psi * -math.expm1(-at_s / self.cooling_s)
        return self.leaked_to_psi(at_s) - cooled

    def true_rate(self, held_s: float) -> float:
        """Mean loss through the hole, psi/min."""
        return (self.psi - self.leaked_to_psi(held_s)) * 60.0 / held_s

    def leaking(self, rate_psi_per_min: float, held_s: float) -> Reservoir:
        """The same with a hole that loses so much in the mean over a hold."""
        start_pa = self.psi * PSI_PA + ATMOSPHERE_PA
        lost_pa = rate_psi_per_min * held_s / 60.0 * PSI_PA
        per_s = -math.log(1 - lost_pa / start_pa) / held_s
        hole_m2 = per_s * self.litres * 1e-3 / CHOKED / DISCHARGE
        return replace(self, hole_mm2=hole_m2 * 1e6)


@dataclass(frozen=True)
class Held:
    """One hold as it went: what was found, after how long, and the truth."""

    found: Assessment
    held_s: float
    true_rate: float
    lost_in_minute_psi: float | None = None
    """What the plain rule of two readings saw, 0 and 60 s."""


@dataclass(frozen=True)
class Case:
    """Holds of one kind.

    Attributes:
        limit: psi/min.
        rate: true rate, psi/min, the mean over whatever hold comes of it.
        step_psi: marks of the gauge.
        on_mark: the pressure is set to a mark, as mechanics do; otherwise anywhere between two.
        cooling_psi, cooling_s: heat still to be lost.
        crossing: the gauge is tapped as its needle crosses marks.
    """

    limit: float
    rate: float
    step_psi: float = 1.0
    on_mark: bool = False
    cooling_psi: float = 0.0
    cooling_s: float = 30.0
    crossing: bool = False

    def holds(self, count: int, seed: int) -> Holds:
        """So many of them."""
        draws = (held(self, [seed, number]) for number in itertools.count())
        return Holds(self, tuple(islice(filter(None, draws), count)))


@dataclass(frozen=True)
class Holds:
    """Many holds of one case."""

    case: Case
    each: Sequence[Held]

    def share(self, verdict: str) -> float:
        """Of the holds, those that ended with it."""
        return self.count(verdict) / len(self.each)

    def count(self, verdict: str) -> int:
        """How many ended with it."""
        return sum(hold.found.verdict == verdict for hold in self.each)

    @cached_property
    def mean_s(self) -> float:
        """How long they were held, in the mean; those left undecided count in full."""
        return float(np.mean([hold.held_s for hold in self.each]))

    @property
    def wrong(self) -> str:
        """The verdict that would be wrong."""
        return "within" if self.case.rate > self.case.limit else "over"

    @property
    def rule_wrong_share(self) -> float:
        """Of two plain readings a minute apart, those that say the wrong thing."""
        said = ["over" if (hold.lost_in_minute_psi or 0.0) > self.case.limit else "within"
                for hold in self.each]  # fmt: skip
        return said.count(self.wrong) / len(said)

    @property
    def covered(self) -> float:
        """Of the holds, those whose bounds hold the true rate as they end."""
        return float(
            np.mean([
                hold.found.low_psi_per_min <= hold.true_rate <= hold.found.high_psi_per_min
                for hold in self.each
            ])
        )  # fmt: skip


def held(case: Case, seed: Sequence[int]) -> Held | None:
    """One hold whose mean loss over the time it is held is the rate of the case.

    How long it is held depends on the readings, and they on the hole: the hole is sought for
    which both agree, with the same luck each time. None where no hole does: with a little larger
    one that luck ends the hold so early that it lost more a minute, with a smaller one so late
    that it lost less.
    """
    held_s, tried = 120.0, set[float]()
    while held_s not in tried:
        tried.add(held_s)
        chance = np.random.default_rng(seed)
        offset = 0.0 if case.on_mark else chance.uniform(-0.5, 0.5) * case.step_psi
        psi = SET_PSI[case.limit] + offset
        empty = Reservoir(chance.uniform(30, 100), psi, 0.0, case.cooling_psi, case.cooling_s)
        found = (crossed if case.crossing else read)(case, empty.leaking(case.rate, held_s), chance)
        if abs(found.held_s - held_s) <= SAME_S:
            return found
        held_s = found.held_s
    return None


def read(case: Case, air: Reservoir, chance: np.random.Generator) -> Held:
    """Read at 0, 30, 60 s and on every 15 s until it is decided, 300 s at most."""
    readings: list[tuple[float, float]] = []
    lost: float | None = None
    for look_s in LOOKS_S:
        seen = air.psi_at(look_s + chance.normal(0, TIME_SD_S)) + chance.normal(0, READ_SD_PSI)
        readings.append((look_s, round(seen / case.step_psi) * case.step_psi))
        if look_s < 60:
            continue
        lost = readings[0][1] - readings[2][1] if lost is None else lost
        found = assess(readings, case.limit, case.step_psi)
        if found.verdict != "undecided":
            break
    return Held(found, look_s, air.true_rate(look_s), lost)


def crossed(case: Case, air: Reservoir, chance: np.random.Generator) -> Held:
    """Tapped as the needle crosses marks; judged at every tap and every 15 s from 60 s on."""
    taps = list(_taps(case.step_psi, air, chance))
    moments = sorted({*(t for t, _ in taps if t >= 60), *LOOKS_S[2:]})
    found: Assessment | None = None
    for now_s in moments:
        so_far = [tap for tap in taps if tap[0] <= now_s]
        if not so_far or now_s - so_far[0][0] < 1:
            continue
        found = assess_crossings(so_far, now_s, case.limit, case.step_psi)
        if found.verdict != "undecided":
            break
    if found is None:
        found = assess_crossings([(0.0, 100.0)], 1.0, case.limit, case.step_psi)
    return Held(found, now_s, air.true_rate(now_s))


def _taps(
    step_psi: float, air: Reservoir, chance: np.random.Generator
) -> Iterator[tuple[float, float]]:
    """Each mark with the time at which it is tapped, in order, within 300 s."""
    mark, last_s = math.ceil(air.psi / step_psi - 1e-9) * step_psi, -1.0
    if not math.isclose(mark, air.psi):
        mark -= step_psi
    while True:
        seen = mark + chance.normal(0, READ_SD_PSI)
        at_s = _when(air.psi_at, seen) + chance.normal(0, TIME_SD_S)
        at_s = max(0.0, last_s + 0.5, at_s)
        if at_s > LOOKS_S[-1]:
            return
        yield at_s, mark
        mark, last_s = mark - step_psi, at_s


def _when(psi_at: Callable[[float], float], psi: float, most_s: float = 400.0) -> float:
    """When a falling pressure comes down to `psi`, s, by halving; `most_s` if it does not."""
    if psi_at(most_s) > psi:
        return most_s
    early, late = 0.0, most_s
    while late - early > 0.01:
        middle = (early + late) / 2
        early, late = (early, middle) if psi_at(middle) <= psi else (middle, late)
    return late
