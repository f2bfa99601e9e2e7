"""A lamp cable from end to end: which contact reached which, and what that means.

Contacts of both ends bear the same names. Whatever is joined, by wire or by a short, is one group;
a group of one contact at each end is a wire, straight or not, and a larger one is a short.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Literal, NamedTuple

from walkaround.base.message import Message, message

CableKind = Literal["open", "weak", "swapped", "crossed", "shorted"]


class CableFault(NamedTuple):
    """One thing that is wrong with a cable.

    Attributes:
        kind: `open`, nothing is reached; `weak`, it is, but poorly; `swapped`, two contacts have
            each other's wire; `crossed`, one contact reaches another one; `shorted`, several hang
            together.
        contacts: which; of a crossed one first that of the near end.
    """

    kind: CableKind
    contacts: tuple[str, ...]

    @property
    def text(self) -> Message:
        """Say what is wrong: "Contacts 3 and 5 are swapped"."""
        return message(f"cable-{self.kind}", contacts=self.contacts)


def cable_faults(
    contacts: Sequence[str], reached: Mapping[str, frozenset[str]], weak: Iterable[str] = ()
) -> tuple[CableFault, ...]:
    """Say what is wrong with a cable; nothing if every contact reaches its own and no other.

    Args:
        contacts: of either end, in order.
        reached: what each contact of the near end reached at the far end; the others reached
            their own, and only that.
        weak: contacts of the near end whose lamp burnt dim, or whose wire has too many ohms.
    """
    to = {contact: reached.get(contact, frozenset({contact})) for contact in contacts}
    return tuple(_faults(contacts, to, frozenset(weak)))


def _faults(
    contacts: Sequence[str], to: Mapping[str, frozenset[str]], weak: frozenset[str]
) -> Iterator[CableFault]:
    explained: set[str] = set()
    for near in contacts:
        group = _connected_group(near, to)
        if near in explained:
            continue
        if len(group) > 1 or len(to[near]) > 1:
            hang = group | frozenset(far for each in group for far in to[each])
            explained |= group
            yield CableFault("shorted", tuple(each for each in contacts if each in hang))
            continue
        [far] = to[near] or {""}
        if not far:
            yield CableFault("open", (near,))
        elif far != near and to.get(far) == frozenset({near}):
            explained |= {near, far}
            yield CableFault("swapped", (near, far))
        elif far != near:
            yield CableFault("crossed", (near, far))
    yield from (CableFault("weak", (near,)) for near in contacts if near in weak and to[near])


def _connected_group(near: str, to: Mapping[str, frozenset[str]]) -> frozenset[str]:
    """Find the near contacts that are connected with this one by what they reach."""
    group, fars = {near}, set(to[near])
    while joined := {each for each in to if each not in group and to[each] & fars}:
        group |= joined
        fars |= {far for each in joined for far in to[each]}
    return frozenset(group)
