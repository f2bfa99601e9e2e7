"""What the computer's clocks did during a walk, in sentences for its record.

The order of a walk is the order of its events, and every time in it that counts is taken from a
clock that nobody can set. The times of day beside the answers are the wall clock's, though: who
reads them must know where it jumped, and where the computer was away.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from walkaround.base.clock import Moment
from walkaround.base.message import Message, message
from walkaround.walk.events import Answered, Began, Event
from walkaround.words.language import Words

SET_S = 5.0
"""A wall clock off by less than this was not set by hand, and no time of day in a record, which
shows minutes, is wrong by it. Time services move smaller errors slowly, or in steps of less than
a second (RFC 5905, from memory)."""
SLEW = 500e-6
"""The fastest at which a time service moves a clock slowly: 500 ppm (RFC 5905, from memory)."""
SLEPT_S = 120.0
"""A shorter sleep is a lid closed by mistake."""

_Kind = Literal["back", "ahead", "restarted", "slept", "away"]


@dataclass(frozen=True, slots=True)
class _Odd:
    """One thing that the clocks did between two events.

    Attributes:
        kind: `away` is where the system does not tell sleep, restart and a clock set apart.
        seconds: how much; 0 for a restart, of which nobody knows how long it took.
        place: where in the walk.
    """

    kind: _Kind
    seconds: float
    place: Message


def clock_notes(events: Sequence[Event], words: Words) -> tuple[str, ...]:
    """Tell what happened to the clocks during a walk: at most one sentence of each kind, five.

    Args:
        events: those of one walk, from its first on.
        words: the language of the record.
    """
    kinds: dict[_Kind, list[_Odd]] = {}
    for odd in _odd(events):
        kinds.setdefault(odd.kind, []).append(odd)
    return tuple(_sentence(kind, several, words) for kind, several in kinds.items())


def span_text(seconds: float, words: Words) -> str:
    """Write a time in the two units that say enough of it: "45 s", "1 h 2 min", "3 days"."""
    if seconds < 120:
        return words("span-seconds", seconds=round(seconds))
    minutes = round(seconds / 60)
    if minutes < 60:
        return words("span-minutes", minutes=minutes)
    hours, over = divmod(minutes, 60)
    if hours < 48:
        if over:
            return words("span-hours-minutes", hours=hours, minutes=over)
        return words("span-hours", hours=hours)
    return words("span-days", days=round(hours / 24))


def _odd(events: Sequence[Event]) -> Iterator[_Odd]:
    plan = next((event.plan for event in events if isinstance(event, Began)), None)
    place = message("clock-place-start")
    for before, now in pairwise(events):
        if isinstance(before, Answered):
            step = plan.step(before.step) if plan else None
            place = message("clock-place-step", step=step.title if step else before.step)
        for kind, seconds in _between(before.at, now.at):
            yield _Odd(kind, seconds, place)


def _between(before: Moment, now: Moment) -> Iterator[tuple[_Kind, float]]:
    wall_s = (now.utc - before.utc).total_seconds()
    mono_s = now.mono_s - before.mono_s
    if before.boot != now.boot or mono_s < 0:
        # How long it was off is not known, only that it has been on again for so long.
        yield "restarted", 0.0
        on_again_s = now.mono_s + (now.asleep_s if now.tells_boot else 0.0)
        yield from _clock_jump(min(0.0, wall_s - on_again_s), on_again_s)
    elif now.tells_boot:
        slept_s = now.asleep_s - before.asleep_s
        if slept_s > SLEPT_S:
            yield "slept", slept_s
        yield from _clock_jump(wall_s - mono_s - slept_s, mono_s)
    else:
        # The same platform's name: it may have slept, or restarted and run for longer than before.
        for kind, seconds in _clock_jump(wall_s - mono_s, mono_s):
            yield "away" if kind == "ahead" else kind, seconds


def _clock_jump(by_s: float, in_s: float) -> Iterator[tuple[_Kind, float]]:
    """Tell whether a clock moved `by_s` too far in a time of `in_s`, ahead or back."""
    if abs(by_s) > max(SET_S, SLEW * in_s):
        yield "ahead" if by_s > 0 else "back", abs(by_s)


def _sentence(kind: _Kind, several: Sequence[_Odd], words: Words) -> str:
    """Write one sentence about everything of one kind."""
    largest, total = max(odd.seconds for odd in several), sum(odd.seconds for odd in several)
    return words(
        f"clock-{kind}-{'once' if len(several) == 1 else 'often'}",
        count=len(several),
        span=span_text(largest, words),
        total=span_text(total, words),
        place=several[0].place,
    )
