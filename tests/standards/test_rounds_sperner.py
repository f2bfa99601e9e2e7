"""The fewest settings of circuits switched alone, against Sperner's theorem.

E. Sperner, Ein Satz über Untermengen einer endlichen Menge, Math. Z. 27 (1928), from memory: the
most subsets of L things of which none holds another are C(L, floor(L/2)). A circuit is the subset
of the settings in which it is on; two circuits are told apart both ways when neither subset holds
the other. So n circuits need the least L with C(L, floor(L/2)) >= n.
"""

from __future__ import annotations

from itertools import chain, combinations
from math import comb

import pytest
from support.switchgear import circuits, shipped_sources

from walkaround.rounds.plan_rounds import plan_rounds

BOX = shipped_sources()["box"]


def least(count: int) -> int:
    """Sperner's bound."""
    return next(n for n in range(1, count + 1) if comb(n, n // 2) >= count)


@pytest.mark.parametrize("count", range(1, 17))
@pytest.mark.parametrize("kind", ["lamp", "turn"])
def test_circuits_switched_alone_need_sperners_least(count: int, kind: str) -> None:
    lamps = circuits(*[f"{kind}_x{n}" for n in range(count)])
    rounds = plan_rounds(BOX, lamps)
    assert len(rounds.settings) == least(count)
    on_in = {
        lamp.id: {n for n, s in enumerate(rounds.settings) if s.looks[lamp.id] != "dark"}
        for lamp in lamps
    }
    assert all(not a <= b and not b <= a for a, b in combinations(on_in.values(), 2))
    assert all(on_in.values())
    assert rounds.pairs_not_told_apart == ()


@pytest.mark.parametrize("steady", range(9))
@pytest.mark.parametrize("flashing", range(9))
def test_steady_and_flashing_circuits_share_the_settings(steady: int, flashing: int) -> None:
    if most := max(steady, flashing):
        ids = chain((f"lamp_x{n}" for n in range(steady)), (f"turn_x{n}" for n in range(flashing)))
        assert len(plan_rounds(BOX, circuits(*ids)).settings) == least(most)


@pytest.mark.parametrize("count", [1, 2, 3])
def test_the_bound_is_what_trying_all_families_of_subsets_finds(count: int) -> None:
    for size in range(1, least(count) + 1):
        subsets = [
            frozenset(held)
            for many in range(1, size + 1)
            for held in combinations(range(size), many)
        ]
        families = combinations(subsets, count)
        found = any(
            all(not a <= b and not b <= a for a, b in combinations(family, 2))
            for family in families
        )
        assert found == (size == least(count))
