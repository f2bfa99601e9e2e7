"""The plumbing of one vehicle: who feeds what while its brakes are how, and what a leak empties.

Air goes one way: check valves, relay valves and the foot valve let it on and not back. So a leak
takes from the node where it is and from all that feeds it, and a gauge falls where its own node is
among those. How fast, follows from their volume: 14.7 psi for each time that the leak lets out as
much free air as they hold.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Literal

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message
from walkaround.diagnosis.figures import FigureTable
from walkaround.leaks.tables import AirTables, BrakeState, Feed, LeakPath
from walkaround.rules.limits import Line
from walkaround.vehicle.model import POWER_UNITS, Vehicle

Source = Literal["shop", "coupled", "own"]
"""Whose air it is held on: a trailer's from a shop or from what tows it, or a power unit's own."""

ATMOSPHERE_PSI = 14.696
_NODE_OF: Mapping[Line, str] = {"supply": "red_line", "service": "blue_line"}
_MM_PER_M = 1000.0


@dataclass(frozen=True, slots=True)
class Plumbing:
    """One vehicle's air.

    Attributes:
        gauges: that are read at a hold.
        volumes_l: the volume of each node, liters.
        ways: every way in which one of its parts may lose air, wheel ends named.
    """

    source: Source
    gauges: tuple[Line, ...]
    volumes_l: Mapping[str, float]
    feeds: tuple[Feed, ...]
    ways: tuple[LeakPath, ...]

    def emptied(self, node: str, brakes: BrakeState) -> frozenset[str]:
        """List what a leak at a node empties: itself and all that feeds it; nothing if no air."""
        emptied: set[str] = set()
        ahead = {node}
        while ahead:
            at = ahead.pop()
            here = [feed for feed in self.feeds if feed.node == at and brakes in feed.brakes]
            if here:
                emptied.add(at)
            ahead |= {feed.fed_from for feed in here} - emptied - {""}
        return frozenset(emptied)

    def fall(self, node: str, brakes: BrakeState) -> Mapping[Line, float]:
        """Tell how fast each gauge falls for each liter of free air a minute; psi a minute."""
        emptied = self.emptied(node, brakes)
        emptied_l = sum(self.volumes_l[each] for each in emptied)
        here = {gauge for gauge in self.gauges if _NODE_OF.get(gauge, gauge) in emptied}
        return {g: ATMOSPHERE_PSI / emptied_l if g in here else 0.0 for g in self.gauges}


def plumbing_of(
    vehicle: Vehicle, tables: AirTables, source: Source | None = None, towed: int = 0
) -> Plumbing:
    """Lay the plumbing of a vehicle.

    Args:
        vehicle: with air brakes, air over hydraulic included.
        tables: what feeds what, and what may leak.
        source: left out, a shop's for what is towed.
        towed: units that a power unit tows.

    Raises:
        InputError: the vehicle has no air brakes, or cannot be held on this air.
    """
    power_unit = vehicle.kind in POWER_UNITS
    source = source or ("own" if power_unit else "shop")
    if vehicle.brakes.system not in ("air", "air_over_hydraulic"):
        what, mend = message("trouble-no-air-brakes"), message("problem-name-vehicle-with-air")
        raise InputError([Problem(vehicle.id, "vehicle", what, mend)])
    if (source == "own") != power_unit:
        what = message("trouble-no-such-air", air=source)
        mend = message("problem-use-one-of", names=("own",) if power_unit else ("shop", "coupled"))
        raise InputError([Problem(vehicle.id, "air.source", what, mend)])
    facts = _facts(vehicle, source, towed)
    return Plumbing(
        source=source,
        gauges=("supply", "service") if source == "shop" else ("primary", "secondary"),
        volumes_l=_volumes_l(vehicle, tables.figures, facts),
        feeds=tuple(feed for feed in tables.feeds if feed.needs <= facts),
        ways=tuple(
            each for way in tables.ways if way.needs <= facts for each in _at_ends(way, vehicle)
        ),
    )


def _facts(vehicle: Vehicle, source: Source, towed: int) -> frozenset[str]:
    """Return the words of the tables' `needs` that are true."""
    power_unit = vehicle.kind in POWER_UNITS
    sprung = any(axle.spring for axle in vehicle.brakes.axles)
    wet = power_unit and len(vehicle.brakes.reservoir_l) > 2
    truth = {
        "power_unit": power_unit,
        "towed": not power_unit,
        "cab": power_unit or source == "coupled",
        "shop": source == "shop",
        "coupled": source == "coupled",
        "sprung": sprung,
        "unsprung": not sprung,
        "at_wheels": vehicle.brakes.system == "air",
        "air_over_hydraulic": vehicle.brakes.system == "air_over_hydraulic",
        "wet_tank": wet,
        "no_wet_tank": not wet,
        "rear_lines": vehicle.kind in ("full trailer", "converter dolly"),
        "tows": power_unit and (towed > 0 or vehicle.kind == "truck tractor"),
        "towing": power_unit and towed > 0,
    }
    return frozenset(fact for fact, is_true in truth.items() if is_true)


def _ends(vehicle: Vehicle) -> Mapping[str, list[str]]:
    """Return the wheel ends that each placeholder of the table stands for."""
    chambers = vehicle.brakes.system == "air"
    ends: dict[str, list[str]] = {
        "{end}": [], "{spring_end}": [], "{front_end}": [], "{rear_end}": []
    }  # fmt: skip
    for number, axle in enumerate(vehicle.brakes.axles if chambers else (), start=1):
        here = [f"axle_{number}_{side}" for side in ("left", "right")]
        ends["{end}"] += here
        ends["{spring_end}"] += here if axle.spring else []
        ends["{front_end}" if number == 1 else "{rear_end}"] += here
    return ends


def _at_ends(way: LeakPath, vehicle: Vehicle) -> Iterator[LeakPath]:
    """Yield a path at each wheel end its place stands for; itself if it is at none."""
    ends = _ends(vehicle)
    for end in ends.get(way.place, [way.place]):
        yield way._replace(place=end, heard=way.heard.replace("{end}", end))


def _volumes_l(
    vehicle: Vehicle, figures: FigureTable, facts: frozenset[str]
) -> Mapping[str, float]:
    """Return the volume of each node, l, from the vehicle's tanks, length and chambers."""
    ends, line = _ends(vehicle), figures["line_l"]
    service, spring = figures["service_chamber_l"], figures["spring_chamber_l"]
    volumes = sorted(vehicle.brakes.reservoir_l)
    tanks = volumes or [figures["tank_l"], figures["tank_l"]]
    wet = tanks[0] if "wet_tank" in facts else line
    service_l = (sum(tanks) - (wet if "wet_tank" in facts else 0.0)) / 2.0
    if "coupled" in facts:
        service_l = figures["tank_l"]
    red_line_l = line + figures["red_line_l_per_m"] * vehicle.length_mm / _MM_PER_M
    springs = spring * len(ends["{spring_end}"])
    return {
        # While red has air the spring brakes are open to it both ways.
        "red_line": red_line_l + springs,
        "blue_line": red_line_l,
        "tank": sum(tanks),
        "springs": line,
        "chambers": line + service * len(ends["{end}"]),
        "primary": service_l,
        "secondary": service_l,
        "wet": wet,
        "dash": line,
        "park": line + springs,
        "to_trailer": line,
        "primary_applied": line + service * len(ends["{rear_end}"]),
        "secondary_applied": line + service * len(ends["{front_end}"]),
    }
