"""Photos: upright, small, without what the camera wrote into them; a bad one gets a sentence.

How a picture is turned by its tag is held against the eight orientations of Exif 2.3 (CIPA
DC-008), section 4.6.4 A, tag 274: where the first row and the first column are as it is looked at.
"""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from support.walks import WALK_ID, begun, refused

from walkaround.base.errors import InputError, MachineError
from walkaround.records.photos import (
    LONGEST_SIDE_PX,
    MOST_PHOTO_BYTES,
    PhotoFolder,
    normalized_photo,
)
from walkaround.walk.events import MOST_PHOTOS, Photographed

# Tag 274 -> the corner where the stored picture's first pixel is to be seen.
CORNERS = {
    1: ("top", "left"),
    2: ("top", "right"),
    3: ("bottom", "right"),
    4: ("bottom", "left"),
    5: ("top", "left"),
    6: ("top", "right"),
    7: ("bottom", "right"),
    8: ("bottom", "left"),
}
SIDEWAYS = frozenset({5, 6, 7, 8})


def taken(width: int, height: int, kind: str = "JPEG", orientation: int = 1) -> bytes:
    """A blue picture whose first quarter is red, with what phones write into one."""
    picture = Image.new("RGB", (width, height), (0, 0, 250))
    picture.paste((250, 0, 0), (0, 0, width // 2, height // 2))
    exif = picture.getexif()
    exif[274], exif[271] = orientation, "Whose phone it is"
    exif.get_ifd(0x8825)[2] = (48.0, 8.0, 0.0)
    out = io.BytesIO()
    picture.save(out, kind, exif=exif)
    return out.getvalue()


def opened(data: bytes) -> Image.Image:
    picture = Image.open(io.BytesIO(data))
    picture.load()
    return picture


@pytest.mark.parametrize("orientation", CORNERS)
def test_a_photo_is_turned_upright(orientation: int) -> None:
    photo = opened(normalized_photo(taken(400, 200, orientation=orientation), "x"))
    assert photo.size == ((200, 400) if orientation in SIDEWAYS else (400, 200))
    red = np.asarray(photo)[:, :, 0] > 128
    rows, columns = (np.flatnonzero(red.any(axis=axis)) for axis in (1, 0))
    seen = (
        "top" if rows[0] < photo.height / 4 else "bottom",
        "left" if columns[0] < photo.width / 4 else "right",
    )
    assert seen == CORNERS[orientation]


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_nothing_that_the_camera_wrote_is_kept(kind: str) -> None:
    data = normalized_photo(taken(800, 600, kind), "x")
    photo = opened(data)
    assert photo.format == "JPEG"
    assert not photo.getexif()
    assert set(photo.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    assert b"Whose phone" not in data
    assert b"Exif" not in data


@pytest.mark.parametrize(("size", "kept"), [((4000, 3000), (1600, 1200)), ((300, 200), (300, 200))])
def test_a_large_photo_is_scaled_down_and_a_small_one_left(
    size: tuple[int, int], kept: tuple[int, int]
) -> None:
    assert max(kept) <= LONGEST_SIDE_PX
    assert opened(normalized_photo(taken(*size), "x")).size == kept


def test_what_can_be_seen_through_is_white() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (20, 20), (255, 0, 0, 0)).save(out, "PNG")
    assert opened(normalized_photo(out.getvalue(), "x")).getpixel((10, 10)) == (255, 255, 255)


def test_a_picture_that_no_camera_takes_is_still_small_enough_to_keep() -> None:
    noise = np.random.default_rng(7).integers(0, 256, (1600, 1600, 3), dtype=np.uint8)
    out = io.BytesIO()
    Image.fromarray(noise).save(out, "PNG")
    assert len(normalized_photo(out.getvalue(), "x")) <= MOST_PHOTO_BYTES


def bomb(width: int, height: int) -> bytes:
    """A PNG of a few bytes that says to be so large (CWE-409)."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        seal = struct.pack(">I", zlib.crc32(kind + body))
        return struct.pack(">I", len(body)) + kind + body + seal

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    rows = chunk(b"IDAT", zlib.compress(bytes(1000)))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + rows + chunk(b"IEND", b"")


@pytest.mark.parametrize("size", [(8001, 8001), (50_000, 50_000), (2**31 - 1, 2**31 - 1)])
def test_a_bomb_is_refused_before_it_is_decoded(size: tuple[int, int]) -> None:
    with pytest.raises(InputError, match=r"x\.png: it is"):
        normalized_photo(bomb(*size), "x.png")


@pytest.mark.parametrize(
    "data",
    [b"", b"hello", taken(300, 300)[:200], bomb(100, 100), b"GIF89a" + bytes(50), b"%PDF-1.4\n"],
    ids=["nothing", "text", "cut off", "without its rows", "another kind", "no picture"],
)
def test_what_is_no_photo_gets_a_sentence(data: bytes) -> None:
    with pytest.raises(InputError) as told:
        normalized_photo(data, "x.jpg")
    assert str(told.value) == "x.jpg: it is no photo, or damaged; take another one."


@given(data=st.data())
def test_a_damaged_photo_is_taken_or_gets_a_sentence(data: st.DataObject) -> None:
    good = bytearray(taken(64, 64))
    for _ in range(data.draw(st.integers(1, 4))):
        good[data.draw(st.integers(0, len(good) - 1))] = data.draw(st.integers(0, 255))
    try:
        photo = normalized_photo(bytes(good), "x")
    except InputError:
        return
    assert opened(photo).format == "JPEG"


def test_a_photo_is_kept_by_its_digest_and_one_that_changed_is_not_shown(tmp_path: Path) -> None:
    folder = PhotoFolder(tmp_path)
    data = normalized_photo(taken(100, 100), "x")
    photo = folder.save(WALK_ID, data)
    assert folder.read(WALK_ID, photo) == data
    assert folder.read_available(WALK_ID, [photo, "0" * 64]) == {photo: data}
    folder.path(WALK_ID, photo).write_bytes(normalized_photo(taken(90, 90), "x"))
    assert folder.read_available(WALK_ID, [photo]) == {}
    with pytest.raises(MachineError, match="is gone or is not the one that was taken"):
        folder.read(WALK_ID, photo)
    assert folder.save(WALK_ID, data) == photo
    assert folder.read(WALK_ID, photo) == data


def test_a_walk_holds_twelve_photos_and_each_once() -> None:
    teller = begun()
    for number in range(MOST_PHOTOS):
        teller.tell(Photographed, step="chocks", photo=f"{number:064x}")
    again = refused(teller, Photographed, step="vent", photo=f"{0:064x}")
    assert again == "This photo is in the record already."
    more = refused(teller, Photographed, step="vent", photo="f" * 64)
    assert more == "A walk holds 12 photos at most."
    assert "no step" in refused(begun(), Photographed, step="nowhere", photo="f" * 64)
    assert len(teller.walk.photos["chocks"]) == MOST_PHOTOS == 12
