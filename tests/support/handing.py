"""The body of a request that hands over a file, as the web server passes it on."""

from __future__ import annotations

from collections.abc import AsyncIterator


async def putting(data: bytes, chunk_bytes: int = 65536) -> AsyncIterator[bytes]:
    """This body, in chunks; an empty one last."""
    for at in range(0, len(data), chunk_bytes):
        yield data[at : at + chunk_bytes]
    yield b""
