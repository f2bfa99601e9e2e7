"""What may have been done about a defect: likely causes first, then what is common there."""

from __future__ import annotations

from typing import Annotated

import pytest
from pydantic import TypeAdapter
from support.aircases import air_study
from support.lampcases import VEHICLES, evidence, study
from support.lamptruth import single_faults
from support.plans import shipped_plans
from support.walks import begun

from walkaround.causes.study import lamp_findings
from walkaround.leaks.ranking import AirEvidence, HoldLosses, MeasuredLoss
from walkaround.leaks.study import air_findings
from walkaround.plan.steps import CHECKED_KINDS
from walkaround.repairs.repair_options import OTHER, group_of, repair_options_at
from walkaround.walk.events import Answered, Repaired

ID = TypeAdapter(Annotated[str, Repaired.model_fields["done"]])


def found(step_id: str, **seen: str) -> Answered:
    teller = begun()
    sealed = teller.sealed(Answered, step="chocks", answer="defect", seen=seen)
    return sealed.model_copy(update={"step": step_id})  # type: ignore[no-any-return]


@pytest.mark.parametrize("vehicle_id", sorted(VEHICLES))
def test_something_can_be_said_of_every_step_that_finds_something_out(vehicle_id: str) -> None:
    for step in shipped_plans()[vehicle_id].steps:
        if step.kind not in CHECKED_KINDS:
            continue
        done = repair_options_at(step, found(step.id), ())
        assert done[-1].id == OTHER
        assert len({each.id for each in done}) == len(done) > 2
        assert [ID.validate_python(each.id) for each in done] == [each.id for each in done]
        assert all(str(each.what) for each in done)


def test_the_likeliest_causes_come_first_and_name_their_place() -> None:
    case = single_faults("sandbag_semitrailer_7", 6)[0]
    told = lamp_findings(study(case.vehicle_id), evidence(case.looks, *case.faults))
    plan = shipped_plans()[case.vehicle_id]
    step = next(step for step in plan.steps if step.id == "tail_rear")
    done = repair_options_at(step, found(step.id, rear_left="dark"), told.causes)
    first = next(cause for cause in told.causes if cause.explains)
    assert done[0].id == f"{first.fault.kind}:{first.fault.place}".rstrip(":")
    assert str(done[0].what) == f"Mended: {first.name}"


@pytest.mark.parametrize(
    ("step_id", "seen", "group"),
    [
        ("tail_rear", {"rear_left": "dark"}, "lamp"),
        ("tail_rear", {}, "lamp"),
        ("supply_hold", {}, "hold"),
        ("stroke_1_left", {}, "brake"),
        ("rods_marked_1", {}, "brake"),
        ("lines_on", {}, "air"),
        ("brakes_set", {}, "air"),
    ],
)
def test_a_step_is_repaired_by_what_it_is_about(
    step_id: str, seen: dict[str, str], group: str
) -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    step = plan.step(step_id)
    assert step is not None
    assert group_of(step, found(step_id, **seen)) == group


def test_a_reflector_is_no_lamp() -> None:
    plan = shipped_plans()["sandbag_semitrailer_7"]
    step = next(s for s in plan.steps if any(i.kind == "reflector" for i in s.items))
    reflector = next(item for item in step.items if item.kind == "reflector")
    assert group_of(step, found(step.id, **{reflector.id: "broken"})) in ("marking", "look")


def test_a_part_that_is_likely_to_leak_comes_first_unless_its_wheel_is_not_known() -> None:
    lost = {"supply": MeasuredLoss(6.0, 0.4), "service": MeasuredLoss(0.0, 0.4)}
    still = {"supply": MeasuredLoss(0.0, 0.4)}
    held = (HoldLosses("released", still), HoldLosses("applied", lost))  # type: ignore[arg-type]
    plan = shipped_plans()["sandbag_semitrailer_7"]
    step = plan.step("applied_hold")
    assert step is not None
    of = air_study("sandbag_semitrailer_7", "shop")
    heard = air_findings(of, AirEvidence(held, {"applied": ("chamber_axle_1_left",)}))
    done = repair_options_at(step, found(step.id), heard.causes)
    assert done[0].id == "service_diaphragm:axle_1_left"
    assert str(done[0].what) == "Mended: service diaphragm, axle 1, left end"
    unheard = repair_options_at(step, found(step.id), air_findings(of, AirEvidence(held)).causes)
    assert not [each for each in unheard if "axle" in each.id]
