"""Which settings can be had: one position of each switch, or off, as far as they go together.

Circuits are bits here, the first circuit the lowest, so that thousands of settings are compared
at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product

from walkaround.rounds.power_source import Position, Switch, matches


@dataclass(frozen=True, slots=True)
class Choice:
    """One setting that can be had.

    Attributes:
        places: the switches that are not off, and their positions.
        steady, flashing: bits of the circuits that light so; a circuit is in one of them at most.
    """

    places: tuple[tuple[Switch, Position], ...]
    steady: int
    flashing: int

    @property
    def lights(self) -> tuple[int, int]:
        """What it lights, however it is set."""
        return self.steady, self.flashing

    @property
    def lit(self) -> int:
        """Bits of the circuits that are on."""
        return self.steady | self.flashing

    @property
    def trouble(self) -> tuple[int, int, int]:
        """What it costs the mechanic, worst first: positions to be kept, switches, lamps lit."""
        kept = sum(1 for _, position in self.places if position.keep)
        return kept, len(self.places), self.lit.bit_count()


def choice(places: Iterable[tuple[Switch, Position]], circuit_ids: Sequence[str]) -> Choice:
    """The setting with these positions.

    A circuit fed steady and flashing flashes: a turn signal takes its side from the stop lamp.
    """
    places = tuple(places)
    lights = [light for _, position in places for light in position.lights.items()]
    flashing = {id_ for id_, look in lights if look == "flashing"}
    steady = {id_ for id_, look in lights} - flashing
    return Choice(places, _bits(steady, circuit_ids), _bits(flashing, circuit_ids))


def choices(switches: Sequence[Switch], circuit_ids: Sequence[str]) -> list[Choice]:
    """Every setting that can be had and lights something, the least trouble first.

    Of settings that light the same, the one of least trouble stands for all.
    """
    barred, needed = _barred(switches), _needed(switches)
    best: dict[tuple[int, int], Choice] = {}
    for picked in product(*[_options(switch) for switch in switches]):
        places = [place for place in picked if place is not None]
        names = {_name(*place) for place in places}
        if any(names & barred[name] for name in names):
            continue
        if not all(names & group for name in names for group in needed[name]):
            continue
        found = choice(places, circuit_ids)
        same = best.get(found.lights)
        if found.lit and (same is None or found.trouble < same.trouble):
            best[found.lights] = found
    return sorted(best.values(), key=lambda c: c.trouble)


def settings_count(switches: Iterable[Switch]) -> int:
    """How many settings there would be if all went together."""
    count = 1
    for switch in switches:
        count *= len(switch.positions) + 1
    return count


_Place = tuple[Switch, Position]


def _options(switch: Switch) -> list[_Place | None]:
    return [None, *((switch, position) for position in switch.positions)]


def _name(switch: Switch, position: Position) -> str:
    return f"{switch.id}.{position.id}"


def _meant(reference: str, switches: Iterable[Switch]) -> set[str]:
    return {_name(s, p) for s in switches for p in s.positions if matches(reference, s.id, p.id)}


def _barred(switches: Sequence[Switch]) -> dict[str, set[str]]:
    """By position, the positions that it excludes."""
    return {
        _name(switch, position): {
            name for reference in position.excludes for name in _meant(reference, switches)
        }
        for switch in switches
        for position in switch.positions
    }


def _needed(switches: Sequence[Switch]) -> dict[str, list[set[str]]]:
    """By position, for each switch that it needs, the positions one of which must be set."""
    found = {}
    for switch in switches:
        for position in switch.positions:
            groups: dict[str, set[str]] = {}
            for reference in position.needs:
                group = groups.setdefault(reference.split(".")[0], set())
                group |= _meant(reference, switches)
            found[_name(switch, position)] = list(groups.values())
    return found


def _bits(ids: Iterable[str], circuit_ids: Sequence[str]) -> int:
    return sum(1 << circuit_ids.index(id_) for id_ in ids)
