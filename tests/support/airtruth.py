"""Air that leaks, worked out step by step in time, apart from the model that the product ranks by.

Tanks, lines and chambers are volumes with a pressure each; check valves, relays and open valves
move air between them every quarter of a second; a hole lets it out. How much a hole lets out is the
printed table of the discharge of air through orifices (tests/standards/orifice_air.csv), 1/64, 1/32
and 1/16 inch with a sharp edge. Volumes: hose of 1/2 inch inside; chambers as FMVSS 121 Table V has
them, from memory, at 60 % of their stroke; tanks as the vehicle's file says. Which parts there are
and how each leaks is written here from how such brakes are built: common practice, no source.
"""

from __future__ import annotations

import csv
import random
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import NamedTuple

import numpy as np

from walkaround.vehicle.model import Vehicle

ATM_PSI = 14.7
FT3_L = 28.317
HOLES = ("1/64", "1/32", "1/16")
SHARP = 0.65
DT_S = 0.25
TABLE = Path(__file__).parents[1] / "standards" / "orifice_air.csv"
CHAMBER_IN3 = {"12": 30, "16": 46, "20": 54, "24": 67, "30": 89, "36": 135}
IN3_L = 0.016387

# What lies so near that one is taken for the other.
BESIDE = {
    "red_gladhand": "blue_gladhand", "blue_gladhand": "red_gladhand", "red_hose": "red_gladhand",
    "blue_hose": "blue_gladhand", "test_hose": "red_gladhand", "relay_exhaust": "tank",
    "spring_valve": "relay_exhaust", "tank": "relay_exhaust", "tank_primary": "tank_secondary",
    "tank_secondary": "tank_primary", "tank_supply": "tank_primary", "dash": "foot_valve",
    "foot_valve": "dash", "governor": "dryer", "dryer": "governor", "cylinder": "cylinder_hose",
    "cylinder_hose": "cylinder", "park_hose": "relay_exhaust", "rear_gladhands": "tank",
}  # fmt: skip


class Hole(NamedTuple):
    """A leak: the part, where its air is lost from and heard, and the share of the hole open.

    `open_in` has the states of the brakes in which it is open: 1 as far as the hole is wide, less
    where what is behind it holds against it.
    """

    kind: str
    place: str
    volume: str
    heard: str
    open_in: Mapping[str, float]


ALWAYS = {"released": 1.0, "applied": 1.0, "dumped": 1.0}


@dataclass
class Rig:
    """One vehicle with its brakes in one state: volumes in litres, pressures in psi absolute."""

    litres: dict[str, float]
    psi: dict[str, float]
    one_way: list[tuple[str, str]] = field(default_factory=list)
    both_ways: list[tuple[str, str]] = field(default_factory=list)
    relay: tuple[str, str, str] | None = None

    def step(self) -> None:
        for one, other in self.one_way:
            # A check valve wants a little more on its inlet before it lifts.
            if self.psi[one] > self.psi[other] + 0.3:
                self._even(one, other, 0.3)
        for one, other in self.both_ways:
            self._even(one, other, 0.0)
        if self.relay:
            tank, control, chambers = self.relay
            if self.psi[chambers] < self.psi[control] - 0.5 and self.psi[tank] > self.psi[chambers]:
                self._even(tank, chambers, self.psi[tank] - self.psi[control])

    def _even(self, one: str, other: str, less: float) -> None:
        """Air goes over until `one` has `less` more than `other`, most of the way in each step."""
        a, b = self.litres[one], self.litres[other]
        moved = (self.psi[one] - self.psi[other] - less) * a * b / (a + b) * 0.8
        self.psi[one] -= moved / a
        self.psi[other] += moved / b


@cache
def _printed(hole: str) -> tuple[tuple[float, float], ...]:
    """Gauge psi and cubic feet a minute of the printed table, from none at none."""
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    rows = csv.DictReader(line for line in lines if not line.startswith("#"))
    known = [
        (float(r["gauge_psi"]), float(r["ideal_cfm"])) for r in rows if r["orifice_in"] == hole
    ]
    return tuple(sorted([(0.0, 0.0), *known]))


def free_l_per_min(hole: str, psi_abs: float) -> float:
    """What a sharp-edged hole lets out, by the printed table, between its pressures and below."""
    gauge = max(0.0, psi_abs - ATM_PSI)
    psi, cfm = zip(*_printed(hole), strict=True)
    return float(np.interp(gauge, psi, cfm)) * SHARP * FT3_L


