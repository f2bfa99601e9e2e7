"""Photos beside the walks of their month, each named by the SHA-256 digest of its own bytes.

An event of the walk holds the digest, so the walk's seals hold for its photos too. A photo never
changes: whichever copy of a walk, or other walk, has the same one, it is the same file.

What a camera gives is made anew before it is kept: upright, no larger than can be looked at, and
without anything that the camera wrote into it, such as where it was taken and by whose phone.
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
from walkaround.records.walk_line import month_of

MOST_PHOTO_BYTES = 3_000_000
"""Of one photo as it is kept; one of 1,600 px takes a tenth of this."""
MOST_TAKEN_BYTES = 40_000_000
"""Of one photo as a camera gives it."""
LONGEST_SIDE_PX = 1600
_MOST_PIXELS = 64_000_000
"""Of one photo as a camera gives it: 200 MB while it is decoded."""
_FORMATS = ("JPEG", "PNG", "WEBP")
"""What phones hand over; a browser turns what else its camera makes into the first."""
_QUALITIES = (82, 60, 35)
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

    def those_of(self, walk_id: str, photos: Iterable[str]) -> dict[str, bytes]:
        """Read these photos of a walk, by their digests; one that is lost is left out."""
        data = {photo: self._sound(self.path(walk_id, photo), photo) for photo in photos}
        return {photo: each for photo, each in data.items() if each is not None}

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


def as_photo(data: bytes, name: str) -> bytes:
    """Make what a camera gives into a photo to keep: a JPEG, upright, 1,600 px, no metadata.

    Args:
        data: the file.
        name: what it is called in a sentence.

    Raises:
        InputError: it is no picture, damaged, or larger than any camera's.
    """
    too_large = message("problem-photo-too-large", mb=MOST_TAKEN_BYTES // 1_000_000)
    if len(data) > MOST_TAKEN_BYTES:
        raise _refused(name, too_large)
    try:
        with Image.open(io.BytesIO(data), formats=_FORMATS) as image:
            if image.width * image.height > _MOST_PIXELS:
                raise Image.DecompressionBombError
            # A large JPEG is decoded smaller at once, in a fraction of the time and room.
            image.draft("RGB", (LONGEST_SIDE_PX, LONGEST_SIDE_PX))
            upright = ImageOps.exif_transpose(image)
            upright.thumbnail((LONGEST_SIDE_PX, LONGEST_SIDE_PX), Image.Resampling.LANCZOS)
            return _jpeg(upright)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise _refused(name, too_large) from error
    except Exception as error:
        # Decoders raise whatever they like at what is damaged: OSError, SyntaxError, struct.error.
        raise _refused(name, message("problem-photo-unreadable")) from error


def _jpeg(picture: Image.Image) -> bytes:
    # Pixels alone are carried over, onto white where there are none.
    plain = Image.new("RGB", picture.size, "white")
    solid = picture.convert("RGBA") if picture.mode in ("RGBA", "LA", "P", "PA") else None
    plain.paste(solid or picture.convert("RGB"), mask=solid)
    for quality in _QUALITIES:
        out = io.BytesIO()
        plain.save(out, "JPEG", quality=quality, optimize=True)
        if out.tell() <= MOST_PHOTO_BYTES:
            break
    return out.getvalue()


def _refused(name: str, what: Message) -> InputError:
    return InputError([Problem(name, "", what, message("problem-take-another-photo"))])
