"""The facts that shops rely on, each with its provenance, to be counted.

A fact is a row: of a lamp table and each of its variants, a step, a limit, a contact of a
connector and its wire's color if that has another source, a power source, a bulb, a stroke, a
figure of causes, an air line, and a part that may leak. The head of a file is no fact: it gives the
general source of its rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from walkaround.base.provenance import Fact, Sourced
from walkaround.lamps.connector import Connector
from walkaround.library.load import Library
from walkaround.library.standard_tables import StandardTables
from walkaround.rules.checklist import Checklist

_PIN = {"r": "read", "m": "memory"}


def library_facts(library: Library) -> Iterator[Fact]:
    """Return the facts of the files of a library: checklists, connectors, power sources."""
    for checklist in library.checklists:
        yield from _checklist_facts(checklist)
    for connector in library.connectors.values():
        yield from _connector_facts(connector)
    for source in library.power_sources.values():
        yield _fact(f"power source {source.id}", source)


def table_facts(tables: StandardTables) -> Iterator[Fact]:
    """Return the facts of the shipped tables: bulbs, strokes, figures of causes."""
    for bulb in tables.bulbs:
        yield Fact(f"bulb {bulb.trade_number}", bulb.provenance, bulb.current)
    for row in tables.strokes.rows:
        place = f"stroke {row.actuator} {row.type} {row.rated_stroke_in or ''}".strip()
        yield Fact(place, row.provenance, row.current)
    unlisted = tables.strokes.unlisted
    yield Fact("stroke not listed", unlisted.provenance, unlisted.current)
    yield from tables.figures.facts()
    yield from tables.air.facts()


def _checklist_facts(checklist: Checklist) -> Iterator[Fact]:
    rows: list[tuple[str, Sourced]] = [*_numbered("", checklist.variants)]
    for rule in checklist.lamps:
        rows += [(f"lamp {rule.id}", rule), *_numbered(f"lamp {rule.id} ", rule.variants)]
    for step in checklist.steps:
        rows.append((f"step {step.id}", step))
        rows += [(f"step {step.id} limit {row.id}", row) for row in step.limits]
    for place, row in rows:
        fact = _fact(f"{checklist.id}: {place}", row)
        yield fact._replace(current=fact.current or checklist.current)
    for step in checklist.steps:
        if step.hold:
            place = f"{checklist.id}: step {step.id} hold"
            day = step.current or checklist.current
            yield Fact(place, step.hold.limit_provenance, day)


def _connector_facts(connector: Connector) -> Iterator[Fact]:
    for pin in connector.pins:
        place = f"{connector.id} contact {pin.pin}"
        yield Fact(place, _PIN[pin.p], connector.current)
        if pin.colour_p:
            yield Fact(f"{place} color", _PIN[pin.colour_p], connector.current)


def _numbered(owner: str, rows: Iterable[Sourced]) -> Iterator[tuple[str, Sourced]]:
    yield from ((f"{owner}variant {number}", row) for number, row in enumerate(rows, start=1))


def _fact(place: str, row: Sourced) -> Fact:
    return Fact(place, row.provenance, row.current)