def sprung(vehicle: Vehicle) -> bool:
    return any(axle.spring for axle in vehicle.brakes.axles)


def _wheel_ends(vehicle: Vehicle) -> Iterator[tuple[str, float, bool, bool]]:
    """Name, litres of its service chamber, whether it has a spring brake and is in front."""
    for number, axle in enumerate(vehicle.brakes.axles, start=1):
        litres = CHAMBER_IN3.get(axle.type, 89) * IN3_L * 0.6
        for side in ("left", "right"):
            yield f"axle_{number}_{side}", litres, axle.spring, number == 1


def rig_of(vehicle: Vehicle, air: str, brakes: str) -> Rig:
    """The vehicle charged, its brakes in this state, and nothing that feeds it."""
    if air == "own":
        return _power_unit(vehicle, brakes)
    ends = list(_wheel_ends(vehicle))
    line = 0.127 * (vehicle.length_mm / 1000 + 3) + 0.3
    springs = 0.82 * sum(spring for _, _, spring, _ in ends) + 0.3
    service = 85.0 if air == "coupled" else 90.0
    red = 0.0 if brakes == "dumped" else 110.0
    held = brakes == "dumped" and not sprung(vehicle)
    blue = service if brakes == "applied" else 0.0
    rig = Rig(
        litres={
            "red": line, "springs": springs, "blue": line, "tank": sum(vehicle.brakes.reservoir_l),
            "chambers": sum(litres for _, litres, _, _ in ends) + 0.3,
        },
        psi={
            "red": red, "springs": red, "blue": blue, "tank": 110.0,
            "chambers": 110.0 if held else blue,
        },
        both_ways=[("red", "springs")] if sprung(vehicle) else [],
        one_way=[("red", "tank")],
    )  # fmt: skip
    if held:
        rig.both_ways.append(("tank", "chambers"))
    elif brakes == "applied":
        rig.relay = ("tank", "blue", "chambers")
    if air == "coupled":
        rig.litres |= {"primary": 40.0, "secondary": 40.0, "tow_park": 4.0, "tow_front": 2.0}
        rig.psi |= {"primary": 110.0, "secondary": 110.0, "tow_park": 110.0}
        rig.psi["tow_front"] = 110.0 if brakes == "applied" else 0.0
        if brakes != "dumped":
            rig.one_way += [(c, v) for v in ("red", "tow_park") for c in ("primary", "secondary")]
        if brakes == "applied":
            rig.psi["blue"] = rig.psi["chambers"] = 110.0
            rig.one_way += [("primary", "blue"), ("secondary", "blue")]
            rig.both_ways.append(("secondary", "tow_front"))
    rig.psi = {name: psi + ATM_PSI for name, psi in rig.psi.items()}
    return rig


def _power_unit(vehicle: Vehicle, brakes: str) -> Rig:
    tanks = sorted(vehicle.brakes.reservoir_l, reverse=True)
    at_wheels = vehicle.brakes.system == "air"
    ends = list(_wheel_ends(vehicle)) if at_wheels else []
    front = sum(litres for _, litres, _, first in ends if first) + 0.8
    rear = sum(litres for _, litres, _, first in ends if not first) + 0.8
    on = 110.0 if brakes == "applied" else 0.0
    rig = Rig(
        litres={
            "primary": tanks[0], "secondary": tanks[1], "wet": tanks[2] if len(tanks) > 2 else 0.8,
            "front": front, "rear": rear, "park": 0.82 * sum(s for _, _, s, _ in ends) + 0.6,
            "dash": 0.5, "to_trailer": 0.8,
        },
        psi={
            "primary": 110.0, "secondary": 110.0, "wet": 110.0, "front": on, "rear": on,
            "park": 0.0 if brakes == "dumped" else 110.0, "dash": 110.0, "to_trailer": on,
        },
        one_way=[
            ("wet", "primary"), ("wet", "secondary"), ("primary", "dash"), ("secondary", "dash"),
        ],
    )  # fmt: skip
    if brakes != "dumped" and sprung(vehicle):
        rig.both_ways.append(("dash", "park"))
    if brakes == "applied":
        rig.both_ways += [("primary", "rear"), ("secondary", "front")]
        rig.one_way += [("rear", "to_trailer"), ("front", "to_trailer")]
    rig.psi = {name: psi + ATM_PSI for name, psi in rig.psi.items()}
    return rig


