"""One line about a walk, for lists: whose vehicle, how far, what is wrong with it."""

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
"""The `number` of a walk that was brought from another data folder: its own is of that one."""


class Stamp(NamedTuple):
    """By which a file that has changed can be told without reading it.

    No inode: some file systems number their files anew each time they are mounted.

    Attributes:
        size_bytes: its size.
        changed_ns: when it last changed, nanoseconds.
    """

    size_bytes: int = 0
    changed_ns: int = 0


NO_STAMP = Stamp()
"""Of no file: a line with this is made anew whenever its walk can be read."""


class WalkLine(NamedTuple):
    """What a list shows of a walk. A hundred thousand of them must be made in a blink.

    Attributes:
        id: the walk's id.
        began: when it began; `began_boot` and `began_s` tell the same by the computer's own clock,
            which nobody can set.
        number: its place in the order in which walks began in this data folder; 0 if unknown,
            `ELSEWHERE` if it was brought from another one.
        vehicle, vehicle_name: of the vehicle; empty if nothing of the walk can be read.
        vin, plate: of the vehicle, empty if it has none.
        who: everybody who did something in it, or signed.
        answered, steps: how many steps have an answer, of how many.
        open_defects: steps found wrong and not yet rechecked.
        cleared: steps found wrong whose repeat in this walk was OK.
        titles: of the open defects, then of the cleared ones.
        tag: what was done last in it about an out-of-service tag.
        ok: every step that finds something out and is OK now.
        last_answer: when the last answer was given; None before the first; with `last_boot`,
            `last_s` as for `began`.
        recheck_of: the walk that found the defects, if this one is its recheck; any copy of it.
        double: it is one of two walks whose walkers are blind to each other.
        double_of: the first of the two, in the line of the second; any copy of it.
        finished: when it was finished; None if it was not.
        trouble: why the walk, or part of it, cannot be read; empty if nothing is wrong.
        stamp: of the walk's file when this was made.
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
    # The answer given last, whatever the clock was set to.
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


def line_without(walk_id: str, stamp: Stamp, trouble: str) -> WalkLine:
    """Make the line of a walk that cannot be read: it must not vanish from the list."""
    began = datetime.strptime(walk_id[:15], "%Y%m%d_%H%M%S").replace(tzinfo=UTC)
    return WalkLine(id=walk_id, began=began, trouble=trouble, stamp=stamp)


def walk_id(began: datetime, random_hex: str) -> str:
    """Return the id of a walk that begins now: its UTC second and six random hex digits."""
    return f"{began.astimezone(UTC):%Y%m%d_%H%M%S}_{random_hex[:6]}"


def copy_id(walk_id: str, digest: str) -> str:
    """Return the id under which another copy of a walk, one that went on differently, is kept here.

    Args:
        walk_id: of the walk, or of a copy.
        digest: of the last event of the copy as it was brought here.
    """
    return f"{original_id(walk_id)}_{digest[:8]}"


def original_id(walk_id: str) -> str:
    """The walk's own id, which all its copies begin with, whatever this one is kept under here."""
    return walk_id[:ID_LENGTH]


def month_of(walk_id: str) -> str:
    """Return the month in which a walk began, as in "2026-11".

    Raises:
        InputError: this is no walk id. Nothing else becomes part of a path.
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
