"""What ships says of every fact where it comes from, and how much of it was read."""

from __future__ import annotations

import re
from datetime import date

from walkaround.base.provenance import Sourced, provenance_counts
from walkaround.disk.locations import shipped
from walkaround.library.facts import library_facts, table_facts
from walkaround.library.load import load_library
from walkaround.library.standard_tables import standard_tables

TODAY = date(2026, 11, 26)
LIBRARY = load_library(shipped(), today=TODAY)
FACTS = [*library_facts(LIBRARY), *table_facts(standard_tables())]
# What no text could be reached for: bulb data of SAE J573 and most of UN R37, seven contacts of the
# US tactical wiring, blackout lamps at the front, how a cold filament conducts. Fewer is welcome.
MOST_FROM_MEMORY = 38
LEAST_READ = 0.9
"""Share of what was read among all that somebody could look up."""


def test_no_fact_is_without_and_few_are_from_memory() -> None:
    found = provenance_counts(FACTS)
    assert sum(found.values()) == len(FACTS) > 400
    assert found["none"] == 0
    assert found["memory"] <= MOST_FROM_MEMORY
    assert found["read"] >= LEAST_READ * (found["read"] + found["memory"])


def test_what_was_read_bears_the_day_of_its_text() -> None:
    read = [fact for fact in FACTS if fact.provenance == "read"]
    undated = [fact.place for fact in read if fact.current is None]
    # The air brake checklists and the setting up get their days when their steps are rewritten.
    later = ("air_brakes", "setting_up", "air_gauges")
    assert [place for place in undated if not place.startswith(later)] == []
    assert all(fact.current <= TODAY for fact in read if fact.current)


def test_no_source_that_was_read_says_that_a_part_was_not() -> None:
    rows: list[Sourced] = [
        row
        for each in LIBRARY.checklists
        if not each.id.startswith("air_brakes")
        for row in (*each.lamps, *each.steps, *each.variants)
    ]
    rows += [v for each in LIBRARY.checklists for rule in each.lamps for v in rule.variants]
    sources = [row.source for row in rows if row.provenance == "read"]
    assert sources
    assert [each for each in sources if re.search(r"memory|second hand|\(read", each)] == []


def test_every_place_is_named_once_or_by_its_number() -> None:
    places = [fact.place for fact in FACTS if not fact.place.startswith("stroke ")]
    assert len(places) == len(set(places))
