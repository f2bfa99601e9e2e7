"""Sharing and bringing together in the running app: the data folder, its key, its open walks.

Files on their way in or out lie beside the keys until they are taken or sent.
"""

from __future__ import annotations

import logging
import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from threading import Lock
from uuid import uuid4

from walkaround.base.clock import Clock
from walkaround.base.errors import MachineError
from walkaround.base.message import Message
from walkaround.disk import locations
from walkaround.disk.durable import TEMPORARY, make_folder, sweep
from walkaround.exchange.merge import Merged, merge
from walkaround.exchange.share import share
from walkaround.exchange.shop_key import ShopKey, know_shop, known_shops
from walkaround.exchange.verify import Verified, shop_of, standings, verify
from walkaround.records.files import file_name
from walkaround.records.open_walks import OpenWalks
from walkaround.records.photos import PhotoFolder
from walkaround.records.store import WalkStore
from walkaround.records.walk_line import original_id

_log = logging.getLogger(__name__)


class Sharing:
    """What the screens and the server share walks by; any thread may use it."""

    def __init__(
        self,
        data: Path,
        store: WalkStore,
        open_walks: OpenWalks,
        photos: PhotoFolder,
        clock: Clock,
    ) -> None:
        """Take the data folder, and what writes in it."""
        self._data = data
        self._store = store
        self._open_walks = open_walks
        self._clock = clock
        self._photos = photos
        self._merging = Lock()
        with suppress(MachineError):
            # What was on its way when the app was killed.
            sweep(locations.sharing(data))

    def key(self) -> ShopKey:
        """Give this shop's key; MachineError if it cannot be read or made."""
        return ShopKey.of(self._data)

    def call_shop(self, name: str) -> None:
        """Sign under this name from now on; MachineError if it could not be kept."""
        know_shop(self._data, self.key().public, name)

    def known(self) -> Mapping[str, str]:
        """Name the shops that are known here by their keys; none if that cannot be read."""
        try:
            return known_shops(self._data)
        except MachineError as error:
            _log.warning("%s", error)
            return {}

    def keep(self, key: str, name: str) -> None:
        """Keep a shop's key under its name; MachineError if it could not be kept."""
        know_shop(self._data, key, name)

    def record_file(self, walk_id: str) -> tuple[Path, str]:
        """Write one walk with all its copies, or with an empty id every walk, as a record file.

        Returns:
            Where it is until it is sent, and what it is called.

        Raises:
            InputError: there is no such walk.
            MachineError: the walk cannot be read, or the file not be written.
        """
        key, path = self.key(), self.incoming()
        if walk_id:
            name = file_name(self._open_walks.walk(walk_id), "zip")
        else:
            whose = re.sub("[^a-z0-9]+", "_", key.shop.lower()).strip("_") or "walks"
            name = f"{whose}_{self._clock().local():%Y-%m-%d}.zip"
        share(path, self._store, self._photos, [walk_id] if walk_id else [], key)
        return path, name

    def incoming(self) -> Path:
        """Make a path for one more file on its way; MachineError if there is no room for it."""
        folder = locations.sharing(self._data)
        make_folder(folder)
        return folder / f"{uuid4().hex}.zip{TEMPORARY}"

    def look_at(self, path: Path) -> Verified:
        """Look at every byte of a file that has come, before anything of it is taken in."""
        return verify(path, self.known())

    def leave(self, path: Path) -> None:
        """Take nothing of a file that has come, which is then gone."""
        with suppress(OSError):
            path.unlink(missing_ok=True)

    def take_in(self, path: Path, name: str) -> Merged:
        """Take in a record file of this name that has come, which is then gone; see `merge`."""
        try:
            # Which walks are new here is looked up before they are saved.
            with self._merging:
                return merge([path], self._data, self._store, self._open_walks, name)
        finally:
            self.leave(path)

    def signed(self, walk_id: str) -> Sequence[Message]:
        """Say who signed a walk that came from elsewhere; nothing of one that was made here."""
        file = self._store.read(walk_id)
        return standings(original_id(walk_id), file, self.known()) if file.origin.elsewhere else ()

    def where(self, walk_id: str) -> str:
        """Name the shop in which a walk was made; empty where that is not known."""
        try:
            return shop_of(self._data, original_id(walk_id), self._store.read(walk_id))
        except MachineError as error:
            _log.warning("%s", error)
            return ""
