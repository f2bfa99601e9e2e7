"""The plan of a walk in practice: the real one, marked, and said to be no real vehicle."""

from __future__ import annotations

from walkaround.base.message import message
from walkaround.plan.steps import Plan, Practice, Step


def practice_plan(plan: Plan, practice: Practice) -> Plan:
    """Give the plan of a walk as a practice: every caution begins with what is to be left alone."""
    steps = tuple(_cautioned(step) for step in plan.steps)
    return plan.model_copy(update={"practice": practice, "steps": steps})


def _cautioned(step: Step) -> Step:
    if not step.caution:
        return step
    caution = message("practice-caution", caution=step.caution)
    return step.model_copy(update={"caution": caution})
