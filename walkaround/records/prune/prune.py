"""Deleting walks: each walk first, then its photos that no other walk has."""

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
    """Return the digests of a walk's photos.

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
    walk_ids: Iterable[str],
) -> None:
    """Delete these walks for good, one after the other.

    Args:
        store, open_walks, photos: where walks and photos are stored.
        overview: all walks.
        walk_ids: the ids of the walks to delete.

    Raises:
        MachineError: a file could not be read or deleted; those before it are deleted.
    """
    remaining = {line.id for line in overview.lines}
    for walk_id in walk_ids:
        month, own_photos = month_of(walk_id), photos_of(store, walk_id)
        remaining.discard(walk_id)
        # All walks of a month that have the same photo share one file.
        others = [each for each in remaining if own_photos and month_of(each) == month]
        unshared = own_photos.difference(*(photos_of(store, each) for each in others))
        store.remove(walk_id)
        open_walks.forget(walk_id)
        for photo in unshared:
            remove_file(photos.path(walk_id, photo))
        _log.warning("Walk %s was taken out for good, with %d photos", walk_id, len(unshared))
