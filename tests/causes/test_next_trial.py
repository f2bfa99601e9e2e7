"""What to do next narrows the causes, and is never a thing that harms."""

from __future__ import annotations

import random
from dataclasses import replace

import numpy as np
import pytest
from causes.test_ranking import SEMITRAILER, but, usual
from support.lampcases import LIBRARY, VEHICLES, study, study_of_vehicle
from support.lampsteps import by_fault, seen_with, until_one_is_left

from walkaround.causes.faults import LampFault, mended_alike, variants_of
from walkaround.causes.next_trial import LIKELY_ENOUGH, next_thing
from walkaround.causes.ranking import LampEvidence, Sighting
from walkaround.causes.study import Study, lamp_findings, one_more_look, rank_lamp_faults
from walkaround.causes.trials import OUTCOMES
from walkaround.library.case_file import study_for

FEEDING = ("look", "volts", "ground", "clamp", "swap")
"""Trials for which a circuit is switched on."""
ANYTHING_ON = ("wiggle", "cable")
"""Trials for which it is not said which circuits are on."""


def next_id(of: Study, evidence: LampEvidence) -> str:
    trial = next_thing(rank_lamp_faults(of, evidence), evidence, of.network.figures)
    return trial.id if trial else ""


@pytest.mark.parametrize("vehicle_id", sorted(VEHICLES))
def test_the_fault_is_what_is_left_at_the_end(vehicle_id: str) -> None:
    of, chance = study(vehicle_id), random.Random(5)
    variants = variants_of(of.network)
    found = []
    for variant in chance.sample(range(len(variants)), 12):
        _, _, ranking = until_one_is_left(of, variant, chance)
        left = ranking.faults[int(by_fault(ranking).argmax())]
        found.append(mended_alike(left) == mended_alike(variants[variant].fault))
    assert sum(found) >= 9


def test_nothing_is_done_twice() -> None:
    of, chance = study(SEMITRAILER), random.Random(6)
    for variant in chance.sample(range(len(variants_of(of.network))), 10):
        done, _, _ = until_one_is_left(of, variant, chance)
        assert len(done) == len(set(done))


@pytest.mark.parametrize("vehicle_id", sorted(VEHICLES))
def test_a_circuit_that_tripped_is_not_fed_before_no_short_is_found(vehicle_id: str) -> None:
    of = study(vehicle_id)
    for circuit in of.network.circuits:
        shorted = LampFault("shorted", circuit)
        place = next(n for n, v in enumerate(variants_of(of.network)) if v.fault == shorted)
        evidence = replace(seen_with(of, place), tripped=frozenset({circuit}))
        told = lamp_findings(of, evidence)
        asked = [told.next.id] if told.next else []
        asked += [cause.trial for cause in told.causes]
        feeding = [id_ for id_ in asked if id_.startswith(FEEDING)]
        assert [id_ for id_ in feeding if id_.split(":")[1] == circuit] == []
        assert [id_ for id_ in asked if id_.startswith(ANYTHING_ON)] == []


def test_what_may_be_shorted_is_not_fed_before_its_breaker_was_looked_at() -> None:
    of = study(SEMITRAILER)
    dark = but(of, right_turn__turn_rear_right="dark")
    ranking = rank_lamp_faults(of, dark)
    at = ranking.faults.index(LampFault("shorted", "right_turn"))
    assert by_fault(ranking)[at] > LIKELY_ENOUGH
    assert next_id(of, dark) == "breaker:right_turn"
    looked = replace(dark, results={"breaker:right_turn": "in"})
    assert next_id(of, looked) in (
        "volts:right_turn:turn_rear_right",
        "swap:right_turn:turn_rear_right",
    )
    tripped = replace(dark, results={"breaker:right_turn": "tripped"})
    assert tripped.isolated == {"right_turn"}
    free = replace(tripped, results={**tripped.results, "ohms:right_turn": "open"})
    assert free.isolated == frozenset()


@pytest.mark.parametrize("vehicle_id", sorted(VEHICLES))
def test_contacts_of_abs_are_never_probed(vehicle_id: str) -> None:
    probing = ("volts", "ground", "clamp", "ohms")
    ids = [trial.id for trial in rank_lamp_faults(study(vehicle_id), LampEvidence()).trials]
    assert [id_ for id_ in ids if id_.startswith(probing) and ":abs" in id_] == []
    assert [id_ for id_ in ids if id_.startswith(probing)]


