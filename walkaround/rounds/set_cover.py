"""The fewest sets that cover everything: an exact search over sets written as bits.

To find them is hard in general (set cover is NP-complete: R. M. Karp, Reducibility among
combinatorial problems, 1972, from memory); a cab has some sixty settings, and for those it is
quick. No cover is overlooked:

    Sizes are tried from 0 up, so the first cover found is one of the fewest sets.
    Some set of every cover holds the item that the fewest sets hold: these are branched on.
    An item that every holder of another item holds too is covered along with that other one, and
    a set that lies within another can be exchanged for it; both are left out.
    What one branch tried stays out of the next: a cover with it was looked for there.
    A set to be avoided stands for none that need not be: each of those has an item more, which
    nothing asks for.
    A branch that may take k more sets is given up when its k largest together hold less than what
    is open, or when more than k open items are found of which no set holds two; each of those
    takes a set of its own.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from heapq import nlargest
from itertools import count
from operator import or_


def fewest(sets: Sequence[int], avoided: Collection[int] = ()) -> list[int]:
    """Find the indices of the fewest sets that together hold all that any set holds.

    Args:
        sets: each set's items as bits; of several that serve alike the earliest is taken.
        avoided: indices of sets of which as few are taken as can be without taking more sets.
    """
    items = _items_by_rarity(sets)
    welcome = 1 << len(items)
    narrowed = [
        _renumbered(subset, items) | (0 if index in avoided else welcome)
        for index, subset in enumerate(sets)
    ]
    best = _maximal_sets(narrowed)
    search = _Search(best, [_holders(best, place) for place in range(len(items))], welcome)
    open_, allowed = welcome - 1, (1 << len(best)) - 1
    size = next(n for n in count() if search.cover(open_, allowed, n, n) is not None)
    covers = (search.cover(open_, allowed, size, unwelcome) for unwelcome in count())
    cover = next(cover for cover in covers if cover is not None)
    return sorted(_earliest_cover(narrowed, cover, welcome))


def _items_by_rarity(sets: Sequence[int]) -> list[int]:
    """List the items that matter, the one in the fewest sets first.

    An item that every holder of another one holds too is covered along with that other one.
    """
    holders: dict[int, int] = {}
    for item in _ones(reduce(or_, sets, 0)):
        holders.setdefault(_holders(sets, item), item)
    hardest: list[int] = []
    for holder in sorted(holders, key=int.bit_count):
        if not any(rarer & ~holder == 0 for rarer in hardest):
            hardest.append(holder)
    return [holders[holder] for holder in hardest]


def _holders(sets: Sequence[int], item: int) -> int:
    return sum(1 << index for index, subset in enumerate(sets) if subset >> item & 1)


def _renumbered(subset: int, items: Sequence[int]) -> int:
    """Return the set with only these items, renumbered in their order."""
    return sum(1 << place for place, item in enumerate(items) if subset >> item & 1)


def _maximal_sets(sets: Iterable[int]) -> list[int]:
    """List the sets that lie in no other one, the largest first."""
    outdoing: list[int] = []
    for subset in sorted(set(sets), key=lambda subset: (-subset.bit_count(), subset)):
        if not any(subset & ~larger == 0 for larger in outdoing):
            outdoing.append(subset)
    return outdoing


@dataclass(frozen=True, slots=True)
class _Search:
    """The sets that may be taken and, by item, which of them hold it, as bits.

    `welcome` is the item of those that need not be avoided.
    """

    sets: Sequence[int]
    holders: Sequence[int]
    welcome: int

    def cover(self, open_: int, allowed: int, size: int, unwelcome: int) -> list[int] | None:
        """Find at most `size` allowed sets that cover the open items, this many unwelcome."""
        if not open_:
            return []
        gains = [(self.sets[index] & open_).bit_count() for index in _ones(allowed)]
        if sum(nlargest(size, gains)) < open_.bit_count():
            return None
        holders = [self.holders[item] & allowed for item in _ones(open_)]
        if _lower_bound(holders) > size:
            return None
        rarest = min(holders, key=int.bit_count)
        for candidate in self._outdoing_for(open_, rarest):
            allowed &= ~(1 << candidate)
            left = unwelcome - (not self.sets[candidate] & self.welcome)
            if left < 0:
                continue
            other_sets = self.cover(open_ & ~self.sets[candidate], allowed, size - 1, left)
            if other_sets is not None:
                return [self.sets[candidate], *other_sets]
        return None

    def _outdoing_for(self, open_: int, among: int) -> list[int]:
        """List the sets that do most for the open items, each for all that do less."""
        visible = open_ | self.welcome
        index_of = {self.sets[index] & visible: index for index in _ones(among)}
        return [index_of[subset] for subset in _maximal_sets(index_of)]


def _lower_bound(holders: Iterable[int]) -> int:
    """Count items of which no set holds two: each needs a set of its own."""
    covered = number = 0
    for holder in sorted(holders, key=int.bit_count):
        if not holder & covered:
            covered |= holder
            number += 1
    return number


def _earliest_cover(sets: Sequence[int], cover: Sequence[int], welcome: int) -> list[int]:
    """Find a cover of this size in which each set, in turn, is the earliest; its indices."""
    everything = reduce(or_, sets, 0) & ~welcome
    chosen = list(cover)
    indices = []
    for place in range(len(chosen)):
        other_sets = reduce(or_, chosen[:place] + chosen[place + 1 :], 0)
        missing = everything & ~other_sets | chosen[place] & welcome
        index = next(index for index, subset in enumerate(sets) if missing & ~subset == 0)
        chosen[place] = sets[index]
        indices.append(index)
    return indices


def _ones(bits: int) -> Iterator[int]:
    while bits:
        low = bits & -bits
        yield low.bit_length() - 1
        bits ^= low
