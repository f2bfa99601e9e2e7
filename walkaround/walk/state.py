"""The state of one walk: what is known of it at any moment. It changes only in `walk.advance`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Literal, get_args

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold
from walkaround.base.clock import Moment
from walkaround.base.signing import SignedFor
from walkaround.plan.steps import CHECKED_KINDS, Plan, Step
from walkaround.rules.limits import Line
from walkaround.walk.events import (
    Answer,
    Answered,
    ChamberTold,
    Event,
    GaugesTold,
    Measured,
    OdometerRead,
    Purpose,
    Repaired,
    Signed,
)

Phase = Literal["unstarted", "stepping", "holding", "paused", "finished"]

DefectState = Literal["open", "rechecked", "withdrawn"]

FAULTS = frozenset({"defect", "missing"})
"""Answers that open a defect."""


@dataclass(frozen=True, slots=True)
class Defect:
    """A step that was found wrong: open until its own step is repeated and is OK.

    `closed` is the answer that rechecked it or took it back; None while it is open.
    """

    step: str
    found: Answered
    state: DefectState
    closed: Answered | None = None


def _none() -> Mapping[str, Any]:
    return MappingProxyType({})


@dataclass(frozen=True, slots=True)
class Walk:
    """The state of one walk, folded from its events.

    What is kept by step is keyed by the step's id: its last answer, note, photos (by their
    digests), air hold, stopwatch, and values by their own id. Chambers are kept by wheel end; the
    plan's limits follow them. What was tried to tell causes apart is kept by the trial's id, and
    where air was heard by the step of the hold, until a repair is rechecked. `due` has the steps
    that a repair can have changed and at which nobody has looked since; `signed` what people
    answer for by name, in order; `odometer` is None where nobody told it.
    """

    phase: Phase = "unstarted"
    id: str = ""
    plan: Plan | None = None
    events: tuple[Event, ...] = ()
    answers: Mapping[str, Answered] = field(default_factory=_none)
    notes: Mapping[str, str] = field(default_factory=_none)
    photos: Mapping[str, tuple[str, ...]] = field(default_factory=_none)
    holds: Mapping[str, Hold] = field(default_factory=_none)
    timers: Mapping[str, Moment] = field(default_factory=_none)
    measured: Mapping[str, Mapping[str, Measured]] = field(default_factory=_none)
    told_gauges: GaugesTold | None = None
    chambers: Mapping[str, ChamberTold] = field(default_factory=_none)
    tried: Mapping[str, str] = field(default_factory=_none)
    heard: Mapping[str, tuple[str, ...]] = field(default_factory=_none)
    defects: Mapping[str, Defect] = field(default_factory=_none)
    repairs: Mapping[str, Repaired] = field(default_factory=_none)
    due: tuple[str, ...] = ()
    signed: tuple[Signed, ...] = ()
    odometer: OdometerRead | None = None
    revisiting: str = ""
    purpose: Purpose = "change"

    @property
    def steps(self) -> tuple[Step, ...]:
        """Every step of the walk, in order."""
        return self.plan.steps if self.plan else ()

    def gauge(self, line: Line) -> Gauge:
        """Tell what the gauge of a line is like; read to the nearest psi until told otherwise."""
        read_off = self.told_gauges.gauges if self.told_gauges else {}
        remembered = self.plan.known_gauges if self.plan else {}
        return read_off.get(line) or remembered.get(line) or Gauge(name=line)

    @property
    def altitude_m(self) -> float:
        """How high above the sea it is done, as was told with its gauges; else 0."""
        if self.told_gauges:
            return self.told_gauges.altitude_m
        return self.plan.altitude_m if self.plan else 0.0

    @property
    def here(self) -> Step | None:
        """The step being asked: the one gone back to, else the first without an answer."""
        if self.revisiting and self.plan:
            return self.plan.step(self.revisiting)
        return self.place

    @property
    def place(self) -> Step | None:
        """How far the walk is: the first step without an answer.

        It says how the vehicle stands and who is where, also while another step is repeated.
        """
        return next((step for step in self.steps if step.id not in self.answers), None)

    @property
    def somebody_in(self) -> bool:
        """Whether somebody may be in at the brakes; going back to a step brings nobody out."""
        asked_steps = () if self.phase == "finished" else (self.here, self.place)
        return any(step.soft for step in asked_steps if step)

    @property
    def open_defects(self) -> tuple[Defect, ...]:
        """Defects that no recheck has cleared, in the order of the steps."""
        defects = (self.defects.get(step.id) for step in self.steps)
        return tuple(defect for defect in defects if defect and defect.state == "open")

    def is_open(self, step_id: str) -> bool:
        """Tell whether a defect of this step is open."""
        return any(defect.step == step_id for defect in self.open_defects)

    @property
    def tag(self) -> Literal["", "placed", "lifted"]:
        """What was done last in this walk about an out-of-service tag; empty if nothing."""
        for event in reversed(self.signed):
            if event.what in ("tag_placed", "tag_lifted"):
                return "placed" if event.what == "tag_placed" else "lifted"
        return ""

    @property
    def photos_taken(self) -> tuple[str, ...]:
        """The digest of every photo."""
        return tuple(photo for photos in self.photos.values() for photo in photos)

    @property
    def unchecked(self) -> tuple[Step, ...]:
        """Steps that find something out and found nothing out: left, or not checked."""
        return tuple(
            step
            for step in self.steps
            if step.kind in CHECKED_KINDS
            and (step.id not in self.answers or self.answers[step.id].answer == "not_checked")
        )

    @property
    def partial(self) -> bool:
        """Not a whole check: by its scope, or because it was ended with steps still open."""
        return self.plan is not None and (self.plan.scope != "whole" or self.ended_early)

    @property
    def ended_early(self) -> bool:
        """Whether its record was closed with steps still open."""
        return self.phase == "finished" and len(self.answers) < len(self.steps)


def answer_counts(walk: Walk) -> dict[str, int]:
    """Count how many steps have each answer, and how many defects are open and rechecked."""
    tally: dict[str, int] = dict.fromkeys(get_args(Answer), 0)
    for step in walk.steps:
        answered = walk.answers.get(step.id)
        tally[answered.answer if answered else "not_checked"] += 1
    rechecked = sum(defect.state == "rechecked" for defect in walk.defects.values())
    return {
        **tally,
        "steps": len(walk.steps),
        "defects_open": len(walk.open_defects),
        "defects_rechecked": rechecked,
    }


def to_sign(walk: Walk) -> tuple[SignedFor, ...]:
    """List what may be signed for in this walk, in the order in which it is done.

    Only a mechanic who walked signs where nothing was wrong; a tag may hang from another walk.
    """
    wrong = [step for step, defect in walk.defects.items() if defect.state != "withdrawn"]
    parts = {step.id: step.part for step in walk.steps}
    signable: list[SignedFor] = ["walked"]
    if wrong:
        signable += ["tag_placed", "tag_lifted", "repaired"]
        if any(parts[step] != "lamps" for step in wrong):
            signable.append("brakes")
        signable += ["drivers_repaired", "drivers_unnecessary"]
    elif any(event.what != "walked" for event in walk.signed):
        signable += dict.fromkeys(event.what for event in walk.signed if event.what != "walked")
    elif walk.plan is not None and walk.plan.scope == "recheck":
        signable.append("tag_lifted")
    return tuple(signable)
