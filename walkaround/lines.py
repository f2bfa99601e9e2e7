"""One line about a walk, for lists: whose vehicle, how far, what is wrong with it."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import UTC, datetime

from pydantic import AwareDatetime, BaseModel, ConfigDict

from walkaround.errors import InputError, Problem
from walkaround.events import Finished
from walkaround.state import Phase, Walk
from walkaround.steps import CHECKED_KINDS, Scope

_WALK_ID = re.compile(r"[0-9]{8}_[0-9]{6}_[0-9a-f]{6}")


class WalkLine(BaseModel):
    """What a list shows of a walk.

    Attributes:
        id: the walk's id.
        vehicle, vehicle_name: of the vehicle; empty if nothing of the walk can be read.
        began: when it began.
        answered, steps: how many steps have an answer, of how many.
        open_defects: steps found wrong and not yet rechecked.
        cleared: steps found wrong whose repeat in this walk was OK.
        ok: every step that finds something out and is OK now.
        last_answer: when the last answer was given; None before the first.
        recheck_of: the walk that found the defects, if this one is its recheck.
        finished: when it was finished; None if it was not.
        trouble: why the walk, or part of it, cannot be read; empty if nothing is wrong.
        file_bytes: size of the walk's file when this was written; another size makes it stale.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    vehicle: str
    vehicle_name: str
    began: AwareDatetime
    scope: Scope
    phase: Phase
    partial: bool
    answered: int
    steps: int
    open_defects: tuple[str, ...]
    cleared: tuple[str, ...]
    ok: tuple[str, ...]
    last_answer: AwareDatetime | None
    recheck_of: str
    finished: AwareDatetime | None
    trouble: str
    file_bytes: int


def line_of(walk: Walk, file_bytes: int, trouble: str = "") -> WalkLine:
    """The line of a walk that has begun."""
    assert walk.plan is not None
    last = next((event for event in walk.events if isinstance(event, Finished)), None)
    return WalkLine(
        id=walk.id,
        vehicle=walk.plan.vehicle.id,
        vehicle_name=walk.plan.vehicle.name,
        began=walk.events[0].at.utc,
        scope=walk.plan.scope,
        phase=walk.phase,
        partial=walk.partial,
        answered=len(walk.answers),
        steps=len(walk.steps),
        open_defects=tuple(defect.step for defect in walk.open_defects),
        cleared=_cleared(walk),
        ok=_ok(walk),
        last_answer=max((answer.at.utc for answer in walk.answers.values()), default=None),
        recheck_of=walk.plan.recheck_of,
        finished=last.at.utc if last else None,
        trouble=trouble,
        file_bytes=file_bytes,
    )


def line_without(walk_id: str, file_bytes: int, trouble: str) -> WalkLine:
    """The line of a walk that cannot be read: it must not vanish from the list."""
    return WalkLine(
        id=walk_id,
        vehicle="",
        vehicle_name="",
        began=datetime.strptime(walk_id[:15], "%Y%m%d_%H%M%S").replace(tzinfo=UTC),
        scope="whole",
        phase="unstarted",
        partial=True,
        answered=0,
        steps=0,
        open_defects=(),
        cleared=(),
        ok=(),
        last_answer=None,
        recheck_of="",
        finished=None,
        trouble=trouble,
        file_bytes=file_bytes,
    )


def open_by_vehicle(lines: Iterable[WalkLine]) -> dict[str, dict[str, str]]:
    """The open defects of each vehicle: step id -> the latest walk in which it is open.

    What one walk found is closed by another in which the same step is OK, if that one is its
    recheck or began after its last answer. Of two walks at the same time neither closes the
    other's defects.
    """
    in_time = sorted(lines, key=lambda line: line.id)
    found: dict[str, dict[str, str]] = {}
    for at, line in enumerate(in_time):
        still = set(line.open_defects)
        for later in in_time[at + 1 :] if still else ():
            if later.vehicle == line.vehicle and _repeats(line, later):
                still -= set(later.ok)
        if still:
            found.setdefault(line.vehicle, {}).update(dict.fromkeys(sorted(still), line.id))
    return found


def _repeats(line: WalkLine, later: WalkLine) -> bool:
    ended = line.last_answer is None or line.last_answer <= later.began
    return later.recheck_of == line.id or ended


def walk_id(began: datetime, random_hex: str) -> str:
    """The id of a walk that begins now: its UTC second and six random hex digits."""
    return f"{began.astimezone(UTC):%Y%m%d_%H%M%S}_{random_hex[:6]}"


def month_of(walk_id: str) -> str:
    """The month in which a walk began, as in "2026-11".

    Raises:
        InputError: this is no walk id. Nothing else becomes part of a path.
    """
    if not _is_walk_id(walk_id):
        mend = "write it as a list of walks shows it, like 20261125_081502_4f3a9c"
        raise InputError([Problem("walk", repr(walk_id[:40]), "is no walk id", mend)])
    return f"{walk_id[:4]}-{walk_id[4:6]}"


def _is_walk_id(text: str) -> bool:
    try:
        datetime.strptime(text[:15], "%Y%m%d_%H%M%S")
    except ValueError:
        return False
    return _WALK_ID.fullmatch(text) is not None


def _cleared(walk: Walk) -> tuple[str, ...]:
    defects = (walk.defects.get(step.id) for step in walk.steps)
    return tuple(defect.step for defect in defects if defect and defect.state == "rechecked")


def _ok(walk: Walk) -> tuple[str, ...]:
    checked = [step.id for step in walk.steps if step.kind in CHECKED_KINDS]
    open_ = {defect.step for defect in walk.open_defects}
    return tuple(
        step
        for step in checked
        if step in walk.answers and walk.answers[step].answer == "ok" and step not in open_
    )
