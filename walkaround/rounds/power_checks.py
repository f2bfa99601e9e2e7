"""What is wrong with a table of power sources beyond its shape, as a list of pure checks."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator

from walkaround.base.errors import Problem
from walkaround.base.toml_model import nearest
from walkaround.rounds.power_source import Position, PowerSource, PowerTable, Switch, matches

# More than any cab or box has: what each does with the others is looked at.
MOST_SOURCES, MOST_SWITCHES, MOST_POSITIONS = 30, 30, 20


def power_problems(table: PowerTable, where: str, circuit_ids: Collection[str]) -> list[Problem]:
    """Everything wrong with power sources that the shape of their file cannot show.

    Args:
        table: the sources as read.
        where: the file they were read from.
        circuit_ids: every circuit id that any vehicle may have, without pins.
    """
    if too_much := counts_are_in_reason(table, where):
        return too_much
    found = [problem for check in CHECKS for problem in check(table, where)]
    return found + _unknown_circuits(table, where, circuit_ids)


def counts_are_in_reason(table: PowerTable, where: str) -> list[Problem]:
    """No file has more sources, no source more switches, no switch more positions than this."""
    counted = [("power_source", len(table.sources), MOST_SOURCES)]
    for source in table.sources:
        key = f"power_source {source.id}.switch"
        counted.append((key, len(source.switches), MOST_SWITCHES))
        counted += [
            (f"{key} {switch.id}.position", len(switch.positions), MOST_POSITIONS)
            for switch in source.switches
        ]
    return [
        Problem(where, key, f"stands {count} times, {most} at most", "keep what is used")
        for key, count, most in counted
        if count > most
    ]


def ids_are_unique(table: PowerTable, where: str) -> list[Problem]:
    """Sources, the switches of one source and the positions of one switch have their own ids."""
    found = _twice((source.id for source in table.sources), where, "power_source")
    for source in table.sources:
        key = f"power_source {source.id}.switch"
        found += _twice((switch.id for switch in source.switches), where, key)
        for switch in source.switches:
            key = f"power_source {source.id}.switch {switch.id}.position"
            found += _twice((position.id for position in switch.positions), where, key)
    return found


def texts_are_filled(table: PowerTable, where: str) -> list[Problem]:
    """No text that is said, shown or quoted is empty."""
    told = []
    for source in table.sources:
        key = f"power_source {source.id}"
        told += [(f"{key}.title", source.title), (f"{key}.source", source.source)]
        told += [(f"{key}.switch {switch.id}.name", switch.name) for switch in source.switches]
    for key, _, _, position in _positions(table):
        told += [(f"{key}.name", position.name), (f"{key}.say", position.say)]
    return [
        Problem(where, key, "is empty", "write the text")
        for key, text in told
        if not str(text).strip()
    ]


def switches_come_from_one_place(table: PowerTable, where: str) -> list[Problem]:
    """A source has its own switches, those of another, or one for each circuit."""
    found = []
    for source in table.sources:
        ways = [source.each_circuit, bool(source.switches_of), bool(source.switches)]
        if sum(ways) != 1:
            what = "has no switches" if not any(ways) else "says in two ways which switches it has"
            mend = "write each_circuit = true, switches_of or [[power_source.switch]] tables"
            found.append(Problem(where, f"power_source {source.id}", what, f"{mend}, one of them"))
    return found


def switches_have_positions(table: PowerTable, where: str) -> list[Problem]:
    """A switch can be set to something."""
    mend = "add a [[power_source.switch.position]] table or take the switch out"
    return [
        Problem(where, f"power_source {source.id}.switch {switch.id}", "has no position", mend)
        for source in table.sources
        for switch in source.switches
        if not switch.positions
    ]


def other_sources_are_known(table: PowerTable, where: str) -> list[Problem]:
    """`switches_of` names a source of the file that has switches of its own."""
    known = [source.id for source in table.sources if source.switches]
    return [
        Problem(
            where,
            f"power_source {source.id}.switches_of",
            f"is {source.switches_of}, which is no source with switches in this file",
            nearest(source.switches_of, known) if known else "write its switches out",
        )
        for source in table.sources
        if source.switches_of and source.switches_of not in known
    ]


def references_are_known(table: PowerTable, where: str) -> list[Problem]:
    """What a position needs or excludes is another switch of its source."""
    found = []
    for key, source, switch, position in _positions(table):
        known = {s.id for s in source.switches}
        known |= {f"{s.id}.{p.id}" for s in source.switches for p in s.positions}
        for name, references in (("needs", position.needs), ("excludes", position.excludes)):
            for odd in sorted(set(references) - known):
                what = f"names {odd}, which this source does not have"
                found.append(Problem(where, f"{key}.{name}", what, nearest(odd, sorted(known))))
            for own in sorted(r for r in references if r.split(".")[0] == switch.id):
                what = f"names {own}, but a switch is in one position at a time anyway"
                found.append(Problem(where, f"{key}.{name}", what, "take it out"))
    return found


def positions_do_something(table: PowerTable, where: str) -> list[Problem]:
    """A position lights something, or another one needs it; off is always there, unwritten."""
    found = []
    for key, source, switch, position in _positions(table):
        needs = [need for s in source.switches for p in s.positions for need in p.needs]
        if not position.lights and not any(matches(n, switch.id, position.id) for n in needs):
            mend = "write what it lights, or take it out: off needs no table"
            found.append(Problem(where, key, "lights nothing and nothing needs it", mend))
    return found


CHECKS: list[Callable[[PowerTable, str], list[Problem]]] = [
    ids_are_unique,
    texts_are_filled,
    switches_come_from_one_place,
    switches_have_positions,
    other_sources_are_known,
    references_are_known,
    positions_do_something,
]


def _unknown_circuits(table: PowerTable, where: str, circuit_ids: Collection[str]) -> list[Problem]:
    """A circuit is named by its id, which may end in its pin: `aux_k`."""
    return [
        Problem(where, f"{key}.lights", f"no circuit is called {id_}", nearest(id_, [*circuit_ids]))
        for key, _, _, position in _positions(table)
        for id_ in position.lights
        if id_ not in circuit_ids and re.sub(r"_[a-z0-9]{1,2}$", "", id_) not in circuit_ids
    ]


def _positions(table: PowerTable) -> Iterator[tuple[str, PowerSource, Switch, Position]]:
    for source in table.sources:
        for switch in source.switches:
            for position in switch.positions:
                key = f"power_source {source.id}.switch {switch.id}.position {position.id}"
                yield key, source, switch, position


def _twice(ids: Iterable[str], where: str, noun: str) -> list[Problem]:
    return [
        Problem(where, f"{noun} {id_}", f"{count} tables have this id", "give each its own id")
        for id_, count in Counter(ids).items()
        if count > 1
    ]
