"""What is asked about lost air keeps people whole, and every part, place and thing to do has words.

The rules are those of the orders of a walk: nobody at the wheels while brakes move, never full
service over set spring brakes, gladhands opened with air shut and out, spring brakes never opened.
"""

from __future__ import annotations

import re

import pytest
from support.aircases import RIGS, air_study
from support.english import ENGLISH

from walkaround.leaks.messages import (
    air_outcome_said,
    air_trial_said,
    part_named,
    place_named,
    why_leak,
)
from walkaround.leaks.plumbing import Source

NEVER = re.compile(r"pushrod|slack|crawl|under the|reach in|loosen|open the chamber", re.IGNORECASE)


@pytest.mark.parametrize(("vehicle_id", "source"), RIGS)
def test_every_thing_to_do_keeps_people_clear(vehicle_id: str, source: Source) -> None:
    for trial in air_study(vehicle_id, source).trials:
        said = ENGLISH.text(air_trial_said(trial, source))
        assert NEVER.search(said) is None, said
        assert trial.what in ("plug", "hold") or "outside" in said, said
        if trial.brakes == "applied":
            assert "Everybody out, no spring brake set" in said, said
        elif trial.brakes != "released":
            assert said.startswith("Everybody clear."), said
        if trial.what == "plug":
            opened = max(said.find(" off the trailer"), said.find("plug latched"))
            assert 0 < re.search("(dumped|bled|empty)", said).start() < opened  # type: ignore[union-attr]
            assert "shut" in said[:opened]
            assert "Stand aside" in said


@pytest.mark.parametrize(("vehicle_id", "source"), RIGS)
def test_every_part_place_and_outcome_has_words(vehicle_id: str, source: Source) -> None:
    of = air_study(vehicle_id, source)
    names = {ENGLISH.text(part_named(part)) for part in set(of.variants.parts)}
    assert len(names) == len(set(of.variants.parts))
    for part in set(of.variants.parts):
        said = ENGLISH.text(why_leak(part))
        assert said.endswith(".")
        assert ("Never open" in said) == (part.kind == "spring_diaphragm")
    assert len({ENGLISH.text(place_named(each)) for each in of.variants.places}) == len(
        of.variants.places
    )
    for trial in of.trials:
        assert all(ENGLISH.text(air_outcome_said(trial, each)) for each in trial.outcomes)
