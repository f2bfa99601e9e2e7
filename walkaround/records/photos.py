"""Photos, stored in the folder of their month, each named by the SHA-256 digest of its bytes.

An event of the walk has the digest, so the walk's seals cover its photos too. A photo never
changes: all walks, and copies of a walk, with the same photo use the same file.

A camera's picture is encoded again before it is stored: upright, of limited size, and without
metadata of the camera, such as where it was taken and by whose phone.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterable
from hashlib import sha256
from pathlib import Path

from PIL import Image, ImageOps

from walkaround.base.errors import InputError, MachineError, Problem
from walkaround.base.message import Message, message
from walkaround.disk import locations
from walkaround.disk.durable import make_folder, read_file, write_durably
from walkaround.records.month_folders import PHOTOS
from walkaround.records.walk_line import month_of

MOST_PHOTO_BYTES = 3_000_000
"""The largest stored photo; one of 1,600 px takes a tenth of this."""
MOST_CAMERA_BYTES = 40_000_000
"""The largest picture of a camera."""
LONGEST_SIDE_PX = 1600
_MOST_PIXELS = 64_000_000
"""The most pixels of a camera's picture: 200 MB while it is decoded."""
_FORMATS = ("JPEG", "PNG", "WEBP")
"""The formats that phones send; a browser converts others to the first."""
_QUALITIES = (82, 60, 35)
_DIGEST = re.compile("[0-9a-f]{64}")


class PhotoFolder:
    """The photos of a data folder; any thread may read and write them."""

    def __init__(self, data: Path) -> None:
        """Use this data folder."""
        self._walks = locations.walks(data)

    def path(self, walk_id: str, photo: str) -> Path:
        """Return the path of a photo of this walk.

        Raises:
            InputError: this is no walk id.
        """
        assert _DIGEST.fullmatch(photo), photo
        return self._walks / month_of(walk_id) / PHOTOS / f"{photo}.jpg"

    def save(self, walk_id: str, data: bytes) -> str:
        """Save a photo on the disk, and return its digest.

        Raises:
            MachineError: it could not be saved.
        """
        photo = sha256(data).hexdigest()
        path = self.path(walk_id, photo)
        if self._read_valid(path, photo) is None:
            make_folder(path.parent)
            write_durably(path, data)
        return photo

    def read_available(self, walk_id: str, photos: Iterable[str]) -> dict[str, bytes]:
        """Read these photos of a walk, by their digests; lost ones are left out."""
        data = {photo: self._read_valid(self.path(walk_id, photo), photo) for photo in photos}
        return {photo: each for photo, each in data.items() if each is not None}

    def read(self, walk_id: str, photo: str) -> bytes:
        """Read a photo.

        Raises:
            MachineError: it is missing, or was changed.
        """
        data = self._read_valid(self.path(walk_id, photo), photo)
        if data is None:
            raise MachineError(message("photo-lost", walk=walk_id, photo=photo[:8]))
        return data

    def _read_valid(self, path: Path, photo: str) -> bytes | None:
        data = read_file(path)
        return data if data is not None and sha256(data).hexdigest() == photo else None


def normalized_photo(data: bytes, name: str) -> bytes:
    """Convert a camera's picture for storage: a JPEG, upright, at most 1,600 px, no metadata.

    Args:
        data: the content of the file.
        name: the name of the file, as shown.

    Raises:
        InputError: it is no picture, damaged, or larger than any camera's.
    """
    too_large = message("problem-photo-too-large", mb=MOST_CAMERA_BYTES // 1_000_000)
    if len(data) > MOST_CAMERA_BYTES:
        raise _refused(name, too_large)
    try:
        with Image.open(io.BytesIO(data), formats=_FORMATS) as image:
            if image.width * image.height > _MOST_PIXELS:
                raise Image.DecompressionBombError
            # A large JPEG is decoded at a smaller size, in a fraction of the time and memory.
            image.draft("RGB", (LONGEST_SIDE_PX, LONGEST_SIDE_PX))
            upright = ImageOps.exif_transpose(image)
            upright.thumbnail((LONGEST_SIDE_PX, LONGEST_SIDE_PX), Image.Resampling.LANCZOS)
            return _jpeg(upright)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise _refused(name, too_large) from error
    except Exception as error:
        # Decoders raise many kinds of errors for damaged files: OSError, SyntaxError, struct.error.
        raise _refused(name, message("problem-photo-unreadable")) from error


def _jpeg(picture: Image.Image) -> bytes:
    # Only pixels are copied, onto white where they are transparent.
    opaque = Image.new("RGB", picture.size, "white")
    with_alpha = picture.convert("RGBA") if picture.mode in ("RGBA", "LA", "P", "PA") else None
    opaque.paste(with_alpha or picture.convert("RGB"), mask=with_alpha)
    for quality in _QUALITIES:
        out = io.BytesIO()
        opaque.save(out, "JPEG", quality=quality, optimize=True)
        if out.tell() <= MOST_PHOTO_BYTES:
            break
    return out.getvalue()


def _refused(name: str, what: Message) -> InputError:
    return InputError([Problem(name, "", what, message("problem-take-another-photo"))])
