"""What is wrong with a cable, against SciPy's connected components of the same graph.

SciPy (scipy.sparse.csgraph) is a general-purpose library: a cable is a graph whose nodes are the
contacts of both ends and whose edges are what was found joined.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.sparse import coo_array
from scipy.sparse.csgraph import connected_components
from support.english import ENGLISH

from walkaround.contacts.cable import CableFault, cable_faults

SEVEN = tuple("1234567")
REACHED = st.dictionaries(
    st.sampled_from(SEVEN), st.frozensets(st.sampled_from(SEVEN), max_size=3), max_size=7
)


def straight(**reached: str) -> Mapping[str, frozenset[str]]:
    """What the contacts that are named reach, a letter each: `c1="23"`."""
    return {near.removeprefix("c"): frozenset(far) for near, far in reached.items()}


def components(reached: Mapping[str, frozenset[str]]) -> list[tuple[set[str], set[str]]]:
    """The near and far contacts of each connected part of the cable."""
    edges = [
        (SEVEN.index(near), 7 + SEVEN.index(far))
        for near in SEVEN
        for far in reached.get(near, {near})
    ]
    rows, columns = zip(*edges, strict=True) if edges else ((), ())
    graph = coo_array((np.ones(len(edges)), (rows, columns)), shape=(14, 14))
    count, label = connected_components(graph, directed=False)
    return [
        (
            {SEVEN[n] for n in range(7) if label[n] == part},
            {SEVEN[n] for n in range(7) if label[7 + n] == part},
        )
        for part in range(count)
    ]


def test_a_straight_cable_has_nothing_wrong() -> None:
    assert cable_faults(SEVEN, {}) == ()


@pytest.mark.parametrize(
    ("reached", "faults", "said"),
    [
        (straight(c4=""), [CableFault("open", ("4",))], "Contact 4 reaches nothing."),
        (
            straight(c3="5", c5="3"),
            [CableFault("swapped", ("3", "5"))],
            "Contacts 3 and 5 are swapped.",
        ),
        (
            straight(c2="26", c6="26"),
            [CableFault("shorted", ("2", "6"))],
            "Contacts 2 and 6 are shorted together.",
        ),
        (
            straight(c1="2", c2="3", c3="1"),
            [CableFault("crossed", pair) for pair in (("1", "2"), ("2", "3"), ("3", "1"))],
            "Crossed, from one end to the other: contacts 1 and 2.",
        ),
        (
            straight(c1="2", c2=""),
            [CableFault("crossed", ("1", "2")), CableFault("open", ("2",))],
            "Crossed, from one end to the other: contacts 1 and 2.",
        ),
    ],
)
def test_what_a_contact_reaches_says_what_is_wrong(
    reached: Mapping[str, frozenset[str]], faults: list[CableFault], said: str
) -> None:
    found = cable_faults(SEVEN, reached)
    assert list(found) == faults
    assert ENGLISH.text(found[0].text) == said


def test_a_poor_contact_is_told_beside_where_it_leads() -> None:
    assert cable_faults(SEVEN, {}, ["7"]) == (CableFault("weak", ("7",)),)
    swapped = cable_faults(SEVEN, straight(c3="5", c5="3"), ["3"])
    assert swapped == (CableFault("swapped", ("3", "5")), CableFault("weak", ("3",)))


@given(REACHED)
def test_every_connected_part_that_is_no_straight_wire_is_told(
    reached: Mapping[str, frozenset[str]],
) -> None:
    faults = cable_faults(SEVEN, reached)
    shorted = {frozenset(fault.contacts) for fault in faults if fault.kind == "shorted"}
    lone = {fault.contacts for fault in faults if fault.kind == "open"}
    led = {
        pair
        for fault in faults
        for pair in (fault.contacts, fault.contacts[::-1])
        if fault.kind == "swapped" or (fault.kind == "crossed" and pair == fault.contacts)
    }
    for nears, fars in components(reached):
        if len(nears) > 1 or len(fars) > 1:
            assert frozenset(nears | fars) in shorted
        elif nears and not fars:
            assert tuple(nears) in lone
        elif nears and nears != fars:
            assert (*nears, *fars) in led
    ends = [
        part for part in components(reached) if part[0] and (part[0] != part[1] or len(part[0]) > 1)
    ]
    assert bool(faults) == bool(ends)
