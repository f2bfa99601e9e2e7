"""The likely causes of a walk's open defects, and the studies of its vehicle to find them."""

from __future__ import annotations

from walkaround.base.errors import WalkaroundError
from walkaround.causes.study import Study, lamp_findings
from walkaround.diagnosis.findings import Likely
from walkaround.leaks.study import AirStudy, air_findings, air_study_of
from walkaround.library.case_file import study_for
from walkaround.library.load import Library
from walkaround.library.standard_tables import standard_tables
from walkaround.walk.evidence.air_heard import air_heard, losing_steps, source_of
from walkaround.walk.evidence.lamps_seen import lamps_seen
from walkaround.walk.state import Walk


def has_lamp_defect(walk: Walk) -> bool:
    """Tell whether a defect at the lamps is open."""
    steps = {step.id: step for step in walk.steps}
    return any(steps[defect.step].kind == "lamp" for defect in walk.open_defects)


def lamps_study(walk: Walk, library: Library) -> Study | None:
    """Return the study of the lamps of a walk's vehicle; None if today's rules cannot wire it."""
    assert walk.plan is not None
    try:
        return study_for(walk.plan.vehicle, library, walk.plan.power)
    except WalkaroundError:
        return None


def air_study(walk: Walk) -> AirStudy | None:
    """Return the study of the air of a walk's vehicle; None if today's rules give it none."""
    assert walk.plan is not None
    vehicle, air, towed = walk.plan.vehicle, source_of(walk.plan), walk.plan.towed
    try:
        return air_study_of(vehicle, standard_tables().air, air, towed)
    except WalkaroundError:
        return None


def likely_causes(walk: Walk, library: Library) -> Likely:
    """Find the likely causes of the open defects of a walk."""
    lamps = lamps_study(walk, library) if has_lamp_defect(walk) else None
    air = air_study(walk) if losing_steps(walk) else None
    return Likely(
        lamp_findings(lamps, lamps_seen(walk, lamps)) if lamps else None,
        air_findings(air, air_heard(walk)) if air else None,
    )
