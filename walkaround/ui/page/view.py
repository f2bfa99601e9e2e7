"""One phone's visit: which screen it shows, what is open on it, and how it looks and sounds.

What the walk *is* lives in the open walks and the store; a `View` holds what this page shows.
Every change ends in `redraw`, which draws the page from the top. Only the page's root watches
the `Beat`: if each screen did, a screen about to be taken away would be drawn once more, from
a view that has already moved on.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable
from contextvars import copy_context
from dataclasses import dataclass
from typing import Any

import flet as ft

from walkaround.base.errors import LateError, MachineError, NotNowError, WalkaroundError
from walkaround.bootstrap import Parts
from walkaround.drawing.palette import DARK, LIGHT, Palette
from walkaround.library.inbox import Inbox
from walkaround.rules.checklist import Wording
from walkaround.settings import OF_SHOP, Settings
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.page.device import Device
from walkaround.ui.page.own_settings import OwnSettings
from walkaround.ui.page.sound import Sound
from walkaround.ui.page.unfinished import PagePlace, Unfinished
from walkaround.ui.page.words_seen import WordsSeen
from walkaround.ui.page_location import PageLocation
from walkaround.walk.state import Walk
from walkaround.words.language import Words

log = logging.getLogger(__name__)


@ft.observable
@dataclass
class Beat:
    """A count of redraws; the page's root is drawn again whenever it changes."""

    count: int = 0


