"""What is wrong with a table of power sources beyond its shape; a new check goes into `CHECKS`."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator

from walkaround.base.checks import (
    Flaw,
    empty,
    not_filled,
    problems_found,
    standing_twice,
    too_many,
    unknown,
)
from walkaround.base.errors import Problem
from walkaround.base.message import message
from walkaround.rounds.power_source import Position, PowerSource, PowerTable, Switch, matches

# More than any cab or box has: what each does with the others is looked at.
MOST_SOURCES, MOST_OF_A_SOURCE, MOST_OF_A_SWITCH = 30, 30, 20


def power_problems(table: PowerTable, where: str, circuit_ids: Collection[str]) -> list[Problem]:
    """Find everything wrong with power sources that the shape of their file cannot show.

    Args:
        table: the sources as read.
        where: the file they were read from.
        circuit_ids: every circuit id that any vehicle may have, without pins.
    """

    def circuits_are_known(table: PowerTable) -> Iterator[Flaw]:
        # A circuit is named by its id, which may end in its pin: `aux_k`.
        for key, _, _, position in _positions(table):
            for id_ in position.lights:
                if not {id_, re.sub(r"_[a-z0-9]{1,2}$", "", id_)} & set(circuit_ids):
                    what = message("trouble-unknown-circuit", name=id_)
                    yield unknown(f"{key}.lights", what, id_, circuit_ids)

    too_much = problems_found([counts_are_in_reason], table, where)
    return too_much or problems_found([*CHECKS, circuits_are_known], table, where)


def counts_are_in_reason(table: PowerTable) -> Iterator[Flaw]:
    """Check that no file has too many sources, no source switches, no switch positions."""
    counts = [("power_source", len(table.sources), MOST_SOURCES)]
    for source in table.sources:
        counts.append((f"power_source {source.id}.switch", len(source.switches), MOST_OF_A_SOURCE))
    for key, _, switch in _switches(table):
        counts.append((f"{key}.position", len(switch.positions), MOST_OF_A_SWITCH))
    yield from too_many(counts, message("problem-keep-what-is-used"))


def ids_are_unique(table: PowerTable) -> Iterator[Flaw]:
    """Check that sources, the switches of a source and the positions of a switch have own ids."""
    yield from standing_twice(f"power_source {source.id}" for source in table.sources)
    for source in table.sources:
        key = f"power_source {source.id}.switch"
        yield from standing_twice(f"{key} {switch.id}" for switch in source.switches)
    for key, _, switch in _switches(table):
        yield from standing_twice(f"{key}.position {each.id}" for each in switch.positions)


def texts_are_filled(table: PowerTable) -> Iterator[Flaw]:
    """Check that no text that is said, shown or quoted is empty."""
    for source in table.sources:
        key = f"power_source {source.id}"
        yield from empty([(f"{key}.title", source.title), (f"{key}.source", source.source)])
    yield from empty((f"{key}.name", switch.name) for key, _, switch in _switches(table))
    for key, _, _, position in _positions(table):
        yield from empty([(f"{key}.name", position.name), (f"{key}.say", position.say)])


def placeholders_are_quantities(table: PowerTable) -> Iterator[Flaw]:
    """Check that only quantities stand in braces: nothing else is filled in."""
    yield from not_filled((f"power_source {s.id}.title", s.title) for s in table.sources)
    yield from not_filled((f"{key}.name", switch.name) for key, _, switch in _switches(table))
    for key, _, _, position in _positions(table):
        texts = {"name": position.name, "say": position.say, "keep": position.keep}
        yield from not_filled((f"{key}.{name}", text) for name, text in texts.items())


def switches_come_from_one_place(table: PowerTable) -> Iterator[Flaw]:
    """Check that a source has its own switches, another's, or one for each circuit."""
    mend = message("problem-write-one-way-of-switches")
    for source in table.sources:
        ways = [source.each_circuit, bool(source.switches_of), bool(source.switches)]
        if sum(ways) != 1:
            two = any(ways)
            what = message("problem-switches-two-ways" if two else "problem-has-no-switches")
            yield Flaw(f"power_source {source.id}", what, mend)


def switches_have_positions(table: PowerTable) -> Iterator[Flaw]:
    """Check that each switch can be set to something."""
    mend = message("problem-add-a-position")
    for key, _, switch in _switches(table):
        if not switch.positions:
            yield Flaw(key, message("problem-has-no-position"), mend)


def other_sources_are_known(table: PowerTable) -> Iterator[Flaw]:
    """Check that `switches_of` names a source of the file that has switches of its own."""
    having = [source.id for source in table.sources if source.switches]
    for source in table.sources:
        if source.switches_of and source.switches_of not in having:
            what = message("trouble-unknown-source", name=source.switches_of)
            mend = message("problem-write-its-switches-out")
            key = f"power_source {source.id}.switches_of"
            yield unknown(key, what, source.switches_of, having, mend)


def references_are_known(table: PowerTable) -> Iterator[Flaw]:
    """Tell what a position needs or excludes is another switch of its source."""
    for key, source, switch, position in _positions(table):
        names = {s.id for s in source.switches}
        names |= {f"{s.id}.{p.id}" for s in source.switches for p in s.positions}
        for name, references in (("needs", position.needs), ("excludes", position.excludes)):
            for reference in sorted(set(references) - names):
                what = message("trouble-unknown-switch", name=reference)
                yield unknown(f"{key}.{name}", what, reference, names)
            for own_reference in sorted(r for r in references if r.split(".")[0] == switch.id):
                what = message("problem-names-own-switch", name=own_reference)
                yield Flaw(f"{key}.{name}", what, message("problem-take-it-out"))


def positions_do_something(table: PowerTable) -> Iterator[Flaw]:
    """Check that each position lights something or is needed by another; off is implied."""
    mend = message("problem-write-what-it-lights")
    for key, source, switch, position in _positions(table):
        needs = [need for s in source.switches for p in s.positions for need in p.needs]
        if not position.lights and not any(matches(n, switch.id, position.id) for n in needs):
            yield Flaw(key, message("problem-lights-nothing"), mend)


CHECKS: list[Callable[[PowerTable], Iterable[Flaw]]] = [
    ids_are_unique,
    texts_are_filled,
    placeholders_are_quantities,
    switches_come_from_one_place,
    switches_have_positions,
    other_sources_are_known,
    references_are_known,
    positions_do_something,
]


def _switches(table: PowerTable) -> Iterator[tuple[str, PowerSource, Switch]]:
    """Yield each switch of each source, with its key."""
    for source in table.sources:
        for switch in source.switches:
            yield f"power_source {source.id}.switch {switch.id}", source, switch


def _positions(table: PowerTable) -> Iterator[tuple[str, PowerSource, Switch, Position]]:
    """Yield each position of each switch, with its key."""
    for key, source, switch in _switches(table):
        for position in switch.positions:
            yield f"{key}.position {position.id}", source, switch, position
