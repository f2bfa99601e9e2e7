"""The fewest settings for switches that are free of each other, by Sperner's theorem.

A switch that lights its circuits alone, in any company, is on in some subset of the settings. Two
of one look are told apart both ways when neither subset holds the other: the subsets form an
antichain, and among the subsets of L settings the largest antichain has C(L, floor(L/2)) members
(E. Sperner, Ein Satz über Untermengen einer endlichen Menge, Math. Z. 27, 1928, from memory).

A combined stop and turn circuit is steady in one setting, i, and flashing in another, j; no steady
circuit may be on in i alone then, nor a flashing one in j alone, so the others get subsets of two
or more. Two settings do for at most one steady, one flashing and two combined circuits. For three
and more the middle subsets have two members anyway, and there are L(L-1) pairs (i, j); for L = 3
no more than these 6 can be told apart, because each pair is held by two of the six splits of
three settings, and each split holds two pairs.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import combinations, count, permutations
from math import comb

from walkaround.rounds.power_source import Lit, Position, Switch

_Places = list[tuple[Switch, Position]]
# The pairs (i, j) of four settings; beyond them the fewest settings are not proven here.
MOST_COMBINED = 12


def are_free(switches: Sequence[Switch], combined_ids: Collection[str]) -> bool:
    """Tell whether each switch lights circuits that no other lights, whatever the others do.

    A switch with two positions counts when these are the two looks of one combined circuit.

    Args:
        combined_ids: the circuits that must be shown both steady and flashing.
    """
    lit = [id_ for switch in switches for id_ in _circuits(switch)]
    positions = [position for switch in switches for position in switch.positions]
    combined = [switch for switch in switches if len(switch.positions) > 1]
    return (
        len(lit) == len(set(lit))
        and not any(position.needs or position.excludes for position in positions)
        and len(combined) <= MOST_COMBINED
        and all(_has_both_looks(switch, combined_ids) for switch in combined)
    )


def sperner_settings(switches: Sequence[Switch]) -> list[_Places]:
    """Find the fewest settings that tell free switches apart, as the positions of each."""
    combined = [switch for switch in switches if len(switch.positions) > 1]
    single = [switch for switch in switches if len(switch.positions) == 1]
    steady, flashing = _families(single)
    most = max(len(steady), len(flashing))
    rounds = _rounds(most, len(combined))
    subsets = list(combinations(range(rounds), _members(most, rounds, bool(combined))))
    on_in = dict(zip(flashing, subsets, strict=False)) | dict(zip(steady, subsets, strict=False))
    settings: list[_Places] = [[] for _ in range(rounds)]
    for switch in single:
        for index in on_in[switch.id]:
            settings[index].append((switch, switch.positions[0]))
    for switch, pair in zip(combined, permutations(range(rounds), 2), strict=False):
        for position, index in zip(switch.positions, pair, strict=True):
            settings[index].append((switch, position))
    return settings


def _families(single: Sequence[Switch]) -> tuple[list[str], list[str]]:
    """Return ids of the switches with steady and of those with flashing circuits.

    A switch with both has the same place in each family, so that both give it the same subset.
    """
    looks: dict[str, set[Lit]] = {s.id: set(s.positions[0].lights.values()) for s in single}
    in_order = sorted(looks, key=lambda id_: -len(looks[id_]))
    return (
        [id_ for id_ in in_order if "steady" in looks[id_]],
        [id_ for id_ in in_order if "flashing" in looks[id_]],
    )


def _rounds(most: int, combined: int) -> int:
    """Return the fewest settings for so many switches of one look and of combined circuits."""
    if combined == 0:
        return next(n for n in count(0 if most == 0 else 1) if comb(n, n // 2) >= most)
    if most <= 1 and combined <= 2:
        return 2
    return next(n for n in count(3) if comb(n, n // 2) >= most and n * (n - 1) >= combined)


def _members(most: int, rounds: int, beside_combined: bool) -> int:
    """Return the size of the smallest subsets of which there are enough: fewest lamps on."""
    return next(n for n in count(2 if beside_combined else 1) if comb(rounds, n) >= most)


def _circuits(switch: Switch) -> set[str]:
    return {id_ for position in switch.positions for id_ in position.lights}


def _has_both_looks(switch: Switch, combined_ids: Collection[str]) -> bool:
    looks = [light for position in switch.positions for light in position.lights.items()]
    return len(switch.positions) == 2 and any(
        sorted(looks) == [(id_, "flashing"), (id_, "steady")] for id_ in combined_ids
    )
