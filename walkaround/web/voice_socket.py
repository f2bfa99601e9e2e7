"""The WebSocket of a phone's microphone: its sound, when it plays, when the button is held."""

from __future__ import annotations

import json
import logging
from contextlib import suppress
from typing import get_args

from starlette.websockets import WebSocket, WebSocketDisconnect

from walkaround.recognition.audio_streams import AudioStream, AudioStreams, Trouble
from walkaround.recognition.frames import BYTES_A_SECOND

log = logging.getLogger(__name__)

UNKNOWN = 4404
"""The close code if no page waits for this phone; 4000 to 4999 are free (RFC 6455, 7.4.2)."""
_MOST_CHARS = 100
_TROUBLES: dict[str, Trouble] = {why: why for why in get_args(Trouble)}


async def serve_voice(streams: AudioStreams, socket: WebSocket, ticket: str) -> None:
    """Serve the microphone of one phone until it or its page is gone, or a message is not valid."""
    await socket.accept()
    stream = streams.stream(ticket)
    if stream is None:
        await socket.close(UNKNOWN)
        return
    try:
        while streams.stream(ticket) is stream:
            frame = await socket.receive()
            if frame["type"] == "websocket.disconnect":
                return
            samples, text = frame.get("bytes"), frame.get("text") or ""
            if samples is None and len(text) <= _MOST_CHARS:
                _handle(stream, json.loads(text))
            elif samples and len(samples) <= BYTES_A_SECOND and len(samples) % 2 == 0:
                stream.sound(samples)
            else:
                break
    except (WebSocketDisconnect, ValueError, KeyError) as error:
        log.info("a phone is not heard any more: %r", error)
    finally:
        stream.left()
    with suppress(RuntimeError):  # it may be closed already
        await socket.close(UNKNOWN)


def _handle(stream: AudioStream, document: object) -> None:
    match document:
        case {"joined": True}:
            stream.joined()
        case {"held": bool(on)}:
            stream.hold(on)
        case {"playing": bool(on)}:
            stream.playing(on)
        case {"trouble": str(why)}:
            stream.failed(_TROUBLES[why])
        case _:
            raise ValueError(document)
