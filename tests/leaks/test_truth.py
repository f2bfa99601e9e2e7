"""Every single leak, against air worked out step by step by a model of its own.

`support/airtruth.py` moves air between tanks, lines and chambers in time and lets it out through
the holes of a printed table; it shares no code and no figure with the product. Gauges are read to
1 psi at 0, 30 and 60 s and judged as a walk judges them; ears err.
"""

from __future__ import annotations

from collections import Counter

import pytest
from support.aircases import AIRED, RIGS, air_study, leaks_of, place_of
from support.airtruth import holes_of, rig_of
from support.lampcases import VEHICLES

from walkaround.leaks.study import air_ranked

FIRST, FIRST_THREE = 0.75, 0.95
TIMES = 2


@pytest.mark.parametrize("vehicle_id", AIRED)
def test_the_part_that_leaks_is_among_the_first_causes(vehicle_id: str) -> None:
    tally = Counter[str]()
    for id_, source in RIGS:
        if id_ != vehicle_id:
            continue
        here = Counter[str]()
        for hole, evidence in leaks_of(vehicle_id, source, TIMES):
            place = place_of(air_ranked(air_study(vehicle_id, source), evidence), hole)
            here += Counter(all=1, first=place == 0, three=place < 3)
        first, three = here["first"] / here["all"], here["three"] / here["all"]
        print(f"{vehicle_id} on {source} air, {here['all']}: first {first:.3f}, three {three:.3f}")
        tally += here
    assert tally["all"] > 60
    assert tally["first"] >= FIRST * tally["all"]
    assert tally["three"] >= FIRST_THREE * tally["all"]


@pytest.mark.parametrize(("vehicle_id", "source"), RIGS)
def test_both_models_know_the_same_parts(vehicle_id: str, source: str) -> None:
    """What the truth lacks is empty before a hold begins: what is ahead of the check valves."""
    study = air_study(vehicle_id, source)  # type: ignore[arg-type]
    ours = {(part.kind, part.place) for part in study.variants.parts}
    theirs = {(hole.kind, hole.place) for hole in holes_of(VEHICLES[vehicle_id], source)}
    assert theirs <= ours
    assert {kind for kind, _ in ours - theirs} <= {"governor", "dryer"}


@pytest.mark.parametrize(("vehicle_id", "source"), RIGS)
@pytest.mark.parametrize("brakes", ["released", "applied", "dumped"])
def test_without_a_hole_no_needle_falls(vehicle_id: str, source: str, brakes: str) -> None:
    rig = rig_of(VEHICLES[vehicle_id], source, brakes)
    before = dict(rig.psi)
    for _ in range(240):
        rig.step()
    assert rig.psi == pytest.approx(before, abs=0.4)
