"""The folder of sound files."""

import os
import wave
from pathlib import Path

import pytest

from walkaround.base.errors import MachineError
from walkaround.voice.sound_folder import SoundFolder

ONE, TWO, THREE = "1" * 64, "2" * 64, "3" * 64


def _write(path: Path, size: int = 1000) -> None:
    with wave.open(str(path), "wb") as wav:
        wav.setparams((1, 2, 22050, 0, "NONE", ""))
        wav.writeframes(bytes(size))


def _add(folder: SoundFolder, digest: str, used_s: float) -> None:
    with folder.part(digest) as part:
        _write(part)
    path = folder.file(digest)
    assert path is not None
    os.utime(path, (used_s, used_s))


def test_a_sound_appears_once_it_is_whole(tmp_path: Path) -> None:
    folder = SoundFolder(tmp_path / "new")
    with folder.part(ONE) as part:
        _write(part)
        assert folder.file(ONE) is None
    assert folder.file(ONE) == tmp_path / "new" / f"{ONE}.wav"


@pytest.mark.parametrize("content", [b"", b"RIFF....WAVE", b"not a sound"])
def test_half_a_sound_leaves_nothing_behind(tmp_path: Path, content: bytes) -> None:
    folder = SoundFolder(tmp_path)
    with pytest.raises(MachineError, match="wrote no sound"), folder.part(ONE) as part:
        part.write_bytes(content)
    assert list(tmp_path.iterdir()) == []


def test_the_longest_unused_go_when_there_are_too_many(tmp_path: Path) -> None:
    folder = SoundFolder(tmp_path, limit_bytes=2500)
    _add(folder, ONE, used_s=100.0)
    _add(folder, TWO, used_s=200.0)
    assert folder.use(ONE)
    _add(folder, THREE, used_s=300.0)
    assert [folder.file(digest) is not None for digest in (ONE, TWO, THREE)] == [True, False, True]
