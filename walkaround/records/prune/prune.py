"""What goes with a walk, and its going: the walk first, then the photos that no other walk has."""

from __future__ import annotations

import logging
from collections.abc import Iterable

from walkaround.disk.durable import remove_file
from walkaround.records.open_walks import OpenWalks
from walkaround.records.overview import Overview
from walkaround.records.photos import PhotoFolder
from walkaround.records.store import WalkStore
from walkaround.records.walk_line import month_of
from walkaround.walk.events import Photographed

_log = logging.getLogger(__name__)


def photos_of(store: WalkStore, walk_id: str) -> frozenset[str]:
    """Tell the digests of a walk's photos.

    Raises:
        MachineError: the walk cannot be read.
    """
    events = store.read(walk_id).events
    return frozenset(event.photo for event in events if isinstance(event, Photographed))


def prune(
    store: WalkStore,
    open_walks: OpenWalks,
    photos: PhotoFolder,
    overview: Overview,
    going: Iterable[str],
) -> None:
    """Take these walks out for good, one after the other.

    Args:
        store, open_walks, photos: where they lie.
        overview: all walks.
        going: ids of walks that may go.

    Raises:
        MachineError: a file could not be read or taken away; those before it are gone.
    """
    remaining = {line.id for line in overview.lines}
    for walk_id in going:
        month, own = month_of(walk_id), photos_of(store, walk_id)
        remaining.discard(walk_id)
        # A photo is one file a month, whichever walks have it.
        others = [each for each in remaining if own and month_of(each) == month]
        unshared = own.difference(*(photos_of(store, each) for each in others))
        store.remove(walk_id)
        open_walks.forget(walk_id)
        for photo in unshared:
            remove_file(photos.path(walk_id, photo))
        _log.warning("Walk %s was taken out for good, with %d photos", walk_id, len(unshared))
