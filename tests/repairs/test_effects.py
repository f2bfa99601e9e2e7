"""What has to be looked at again after a repair, against the voltages that ngspice finds.

Whatever a fault changes, mending it can change: so no look at lamps that the simulator shows to be
different with the fault may be missing. ngspice is a circuit simulator that is not ours.
"""

from __future__ import annotations

from functools import cache

import pytest
from support.lampcases import VEHICLES, study
from support.lamptruth import Case, single_faults
from support.plans import shipped_plans
from support.walks import begun

from walkaround.plan.steps import Plan, Step
from walkaround.repairs.effects import to_recheck
from walkaround.walk.events import Answered
from walkaround.walk.state import Defect, Walk

AIR_BRAKED = ("sandbag_semitrailer_7", "depot_tractor_2")
EVERY = {id_: 14 if id_ == "high_water_truck_1" else 6 for id_ in sorted(VEHICLES)}


def answered(plan: Plan, defect_step: str, **seen: str) -> tuple[Walk, Defect]:
    """A walk of which every step is OK but this one."""
    teller = begun()
    ok = teller.sealed(Answered, step="chocks", answer="ok")
    answers = {step.id: ok.model_copy(update={"step": step.id}) for step in plan.steps}
    found = ok.model_copy(update={"step": defect_step, "answer": "defect", "seen": seen})
    defect = Defect(defect_step, found, "open")
    answers[defect_step] = found
    walk = Walk("stepping", plan=plan, answers=answers, defects={defect_step: defect})
    return walk, defect


@cache
def looks_at(vehicle_id: str) -> tuple[Step, ...]:
    plan = shipped_plans()[vehicle_id]
    return tuple(s for s in plan.steps if s.kind == "lamp" and len(s.circuits_on) == 1)


def changed_looks(case: Case) -> dict[str, set[str]]:
    """The looks that are not as they ought to be: the housings, by the step's id."""
    different = {}
    for step in looks_at(case.vehicle_id):
        seen = case.looks.get(study(case.vehicle_id).setting(step.circuits_on), {})
        usual = {id_: "lit" if look != "dark" else "dark" for id_, look in step.expect.items()}
        wrong = {id_ for id_, look in usual.items() if id_ in seen and seen[id_] != look}
        # What the lamp of an ABS shows is up to its control unit.
        if wrong and not step.id.startswith("abs"):
            different[step.id] = wrong
    return different


@pytest.mark.parametrize("vehicle_id", sorted(VEHICLES))
def test_all_that_a_fault_of_the_lamps_changes_is_looked_at_again(vehicle_id: str) -> None:
    plan, checked = shipped_plans()[vehicle_id], 0
    for case in single_faults(vehicle_id, EVERY[vehicle_id]):
        different = changed_looks(case)
        if not different:
            continue
        first, [housing, *_] = next((id_, sorted(wrong)) for id_, wrong in different.items())
        walk, defect = answered(plan, first, **{housing: "dark"})
        [broken] = case.faults
        done = ":".join(filter(None, (broken.kind, broken.place)))
        again = to_recheck(walk, defect, done, study(vehicle_id))
        assert again[0] == first
        assert set(different) <= set(again), (done, different, again)
        checked += 1
    assert checked > 3


def test_a_bulb_asks_for_the_looks_at_its_housing_alone() -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    walk, defect = answered(plan, "tail_rear", rear_left="dark")
    again = to_recheck(walk, defect, "lamp", study("sandbag_semitrailer_7"))
    for step in plan.steps:
        lit = step.expect.get("rear_left", "dark") != "dark"
        assert (step.id in again) == (step.kind == "lamp" and lit), step.id
    assert 1 < len(again) < sum(step.kind == "lamp" for step in plan.steps)


def test_without_known_wiring_a_wire_asks_for_every_look_at_lamps() -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    walk, defect = answered(plan, "tail_rear", rear_left="dark")
    again = set(to_recheck(walk, defect, "wire", None))
    assert again == {step.id for step in plan.steps if step.kind == "lamp"}


@pytest.mark.parametrize("vehicle_id", AIR_BRAKED)
def test_an_adjuster_asks_for_the_strokes_at_both_ends_of_its_axle(vehicle_id: str) -> None:
    walk, defect = answered(shipped_plans()[vehicle_id], "stroke_2_left")
    assert to_recheck(walk, defect, "adjuster", None) == ("stroke_2_left", "stroke_2_right")


@pytest.mark.parametrize("vehicle_id", AIR_BRAKED)
@pytest.mark.parametrize("done", ["chamber", "hose"])
def test_a_chamber_or_hose_asks_for_every_hold_and_its_axles_strokes(
    vehicle_id: str, done: str
) -> None:
    plan = shipped_plans()[vehicle_id]
    walk, defect = answered(plan, "stroke_1_right", axle_1_right_leak="leak")
    again = set(to_recheck(walk, defect, done, None))
    holds = {step.id for step in plan.steps if step.hold}
    assert len(holds) == 2
    marks = {"rods_marked_1"} if done == "chamber" else set()
    assert again == {"stroke_1_right", "stroke_1_left"} | holds | marks


def test_a_chamber_found_by_a_hold_may_be_any_of_them() -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    walk, defect = answered(plan, "applied_hold")
    again = set(to_recheck(walk, defect, "chamber", None))
    strokes = {step.id for step in plan.steps if step.id.startswith(("stroke_", "rods_marked"))}
    assert again == {"applied_hold", "supply_hold"} | strokes


def test_steps_that_have_no_answer_yet_are_asked_anyway() -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    walk, defect = answered(plan, "tail_rear", rear_left="dark")
    early = Walk(
        "stepping",
        plan=plan,
        answers={"tail_rear": walk.answers["tail_rear"]},
        defects=walk.defects,
    )
    assert to_recheck(early, defect, "open_main_ground", None) == ("tail_rear",)


def test_what_was_put_in_place_of_a_reflector_asks_for_its_own_step_alone() -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    step = next(s for s in plan.steps if any(i.kind == "reflector" for i in s.items))
    reflector = next(item for item in step.items if item.kind == "reflector")
    walk, defect = answered(plan, step.id, **{reflector.id: "broken"})
    assert to_recheck(walk, defect, "replaced", None) == (step.id,)


@pytest.mark.parametrize(
    ("done", "strokes", "marks"),
    [
        ("service_diaphragm:axle_2_left", True, True),
        ("chamber_hose:axle_2_right", True, False),
        ("relay_valve", False, False),
        ("gladhand_seal:red", False, False),
    ],
)
def test_a_part_that_leaked_asks_for_every_hold_and_at_a_wheel_for_its_axles_strokes(
    done: str, strokes: bool, marks: bool
) -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    walk, defect = answered(plan, "applied_hold")
    again = set(to_recheck(walk, defect, done, None))
    asked = {"stroke_2_left", "stroke_2_right"} if strokes else set()
    asked |= {"rods_marked_2"} if marks else set()
    assert again == {"applied_hold", "supply_hold"} | asked
