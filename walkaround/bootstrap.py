"""The one place that wires real parts together; tests wire theirs through the same function."""

from __future__ import annotations

import logging
import sys
import time
from collections.abc import Callable, Collection
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime
from functools import cache
from pathlib import Path

from walkaround.access.pairing import Pairing
from walkaround.base.clock import Clock, Moment
from walkaround.base.errors import MachineError, NotNowError
from walkaround.base.message import message, read_in_logs_by
from walkaround.board.search import WalkSearch
from walkaround.comparison.later_walks import NOTHING_LATER, Later
from walkaround.disk import locations
from walkaround.exchange.sharing import Sharing
from walkaround.library.languages import checklist_texts, languages, message_files
from walkaround.library.load import Library
from walkaround.library.own_vehicles import OwnVehicles
from walkaround.recognition.audio_streams import AudioStreams
from walkaround.recognition.process import HearingProcess, is_installed
from walkaround.records.export import later_looks
from walkaround.records.open_walks import OpenWalks
from walkaround.records.photos import PhotoFolder
from walkaround.records.store import WalkStore
from walkaround.settings import Settings
from walkaround.timing import Timing
from walkaround.voice.clips import RenderedVoice, Voice
from walkaround.walk.state import Walk
from walkaround.words.language import Words

_log = logging.getLogger(__name__)

MADE = date(2026, 11, 1)
"""Today is no earlier: a computer without a battery starts in 1970, when no vehicle was made."""
_BOOT_ID = Path("/proc/sys/kernel/random/boot_id")


@dataclass(frozen=True, slots=True)
class Parts:
    """Everything that a running app is made of.

    Attributes:
        data: the folder that holds this app's walks, settings and speech.
        clock: gives the present moment.
        own_vehicles: checklists, vehicles and connectors; saves the crew's own vehicles.
        store: keeps walks and settings; closed with `close`.
        open_walks: the walks open in this process.
        voice: turns prompts into sound.
        words: the language in which all is shown and said where nobody has chosen another.
        timing: how long the screens wait for people, phones and clocks.
        photos: the photos beside the walks.
        search: finds walks by what was typed.
        sharing: hands walks on, and brings them together.
        recognition: hears spoken answers, where that is installed.
        pairing: what other devices are paired by; None where only this machine is served.
        apart: what `practice` made, if anything.
    """

    data: Path
    clock: Clock
    own_vehicles: OwnVehicles
    store: WalkStore
    open_walks: OpenWalks
    voice: Voice
    words: Words
    timing: Timing
    photos: PhotoFolder
    sharing: Sharing
    recognition: AudioStreams
    search: WalkSearch = field(default_factory=WalkSearch)
    pairing: Pairing | None = None
    apart: list[Parts] = field(default_factory=list)

    @property
    def practice(self) -> Parts:
        """The same app on a folder of its own, for walks that are practice.

        Raises:
            MachineError: the folder cannot be used.
        """
        if not self.apart:
            data = locations.practice(self.data)
            store, photos = WalkStore(data), PhotoFolder(data)
            walks = OpenWalks(store, self.clock)
            sharing = Sharing(data, store, walks, photos, self.clock)
            self.apart.append(
                replace(
                    self,
                    data=data,
                    store=store,
                    open_walks=walks,
                    photos=photos,
                    sharing=sharing,
                    apart=[],
                )
            )
        return self.apart[0]

    @property
    def library(self) -> Library:
        """Checklists, vehicles and connectors, with the problems found in their files."""
        return self.own_vehicles.library

    def settings(self) -> Settings:
        """Return the settings last saved; those that no longer fit are left at their defaults."""
        try:
            return Settings.saved(self.store.load_settings())
        except MachineError as error:
            _log.warning("The settings were left at their defaults: %s", error)
            return Settings()

    def is_blind(self, walk: Walk) -> bool:
        """Tell whether it is one of a double check that is not closed."""
        # The list of all walks is asked of such walks alone, since it looks at the disk.
        double = walk.plan is not None and walk.plan.double
        return double and walk.id in self.store.overview().blind

    def later(self, walk: Walk) -> Later:
        """Tell what walks since say of what a walk left open."""
        # The same: most walks leave nothing open.
        if not walk.open_defects:
            return NOTHING_LATER
        return later_looks(walk, self.store.overview(), self.open_walks.walk)

    def walk_shown_to(self, who: str, walk_id: str, *, in_cab: bool = False) -> Walk:
        """Give a walk if it may be seen here; in the cab no answers are shown.

        Raises:
            InputError, MachineError: there is no such walk, or it cannot be read.
            NotNowError: it is somebody else's of a double check that is not closed.
        """
        walk = self.open_walks.walk(walk_id)
        walker = walk.events[0].who
        if not in_cab and who != walker and self.is_blind(walk):
            raise NotNowError(message("double-shut", who=walker))
        return walk

    def words_in(self, language: str) -> Words:
        """Return the words of a language that comes with the app; `words` for any other."""
        is_another = language != self.words.language and language in languages()
        return language_words(language) if is_another else self.words

    def close(self) -> None:
        """End the processes that speak and hear, and give the data folder back."""
        self.voice.close()
        self.recognition.close()
        for parts in (*self.apart, self):
            parts.store.close()