@pytest.mark.parametrize("vehicle_id", sorted(VEHICLES))
def test_of_every_trial_something_comes_out(vehicle_id: str) -> None:
    for trial in rank_lamp_faults(study(vehicle_id), LampEvidence()).trials:
        assert trial.chances.sum(axis=0) == pytest.approx(1)
        assert (trial.chances[len(OUTCOMES[trial.what]) :] == 0).all()
        assert trial.minutes > 0


def test_volts_at_the_lamp_tell_its_bulb_from_the_wire_to_it() -> None:
    of = study(SEMITRAILER)
    dark = replace(but(of, right_turn__turn_rear_right="dark"), tripped=frozenset())
    volts = "volts:right_turn:turn_rear_right"
    bulb = LampFault("burnt_out", "turn_rear_right:right_turn")
    there = rank_lamp_faults(of, replace(dark, results={volts: "full"})).causes[0]
    gone = rank_lamp_faults(of, replace(dark, results={volts: "none"})).causes[0]
    assert there.fault == bulb
    assert bulb not in (gone.fault, *gone.same_look)


def test_volts_across_a_ground_that_is_lost_confirm_it() -> None:
    of = study(SEMITRAILER)
    ground = next(
        n for n, v in enumerate(variants_of(of.network)) if v.fault == ("open_ground", "rear_left")
    )
    told = lamp_findings(of, seen_with(of, ground))
    assert told.causes[0].trial.startswith("ground:")
    assert told.causes[0].trial.endswith(":rear_left")
    assert "more than 0.5 v" in str(told.causes[0].next).lower()


def test_where_nothing_tells_more_the_repair_is_what_is_next() -> None:
    of = study(SEMITRAILER)
    dark = replace(but(of, right_turn__turn_rear_right="dark"), tripped=frozenset())
    all_done = {trial.id: trial.outcomes[0] for trial in rank_lamp_faults(of, dark).trials}
    told = lamp_findings(of, replace(dark, results=all_done))
    assert told.next is None
    assert str(told.causes[0].next).startswith("No measurement tells more.")


def test_one_more_look_is_asked_for_only_where_it_splits_what_is_likely() -> None:
    of = study(SEMITRAILER)
    assert one_more_look(of, LampEvidence(usual(of))) is None
    together = of.setting(["tail", "stop", "left_turn"])
    dark = LampEvidence((Sighting(together, ("rear_left",), "dark"),), tripped=frozenset())
    asked = one_more_look(of, dark)
    assert asked is not None
    assert asked.id.split(":")[0] == "look"
    shares = [
        {
            cause.fault
            for cause in rank_lamp_faults(of, replace(dark, results={asked.id: outcome})).causes[:1]
        }
        for outcome in ("lit", "dark")
    ]
    assert shares[0] != shares[1]


def test_no_look_is_asked_for_with_a_circuit_that_lights_only_with_others_or_has_tripped() -> None:
    of = study(SEMITRAILER)
    together = of.setting(["tail", "stop", "left_turn"])
    dark = LampEvidence((Sighting(together, ("rear_left",), "dark"),), tripped=frozenset())
    stop = replace(study_of_vehicle(VEHICLES[SEMITRAILER]), alone=frozenset({"stop"}))
    asked = one_more_look(stop, dark)
    assert asked is None or asked.id.split(":")[1] == "stop"
    everything = frozenset(of.network.circuits)
    assert one_more_look(of, replace(dark, tripped=everything)) is None


def test_a_cab_lights_tail_and_marker_lamps_together_so_that_neither_is_asked_for_alone() -> None:
    of = study_for(VEHICLES[SEMITRAILER], LIBRARY, "cab")
    assert {"left_turn", "right_turn", "stop"} <= of.alone
    assert not {"tail", "marker"} & of.alone


def test_nothing_is_done_to_tell_a_lost_ground_from_a_poor_one_at_the_same_place() -> None:
    of = study(SEMITRAILER)
    odd = but(
        of,
        stop__rear_left="dim",
        stop__clearance_rear_left="dim",
        left_turn__turn_rear_left="dim",
        left_turn__clearance_rear_left="dim",
    )
    ranking = rank_lamp_faults(of, odd)
    likely = {ranking.faults[at] for at in np.flatnonzero(by_fault(ranking) > 0.01)}
    assert {mended_alike(fault) for fault in likely} == {("ground", "rear_left")}
    assert len(likely) > 1
    assert next_id(of, odd) == ""
