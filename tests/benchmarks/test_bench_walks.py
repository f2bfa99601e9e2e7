"""What a walk asks of people: steps, spoken words, trips, minutes, for every shipped vehicle."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import get_args

from benchmarks.conftest import Rounds
from support.english import ENGLISH

from walkaround.airhold.gauge import Gauge
from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.effort import trips, walk_s, way_m
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.plan.steps import Plan
from walkaround.rules.checklist import Wording
from walkaround.rules.limits import Air, Line
from walkaround.vehicle.model import POWER_UNITS, Brakes, Vehicle, has_air_brakes
from walkaround.words.prompts import words_said

LIBRARY = load_library(shipped(), today=date(2026, 11, 25))
WORDINGS: tuple[Wording, ...] = get_args(Wording)
RATE_WPM = 160.0
"""The rate at which the voice speaks until told otherwise."""
SEMITRAILER, TRACTOR = "sandbag_semitrailer_7", "depot_tractor_2"


@dataclass(frozen=True)
class Asked:
    """One walk, counted."""

    vehicle: str
    power: str
    air: Air
    plan: Plan
    words: dict[Wording, int]

    @property
    def first_lamp(self) -> int:
        """The number of the first step at a lamp; 0 if there is none."""
        kinds = (at for at, step in enumerate(self.plan.steps, 1) if step.kind == "lamp")
        return next(kinds, 0)

    def spoken_min(self, wording: Wording) -> float:
        return self.words[wording] / RATE_WPM

    def minutes(self, wording: Wording) -> float:
        return walk_s(self.plan, self.words[wording], RATE_WPM) / 60

    def line(self) -> str:
        stations = [step.spot for step in self.plan.steps]
        said = "/".join(str(self.words[wording]) for wording in WORDINGS)
        took = "/".join(f"{self.minutes(wording):.0f}" for wording in WORDINGS)
        walked_m = way_m(self.plan.vehicle, stations)
        return (
            f"  {self.vehicle:22} {self.power:7} {self.air:8} {len(self.plan.steps):3} steps "
            f"{said:>15} words {trips(stations):2} trips {walked_m:4.0f} m "
            f"first lamp {self.first_lamp:2} {took:>9} min"
        )


def asked(vehicle: Vehicle, power: str, air: Air) -> Asked:
    """The walk of a shop that knows its gauges, as it does from the second one on each day."""
    known = {line: Gauge(name=line) for line in get_args(Line)} if air == "shop" else {}
    plan = plan_walk(vehicle, LIBRARY.rules, power=power, air=air, towed=1, gauges=known)
    words = {wording: words_said(plan, wording, ENGLISH) for wording in WORDINGS}
    return Asked(vehicle.id, power, plan.air, plan, words)


def walks() -> Iterator[Asked]:
    """Every shipped vehicle with every source of power and of air that it can have."""
    for vehicle in LIBRARY.vehicles:
        lone = has_air_brakes(vehicle) and vehicle.kind not in POWER_UNITS
        airs: tuple[Air, ...] = get_args(Air) if lone else ("shop",)
        for power in powers_for(vehicle, LIBRARY.power_sources):
            for air in airs:
                yield asked(vehicle, power, air)


def missed() -> list[str]:
    """What a walk that is kept must hold and does not: a sentence each."""
    of = {vehicle.id: vehicle for vehicle in LIBRARY.vehicles}
    trailer = asked(of[SEMITRAILER], "box", "shop")
    tractor = asked(of[TRACTOR], "cab", "coupled")
    unbraked = asked(of[SEMITRAILER].model_copy(update={"brakes": Brakes()}), "box", "shop")
    most = [
        ("semitrailer, steps", len(trailer.plan.steps), 40),
        ("semitrailer, spoken minutes short", trailer.spoken_min("short"), 5.0),
        ("semitrailer, spoken minutes brisk", trailer.spoken_min("brisk"), 3.5),
        ("semitrailer, first lamp", trailer.first_lamp, 7),
        ("tractor, steps", len(tractor.plan.steps), 55),
        ("tractor, spoken minutes short", tractor.spoken_min("short"), 7.5),
        ("semitrailer without brakes, steps", len(unbraked.plan.steps), 14),
    ]
    return [
        f"{what}: {amount:.1f}, at most {limit:g}" for what, amount, limit in most if amount > limit
    ]


def test_a_walk_is_as_short_as_a_mechanic_keeps_it() -> None:
    """A good mechanic alone needs 25 to 30 minutes for a semitrailer: common practice."""
    assert missed() == []


def test_what_each_walk_asks(rounds: Rounds) -> None:
    """Every walk when figures are asked for, else those of one vehicle."""
    print(
        f"\nwalks: spoken words and minutes {'/'.join(WORDINGS)}, at {RATE_WPM:.0f} words a minute"
    )
    every = list(walks()) if rounds(1, 0) else [asked(LIBRARY.vehicles[0], "helper", "shop")]
    for walk in every:
        print(walk.line())
        brisk, short, long = (walk.words[wording] for wording in WORDINGS)
        assert 0 < brisk <= short <= long
        assert 0 < walk.minutes("brisk") <= walk.minutes("short") <= walk.minutes("long")
