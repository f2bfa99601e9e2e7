"""What a page was in the middle of, so that it goes on with it when it comes back.

A phone that falls asleep or changes networks loses its link, and comes back as a new page. What
was tapped lies in the store; what was typed or chosen and not sent yet lies here, in memory, under
the id of the session that the page had.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple, TypeVar, cast

import flet as ft

T = TypeVar("T")

PAGES = 1000
"""So many pages are remembered; those that opened longest ago are forgotten first."""
KEPT_S = 12 * 3600.0
"""So long: after a night nobody knows any more what was half done."""


class Place(NamedTuple):
    """Where a page stands.

    Attributes:
        route: its address inside the app.
        panel: what is open over the screen, or nothing.
        peek: the id of an answered step that is being looked at again, or nothing.
        step: the id of the step that it is about, or nothing.
        since: the number of the walk's entry that last changed what is asked there.
    """

    route: str = ""
    panel: str = ""
    peek: str = ""
    step: str = ""
    since: int = 0


@dataclass
class Unfinished:
    """What is half done on one page.

    Attributes:
        place: where; what was half done elsewhere is given up.
        values: what was typed and chosen there, by name.
        clock: seconds that are never set back.
        touched_s: when something was done there last.
    """

    clock: Callable[[], float]
    place: Place = Place()  # noqa: RUF009 - it cannot be changed
    values: dict[str, Any] = field(default_factory=dict)
    touched_s: float = 0.0

    def at(self, place: Place) -> None:
        """The page stands here now."""
        if place != self.place:
            self.touched_s = self.clock()
            self.place = place
            self.values.clear()

    def keep(self, name: str, value: T) -> T:
        """Remember this, and give it back."""
        self.touched_s = self.clock()
        self.values[name] = value
        return value


class Leftovers:
    """What each page was in the middle of, of those that opened last."""

    def __init__(self, clock: Callable[[], float]) -> None:
        """Start with none; `clock` gives seconds that are never set back."""
        self._clock = clock
        self._pages: OrderedDict[str, Unfinished] = OrderedDict()

    def begin(self, session_id: str, before: str) -> Unfinished:
        """What the page of this new session has to go on with.

        Args:
            session_id: its session.
            before: the session that it had when its link was cut; empty for a new page.
        """
        left = self._pages.get(before)
        if left is None or self._clock() - left.touched_s > KEPT_S:
            left = Unfinished(self._clock)
        # A tab that was doubled has the same session before: each goes on with its own.
        self._pages[session_id] = replace(left, values=dict(left.values))
        while len(self._pages) > PAGES:
            self._pages.popitem(last=False)
        return self._pages[session_id]


def use_kept(
    unfinished: Unfinished, name: str, first: T
) -> tuple[T, Callable[[T | Callable[[T], T]], None]]:
    """Like Flet's `use_state`, of a value that a page must still have when it comes back.

    Args:
        unfinished: the page's.
        name: of the value, one of its own wherever the page stands.
        first: what it is at first.
    """
    value, set_value = ft.use_state(cast(T, unfinished.values.get(name, first)))

    def change(new: T | Callable[[T], T]) -> None:
        set_value(lambda now: unfinished.keep(name, new(now) if callable(new) else new))

    return value, change
