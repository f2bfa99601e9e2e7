"""The codes are read back by ZXing's C++ library, which knows nothing of how they were made."""

from __future__ import annotations

import io

import numpy as np
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from walkaround.access.qrpicture import qr_png, qr_text

LINK = "http://192.0.2.7:8765/?key=" + "k-_9" * 10 + "xyz"
BLOCKS = {" ": (0, 0), "\u2580": (255, 0), "\u2584": (0, 255), "\u2588": (255, 255)}
"""Each character's upper and lower half as a dark terminal shows it (Unicode, Block Elements)."""


def seen(picture: Image.Image) -> str:
    found = zxingcpp.read_barcodes(np.asarray(picture.convert("L")))
    assert len(found) == 1
    return found[0].text


def photographed(text: str) -> Image.Image:
    """A dark terminal that shows these lines."""
    lines = text.splitlines()
    halves = [[BLOCKS[c][half] for c in line] for line in lines for half in (0, 1)]
    return Image.fromarray(np.kron(np.array(halves, np.uint8), np.ones((6, 6), np.uint8)))


@pytest.mark.parametrize(
    "link", [LINK, LINK.replace("192.0.2.7", "[2001:db8:1:2:3:4:5:6]").replace("http:", "https:")]
)
def test_a_phone_reads_the_link_from_the_screen_and_from_the_terminal(link: str) -> None:
    assert seen(Image.open(io.BytesIO(qr_png(link)))) == link
    assert seen(photographed(qr_text(link))) == link


def test_the_code_fits_a_terminal_of_80_by_24() -> None:
    lines = qr_text(LINK).splitlines()
    assert max(map(len, lines)) <= 80
    assert len(lines) <= 24


@settings(max_examples=20, deadline=None)
@given(st.text("abcXYZ019-_", min_size=43, max_size=43))
def test_any_key_is_read_back(key: str) -> None:
    link = f"https://192.168.100.200:65535/?key={key}"
    assert seen(photographed(qr_text(link))) == link
