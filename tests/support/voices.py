"""A voice without sound, for what is tested without one."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from walkaround.voice.rendered import _digest


class SilentVoice:
    """A voice that never has sound, as on a computer without a speech engine."""

    def __init__(self, trouble: str | None = None) -> None:
        """`trouble` is what the screen says of it."""
        self.trouble = trouble

    def digest(self, text: str, rate_wpm: int) -> str:
        """The digest that a voice with sound has for it."""
        return _digest(text, rate_wpm)

    async def ready(self, text: str, rate_wpm: int) -> str | None:  # noqa: ARG002
        return None

    def ahead(self, texts: Iterable[str], rate_wpm: int) -> None:
        pass

    def file(self, digest: str) -> Path | None:  # noqa: ARG002
        return None

    def close(self) -> None:
        pass