def holes_of(vehicle: Vehicle, air: str) -> list[Hole]:
    """Every single leak that shows at a hold, or at red once it is empty."""
    return list(_of_power_unit(vehicle) if air == "own" else _of_trailer(vehicle, air))


def _of_trailer(vehicle: Vehicle, air: str) -> Iterator[Hole]:
    yield Hole("gladhand_seal", "red", "red", "red_gladhand", ALWAYS)
    yield Hole("gladhand_seal", "blue", "blue", "blue_gladhand", ALWAYS)
    yield Hole("hose", "red", "red", "red_hose", ALWAYS)
    yield Hole("hose", "blue", "blue", "blue_hose", ALWAYS)
    yield Hole("drain", "tank", "tank", "tank", ALWAYS)
    yield Hole("check_valve", "tank", "tank", "red_gladhand", {"dumped": 1.0})
    # Where blue has less than red, what is between the two goes on leaking in an application,
    # at 90 psi behind 110 with about 0.6 of the flow.
    against = {"applied": 0.6} if air == "shop" else {}
    if sprung(vehicle):
        yield Hole("spring_brake_valve", "", "red", "spring_valve", ALWAYS)
        valve = "relay_valve"
        yield Hole(valve, "", "tank", "relay_exhaust", {"released": 1.0, "dumped": 1.0, **against})
        yield Hole(valve, "", "chambers", "relay_exhaust", {"applied": 1.0})
    else:
        valve = "emergency_relay"
        yield Hole(valve, "", "tank", "relay_exhaust", {"released": 1.0, **against})
        yield Hole(valve, "", "chambers", "relay_exhaust", {"applied": 1.0, "dumped": 1.0})
        yield Hole(valve, "", "red", "relay_exhaust", ALWAYS)
    yield Hole(valve, "", "blue", "relay_exhaust", ALWAYS)
    for end, _, spring, _ in _wheel_ends(vehicle):
        yield Hole("service_diaphragm", end, "chambers", f"chamber_{end}", ALWAYS)
        yield Hole("chamber_hose", end, "chambers", f"hose_{end}", ALWAYS)
        if spring:
            yield Hole("spring_diaphragm", end, "springs", f"chamber_{end}", ALWAYS)
            through = {"released": 1.0, **against}
            yield Hole("spring_diaphragm", end, "springs", "relay_exhaust", through)
    if vehicle.kind in ("full trailer", "converter dolly"):
        yield Hole("rear_cock", "red", "red", "rear_gladhands", ALWAYS)
        yield Hole("rear_cock", "blue", "blue", "rear_gladhands", ALWAYS)
    if air == "shop":
        yield Hole("test_hose", "red", "red", "test_hose", ALWAYS)
        yield Hole("test_hose", "blue", "blue", "test_hose", ALWAYS)
    else:
        for volume in ("primary", "secondary", "tow_park", "tow_front"):
            yield Hole("tow_unit", "", volume, "tow_unit", ALWAYS)


