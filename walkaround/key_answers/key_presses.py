"""What a press of a learned key does: it depends on the key, on the screen, and on the time.

A press is meant for what is on the screen, and for somebody who has heard it. So it does nothing

- while the press before it is still being handled;
- in the first moment of a step, where it may be the second half of the press before;
- where something else is open, such as a text field: keys answer steps, and move through the
  defects of a step;
- as an answer, while the step is locked until its prompt was said, or until what must be read was
  on the screen as a whole: then the first answer scrolls on.

And some answers need a tap: see `tap_needed`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from walkaround.base.message import Message, message
from walkaround.key_answers.learned_keys import Action
from walkaround.plan.steps import Step
from walkaround.walk.state import Walk

TAKE_BACK_S = 10.0
"""How long after an answer by a key the key for `back` takes it back."""

Place = Literal["step", "looking_back", "faults", "end", "elsewhere"]
"""What is on the screen: the current step, an answered one, the possible defects of a step, the end
of a walk; or anything else."""

PressEffect = Literal[
    "nothing", "answer_ok", "tell_faults", "next_fault", "choose_fault", "close_faults",
    "say_again", "explain", "look_back", "go_on", "take_back", "read_on", "wait", "need_tap",
]  # fmt: skip
"""What a press does. `wait`: the step is still locked. `need_tap`: this answer needs a tap."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PressContext:
    """The state of a page when a key is pressed.

    Attributes:
        place: what is on the screen.
        since_s: how long it has been there, seconds.
        busy: whether the press before is still being handled.
        unread: whether some text that must be read has not been on the screen as a whole yet.
        locked: whether the prompt has not been said yet.
        ok_needs_tap, defect_needs_tap: whether that answer needs a tap.
        answered_ago_s: how long ago the last event, an answer by a key, was, seconds; None if it
            was another event.
    """

    place: Place
    since_s: float
    busy: bool = False
    unread: bool = False
    locked: bool = False
    ok_needs_tap: bool = False
    defect_needs_tap: bool = False
    answered_ago_s: float | None = None


def press_effect(action: Action, context: PressContext, dead_s: float) -> PressEffect:
    """Decide what a press does.

    Args:
        action: what the key was learned for.
        context: the state of the page.
        dead_s: how long a step is on the screen before it accepts an answer, seconds.
    """
    if context.busy or context.place == "elsewhere" or context.since_s < dead_s:
        return "nothing"
    ago_s = context.answered_ago_s
    can_take_back = ago_s is not None and ago_s <= TAKE_BACK_S
    match context.place, action:
        case ("step" | "end", "back") if can_take_back:
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
        case ("step", "ok" | "defect") if context.unread:
            return "read_on" if action == "ok" else "wait"
        case ("step" | "looking_back", "defect"):
            return "need_tap" if context.defect_needs_tap else "tell_faults"
        case ("step", "ok") if context.ok_needs_tap:
            return "need_tap"
        case ("step", "ok"):
            return "wait" if context.locked else "answer_ok"
        case _:
            return "nothing"


def tap_needed(walk: Walk, step: Step, *, ok: bool) -> Message | None:
    """Say why an answer needs a tap now; return None if a key may give it.

    Only a plain look may be answered without a tap, and the step itself says so: never a step that
    charges, holds or releases air, that keeps the vehicle from rolling, or where somebody is at the
    brakes. A repair is proven, and an open defect taken back, only by a tap.

    Args:
        walk: the walk.
        step: the step to answer.
        ok: whether the answer is OK, not a defect.
    """
    if not step.hands_free or step.meter_first:
        return message("key-answers-step-needs-tap")
    if not ok:
        return None
    rechecks = walk.plan is not None and walk.plan.scope == "recheck"
    if rechecks or (walk.revisiting == step.id and walk.purpose == "recheck"):
        return message("key-answers-recheck-needs-tap")
    return message("key-answers-defect-needs-tap") if walk.is_open(step.id) else None
