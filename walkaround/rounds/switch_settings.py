"""Which settings can be had, and what they show: one position of each switch, or off.

Circuits are bits here, the first circuit the lowest, so that thousands of settings are compared
at once. So is what settings show: each circuit has a row with a bit for every other circuit that
had another look while this one was on, and a bit for each look that it had itself. What several
settings show is their bitwise or, so that the fewest settings are the fewest sets of bits that
cover all that can be shown (`set_cover`).

Why these bits: if the lamps of circuits a and b are swapped, or the two are bridged, a setting in
which a is on and b looks otherwise looks wrong at b's lamps; one with b on and a otherwise, at
a's. A dead circuit looks wrong wherever it should be on. With a bit for each of these, both ways,
no such fault looks right in every setting that shows them all.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product

from walkaround.rounds.power_source import Lit, Position, Switch, matches

LIT: tuple[Lit, Lit] = ("steady", "flashing")


@dataclass(frozen=True, slots=True)
class SettingChoice:
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
    def in_gear(self) -> bool:
        """Whether a gear is in, so that a running engine would move the vehicle."""
        return any(position.in_gear for _, position in self.places)

    @property
    def trouble(self) -> tuple[bool, int, int, int]:
        """What it costs the mechanic, worst first: a gear, positions kept, switches, lamps lit."""
        kept_positions = sum(1 for _, position in self.places if position.keep)
        return self.in_gear, kept_positions, len(self.places), self.lit.bit_count()


def setting_choice(
    places: Iterable[tuple[Switch, Position]], circuit_ids: Sequence[str]
) -> SettingChoice:
    """Make the setting with these positions.

    A circuit fed steady and flashing flashes: a turn signal takes its side from the stop lamp.
    """
    places = tuple(places)
    lights = [light for _, position in places for light in position.lights.items()]
    flashing = {id_ for id_, look in lights if look == "flashing"}
    steady = {id_ for id_, look in lights} - flashing
    return SettingChoice(places, _bits(steady, circuit_ids), _bits(flashing, circuit_ids))


def choices(switches: Sequence[Switch], circuit_ids: Sequence[str]) -> list[SettingChoice]:
    """List every setting that can be had and lights something, the least trouble first.

    Of settings that light the same, the one of least trouble stands for all.
    """
    barred, needed = _excluded_positions(switches), _needed_positions(switches)
    best: dict[tuple[int, int], SettingChoice] = {}
    for positions in product(*[_options(switch) for switch in switches]):
        places = [place for place in positions if place is not None]
        names = {_name(*place) for place in places}
        if any(names & barred[name] for name in names):
            continue
        if not all(names & group for name in names for group in needed[name]):
            continue
        choice = setting_choice(places, circuit_ids)
        same = best.get(choice.lights)
        if choice.lit and (same is None or choice.trouble < same.trouble):
            best[choice.lights] = choice
    return sorted(best.values(), key=lambda c: c.trouble)


def settings_count(switches: Iterable[Switch]) -> int:
    """Count the settings that there would be if all went together."""
    count = 1
    for switch in switches:
        count *= len(switch.positions) + 1
    return count


def bits_shown(choice: SettingChoice, count: int) -> int:
    """Tell what one setting shows about `count` circuits, as rows of bits."""
    everyone = (1 << count) - 1
    alike = {0: choice.steady, 1: choice.flashing}
    bits = 0
    for place in range(count):
        for look, same in alike.items():
            if same >> place & 1:
                row = everyone & ~same | 1 << count + look
                bits |= row << place * (count + len(LIT))
    return bits


def bits_to_show(everything: int, looks_of: Sequence[Sequence[Lit]]) -> int:
    """Tell what must be shown, of all that the settings of a source can show together.

    Args:
        looks_of: for each circuit the looks that it must have; where the source has none of them,
            the looks that it has must be shown instead.
    """
    count = len(looks_of)
    bits = 0
    for place, looks in enumerate(looks_of):
        row = _row(everything, place, count)
        apart_bits, had = row & (1 << count) - 1, row >> count
        want = sum(1 << LIT.index(look) for look in looks)
        bits |= (apart_bits | ((had & want) or had) << count) << place * (count + len(LIT))
    return bits


def looks_had(bits: int, place: int, count: int) -> tuple[Lit, ...]:
    """List the looks that a circuit had; none when it was always dark."""
    had = _row(bits, place, count) >> count
    return tuple(look for at, look in enumerate(LIT) if had >> at & 1)


def told_apart(bits: int, first: int, second: int, count: int) -> bool:
    """Tell whether one of the two was on while the other had another look."""
    return bool(_row(bits, first, count) >> second & 1 or _row(bits, second, count) >> first & 1)


_SwitchAt = tuple[Switch, Position]


def _options(switch: Switch) -> list[_SwitchAt | None]:
    return [None, *((switch, position) for position in switch.positions)]


def _name(switch: Switch, position: Position) -> str:
    return f"{switch.id}.{position.id}"


def _meant(reference: str, switches: Iterable[Switch]) -> set[str]:
    return {_name(s, p) for s in switches for p in s.positions if matches(reference, s.id, p.id)}


def _excluded_positions(switches: Sequence[Switch]) -> dict[str, set[str]]:
    """Return, by position, the positions that it excludes."""
    return {
        _name(switch, position): {
            name for reference in position.excludes for name in _meant(reference, switches)
        }
        for switch in switches
        for position in switch.positions
    }


def _needed_positions(switches: Sequence[Switch]) -> dict[str, list[set[str]]]:
    """Return, by position and switch that it needs, the positions of which one must be set."""
    alternatives = {}
    for switch in switches:
        for position in switch.positions:
            groups: dict[str, set[str]] = {}
            for reference in position.needs:
                group = groups.setdefault(reference.split(".")[0], set())
                group |= _meant(reference, switches)
            alternatives[_name(switch, position)] = list(groups.values())
    return alternatives


def _bits(ids: Iterable[str], circuit_ids: Sequence[str]) -> int:
    return sum(1 << circuit_ids.index(id_) for id_ in ids)


def _row(bits: int, place: int, count: int) -> int:
    width = count + len(LIT)
    return bits >> place * width & (1 << width) - 1
