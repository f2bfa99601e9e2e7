"""What walks since say of the defects that one left open; it is told beside what was recorded."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from walkaround.base.clock import Moment
from walkaround.walk.state import Walk

LaterState = Literal["cured", "open", "again"]
"""Rechecked and OK; still open; or found wrong once more after it had been OK."""


@dataclass(frozen=True, slots=True)
class LaterLook:
    """A look of a later walk at what was wrong.

    Attributes:
        state: what it came to.
        walk: the later walk's id.
        who, at: by whom it was answered there, and when.
    """

    state: LaterState
    walk: str
    who: str
    at: Moment


Later = Mapping[str, tuple[LaterLook, ...]]
"""By the step of a defect that a walk left open: the last look, after the one that found it OK if
it is wrong again; steps at which nobody has looked since are not in it."""
NOTHING_LATER: Later = MappingProxyType({})


def look_of(later: Walk, step: str, state: LaterState) -> LaterLook | None:
    """Tell of a later walk's look at a step; None if that walk has no answer there."""
    defect = later.defects.get(step)
    answer = later.answers.get(step) if state == "cured" or defect is None else defect.found
    return LaterLook(state, later.id, answer.who, answer.at) if answer else None


def is_cured(later: Later, step: str) -> bool:
    """Tell whether the last look at a step since found it OK."""
    looks = later.get(step, ())
    return bool(looks) and looks[-1].state == "cured"


def left_open(walk: Walk, later: Later) -> int:
    """Count the defects that a walk left open and that no later walk has cured."""
    return sum(not is_cured(later, defect.step) for defect in walk.open_defects)
