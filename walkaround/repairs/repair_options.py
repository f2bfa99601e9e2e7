"""The repairs offered for a defect: of the likely causes first, then what is common there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from walkaround.base.message import Message, message
from walkaround.diagnosis.findings import ToldCause
from walkaround.plan.steps import WHEEL_END, Step
from walkaround.walk.events import Answered

MOST_CAUSES = 3
OTHER = "other"
"""Done, but none of what is offered."""

RepairGroup = Literal["lamp", "marking", "brake", "hold", "air", "look"]
"""Kinds of step that are repaired alike."""

_COMMON: Mapping[RepairGroup, tuple[str, ...]] = {
    "lamp": ("lamp", "wire", "ground", "plug", "cleaned"),
    "marking": ("replaced", "cleaned"),
    "brake": ("adjuster", "chamber", "hose", "lining"),
    "hold": ("seal", "hose", "valve", "chamber", "drain"),
    "air": ("hose", "valve", "seal"),
    "look": ("replaced", "cleaned"),
}
"""What is mostly done there; common practice, no source."""
_MARKINGS = frozenset({"reflector", "tape"})


class RepairOption(NamedTuple):
    """One repair that may have been done.

    Attributes:
        id: the kind and place of a fault that was mended, `open_ground:rear_left`; or a kind of
            repair alone.
        what: as it is told.
    """

    id: str
    what: Message


def repair_options_at(
    step: Step, answer: Answered, causes: Sequence[ToldCause]
) -> tuple[RepairOption, ...]:
    """List what may have been done about a defect, for one tap.

    Args:
        step: at which it was found.
        answer: the one that found it.
        causes: likely ones of what is open at the lamps, or of what its hold lost, the likeliest
            first. A part at a wheel of which nobody knows at which is left to what is common.
    """
    group = group_of(step, answer)
    explaining = [cause for cause in causes if cause.explains]
    if group != "lamp":
        explaining = [cause for cause in explaining if group == "hold" and not cause.same_look]
    likely = explaining[:MOST_CAUSES]
    mended = [RepairOption(cause.id, message("repair-cause", cause=cause.name)) for cause in likely]
    common = [RepairOption(kind, message(f"repair-{kind}")) for kind in (*_COMMON[group], OTHER)]
    return (*mended, *common)


def group_of(step: Step, answer: Answered) -> RepairGroup:
    """Tell how a step is repaired; at a look at lamps by what was seen wrong."""
    if step.kind == "lamp":
        kinds = {item.kind for item in step.items if item.id in answer.seen}
        return "marking" if kinds and kinds <= _MARKINGS else "lamp"
    if step.hold is not None:
        return "hold"
    if axles_at(step):
        return "brake"
    return "air" if step.air else "look"


def axles_at(step: Step, answer: Answered | None = None) -> frozenset[str]:
    """Tell the axles that a step is about, as its items name them; of an answer, those in it."""
    items = (item.id for item in step.items if answer is None or item.id in answer.seen)
    return frozenset(end["axle"] for end in map(WHEEL_END.match, items) if end)
