"""How long a stopwatch or a wait of a walk has run, as far as the clocks can tell.

A time that cannot be told is never guessed. A stopwatch that ran while the computer slept or
restarted is lost, since nobody could stop it. A wait goes on meanwhile, but it counts what is
certain only: a wall clock that was set, or that a flat battery left in another year, must not
end it.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from walkaround.airhold.hold import ASLEEP_S
from walkaround.base.clock import Moment
from walkaround.base.message import Message, message
from walkaround.plan.steps import Step
from walkaround.walk.events import Measured, TimerBegan
from walkaround.walk.state import Walk


def wait_left_s(walk: Walk, step: Step, now: Moment) -> float:
    """Return the seconds still to go at a step that waits; the whole time if nothing was begun."""
    assert step.wait is not None
    begun = walk.answers.get(step.wait.after)
    if begun is None:
        return step.wait.seconds
    since = [event.at for event in walk.events[begun.seq :]]
    return step.wait.seconds - surely_passed_s([*since, now])


def surely_passed_s(moments: Sequence[Moment]) -> float:
    """Return the least time that can have passed from the first moment to the last, seconds.

    Sleep counts where the system tells it. Of a restart counts what came before, up to the last
    moment known, and how long the computer has been on again; the time in between is not known.

    Args:
        moments: in the order in which they were.
    """
    return sum(_surely_s(before, now) for before, now in pairwise(moments))


def was_off_during_wait(walk: Walk, step: Step, now: Moment) -> bool:
    """Tell whether the computer was off during a wait, for a time that does not count."""
    assert step.wait is not None
    begun = walk.answers.get(step.wait.after)
    return begun is not None and begun.at.boot != now.boot


def running_since(walk: Walk, step: Step) -> Moment | None:
    """Tell when the stopwatch that runs now was started; None if it stands."""
    if step.id not in walk.timers:
        return None  # a recheck times anew
    for event in reversed(walk.events):
        if isinstance(event, TimerBegan | Measured) and event.step == step.id:
            return event.at if isinstance(event, TimerBegan) else None
    return None


def stopwatch_trouble(began: Moment, now: Moment) -> Message | None:
    """Tell why a stopwatch's time is lost; None while it is good."""
    if began.boot != now.boot:
        return message("stopwatch-restarted")
    if abs(now.asleep_s - began.asleep_s) > ASLEEP_S:
        return message("stopwatch-slept" if now.tells_boot else "stopwatch-away")
    return None


def _surely_s(before: Moment, now: Moment) -> float:
    mono_s = now.mono_s - before.mono_s
    if before.boot == now.boot and now.tells_boot:
        return max(0.0, mono_s + now.asleep_s - before.asleep_s)
    if before.boot == now.boot and mono_s >= 0:
        return mono_s
    # The monotonic clock starts at boot: man 2 clock_gettime for Linux; elsewhere from memory.
    return max(0.0, now.mono_s + (now.asleep_s if now.tells_boot else 0.0))
