"""Photos beside the walks of their month, each named by the SHA-256 digest of its own bytes.

An event of the walk holds the digest, so the walk's seals hold for its photos too. A photo never
changes: whichever copy of a walk, or other walk, has the same one, it is the same file.
"""

from __future__ import annotations

import re
from hashlib import sha256
from pathlib import Path

from walkaround.base.errors import MachineError
from walkaround.base.message import message
from walkaround.disk import locations
from walkaround.disk.durable import make_folder, read_file, write_durably
from walkaround.records.walk_line import month_of

MOST_PHOTO_BYTES = 3_000_000
"""Of one photo as it is kept; one of 1,600 px takes a tenth of this."""
PHOTOS = "photos"
"""The folder of a month's photos, inside the month's own."""
_DIGEST = re.compile("[0-9a-f]{64}")


class PhotoFolder:
    """The photos of a data folder; any thread may read and write them."""

    def __init__(self, data: Path) -> None:
        """Take the data folder."""
        self._walks = locations.walks(data)

    def path(self, walk_id: str, photo: str) -> Path:
        """Tell where a photo of this walk lies; InputError if this is no walk id."""
        assert _DIGEST.fullmatch(photo), photo
        return self._walks / month_of(walk_id) / PHOTOS / f"{photo}.jpg"

    def keep(self, walk_id: str, data: bytes) -> str:
        """Save a photo and return its digest; it is on the disk then.

        Raises:
            MachineError: it could not be saved.
        """
        photo = sha256(data).hexdigest()
        path = self.path(walk_id, photo)
        if self._sound(path, photo) is None:
            make_folder(path.parent)
            write_durably(path, data)
        return photo

    def read(self, walk_id: str, photo: str) -> bytes:
        """Read a photo.

        Raises:
            MachineError: it is not there, or is not the one that was taken.
        """
        data = self._sound(self.path(walk_id, photo), photo)
        if data is None:
            raise MachineError(message("photo-lost", walk=walk_id, photo=photo[:8]))
        return data

    def _sound(self, path: Path, photo: str) -> bytes | None:
        data = read_file(path)
        return data if data is not None and sha256(data).hexdigest() == photo else None
