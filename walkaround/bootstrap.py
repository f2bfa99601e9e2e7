"""The one place that wires real parts together; tests wire theirs through the same function."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from walkaround import locations
from walkaround.clock import Clock
from walkaround.desk import Desk
from walkaround.loading import Library
from walkaround.settings import Settings
from walkaround.shelf import Shelf
from walkaround.speech import RenderedVoice, Voice
from walkaround.store import WalkStore
from walkaround.systemclock import system_clock


@dataclass(frozen=True, slots=True)
class Parts:
    """Everything that a running app is made of.

    Attributes:
        data: the folder that holds this app's walks, index, settings and speech.
        clock: tells the moment.
        shelf: checklists, vehicles and connectors; saves the crew's own vehicles.
        store: keeps walks and settings; closed with `close`.
        desk: the open walks.
        voice: turns prompts into sound.
    """

    data: Path
    clock: Clock
    shelf: Shelf
    store: WalkStore
    desk: Desk
    voice: Voice

    @property
    def library(self) -> Library:
        """Checklists, vehicles and connectors, with the problems found in their files."""
        return self.shelf.library

    def settings(self) -> Settings:
        """The settings last saved; those that no longer fit are left at their defaults."""
        try:
            return Settings.model_validate(self.store.load_settings())
        except ValueError:
            return Settings()

    def close(self) -> None:
        """End the voice's worker and give the data folder back."""
        self.voice.close()
        self.store.close()


def build(data: Path, *, clock: Clock = system_clock, voice: Voice | None = None) -> Parts:
    """Wire the app on this data folder.

    Raises:
        MachineError: the folder cannot be used, or another walkaround is using it.
    """
    store = WalkStore(data)
    return Parts(
        data=data,
        clock=clock,
        shelf=Shelf(data, lambda: today(clock), lambda: {line.vehicle for line in store.lines()}),
        store=store,
        desk=Desk(store, clock),
        voice=voice or RenderedVoice(locations.speech(data)),
    )


def today(clock: Clock) -> date:
    """The date where this computer stands."""
    return clock().local().date()