class View(PageLocation):
    """The state of one page.

    Attributes:
        sound: this page's voice.
        panel: what is open over the screen (`fault`, `reason`, `note`, `menu`, ...), or nothing.
        peek: the id of an answered step that is being looked at again, or nothing.
        step: the id of the step that this page is about; a note stays where it was begun.
        since: the number of the walk's entry since which that step is asked as it is now.
        message: one sentence that must be seen, or nothing.
        unsaved: why the last thing was not saved, until something is; nothing while all is.
        beat: what the page's root watches.
        going_on: whether the tap that led here also takes up a walk that was left.
        device: the phone that it is on.
        knows_phone: whether what was set on that is known by now.
        words_seen: how far the words of its step have been on the screen.
        inbox: where the files come that this page hands over.
        unfinished: what is half done on it.
    """

    def __init__(self, page: ft.Page, parts: Parts, inbox: Inbox, unfinished: Unfinished) -> None:
        super().__init__(parts, page.route or "/")
        self._page = page
        self._loop, self._context = asyncio.get_running_loop(), copy_context()
        self._stop_watching: Callable[[], None] = lambda: None
        self._saving = 0
        self._at_walk: Callable[[], Awaitable[None]] | None = None
        self._moved: Callable[[], None] = lambda: None
        self._appear: Callable[[], None] = lambda: None
        self.sound = Sound(parts.voice, lambda: self.words, lambda: self.settings, self.somebody_in)
        self.device = Device(page, parts.timing.device_s, parts.timing.recall_s)
        self._own = OwnSettings(self.device)
        self.going_on = self.knows_phone = False
        self.unfinished = unfinished
        left = unfinished.place if unfinished.place.route == self.route else PagePlace()
        _, self.panel, self.peek, self.step, self.since = left
        self.message = self.unsaved = ""
        self.beat, self.words_seen = Beat(), WordsSeen()
        self.inbox = inbox
        self.settings = parts.settings()
        # What Explain goes back from, and Shorter back to.
        self.wording: Wording = "short"
        self.device.set_dark(self.settings.dark)

    @property
    def words(self) -> Words:
        """The language of this phone, in the units chosen."""
        return self.parts.words_in(self.settings.language).shown_in(self.settings.units)

    @property
    def dark(self) -> bool:
        """Whether dark colors are shown."""
        chosen = self.settings.dark
        return self.device.dark if chosen is None else chosen

    @property
    def palette(self) -> Palette:
        """The colors that pictures are drawn in."""
        return DARK if self.dark else LIGHT

    @property
    def walk(self) -> Walk:
        """The walk that this page is at."""
        return self.parts.walk_shown_to(self.who, self.walk_id, in_cab=self.in_cab)

    def somebody_in(self) -> bool:
        """Tell whether somebody may be in at the brakes of the walk that this page is at."""
        try:
            return bool(self.walk_id) and self.walk.somebody_in
        except WalkaroundError:
            return False  # nobody walks what cannot be opened

    @property
    def who(self) -> str:
        """The name that answers are signed with."""
        return self.settings.who or "mechanic"

    def arrive(self, route: str) -> None:
        """Show the screen of this address and follow the walk it names."""
        self.panel = self.peek = self.step = self.message = ""
        self.since = 0
        self.route = route or "/"
        self.refresh_shop_settings()
        self.begin()

    def refresh_shop_settings(self) -> None:
        """Take over what other pages have told of the shop and its gauges meanwhile."""
        stored = self._parts.settings()
        of_shop = {name: getattr(stored, name) for name in OF_SHOP}
        self.settings = self.settings.model_copy(update=of_shop)

    def begin(self) -> None:
        """Follow the walk that the address names, from here on."""
        self._stop_watching()
        if self.walk_id:
            self._stop_watching = self.parts.open_walks.watch(self.walk_id, self._from_elsewhere)
        self.redraw()

    def set_walk_handlers(
        self,
        arrived: Callable[[], Awaitable[None]],
        moved: Callable[[], None],
        appear: Callable[[], None],
    ) -> None:
        """Set what to do when this page arrives at a walk, and when another page moves that on."""
        self._at_walk, self._moved, self._appear = arrived, moved, appear

    async def take_up_walk(self) -> None:
        """Take up the walk that this page has arrived at, if it is at one."""
        if self.walk_id and self._at_walk:
            await self._at_walk()

    async def go(self, route: str, *, going_on: bool = False) -> None:
        """Go to another screen, so that the browser's address says so too.

        Args:
            route: its address.
            going_on: the tap also takes up a walk that was left.
        """
        self.going_on = going_on
        self.arrive(route)
        await self._page.push_route(route)
        await self.take_up_walk()

    def to(self, route: str, *, going_on: bool = False) -> Tap:
        """Make a tap that goes to another screen; see `go`."""
        return tapped(self.go, route, going_on=going_on)

    def opens(self, panel: str) -> Tap:
        """Make a tap that opens something over the screen, or with an empty name closes it."""
        return lambda: self.open(panel)

    def open(self, panel: str) -> None:
        """Open something over the screen; an empty name closes it."""
        self.panel = panel
        self._appear()
        self.redraw()

    def look(self, step_id: str) -> None:
        """Look at an answered step again; an empty id goes back to the step being asked."""
        self.peek, self.panel = step_id, ""
        self.redraw()

    def note_step(self, step_id: str, since: int) -> None:
        """Take note of the step that the page shows, asked since that entry of the walk."""
        self.step, self.since = step_id, since
        self.unfinished.at(PagePlace(self.route, self.panel, self.peek, step_id, since))

    def redraw(self) -> None:
        """Draw the page again, once what is under way is sent: a clip is fetched meanwhile."""
        self.note_step(self.step, self.since)
        self._loop.call_soon(self._draw)

    def _draw(self) -> None:
        self.beat.count += 1
        # Flet's loop of updates ends for good with a control that cannot be sent: begin it anew.
        session: Any = self._page.session
        session.start_updates_scheduler()

    def say_failure(self) -> None:
        """Say that something unforeseen went wrong, which is in the log, and go on."""
        self.message = self.words("page-failed")
        self.redraw()

    async def read_phone_settings(self) -> None:
        """Ask the phone for the settings and keys that are stored on it."""
        motion, settings = self.device.motion, await self._own.recall(self.settings)
        new, self.knows_phone = not self.knows_phone, True
        if (settings, self.device.motion) != (self.settings, motion) or (
            new and not settings.shown_how
        ):
            self.settings = settings
            self.device.set_dark(settings.dark)
            self.redraw()

    async def set(self, settings: Settings) -> None:
        """Take over other settings, and keep what is changed by them."""
        before, self.settings = self.settings, settings
        self.device.set_dark(settings.dark)
        self.redraw()
        if for_shop := await self._own.keep(before, settings):
            await self.saved(lambda: self._parts.store.change_settings(for_shop))

    async def saved(self, work: Callable[[], object], *, or_never: bool = False) -> bool:
        """Run work that writes, off the page's loop; if it fails that is seen, heard or felt.

        Args:
            work: what to do.
            or_never: when the walk does not allow it any more, somebody else has done it.

        Returns:
            Whether it was done. A second tap, or an answer from a page that lagged behind, is
            dropped without a word.
        """
        why = ""
        self._saving += 1
        try:
            await asyncio.to_thread(work)
        except NotNowError as late:
            log.info("dropped: %s", late)
            self._moved()
            if not or_never and not isinstance(late, LateError):
                self.message = self.words.text(late.text)
        except MachineError as failed:
            log.error("not saved: %s", failed)
            why = self.words.text(failed.text)
        except WalkaroundError as failed:
            log.error("not done: %s", failed)
            self.message = self.words.text(failed.text)
        except Exception:
            log.exception("not done")
            why = self.words("page-log-says-why")
        else:
            if self.unsaved:
                await self.sound.cue("saved")
            self.message = self.unsaved = ""
            return True
        finally:
            self._saving -= 1
            self.redraw()
        if not why:
            return False
        inside = str(self.parts.data / "_").removesuffix("_")
        self.unsaved = self.words("page-not-saved", why=why.replace(inside, ""))
        self.redraw()
        await self.sound.cue("not_saved")
        if self.settings.voice and not self.sound.trouble:
            await self.sound.say(self.words("page-not-saved-said"))
        else:
            await self.device.vibrate()
        return False

    @property
    def gone(self) -> bool:
        """Whether Flet has dropped the page, so that nothing can be drawn on it any more."""
        try:
            return self._page.session is None
        except RuntimeError:
            return True

    def page_gone(self) -> None:
        """Let go of the walk: the page is gone, and comes back as a new one."""
        log.info("a page at %s is gone", self.route)
        self._stop_watching()

    def _from_elsewhere(self) -> None:
        """React to a walk that moved on, by another page's tap or by this one's, in a thread."""
        # What this page saves is drawn once, when it is saved; one that is gone comes back anew.
        if not self._saving and self._page.session.connection is not None:
            self._loop.call_soon_threadsafe(self._follow, context=self._context)

    def _follow(self) -> None:
        self._moved()
        self.redraw()
