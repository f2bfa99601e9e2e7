"""The socket over which a phone is heard: its sound, what it plays itself, a key that is held."""

from __future__ import annotations

import json
import logging
from contextlib import suppress
from typing import get_args

from starlette.websockets import WebSocket, WebSocketDisconnect

from walkaround.ears.frames import BYTES_A_SECOND
from walkaround.ears.lines import Ears, Line, Trouble

log = logging.getLogger(__name__)

UNKNOWN = 4404
"""The close code where no page waits for this phone; 4000 to 4999 are free (RFC 6455, 7.4.2)."""
_MOST_CHARS = 100
_TROUBLES: dict[str, Trouble] = {why: why for why in get_args(Trouble)}


async def talk(ears: Ears, socket: WebSocket, ticket: str) -> None:
    """Hear one phone until it or its page is gone; what makes no sense ends it."""
    await socket.accept()
    line = ears.line(ticket)
    if line is None:
        await socket.close(UNKNOWN)
        return
    try:
        while ears.line(ticket) is line:
            said = await socket.receive()
            if said["type"] == "websocket.disconnect":
                return
            samples, text = said.get("bytes"), said.get("text") or ""
            if samples is None and len(text) <= _MOST_CHARS:
                _told(line, json.loads(text))
            elif samples and len(samples) <= BYTES_A_SECOND and len(samples) % 2 == 0:
                line.sound(samples)
            else:
                break
    except (WebSocketDisconnect, ValueError, KeyError) as senseless:
        log.info("a phone is not heard any more: %r", senseless)
    finally:
        line.left()
    with suppress(RuntimeError):  # it may be closed already
        await socket.close(UNKNOWN)


def _told(line: Line, document: object) -> None:
    match document:
        case {"joined": True}:
            line.joined()
        case {"held": bool(on)}:
            line.hold(on)
        case {"playing": bool(on)}:
            line.playing(on)
        case {"trouble": str(why)}:
            line.failed(_TROUBLES[why])
        case _:
            raise ValueError(document)
