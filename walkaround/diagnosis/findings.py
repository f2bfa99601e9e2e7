"""Likely causes as they are told: each with why, what to do about it, and what looks the same."""

from __future__ import annotations

from typing import NamedTuple, Protocol

from walkaround.base.message import Message

LEAST_SHARE_TOLD = 0.05
"""A cause with a smaller share is not told beside a likelier one."""
MOST_CAUSES_TOLD = 3
_MOST_PERCENT = 99


class Fault(Protocol):
    """A possible fault: a kind and a place, both ids."""

    @property
    def kind(self) -> str:
        """What it is."""

    @property
    def place(self) -> str:
        """Where; empty where a vehicle has one of its kind."""


class ToldCause(NamedTuple):
    """A likely cause as it is told.

    Attributes:
        explains: something of what is odd.
        name, why: what it is, and why that would look so.
        same_look_names: of those that look the same.
        next: what to do to find out whether it is this one, with what confirms it.
        trial: the same as its id, empty where nothing tells more.
    """

    fault: Fault
    share: float
    same_look: tuple[Fault, ...]
    explains: bool
    name: Message
    same_look_names: tuple[Message, ...]
    why: Message
    next: Message
    trial: str

    @property
    def id(self) -> str:
        """What it is called in a walk: `open_ground:rear_left`."""
        return ":".join(filter(None, (self.fault.kind, self.fault.place)))


class NextThing(NamedTuple):
    """The trial to do next, and what may be found: each outcome by its id, as it is said."""

    id: str
    say: Message
    outcomes: tuple[tuple[str, Message], ...]


class TriedThing(NamedTuple):
    """A trial that was done, by its id and as it is said, and what came out of it."""

    id: str
    say: Message
    outcome: Message


class Findings(NamedTuple):
    """The likely causes told of one vehicle, and what to do next.

    Attributes:
        causes: the likeliest first.
        nothing_odd: all that is known is as it should be; the causes would not have shown.
        next: what narrows the list most for its effort; None where nothing does.
        tried: what was done so far.
    """

    causes: tuple[ToldCause, ...]
    nothing_odd: bool
    next: NextThing | None
    tried: tuple[TriedThing, ...] = ()

    @property
    def likely(self) -> tuple[tuple[ToldCause, float], ...]:
        """List the causes worth telling a mechanic, each with its share of all that explain."""
        explaining = [cause for cause in self.causes if cause.explains]
        whole = sum(cause.share for cause in explaining)
        parts = [(cause, cause.share / whole) for cause in explaining]
        return tuple(
            (cause, part) for cause, part in parts[:MOST_CAUSES_TOLD] if part >= LEAST_SHARE_TOLD
        )


def percent_likely(part: float) -> str:
    """Give a share in percent as it is told: what was not looked at is never certain."""
    return f"{min(_MOST_PERCENT, 100 * part):.0f}"


class Likely(NamedTuple):
    """The likely causes of one walk; None where nothing is wrong there, or nothing is known."""

    lamps: Findings | None = None
    air: Findings | None = None


NOTHING_LIKELY = Likely()
"""The causes of a walk when nobody asks for them."""
