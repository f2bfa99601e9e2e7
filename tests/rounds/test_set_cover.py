"""The fewest covering sets, against every choice of sets tried in turn."""

from __future__ import annotations

from functools import reduce
from itertools import combinations
from operator import or_

from hypothesis import given, settings
from hypothesis import strategies as st

from walkaround.rounds.set_cover import fewest

families = st.lists(st.integers(0, 2**12 - 1), max_size=11)
# Two or three holders for each item make for the hardest searches.
holders = st.lists(st.sets(st.integers(0, 9), min_size=2, max_size=3), min_size=6, max_size=24)


def by_force(sets: list[int]) -> int:
    union = reduce(or_, sets, 0)
    return next(
        size
        for size in range(len(sets) + 1)
        if any(reduce(or_, some, 0) == union for some in combinations(sets, size))
    )


@settings(max_examples=500)
@given(families)
def test_the_cover_is_whole_and_no_smaller_one_exists(sets: list[int]) -> None:
    chosen = fewest(sets)
    assert reduce(or_, (sets[index] for index in chosen), 0) == reduce(or_, sets, 0)
    assert len(set(chosen)) == len(chosen) == by_force(sets)


@settings(max_examples=500)
@given(holders)
def test_items_of_few_holders_are_covered_by_no_more_sets_than_needed(
    holders: list[set[int]],
) -> None:
    sets = [sum(1 << item for item, held in enumerate(holders) if n in held) for n in range(10)]
    chosen = fewest(sets)
    assert reduce(or_, (sets[index] for index in chosen), 0) == reduce(or_, sets, 0)
    assert len(chosen) == by_force(sets)


@settings(max_examples=500)
@given(families, st.sets(st.integers(0, 10)))
def test_of_the_fewest_sets_as_few_as_can_be_are_to_be_avoided(
    sets: list[int], avoided: set[int]
) -> None:
    chosen = fewest(sets, avoided)
    union = reduce(or_, sets, 0)
    assert reduce(or_, (sets[index] for index in chosen), 0) == union
    assert len(set(chosen)) == len(chosen) == by_force(sets)
    assert len(avoided & set(chosen)) == min(
        len(avoided & set(some))
        for some in combinations(range(len(sets)), len(chosen))
        if reduce(or_, (sets[index] for index in some), 0) == union
    )


def test_nothing_needs_no_set() -> None:
    assert fewest([]) == fewest([0, 0]) == []


def test_of_equal_sets_the_earliest_is_taken() -> None:
    assert fewest([0, 0b01, 0b01, 0b10]) == [1, 3]


def test_a_large_family_of_disjoint_gangs_is_solved_exactly() -> None:
    """Eight free switches written as 256 settings: Sperner 1928 says five."""
    shows = []
    for on in range(256):
        pairs = [(a, b) for a in range(8) for b in range(8) if on >> a & 1 and not on >> b & 1]
        shows.append(sum(1 << a * 8 + b for a, b in pairs))
    assert len(fewest(shows)) == 5
