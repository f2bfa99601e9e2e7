"""What the answers of a walk say of its lamps leads to the fault that there is."""

from __future__ import annotations

from functools import cache
from typing import Any

import pytest
from support.lampcases import LIBRARY, VEHICLES, study
from support.walks import FakeClock, new_ids

from walkaround.causes.appearance import HousingLooks, predict_housing_looks
from walkaround.causes.faults import FaultKind, LampFault, variants_of
from walkaround.causes.figures import LAMP_LOOKS
from walkaround.causes.predictions import LitCircuits, predict
from walkaround.causes.ranking import LampEvidence, Sighting
from walkaround.causes.study import lamp_findings, rank_lamp_faults
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import Plan, Step
from walkaround.walk.events import Answered, Seen
from walkaround.walk.evidence.lamps_seen import lamps_seen
from walkaround.walk.seals import seal
from walkaround.walk.state import Walk

CLOCK, IDS = FakeClock(), new_ids()


def walk_of(plan: Plan, **answers: dict[str, Any]) -> Walk:
    """A walk with these answers and no other."""
    given = {
        id_: seal(Answered, None, id=IDS(), at=CLOCK(), who="A", step=id_, **body)
        for id_, body in answers.items()
    }
    return Walk(phase="stepping", plan=plan, answers=given)


@cache
def planned(vehicle_id: str, *, together: bool) -> Plan:
    return plan_walk(VEHICLES[vehicle_id], LIBRARY.rules, scope="lamps", together=together)


def lamp_steps(plan: Plan) -> list[Step]:
    return [step for step in plan.steps if step.kind == "lamp"]


@cache
def sights_in(vehicle_id: str, setting: LitCircuits) -> HousingLooks:
    """What is seen of a shipped vehicle in this setting."""
    return predict_housing_looks(predict(study(vehicle_id).network, [setting]))


def answered(vehicle_id: str, step: Step, variant: int) -> dict[str, Any]:
    """How a step is answered by somebody who sees well, with a fault."""
    of = study(vehicle_id)
    evidence = lamps_seen(walk_of(plan_with(step), **{step.id: {"answer": "ok"}}), of)
    if not evidence.sightings:
        return {"answer": "ok"}
    housing_looks = sights_in(vehicle_id, evidence.sightings[0].setting)
    seen: dict[str, Seen] = {}
    names = {item.id for item in step.items}
    for sighting in evidence.sightings:
        [housing] = sighting.housings
        look = LAMP_LOOKS[housing_looks.shares[variant, 0, of.housings.index(housing)].argmax()]
        if sighting.look == "lit" and look in ("dim", "dark", "glow"):
            seen[housing] = "dim" if look == "dim" else "dark"
        elif sighting.look == "dark" and look not in ("dark", "glow"):
            seen[housing if housing in names else "others"] = "wrong_lamp"
    return {"answer": "defect", "seen": seen} if seen else {"answer": "ok"}


def plan_with(step: Step) -> Plan:
    return planned("sandbag_semitrailer_7", together=True).model_copy(update={"steps": (step,)})


@pytest.mark.parametrize("together", [True, False])
@pytest.mark.parametrize(
    ("vehicle_id", "kind", "place"),
    [
        ("sandbag_semitrailer_7", "burnt_out", "rear_left:stop"),
        ("sandbag_semitrailer_7", "open_ground", "rear_right"),
        ("sandbag_semitrailer_7", "crossed", "left_turn+right_turn"),
        ("sandbag_semitrailer_7", "open_feed", "marker"),
        ("pump_trailer_3", "open_feed", "left_stop_turn"),
        ("high_water_truck_1", "open_ground", "rear_left"),
        ("depot_tractor_2", "bridged", "stop+tail"),
        ("pontoon_trailer_9", "open_branch", "tail@rear_centre"),
    ],
)
def test_a_walk_answered_as_it_looks_leads_to_the_fault(
    vehicle_id: str, kind: FaultKind, place: str, together: bool
) -> None:
    of, fault = study(vehicle_id), LampFault(kind, place)
    variants = [v.fault for v in variants_of(of.network)]
    plan = planned(vehicle_id, together=together)
    answers = {
        step.id: answered(vehicle_id, step, variants.index(fault)) for step in lamp_steps(plan)
    }
    told = lamp_findings(of, lamps_seen(walk_of(plan, **answers), of))
    assert not told.nothing_odd
    assert fault in [each for c in told.causes[:3] for each in (c.fault, *c.same_look)]


@pytest.mark.parametrize("together", [True, False])
@pytest.mark.parametrize("vehicle_id", sorted(VEHICLES))
def test_a_walk_in_which_all_was_well_has_nothing_odd(vehicle_id: str, together: bool) -> None:
    of, plan = study(vehicle_id), planned(vehicle_id, together=together)
    walk = walk_of(plan, **{step.id: {"answer": "ok"} for step in lamp_steps(plan)})
    evidence = lamps_seen(walk, of, frozenset({"rain"}))
    assert evidence.conditions == {"rain"}
    assert rank_lamp_faults(of, evidence).nothing_odd
    # Every lamp was seen lit.
    lit = {s.housings[0] for s in evidence.sightings if s.look == "lit"}
    assert lit == set(of.housings)


def test_what_was_not_checked_or_says_nothing_of_light_is_not_seen() -> None:
    of = study("sandbag_semitrailer_7")
    plan = planned("sandbag_semitrailer_7", together=True)
    step = lamp_steps(plan)[0]
    unseen = walk_of(plan, **{step.id: {"answer": "not_checked", "reason": "no_time"}})
    assert lamps_seen(unseen, of) == LampEvidence()
    first = next(iter(step.expect))
    broken = walk_of(plan, **{step.id: {"answer": "defect", "seen": {first: "broken"}}})
    seen = {housing for s in lamps_seen(broken, of).sightings for housing in s.housings}
    assert seen == set(step.expect) - {first}


def test_any_other_lamp_that_is_lit_is_one_of_those_that_should_be_dark() -> None:
    of = study("sandbag_semitrailer_7")
    plan = planned("sandbag_semitrailer_7", together=False)
    step = next(s for s in lamp_steps(plan) if s.id == "left_turn_rear")
    walk = walk_of(plan, left_turn_rear={"answer": "defect", "seen": {"others": "wrong_lamp"}})
    dark = tuple(housing for housing, look in step.expect.items() if look == "dark")
    setting = of.setting(["left_turn"])
    assert lamps_seen(walk, of).sightings == (
        Sighting(setting, ("turn_rear_left",), "lit"),
        Sighting(setting, dark, "lit"),
    )


def test_a_stop_and_turn_lamp_that_is_on_as_stop_does_not_flash() -> None:
    of = study("pump_trailer_3")
    plan = planned("pump_trailer_3", together=True)
    both = [s for s in lamp_steps(plan) if {"rear_left", "rear_right"} <= s.expect.keys()]
    step = next(s for s in both if {*s.expect.values()} >= {"steady", "flashing"})
    walk = walk_of(plan, **{step.id: {"answer": "ok"}})
    [setting] = {s.setting for s in lamps_seen(walk, of).sightings}
    flashing = "left" if step.expect["rear_left"] == "flashing" else "right"
    assert setting.flashing == {f"{flashing}_stop_turn"}
