"""The key: kept where no other user reads it, the same after a restart, another when asked for."""

from __future__ import annotations

import io
import os
import stat
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import pytest
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from walkaround.access.pairing import Pairing, qr_png, qr_text
from walkaround.base.errors import MachineError
from walkaround.disk.secrets import new_key, stored_key, write_secret

ADDRESS = "http://192.0.2.7:8765/"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "data" / "pairing" / "key"


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


def test_a_phone_stays_paired_when_the_app_is_started_again(file: Path) -> None:
    assert Pairing(file, ADDRESS).key == Pairing(file, ADDRESS).key


def test_the_link_is_the_address_with_the_key(file: Path) -> None:
    pairing = Pairing(file, ADDRESS)
    assert pairing.link == f"{ADDRESS}?key={pairing.key}"
    assert pairing.link_at("http://[::1]:1/") == f"http://[::1]:1/?key={pairing.key}"


def test_a_new_key_is_made_when_asked_for_and_told_to_whoever_watches(file: Path) -> None:
    first = Pairing(file, ADDRESS)
    second = Pairing(file, ADDRESS, new=True)
    assert first.key != second.key
    told: list[str] = []
    second.watch(lambda: told.append(second.link))
    old = second.key
    second.renew()
    assert second.key != old
    assert told == [second.link]
    assert Pairing(file, ADDRESS).key == second.key


def test_two_new_keys_at_once_end_as_one_that_is_kept(file: Path) -> None:
    pairing = Pairing(file, ADDRESS)
    with ThreadPoolExecutor(8) as phones:
        for done in [phones.submit(pairing.renew) for _ in range(40)]:
            done.result()
    assert Pairing(file, ADDRESS).key == pairing.key


def test_keys_are_long_and_never_the_same(file: Path) -> None:
    """32 random bytes; RFC 4648, 5: 43 letters of base64url carry 258 bits."""
    keys = {new_key(file) for _ in range(50)}
    assert len(keys) == 50
    assert {len(key) for key in keys} == {43}


@pytest.mark.skipif(os.name == "nt", reason="file modes are not Windows's")
def test_no_other_user_can_read_the_key_whatever_the_mask(file: Path) -> None:
    before = os.umask(0)
    try:
        stored_key(file)
    finally:
        os.umask(before)
    assert (mode(file.parent), mode(file)) == (0o700, 0o600)
    file.chmod(0o644)
    stored_key(file)
    assert mode(file) == 0o600


@pytest.mark.skipif(os.name == "nt", reason="file modes are not Windows's")
def test_the_folder_is_closed_before_a_secret_is_written(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen: list[int] = []

    def writes(path: Path, _: bytes) -> None:
        seen.append(mode(path.parent))
        path.touch()

    monkeypatch.setattr("walkaround.disk.durable.write_durably", writes)
    write_secret(file, b"secret")
    assert seen == [0o700]


@pytest.mark.parametrize(
    "content",
    [b"", b"\n", b"short\n", b"\xff\xfe\x00", b"k" * 42, b"k" * 44, b"k" * 42 + b"=", b"k" * 10**6],
)
def test_a_damaged_key_lets_nobody_in_and_is_replaced(file: Path, content: bytes) -> None:
    """An empty one above all: who shows nothing would show the right key."""
    write_secret(file, content)
    key = stored_key(file)
    assert len(key) == 43
    assert key.encode() not in content
    assert stored_key(file) == key


def test_a_key_that_cannot_be_saved_changes_nothing(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pairing = Pairing(file, ADDRESS)
    old, told = pairing.key, []
    pairing.watch(lambda: told.append(1))

    def fails(*_: object) -> None:
        raise MachineError("There is no room left.")

    monkeypatch.setattr("walkaround.disk.durable.write_durably", fails)
    with pytest.raises(MachineError):
        pairing.renew()
    assert (pairing.key, told) == (old, [])
    monkeypatch.undo()
    assert stored_key(file) == old


def test_a_folder_that_belongs_to_somebody_else_is_told(
    file: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def denied(*_: object) -> None:
        raise PermissionError(1, "Operation not permitted")

    monkeypatch.setattr(Path, "chmod", denied)
    with pytest.raises(MachineError, match="cannot be closed to other users"):
        Pairing(file, ADDRESS)


# the code, read back by ZXing's C++ library, which knows nothing of how it was made

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
