"""One line about a walk, for lists: whose vehicle, how far, what is wrong with it."""

from __future__ import annotations

import re
from datetime import UTC, datetime
from typing import Any, NamedTuple

from walkaround.base.clock import Moment
from walkaround.base.errors import InputError, Problem
from walkaround.plan.steps import CHECKED_KINDS, Scope
from walkaround.walk.events import Began, Finished
from walkaround.walk.state import Phase, Walk

_WALK_ID = re.compile(r"[0-9]{8}_[0-9]{6}_[0-9a-f]{6}")


class WalkLine(NamedTuple):
    """What a list shows of a walk. A hundred thousand of them must be made in a blink.

    Attributes:
        id: the walk's id.
        number: its place in the order in which walks began in this data folder; 0 if unknown.
        vehicle, vehicle_name: of the vehicle; empty if nothing of the walk can be read.
        began: when it began; `began_boot` and `began_s` tell the same by the computer's own clock,
            which nobody can set.
        answered, steps: how many steps have an answer, of how many.
        open_defects: steps found wrong and not yet rechecked.
        cleared: steps found wrong whose repeat in this walk was OK.
        ok: every step that finds something out and is OK now.
        last_answer: when the last answer was given; None before the first; with `last_boot`,
            `last_s` as for `began`.
        recheck_of: the walk that found the defects, if this one is its recheck.
        finished: when it was finished; None if it was not.
        trouble: why the walk, or part of it, cannot be read; empty if nothing is wrong.
        file_bytes: size of the walk's file when this was written; another size makes it stale.
    """

    id: str
    number: int
    vehicle: str
    vehicle_name: str
    began: datetime
    began_boot: str
    began_s: float
    scope: Scope
    phase: Phase
    partial: bool
    answered: int
    steps: int
    open_defects: tuple[str, ...]
    cleared: tuple[str, ...]
    ok: tuple[str, ...]
    last_answer: datetime | None
    last_boot: str
    last_s: float
    recheck_of: str
    finished: datetime | None
    trouble: str
    file_bytes: int


_TIMES = [WalkLine._fields.index(name) for name in ("began", "last_answer", "finished")]
_LISTS = [WalkLine._fields.index(name) for name in ("open_defects", "cleared", "ok")]


def line_of(walk: Walk, file_bytes: int, trouble: str = "") -> WalkLine:
    """The line of a walk that has begun."""
    assert walk.plan is not None
    end = next((event for event in walk.events if isinstance(event, Finished)), None)
    first, last = walk.events[0], _last_answer(walk)
    assert isinstance(first, Began)
    return WalkLine(
        id=walk.id,
        number=first.number,
        vehicle=walk.plan.vehicle.id,
        vehicle_name=walk.plan.vehicle.name,
        began=first.at.utc,
        began_boot=first.at.boot,
        began_s=first.at.mono_s,
        scope=walk.plan.scope,
        phase=walk.phase,
        partial=walk.partial,
        answered=len(walk.answers),
        steps=len(walk.steps),
        open_defects=tuple(defect.step for defect in walk.open_defects),
        cleared=_cleared(walk),
        ok=_ok(walk),
        last_answer=last.utc if last else None,
        last_boot=last.boot if last else "",
        last_s=last.mono_s if last else 0.0,
        recheck_of=walk.plan.recheck_of,
        finished=end.at.utc if end else None,
        trouble=trouble,
        file_bytes=file_bytes,
    )


def line_without(walk_id: str, file_bytes: int, trouble: str) -> WalkLine:
    """The line of a walk that cannot be read: it must not vanish from the list."""
    return WalkLine(
        id=walk_id,
        number=0,
        vehicle="",
        vehicle_name="",
        began=datetime.strptime(walk_id[:15], "%Y%m%d_%H%M%S").replace(tzinfo=UTC),
        began_boot="",
        began_s=0.0,
        scope="whole",
        phase="unstarted",
        partial=True,
        answered=0,
        steps=0,
        open_defects=(),
        cleared=(),
        ok=(),
        last_answer=None,
        last_boot="",
        last_s=0.0,
        recheck_of="",
        finished=None,
        trouble=trouble,
        file_bytes=file_bytes,
    )


def values_of(line: WalkLine) -> list[Any]:
    """The line as JSON values, in the order of its fields."""
    values: list[Any] = list(line)
    for at in _TIMES:
        values[at] = values[at] and values[at].isoformat()
    return values


def line_in(values: list[Any]) -> WalkLine:
    """The line that `values_of` made these of; what they say is taken on trust.

    Raises:
        TypeError, ValueError, IndexError: another version made them.
    """
    for at in _TIMES:
        if values[at]:
            values[at] = datetime.fromisoformat(values[at])
    for at in _LISTS:
        values[at] = tuple(values[at])
    return WalkLine._make(values)


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


def _last_answer(walk: Walk) -> Moment | None:
    """The answer given last; a clock that was set does not change which that is."""
    standing = walk.answers.values()
    return max(standing, key=lambda answer: answer.seq).at if standing else None


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
