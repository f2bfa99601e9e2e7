"""The folder of sound files: a file is served complete or not at all.

A sound is written to a temporary path and renamed once complete, so that nobody ever reads half of
it. A file that a power cut or a full disk damaged counts as missing and is rendered again.
"""

from __future__ import annotations

import os
import re
import uuid
import wave
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from walkaround.base.errors import MachineError
from walkaround.base.message import message

MOST_SOUND_BYTES = 400_000_000
_HEADER_BYTES = 44  # the least that a WAV has before its samples


class SoundFolder:
    """The WAV files, each named by its digest; the least recently used are deleted over a limit."""

    def __init__(self, folder: Path, limit_bytes: int = MOST_SOUND_BYTES) -> None:
        self._folder = folder.absolute()
        self._limit_bytes = limit_bytes
        self._free_bytes = 0  # that can be written before the folder's size is measured again

    def file(self, digest: str) -> Path | None:
        """Return the path of a digest's file; None if it is missing or damaged."""
        if not re.fullmatch("[0-9a-f]{64}", digest):
            return None
        path = self._folder / f"{digest}.wav"
        return path if _is_whole(path) else None

    def use(self, digest: str) -> bool:
        """Tell whether the sound is there, and mark it as used now."""
        path = self.file(digest)
        if path is not None:
            with suppress(OSError):
                os.utime(path)
        return path is not None

    @contextmanager
    def part(self, digest: str) -> Iterator[Path]:
        """Give a path to write a sound to, which becomes the file of `digest` on success.

        Raises:
            MachineError: no complete WAV was written, or the folder cannot be written.
        """
        partial_path = self._folder / f"{uuid.uuid4().hex}.part.wav"
        try:
            self._folder.mkdir(parents=True, exist_ok=True)
            yield partial_path
            if not _is_whole(partial_path):
                raise MachineError(message("voice-no-sound"))
            self._store(partial_path, digest)
        except OSError as error:
            folder, reason = str(self._folder), str(error.strerror)
            raise MachineError(message("voice-unwritten", folder=folder, reason=reason)) from error
        finally:
            with suppress(OSError):
                partial_path.unlink(missing_ok=True)

    def _store(self, partial_path: Path, digest: str) -> None:
        self._free_bytes -= partial_path.stat().st_size
        partial_path.replace(self._folder / f"{digest}.wav")
        if self._free_bytes < 0:
            self._trim()

    def _trim(self) -> None:
        files = [(path, path.stat()) for path in self._folder.glob("*.wav")]
        self._free_bytes = self._limit_bytes - sum(stat.st_size for _, stat in files)
        for path, stat in sorted(files, key=lambda f: f[1].st_mtime):
            if self._free_bytes >= 0:
                break
            path.unlink(missing_ok=True)
            self._free_bytes += stat.st_size


def _is_whole(path: Path) -> bool:
    """Tell whether a file is a WAV with every sample that its header announces."""
    try:
        with wave.open(str(path), "rb") as wav:
            size = wav.getnframes() * wav.getnchannels() * wav.getsampwidth()
        return 0 < size <= path.stat().st_size - _HEADER_BYTES
    except (OSError, EOFError, wave.Error):
        return False
