"""A request that hands over a file, as the web server would pass it on."""

from __future__ import annotations

from starlette.requests import Request
from starlette.types import Message


def putting(data: bytes, chunk_bytes: int = 65536) -> Request:
    """A PUT with this body, in chunks."""
    chunks = [data[at : at + chunk_bytes] for at in range(0, len(data), chunk_bytes)] or [b""]
    messages = [
        {"type": "http.request", "body": chunk, "more_body": at < len(chunks) - 1}
        for at, chunk in enumerate(chunks)
    ]
    coming = iter(messages)

    async def receive() -> Message:
        return next(coming)

    return Request({"type": "http", "method": "PUT", "headers": []}, receive)
