"""Sharing and merging in the running app.

Files on their way in or out are stored in the folder of the keys until they are merged or sent.
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
from walkaround.disk.durable import TEMPORARY, delete_temporary_files, make_folder
from walkaround.exchange.merge import Merged, merge
from walkaround.exchange.share import share
from walkaround.exchange.shop_key import ShopKey, known_shops, save_known_shop
from walkaround.exchange.verify import Verified, shop_of, signer_messages, verify
from walkaround.records.export import file_name
from walkaround.records.open_walks import OpenWalks
from walkaround.records.photos import PhotoFolder
from walkaround.records.store import WalkStore
from walkaround.records.walk_line import original_id

_log = logging.getLogger(__name__)


class Sharing:
    """Shares and merges walks for the screens and the server; any thread may use it."""

    def __init__(
        self,
        data: Path,
        store: WalkStore,
        open_walks: OpenWalks,
        photos: PhotoFolder,
        clock: Clock,
    ) -> None:
        """Use this data folder, and the objects that write in it."""
        self._data = data
        self._store = store
        self._open_walks = open_walks
        self._clock = clock
        self._photos = photos
        self._merge_lock = Lock()
        with suppress(MachineError):
            # Files that were on their way when the app was killed.
            delete_temporary_files(locations.sharing(data))

    def key(self) -> ShopKey:
        """Return this shop's key.

        Raises:
            MachineError: it cannot be read or made.
        """
        return ShopKey.of(self._data)

    def rename_shop(self, name: str) -> None:
        """Sign under this name from now on.

        Raises:
            MachineError: the name could not be saved.
        """
        save_known_shop(self._data, self.key().public, name)

    def known_shops(self) -> Mapping[str, str]:
        """Return the names of known shops by their keys; empty if they cannot be read."""
        try:
            return known_shops(self._data)
        except MachineError as error:
            _log.warning("%s", error)
            return {}

    def save_shop(self, key: str, name: str) -> None:
        """Save a shop's key under its name.

        Raises:
            MachineError: it could not be saved.
        """
        save_known_shop(self._data, key, name)

    def record_file(self, walk_id: str) -> tuple[Path, str]:
        """Write a walk with all its copies as a record file; every walk if the id is empty.

        Returns:
            The path of the file until it is sent, and the file name to send it under.

        Raises:
            InputError: there is no such walk.
            MachineError: the walk cannot be read, or the file not be written.
        """
        key, path = self.key(), self.incoming()
        if walk_id:
            name = file_name(self._open_walks.walk(walk_id), "zip")
        else:
            shop_part = re.sub("[^a-z0-9]+", "_", key.shop.lower()).strip("_") or "walks"
            name = f"{shop_part}_{self._clock().local():%Y-%m-%d}.zip"
        share(path, self._store, self._photos, [walk_id] if walk_id else [], key)
        return path, name

    def incoming(self) -> Path:
        """Return the path for a new file that is on its way in or out.

        Raises:
            MachineError: its folder cannot be made.
        """
        folder = locations.sharing(self._data)
        make_folder(folder)
        return folder / f"{uuid4().hex}.zip{TEMPORARY}"

    def verify(self, path: Path) -> Verified:
        """Verify a received file, before any of it is merged."""
        return verify(path, self.known_shops())

    def discard(self, path: Path) -> None:
        """Delete a received file without merging it."""
        with suppress(OSError):
            path.unlink(missing_ok=True)

    def merge(self, path: Path, name: str) -> Merged:
        """Merge a received record file, shown under this name, and delete it; see `merge`."""
        try:
            # One at a time: which walks are new here is looked up before they are saved.
            with self._merge_lock:
                return merge([path], self._data, self._store, self._open_walks, name)
        finally:
            self.discard(path)

    def signer_messages(self, walk_id: str) -> Sequence[Message]:
        """Say who signed a walk from another shop; empty for a walk that was made here."""
        file = self._store.read(walk_id)
        return (
            signer_messages(original_id(walk_id), file, self.known_shops())
            if file.origin.elsewhere
            else ()
        )

    def shop_of(self, walk_id: str) -> str:
        """Return the name of the shop in which a walk was made; empty if it is not known."""
        try:
            return shop_of(self._data, original_id(walk_id), self._store.read(walk_id))
        except MachineError as error:
            _log.warning("%s", error)
            return ""