def _of_power_unit(vehicle: Vehicle) -> Iterator[Hole]:
    for circuit in ("primary", "secondary"):
        yield Hole("drain", circuit, circuit, f"tank_{circuit}", ALWAYS)
        yield Hole("foot_valve", "", circuit, "foot_valve", {"released": 1.0, "dumped": 1.0})
    for volume in ("rear", "front"):
        yield Hole("foot_valve", "", volume, "foot_valve", {"applied": 1.0})
    if len(vehicle.brakes.reservoir_l) > 2:
        yield Hole("drain", "supply", "wet", "tank_supply", ALWAYS)
        yield Hole("governor", "", "wet", "governor", ALWAYS)
        yield Hole("dryer", "", "wet", "dryer", ALWAYS)
    else:
        # What is ahead of the check valves then is a line, empty before a hold begins.
        for circuit in ("primary", "secondary"):
            yield Hole("check_valve", circuit, circuit, "dryer", ALWAYS)
    if vehicle.brakes.system != "air":
        for volume in ("rear", "front"):
            yield Hole("cylinder", "", volume, "cylinder", ALWAYS)
            yield Hole("hose", "cylinder", volume, "cylinder_hose", ALWAYS)
        return
    yield Hole("relay_valve", "", "primary", "relay_exhaust", {"released": 1.0, "dumped": 1.0})
    yield Hole("relay_valve", "", "rear", "relay_exhaust", {"applied": 1.0})
    for end, _, spring, first in _wheel_ends(vehicle):
        volume = "front" if first else "rear"
        yield Hole("service_diaphragm", end, volume, f"chamber_{end}", ALWAYS)
        yield Hole("chamber_hose", end, volume, f"hose_{end}", ALWAYS)
        if spring:
            yield Hole("spring_diaphragm", end, "park", f"chamber_{end}", ALWAYS)
            yield Hole("spring_diaphragm", end, "park", "relay_exhaust", {"released": 1.0})
    if sprung(vehicle):
        yield Hole("parking_knob", "", "dash", "dash", ALWAYS)
        yield Hole("hose", "parking", "park", "park_hose", ALWAYS)
    if vehicle.kind == "truck tractor":
        yield Hole("supply_knob", "", "dash", "dash", ALWAYS)
        yield Hole("supply_knob", "", "dash", "red_gladhand", ALWAYS)
        yield Hole("protection_valve", "", "to_trailer", "blue_gladhand", ALWAYS)


GAUGES = {
    "shop": {"supply": "red", "service": "blue"},
    "coupled": {"primary": "primary", "secondary": "secondary"},
    "own": {"primary": "primary", "secondary": "secondary"},
}
READ = {("shop", "released"): ("supply",)}
"""Gauges that a hold reads where it reads not all."""


Readings = Mapping[str, list[tuple[float, float]]]


def held(vehicle: Vehicle, air: str, brakes: str, hole: Hole, size: str) -> tuple[Readings, bool]:
    """Hold for a minute with this leak: each gauge's readings, to 1 psi, and whether it hissed.

    Needles stand a little off their marks, each its own way. What is nearly empty when the minute
    begins does not hiss.
    """
    kept = _held.setdefault(vehicle.id, {})
    at = (air, brakes, hole.volume, hole.open_in.get(brakes, 0.0), size)
    if at not in kept:
        kept[at] = _hold(rig_of(vehicle, air, brakes), *at)
    return kept[at]


_held: dict[str, dict[tuple[str, str, str, float, str], tuple[Readings, bool]]] = {}


def _hold(
    rig: Rig, air: str, brakes: str, volume: str, wide: float, size: str
) -> tuple[Readings, bool]:
    gauges = {g: v for g, v in GAUGES[air].items() if g in READ.get((air, brakes), (g,))}
    off = {gauge: 0.2 + 0.2 * place for place, gauge in enumerate(gauges)}
    readings: dict[str, list[tuple[float, float]]] = {gauge: [] for gauge in gauges}
    hissed = wide > 0 and rig.psi[volume] > ATM_PSI + 20
    for tick in range(int(60 / DT_S) + 1):
        if tick * DT_S in (0.0, 30.0, 60.0):
            for gauge, shown in gauges.items():
                psi = max(0.0, rig.psi[shown] - ATM_PSI + off[gauge])
                readings[gauge].append((tick * DT_S, float(round(psi))))
        lost = free_l_per_min(size, rig.psi[volume]) * wide
        rig.psi[volume] -= lost * ATM_PSI / rig.litres[volume] * DT_S / 60
        rig.psi[volume] = max(rig.psi[volume], ATM_PSI)
        rig.step()
    return readings, hissed


def told(
    hole: Hole, size: str, hissed: bool, places: Collection[str], chance: random.Random
) -> str:
    """Where ears put it: mostly where it is, sometimes beside it, a small one often nowhere.

    Args:
        hole, size, hissed: of the leak.
        places: that the vehicle has.
        chance: what is drawn from.
    """
    if not hissed:
        return "nothing"
    draw = chance.random()
    quiet = 0.25 if size == HOLES[0] else 0.05
    if draw < quiet:
        return "nothing"
    beside = _beside(hole.heard)
    return beside if draw < quiet + 0.1 and beside in places else hole.heard


def _beside(place: str) -> str:
    if place.startswith("chamber_"):
        return place.replace("chamber_", "hose_")
    if place.startswith("hose_axle"):
        return place.replace("hose_", "chamber_")
    return BESIDE.get(place, "")
