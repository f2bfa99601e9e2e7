"""The line of a walk in lists: its vehicle, its progress, its defects; and walk ids."""

from __future__ import annotations

import re
from datetime import UTC, date, datetime, time
from typing import Literal, NamedTuple

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Text, message
from walkaround.plan.steps import CHECKED_KINDS, Scope
from walkaround.walk.events import Began, Finished
from walkaround.walk.state import Phase, Walk

_WALK_ID = re.compile(r"[0-9]{8}_[0-9]{6}_[0-9a-f]{6}(_[0-9a-f]{8})?")
ID_LENGTH = len("20261125_081502_4f3a9c")
ELSEWHERE = -1
"""The `number` of a walk from another data folder, where its own number comes from."""


class Stamp(NamedTuple):
    """The size and time of a file, which show a change without reading it.

    Without the inode: some file systems change inodes each time they are mounted.

    Attributes:
        size_bytes: its size.
        changed_ns: when it last changed, nanoseconds.
    """

    size_bytes: int = 0
    changed_ns: int = 0


NO_STAMP = Stamp()
"""The stamp of no file: a line with it is made again whenever its walk can be read."""


class WalkLine(NamedTuple):
    """What a list shows of a walk; a hundred thousand of them must be made quickly.

    Attributes:
        id: the walk's id.
        began: when it began; `began_boot` and `began_s` give the same by the computer's monotonic
            clock, which nobody can set.
        number: its place in the order in which walks began in this data folder; 0 if unknown,
            `ELSEWHERE` if it was brought from another one.
        vehicle, vehicle_name: id and name of the vehicle; empty if the walk cannot be read.
        vin, plate: of the vehicle; empty if it has none.
        who: everybody who did something in it, or signed.
        answered, steps: the number of steps with an answer, and of all steps.
        open_defects: steps found wrong and not yet rechecked.
        cleared: steps found wrong and then OK in this walk.
        titles: the titles of the open defects, then of the cleared ones.
        tag: what was done last in it about an out-of-service tag.
        ok: every step that checks something and is OK now.
        last_answer: when the last answer was given; None before the first; with `last_boot`,
            `last_s` as for `began`.
        recheck_of: the walk that found the defects, if this one is its recheck; any copy of it.
        double: whether it is one of the two walks of a double check.
        double_of: the first of the two, in the line of the second; any copy of it.
        finished: when it was finished; None if it was not.
        trouble: why the walk, or part of it, cannot be read; empty if it can.
        stamp: the stamp of the walk's file when this was made.
    """

    id: str
    began: datetime
    number: int = 0
    vehicle: str = ""
    vehicle_name: str = ""
    vin: str = ""
    plate: str = ""
    who: tuple[str, ...] = ()
    began_boot: str = ""
    began_s: float = 0.0
    scope: Scope = "whole"
    phase: Phase = "unstarted"
    partial: bool = True
    answered: int = 0
    steps: int = 0
    open_defects: tuple[str, ...] = ()
    cleared: tuple[str, ...] = ()
    titles: tuple[Text, ...] = ()
    tag: Literal["", "placed", "lifted"] = ""
    ok: tuple[str, ...] = ()
    last_answer: datetime | None = None
    last_boot: str = ""
    last_s: float = 0.0
    recheck_of: str = ""
    double: bool = False
    double_of: str = ""
    finished: datetime | None = None
    trouble: str = ""
    stamp: Stamp = NO_STAMP


def line_of(
    walk: Walk, stamp: Stamp = NO_STAMP, trouble: str = "", *, elsewhere: bool = False
) -> WalkLine:
    """Make the line of a walk that has begun, in this data folder or elsewhere."""
    first = walk.events[0]
    assert walk.plan is not None
    assert isinstance(first, Began)
    end = next((event for event in walk.events if isinstance(event, Finished)), None)
    # The last answer by its place in the events, whatever the clock was set to.
    answers = walk.answers.values()
    last = max(answers, key=lambda answer: answer.seq).at if answers else None
    open_defects = tuple(defect.step for defect in walk.open_defects)
    states = {step: defect.state for step, defect in walk.defects.items()}
    cleared = tuple(step.id for step in walk.steps if states.get(step.id) == "rechecked")
    titles = {step.id: step.title for step in walk.steps}
    return WalkLine(
        id=walk.id,
        began=first.at.utc,
        number=ELSEWHERE if elsewhere else first.number,
        vehicle=walk.plan.vehicle.id,
        vehicle_name=walk.plan.vehicle.name,
        vin=walk.plan.vehicle.vin,
        plate=walk.plan.vehicle.plate,
        who=tuple(dict.fromkeys([e.who for e in walk.events] + [e.name for e in walk.signed])),
        began_boot=first.at.boot,
        began_s=first.at.mono_s,
        scope=walk.plan.scope,
        phase=walk.phase,
        partial=walk.partial,
        answered=len(walk.answers),
        steps=len(walk.steps),
        open_defects=open_defects,
        cleared=cleared,
        titles=tuple(titles[step] for step in (*open_defects, *cleared)),
        tag=walk.tag,
        ok=tuple(
            step.id
            for step in walk.steps
            if step.kind in CHECKED_KINDS
            and step.id in walk.answers
            and walk.answers[step.id].answer == "ok"
            and step.id not in open_defects
        ),
        last_answer=last.utc if last else None,
        last_boot=last.boot if last else "",
        last_s=last.mono_s if last else 0.0,
        recheck_of=walk.plan.recheck_of,
        double=walk.plan.double,
        double_of=walk.plan.double_of,
        finished=end.at.utc if end else None,
        trouble=trouble,
        stamp=stamp,
    )


def unreadable_line(walk_id: str, stamp: Stamp, trouble: str) -> WalkLine:
    """Make the line of a walk that cannot be read, since it must not be missing from the list."""
    began = datetime.strptime(walk_id[:15], "%Y%m%d_%H%M%S").replace(tzinfo=UTC)
    return WalkLine(id=walk_id, began=began, trouble=trouble, stamp=stamp)


def walk_id(began: datetime, random_hex: str) -> str:
    """Return the id of a walk that begins now: its UTC second and six random hex digits."""
    return f"{began.astimezone(UTC):%Y%m%d_%H%M%S}_{random_hex[:6]}"


def copy_id(walk_id: str, digest: str) -> str:
    """Return the id to store another copy of a walk under, one that was continued differently.

    Args:
        walk_id: the id of the walk, or of a copy.
        digest: the digest of the last event of the new copy.
    """
    return f"{original_id(walk_id)}_{digest[:8]}"


def original_id(walk_id: str) -> str:
    """Return the walk's own id, which the ids of all its copies begin with."""
    return walk_id[:ID_LENGTH]


def month_of(walk_id: str) -> str:
    """Return the month in which a walk began, such as "2026-11".

    Raises:
        InputError: this is no walk id, and must not become part of a path.
    """
    if not is_walk_id(walk_id):
        what, mend = message("problem-no-walk-id"), message("problem-write-a-walk-id")
        raise InputError([Problem(message("problem-walk"), repr(walk_id[:40]), what, mend)])
    return f"{walk_id[:4]}-{walk_id[4:6]}"


def is_walk_id(text: str) -> bool:
    """Tell whether this is the id of a walk."""
    if not _WALK_ID.fullmatch(text):
        return False
    try:
        date(int(text[:4]), int(text[4:6]), int(text[6:8]))
        time(int(text[9:11]), int(text[11:13]), int(text[13:15]))
    except ValueError:
        return False
    return True
