"""Voices that are there at once: one without sound, one that gives each text the same tick."""

from __future__ import annotations

import wave
from collections.abc import Iterable
from pathlib import Path

from walkaround.base.message import Text
from walkaround.voice.clips import _digest


class SilentVoice:
    """A voice that never has sound, as on a computer without a speech engine."""

    def __init__(self, trouble: Text | None = None) -> None:
        """`trouble` is what the screen says of it."""
        self.trouble = trouble

    def digest(self, text: str, rate_wpm: int, language: str = "en") -> str:
        """The digest that a voice with sound has for it."""
        return _digest(text, rate_wpm, language)

    async def render(self, text: str, rate_wpm: int, language: str = "en") -> str | None:  # noqa: ARG002
        return None

    def render_ahead(self, texts: Iterable[str], rate_wpm: int, language: str = "en") -> None:
        pass

    def file(self, digest: str) -> Path | None:  # noqa: ARG002
        return None

    def close(self) -> None:
        pass


class BriefVoice(SilentVoice):
    """A voice whose every sound is over in a tenth of a second; pages play them as any other."""

    def __init__(self, folder: Path) -> None:
        """`folder` is where the sounds are kept."""
        super().__init__()
        self._folder = folder

    async def render(self, text: str, rate_wpm: int, language: str = "en") -> str | None:
        digest = self.digest(text, rate_wpm, language)
        path = self._path(digest)
        if not path.exists():
            path.parent.mkdir(parents=True, exist_ok=True)
            with wave.open(str(path), "wb") as clip:
                clip.setparams((1, 2, 8000, 0, "NONE", ""))
                clip.writeframes(b"\x00\x20\x00\xe0" * 400)
        return digest

    def file(self, digest: str) -> Path | None:
        path = self._path(digest)
        return path if path.exists() else None

    def _path(self, digest: str) -> Path:
        return self._folder / f"{digest}.wav"
