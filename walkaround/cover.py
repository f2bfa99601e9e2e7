"""The fewest sets that cover everything: an exact search over sets written as bits.

Deepening one set at a time, it branches on the item that the fewest sets hold, and gives up a
branch as soon as items that no two of the sets left can share outnumber the sets still allowed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import reduce
from itertools import count
from operator import or_


def fewest(sets: Sequence[int]) -> list[int]:
    """The indices of the fewest sets that together hold all that any set holds.

    Args:
        sets: each set's items as bits; of two that serve alike the earlier is taken.
    """
    holders = _hardest(sets)
    if not holders:
        return []
    everything = (1 << len(sets)) - 1
    for size in count(1):
        found = _search(holders, everything, size)
        if found is not None:
            return sorted(_preferred(sets, found))
    raise AssertionError("all sets together always cover")  # pragma: no cover


def _hardest(sets: Sequence[int]) -> list[int]:
    """For each item that matters the bits of the sets that hold it, the rarest item first.

    An item that every holder of another one holds too is covered along with that other one.
    """
    union = reduce(or_, sets, 0)
    holders = {
        sum(1 << index for index, items in enumerate(sets) if items >> item & 1)
        for item in _ones(union)
    }
    kept: list[int] = []
    for holder in sorted(holders, key=lambda h: (h.bit_count(), h)):
        if not any(rarer & ~holder == 0 for rarer in kept):
            kept.append(holder)
    return kept


def _search(open_: Sequence[int], allowed: int, size: int) -> list[int] | None:
    """At most `size` allowed sets that cover the open items, or None.

    Args:
        open_: for each item not yet covered, the sets that hold it.
    """
    if not open_:
        return []
    if size == 0 or _apart(open_, allowed) > size:
        return None
    rarest = min(open_, key=lambda holder: (holder & allowed).bit_count())
    tries = [(sum(1 for h in open_ if h >> index & 1), index) for index in _ones(rarest & allowed)]
    for _, index in sorted(tries, key=lambda t: (-t[0], t[1])):
        rest = [holder for holder in open_ if not holder >> index & 1]
        found = _search(rest, allowed, size - 1)
        if found is not None:
            return [index, *found]
        # Whatever this set can do has been tried.
        allowed &= ~(1 << index)
    return None


def _apart(open_: Sequence[int], allowed: int) -> int:
    """How many open items are found of which no allowed set holds two: so many sets it takes."""
    taken = number = 0
    for holder in open_:
        if not holder & allowed & taken:
            taken |= holder & allowed
            number += 1
    return number


def _preferred(sets: Sequence[int], chosen: Sequence[int]) -> list[int]:
    """The same cover with earlier sets in place of later ones, one after the other."""
    union = reduce(or_, sets, 0)
    kept = list(chosen)
    for place in range(len(kept)):
        others = reduce(or_, (sets[index] for at, index in enumerate(kept) if at != place), 0)
        missing = union & ~others
        kept[place] = next(i for i, items in enumerate(sets) if missing & ~items == 0)
    return kept


def _ones(bits: int) -> Iterator[int]:
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low
