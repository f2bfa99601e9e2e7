"""How often the likely causes hold the fault that ngspice was given, printed."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from functools import cache
from statistics import mean
from typing import NamedTuple

from support.lampcases import Looks, alone, evidence, load_check, place_of, spice, study
from support.spice import Broken

from walkaround.causes.predictions import LitCircuits
from walkaround.causes.study import rank_lamp_faults


class Case(NamedTuple):
    """Faults of a vehicle, the voltages that the simulator finds, and what is seen."""

    vehicle_id: str
    faults: tuple[Broken, ...]
    volts: Sequence[Mapping[str, float]]
    looks: Looks


def settings(vehicle_id: str) -> list[LitCircuits]:
    """Each circuit alone, and the load check."""
    return [*alone(study(vehicle_id)), load_check(study(vehicle_id))]


@cache
def single_faults(vehicle_id: str, every: int) -> tuple[Case, ...]:
    """Every so many of the single faults of a vehicle."""
    faults = [*spice(vehicle_id).faults()][::every]
    return simulated(vehicle_id, [(broken,) for broken in faults])


def simulated(vehicle_id: str, of_cases: Iterable[tuple[Broken, ...]]) -> tuple[Case, ...]:
    """Cases with these faults."""
    wired, looked = spice(vehicle_id), settings(vehicle_id)
    all_faults = [(), *of_cases]
    volts = wired.solved([(faults, setting.on) for faults in all_faults for setting in looked])
    usual = [wired.light(at, ()) for at in volts[: len(looked)]]
    found = []
    for number, faults in enumerate(all_faults[1:], start=1):
        here = volts[number * len(looked) : (number + 1) * len(looked)]
        looks = {
            setting: wired.looks(wired.light(at, faults), usual[place], setting.on)
            for place, (setting, at) in enumerate(zip(looked, here, strict=True))
        }
        found.append(Case(vehicle_id, faults, here, looks))
    return tuple(found)


def perfectly_seen(cases: Sequence[Case]) -> tuple[float, float]:
    """The share of cases whose fault the first cause holds, and how many faults that one holds."""
    hits, sizes, missed = [], [], Counter[str]()
    for case in cases:
        looks = {setting: seen for setting, seen in case.looks.items() if len(setting.on) == 1}
        ranking = rank_lamp_faults(study(case.vehicle_id), evidence(looks, *case.faults))
        hits.append(place_of(ranking, case.faults[0]) == 0)
        sizes.append(1 + len(ranking.causes[0].same_look))
        missed[case.faults[0].kind] += not hits[-1]
    what = f"{mean(hits):.1%} of {len(hits)}, {mean(sizes):.1f} faults a cause"
    print(f"\n{cases[0].vehicle_id}, perfect eyes: {what}, missed {dict(+missed)}")
    return mean(hits), mean(sizes)


def misread(cases: Sequence[Case], chance: random.Random, times: int = 1) -> list[int]:
    """In which place each fault comes, when each look is taken for another in one of twenty."""
    places, missed = [], Counter[str]()
    for case in cases:
        for _ in range(times):
            seen = {
                setting: {
                    housing: _wrongly(look, chance)
                    for housing, look in looks.items()
                    # The load check is a last look at the rear.
                    if len(setting.on) == 1 or "rear" in housing
                }
                for setting, looks in case.looks.items()
            }
            ranking = rank_lamp_faults(study(case.vehicle_id), evidence(seen, *case.faults))
            places.append(place_of(ranking, case.faults[0]))
            missed[case.faults[0].kind] += places[-1] >= 3
    first, of_three = first_and_of_three(places)
    what = f"{first:.1%} first, {of_three:.1%} of the first three, of {len(places)}"
    print(f"\n{cases[0].vehicle_id}, one of twenty misread: {what}, missed {dict(+missed)}")
    return places


def first_and_of_three(places: Sequence[int]) -> tuple[float, float]:
    """The share of the first place, and that of the first three."""
    return mean(place == 0 for place in places), mean(place < 3 for place in places)


def two_at_once(vehicle_id: str, pairs: int, chance: random.Random) -> list[bool]:
    """Whether one of two faults that there are at once is in the first three causes."""
    faults = [*spice(vehicle_id).faults()]
    hits = []
    drawn = [(one, other) for one, other in (chance.sample(faults, 2) for _ in range(pairs))]
    for case in simulated(vehicle_id, drawn):
        looks = {setting: seen for setting, seen in case.looks.items() if len(setting.on) == 1}
        ranking = rank_lamp_faults(study(vehicle_id), evidence(looks, *case.faults))
        hits.append(min(place_of(ranking, broken) for broken in case.faults) < 3)
    print(f"\n{vehicle_id}, two at once: {mean(hits):.1%} of {pairs}")
    return hits


def _wrongly(look: str, chance: random.Random) -> str:
    if chance.random() >= 0.05:
        return look
    return chance.choice([other for other in ("lit", "dim", "dark") if other != look])
