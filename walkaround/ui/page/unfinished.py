"""What a page was in the middle of, so that it goes on with it when it comes back.

A phone that falls asleep or changes networks loses its link, and comes back as a new page. What
was tapped lies in the store; what was typed or chosen and not sent yet lies here, in memory, under
the id of the session that the page had. What was typed also lies in a file, since typing it again
takes longer than a tap: it is there after the server was killed too.
"""

from __future__ import annotations

import json
import logging
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Any, NamedTuple, TypeVar, cast

import flet as ft

from walkaround.disk.delayed_write import DelayedFile
from walkaround.vehicle.model import Vehicle

log = logging.getLogger(__name__)
T = TypeVar("T")

MOST_PAGES = 1000
"""How many pages are remembered; those that opened longest ago are forgotten first."""
KEPT_S = 12 * 3600.0
"""How long: after a night nobody knows any more what was half done."""


class PagePlace(NamedTuple):
    """The place where a page stands.

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
    """The half-done input of one page.

    Attributes:
        place: where; what was half done elsewhere is given up.
        values: what was typed and chosen there, by name.
        clock: seconds that are never set back.
        touched_s: when something was done there last.
        changed: is called when something else is half done.
    """

    clock: Callable[[], float]
    place: PagePlace = PagePlace()  # noqa: RUF009 - it cannot be changed
    values: dict[str, Any] = field(default_factory=dict)
    touched_s: float = 0.0
    changed: Callable[[], None] = lambda: None

    def at(self, place: PagePlace) -> None:
        """Take note that the page stands here now; on another screen nothing is unfinished."""
        if place != self.place:
            self.touched_s = self.clock()
            self.place = place
            self.values.clear()
            self.changed()

    def keep(self, name: str, value: T) -> T:
        """Remember this, and give it back."""
        self.touched_s = self.clock()
        self.values[name] = value
        self.changed()
        return value

    @property
    def typed(self) -> dict[str, Any]:
        """What of it was typed: texts, and a vehicle's form, as JSON has them."""
        values = ((name, _as_json(value)) for name, value in self.values.items())
        return {name: value for name, value in values if value}


def _as_json(value: object) -> Any:
    """Return a text as it is, a vehicle as a table, and None for anything else."""
    return (
        value.model_dump(mode="json")
        if isinstance(value, Vehicle)
        else (value if isinstance(value, str) else None)
    )


class UnfinishedPages:
    """The half-done input of each page, of those that opened last."""

    def __init__(self, clock: Callable[[], float], store: DelayedFile | None = None) -> None:
        """Start with what was typed before the server ended.

        Args:
            clock: gives seconds that are never set back.
            store: keeps what is typed.
        """
        self._clock = clock
        self._pages: OrderedDict[str, Unfinished] = OrderedDict()
        self._kept = store
        if store is not None:
            self._read(store.read())

    def begin(self, session_id: str, before: str) -> Unfinished:
        """Tell what the page of this new session has to go on with.

        Args:
            session_id: its session.
            before: the session that it had when its link was cut; empty for a new page.
        """
        leftover = self._pages.get(before)
        if leftover is None or self._clock() - leftover.touched_s > KEPT_S:
            leftover = Unfinished(self._clock)
        # A tab that was doubled has the same session before: each goes on with its own.
        own = replace(leftover, values=dict(leftover.values), changed=self._changed)
        self._pages[session_id] = own
        while len(self._pages) > MOST_PAGES:
            self._pages.popitem(last=False)
        return own

    def _read(self, content: bytes) -> None:
        try:
            pages = json.loads(content or b"{}")
            for session_id, page in pages.items():
                values = {
                    name: Vehicle.model_validate(value) if isinstance(value, dict) else str(value)
                    for name, value in page["typed"].items()
                }
                # The clock of a computer that was started anew begins at nothing.
                touched_s = min(float(page["touched_s"]), self._clock())
                place = PagePlace(*page["place"])
                self._pages[session_id] = Unfinished(self._clock, place, values, touched_s)
        except (ValueError, LookupError, TypeError, AttributeError) as unread:
            log.warning("what was half typed is not read: %s", unread)

    def _changed(self) -> None:
        if self._kept is None:
            return
        pages = {
            session_id: {"place": page.place, "touched_s": page.touched_s, "typed": typed}
            for session_id, page in self._pages.items()
            if self._clock() - page.touched_s < KEPT_S and (typed := page.typed)
        }
        self._kept.write(json.dumps(pages).encode())


def use_unfinished(
    unfinished: Unfinished, name: str, first: T
) -> tuple[T, Callable[[T | Callable[[T], T]], None]]:
    """Work like Flet's `use_state`, for a value that a page must still have after a reconnect.

    Args:
        unfinished: the page's.
        name: of the value, unique within the page.
        first: what it is at first.
    """
    value, set_value = ft.use_state(cast(T, unfinished.values.get(name, first)))

    def change(new: T | Callable[[T], T]) -> None:
        set_value(lambda now: unfinished.keep(name, new(now) if callable(new) else new))

    return value, change
