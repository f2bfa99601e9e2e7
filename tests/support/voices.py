"""A voice without sound, for what is tested without one."""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from pathlib import Path


class SilentVoice:
    """A voice that never has sound, as on a computer without a speech engine."""

    def __init__(self, trouble: str | None = None) -> None:
        """`trouble` is what the screen says of it."""
        self.trouble = trouble

    def digest(self, text: str, rate_wpm: int) -> str:
        return hashlib.sha256(f"{rate_wpm} {text}".encode()).hexdigest()

    async def ready(self, text: str, rate_wpm: int) -> str | None:  # noqa: ARG002
        return None

    def ahead(self, texts: Iterable[str], rate_wpm: int) -> None:
        pass

    def file(self, digest: str) -> Path | None:  # noqa: ARG002
        return None

    def close(self) -> None:
        pass
