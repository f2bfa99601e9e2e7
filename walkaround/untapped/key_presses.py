"""What a press of a learnt key does: one rule, by what was pressed, where, and how long since.

A press is meant for what was on the screen when it was made, and by somebody who has heard it. So
it does nothing

- while a press before it is still being dealt with;
- in the first moment of a step, which may be the second half of the press before;
- where something is open that keys were not learnt for, such as a field that takes what is typed:
  they answer steps, and go through the defects that can be told of one;
- as an answer, while that is locked until it was said what to look at, or until what must be read
  was whole on the screen: then the first answer reads on.

And some answers take a tap, whoever presses: see `tap_needed`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from walkaround.base.message import Message, message
from walkaround.plan.steps import Step
from walkaround.untapped.learned_keys import Action
from walkaround.walk.state import Walk

TAKE_BACK_S = 10.0
"""How long after it was given the key for `back` takes an answer back that was given by a key."""

Place = Literal["step", "looking_back", "faults", "end", "elsewhere"]
"""What is on the screen: the step being asked, an answered one looked back at, what can be wrong at
a step, the end of a walk; or anything else."""

Doing = Literal[
    "nothing", "answer_ok", "tell_faults", "next_fault", "choose_fault", "close_faults",
    "say_again", "explain", "look_back", "go_on", "take_back", "read_on", "wait", "need_tap",
]  # fmt: skip
"""What a press does. `wait`: it is locked still. `need_tap`: this answer takes a tap."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """What is on a page when a key is pressed.

    Attributes:
        place: what is shown.
        since_s: how long it has been there, seconds.
        busy: the press before is still being dealt with.
        unread: what must be read has not been whole on the screen yet.
        locked: it has not been said yet what the first answer is about.
        ok_needs_tap, defect_needs_tap: that answer takes a tap.
        answered_ago_s: how long ago the last answer was given by a key, seconds; None if the walk
            has gone on otherwise since.
    """

    place: Place
    since_s: float
    busy: bool = False
    unread: bool = False
    locked: bool = False
    ok_needs_tap: bool = False
    defect_needs_tap: bool = False
    answered_ago_s: float | None = None


def pressed(action: Action, press: Pressed, dead_s: float) -> Doing:
    """Say what a press does.

    Args:
        action: what the key was learnt for.
        press: what is on the page.
        dead_s: how long a step has been there before it takes an answer, seconds.
    """
    if press.busy or press.place == "elsewhere" or press.since_s < dead_s:
        return "nothing"
    ago_s = press.answered_ago_s
    fresh = ago_s is not None and ago_s <= TAKE_BACK_S
    match press.place, action:
        case ("step" | "end", "back") if fresh:
            return "take_back"
        case ("faults", "ok"):
            return "choose_fault"
        case ("faults", "defect"):
            return "next_fault"
        case ("faults", "back"):
            return "close_faults"
        case (_, "again"):
            return "say_again"
        case (_, "back"):
            return "look_back"
        case ("step" | "looking_back", "explain"):
            return "explain"
        case ("looking_back", "ok"):
            return "go_on"
        case ("step", "ok" | "defect") if press.unread:
            return "read_on" if action == "ok" else "wait"
        case ("step" | "looking_back", "defect"):
            return "need_tap" if press.defect_needs_tap else "tell_faults"
        case ("step", "ok") if press.ok_needs_tap:
            return "need_tap"
        case ("step", "ok"):
            return "wait" if press.locked else "answer_ok"
        case _:
            return "nothing"


def tap_needed(walk: Walk, step: Step, *, ok: bool) -> Message | None:
    """Say why OK, or else a defect, takes a tap now; None if a key may tell it.

    Only a plain look may be answered without one, and a step says so itself: never what charges,
    holds or lets out air, what the vehicle stands by, or where somebody is in at the brakes. Nor is
    anything that was repaired found well, or an open defect taken back, but by a tap.
    """
    if not step.hands_free or step.meter_first:
        return message("untapped-step-needs-tap")
    if not ok:
        return None
    rechecks = walk.plan is not None and walk.plan.scope == "recheck"
    if rechecks or (walk.revisiting == step.id and walk.purpose == "recheck"):
        return message("untapped-recheck-needs-tap")
    return message("untapped-defect-needs-tap") if walk.is_open(step.id) else None