def system_clock() -> Moment:
    """Ask the computer's clocks, and tell them as one moment.

    Linux tells its boot id and how long it slept (CLOCK_BOOTTIME runs on in sleep, CLOCK_MONOTONIC
    does not). Elsewhere neither can be asked, so the distance between wall clock and monotonic
    clock stands in: it jumps when the computer sleeps, when it boots and when its clock is set, and
    each of these voids an air hold.
    """
    tells = sys.platform == "linux" and _BOOT_ID.exists()
    boot = _BOOT_ID.read_text(encoding="ascii").strip() if tells else sys.platform
    # Nothing between the two: what holds this thread up there would pass for sleep.
    mono_s = time.monotonic()
    other_s = time.clock_gettime(time.CLOCK_BOOTTIME) if tells else time.time()
    asleep_s = other_s - mono_s
    return Moment(utc=datetime.now(UTC), mono_s=mono_s, boot=boot, asleep_s=round(asleep_s, 3))


def build(
    data: Path,
    *,
    clock: Clock = system_clock,
    voice: Voice | None = None,
    recognition: AudioStreams | None = None,
    words: Words | None = None,
    timing: Timing | None = None,
    open_at: str | None = None,
    new_key: bool = False,
    opened: Callable[[], None] = lambda: None,
) -> Parts:
    """Wire the app on this data folder.

    Args:
        data: the folder.
        clock: gives the present moment.
        voice: turns prompts into sound; one that speaks if not said.
        recognition: hears spoken answers; by the process that hears if not said.
        words: the language; English if not said.
        timing: how long the screens wait; as for people if not said.
        open_at: the address that other devices reach the app at, once they are paired; None to
            serve this machine only.
        new_key: whether they must all be paired anew.
        opened: called once the data folder is this process's own.

    Raises:
        MachineError: the folder cannot be used, or another walkaround is using it.
    """
    store = WalkStore(data)
    try:
        opened()
        # A list that was lost is made anew now, not when somebody taps Records.
        store.overview()
        key = locations.pairing(data) / "key"
        pairing = None if open_at is None else Pairing(key, open_at, new=new_key)
    except BaseException:
        store.close()
        raise
    open_walks, photos = OpenWalks(store, clock), PhotoFolder(data)
    return Parts(
        data=data,
        clock=clock,
        own_vehicles=OwnVehicles(data, lambda: today(clock), lambda: _walked(store)),
        store=store,
        open_walks=open_walks,
        voice=voice or RenderedVoice(locations.speech(data)),
        words=words or read_language(),
        timing=timing or Timing(),
        photos=photos,
        sharing=Sharing(data, store, open_walks, photos, clock),
        recognition=recognition or AudioStreams(HearingProcess(), installed=is_installed()),
        pairing=pairing,
    )


def read_language(language: str = "en") -> Words:
    """Read the words of a language; logs, errors and the terminal are in it from now on."""
    words = language_words(language)
    read_in_logs_by(words.text)
    return words


@cache
def language_words(language: str) -> Words:
    """Return the words of a language that comes with the app; what it lacks is said in English."""
    if language == "en":
        return Words(language, message_files(language))
    words = Words(
        language,
        message_files(language),
        checklists=checklist_texts(language),
        fallback=language_words("en"),
    )
    if words.lacking:
        _log.info("%s lacks %d messages, which are shown in English", language, words.lacking)
    return words


def _walked(store: WalkStore) -> Collection[str]:
    """The ids of all vehicles that walks are of."""
    walks = store.overview()
    if walks.unread:
        raise MachineError(message("records-vehicles-untold", why=walks.unread[0]))
    return walks.vehicles


def today(clock: Clock) -> date:
    """Tell the date where this computer stands."""
    return max(clock().local().date(), MADE)
