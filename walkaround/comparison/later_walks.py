"""What later walks found of the defects that a walk left open; shown beside its record."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal

from walkaround.base.clock import Moment
from walkaround.walk.state import Walk

LaterState = Literal["cured", "open", "again"]
"""Rechecked and OK; still open; or found again after it had been OK."""


@dataclass(frozen=True, slots=True)
class LaterLook:
    """What a later walk found of a defect.

    Attributes:
        state: the state of the defect.
        walk: the id of the later walk.
        who, at: who answered there, and when.
    """

    state: LaterState
    walk: str
    who: str
    at: Moment


Later = Mapping[str, tuple[LaterLook, ...]]
"""By the step of a defect that a walk left open: the last look, after the one that found it OK if
it was found again. Steps that nobody has looked at since are left out."""
NOTHING_LATER: Later = MappingProxyType({})


def look_of(later: Walk, step: str, state: LaterState) -> LaterLook | None:
    """Return what a later walk found at a step; None if that walk has no answer there."""
    defect = later.defects.get(step)
    answer = later.answers.get(step) if state == "cured" or defect is None else defect.found
    return LaterLook(state, later.id, answer.who, answer.at) if answer else None


def is_cured(later: Later, step: str) -> bool:
    """Tell whether the last look at a step since found it OK."""
    looks = later.get(step, ())
    return bool(looks) and looks[-1].state == "cured"


def left_open(walk: Walk, later: Later) -> int:
    """Count the defects that a walk left open and no later walk found OK."""
    return sum(not is_cured(later, defect.step) for defect in walk.open_defects)
