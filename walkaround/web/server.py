"""The web app: Flet's pages, and the routes of speech clips, pictures and record files.

All of it is behind the gate, since a device that gets through can answer for the mechanic.
"""

from __future__ import annotations

import asyncio
import contextlib
import logging
import signal
import socket
import sys
import webbrowser
from collections.abc import AsyncIterator, Iterator
from functools import partial
from ipaddress import ip_address
from threading import Thread

import uvicorn
from fastapi import FastAPI, Request, WebSocket
from fastapi.responses import FileResponse, Response
from starlette.types import ASGIApp

from walkaround.access.certificate import Certificate
from walkaround.access.gate import Gate
from walkaround.access.pairing import Pairing, qr_png, qr_text
from walkaround.base.errors import MachineError
from walkaround.bootstrap import Parts
from walkaround.disk import locations
from walkaround.disk.secrets import write_secret
from walkaround.library.inbox import Inbox
from walkaround.ui.app import page_main
from walkaround.ui.page.flet_pages import flet_pages
from walkaround.voice.earcons import EARCONS, earcon_wav
from walkaround.voice.hiss import hiss_wav
from walkaround.web.addresses import HERE, url
from walkaround.web.board_page import board_file
from walkaround.web.connections import LimitedHttp, raise_file_limit
from walkaround.web.files import (
    blinking_picture,
    part_picture,
    photo_file,
    plan_response,
    record_file,
    shared_file,
    table_file,
    vehicle_file,
)
from walkaround.web.printed_pages import card_file, code_page
from walkaround.web.voice_socket import serve_voice
from walkaround.words.language import Words

log = logging.getLogger(__name__)

MOST_MESSAGE_BYTES = 2**20
"""The longest message of a page: a vehicle's file is 100 kB at most."""
_DISABLED_PATHS = ("/docs", "/docs/oauth2-redirect", "/redoc", "/openapi.json", "/oauth_callback")
"""Paths that Flet's web server and its framework would serve, and we do not."""


def asgi(parts: Parts) -> ASGIApp:
    """Build the whole web app on these parts, behind its gate."""
    return Gate(ungated_app(parts), parts.pairing, text_of=parts.words.text)


def ungated_app(parts: Parts) -> FastAPI:
    """Build the web app without its gate."""
    inbox = Inbox()
    pages = flet_pages(page_main(parts, inbox))

    @contextlib.asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        async with pages.router.lifespan_context(pages):
            yield

    app = FastAPI(lifespan=lifespan, docs_url=None, redoc_url=None, openapi_url=None)

    def not_found() -> Response:
        return Response(status_code=404)

    for path in _DISABLED_PATHS:
        app.add_api_route(path, not_found, methods=["GET"])

    @app.get("/speech/{digest}.wav")
    async def clip(digest: str) -> Response:
        path = parts.voice.file(digest)
        if path is None:
            return Response(status_code=404)
        headers = {"Cache-Control": "private, max-age=31536000, immutable"}
        return FileResponse(path, media_type="audio/wav", headers=headers)

    @app.get("/earcons/{name}.wav")
    async def earcon(name: str) -> Response:
        earcon_name = next((each for each in EARCONS if each == name), None)
        if earcon_name is None:
            return Response(status_code=404)
        headers = {"Cache-Control": "private, max-age=86400"}
        return Response(earcon_wav(earcon_name), media_type="audio/wav", headers=headers)

    @app.get("/sounds/hiss.wav")
    async def hiss() -> Response:
        headers = {"Cache-Control": "private, max-age=86400"}
        return Response(hiss_wav(), media_type="audio/wav", headers=headers)

    @app.put("/received/{ticket}")
    async def received(ticket: str, request: Request) -> Response:
        return Response(status_code=await inbox.receive(ticket, request.stream()))

    @app.put("/large/{ticket}")
    async def large(ticket: str, request: Request) -> Response:
        return Response(status_code=await inbox.receive(ticket, request.stream()))

    @app.get("/shared/{name}")
    async def shared(name: str, language: str = "") -> Response:
        return await asyncio.to_thread(shared_file, parts, parts.words_in(language), name)

    @app.get("/pairing.png")
    async def code() -> Response:
        if parts.pairing is None:
            return Response(status_code=404)
        headers = {"Cache-Control": "no-store"}
        return Response(qr_png(parts.pairing.link), media_type="image/png", headers=headers)

    @app.get("/plans/{walk_id}/{step_id}/{language}/{name}.svg")
    async def plan(walk_id: str, step_id: str, language: str, name: str) -> Response:
        words = parts.words_in(language)
        return await asyncio.to_thread(plan_response, parts, words, walk_id, step_id, name)

    @app.get("/blinking/{walk_id}/{step_id}/{name}.webp")
    async def blinking(walk_id: str, step_id: str, name: str) -> Response:
        return await asyncio.to_thread(blinking_picture, parts, walk_id, step_id, name)

    @app.get("/parts/{language}/{subject}/{name}.svg")
    async def part(language: str, subject: str, name: str) -> Response:
        return part_picture(parts.words_in(language), subject, name)

    @app.get("/files/{name}")
    async def record(name: str, language: str = "") -> Response:
        return await asyncio.to_thread(record_file, parts, parts.words_in(language), name)

    @app.get("/tables/{name}")
    async def table(name: str, language: str = "") -> Response:
        return await asyncio.to_thread(table_file, parts, parts.words_in(language), name)

    @app.get("/printed/{name}")
    async def printed(name: str, language: str = "") -> Response:
        return await asyncio.to_thread(board_file, parts, parts.words_in(language), name)

    @app.get("/photos/{walk_id}/{photo}.jpg")
    async def photo(walk_id: str, photo: str) -> Response:
        return await asyncio.to_thread(photo_file, parts, walk_id, photo)

    @app.get("/vehicles/{name}")
    async def vehicle(name: str) -> Response:
        return vehicle_file(parts, name)

    @app.get("/codes/{name}")
    async def vehicle_code(name: str, request: Request, language: str = "") -> Response:
        return code_page(parts, name, str(request.base_url), language)

    @app.get("/cards/{name}")
    async def card(name: str, request: Request, language: str = "", power: str = "") -> Response:
        base = str(request.base_url)
        return await asyncio.to_thread(card_file, parts, name, base, language, power)

    @app.websocket("/microphone/{ticket}")
    async def microphone(socket: WebSocket, ticket: str) -> None:
        await serve_voice(parts.recognition, socket, ticket)

    app.mount("/", pages)
    return app


def config(app: ASGIApp, certificate: Certificate | None = None) -> uvicorn.Config:
    """Configure the web server for this app, over https if there is a certificate."""
    logging.getLogger("uvicorn.error").addFilter(_is_real_error)
    return uvicorn.Config(
        app,
        # It reads no more than 64 kB of a request's head; the faster parser has no limit.
        http=LimitedHttp,
        ws_max_size=MOST_MESSAGE_BYTES,
        # The session of a phone that is gone ends within 20 s.
        ws_ping_interval=10,
        ws_ping_timeout=10,
        timeout_keep_alive=15,
        timeout_graceful_shutdown=2,
        # A wrong key counts against the address that sent it, not one given in a header.
        proxy_headers=False,
        server_header=False,
        # Addresses may hold the key.
        access_log=False,
        log_config=None,
        # Its warnings are about requests of strangers; they would fill the log.
        log_level="error",
        ssl_certfile=certificate.chain if certificate else None,
        ssl_keyfile=certificate.private_key if certificate else None,
    )


def _is_real_error(record: logging.LogRecord) -> bool:
    """Filter out the error that uvicorn logs for a WebSocket that was refused with a page."""
    return record.getMessage() != "ASGI callable returned without completing handshake."


def serve(
    parts: Parts,
    server_socket: socket.socket,
    *,
    open_browser: bool,
    certificate: Certificate | None = None,
) -> None:
    """Serve until stopped; print the address as one line on standard output."""
    host, port = server_socket.getsockname()[:2]
    if ip_address(host).is_unspecified:
        host = "::1" if ":" in host else HERE
    address = url("https" if certificate else "http", host, port)
    server = uvicorn.Server(config(asgi(parts), certificate))
    raise_file_limit()

    def stop(*_: object) -> None:
        server.should_exit = True

    # The system's signal to end is handled like Ctrl+C, with all cleanup. No exception is raised,
    # since it could be lost where the signal arrives.
    signal.signal(signal.SIGTERM, stop)
    log.info("served at %s, %s", address, "paired devices too" if parts.pairing else "here only")
    if certificate is not None:
        line = parts.words("cli-fingerprint", fingerprint=certificate.fingerprint())
        print(line, file=sys.stderr, flush=True)
    if parts.pairing is None:
        print(parts.words("cli-served-at", address=address), flush=True)
    else:
        _print_link(parts.pairing, parts.words)
        parts.pairing.watch(partial(_print_link, parts.pairing, parts.words))
    with _address_to_open(parts, address) if open_browser else contextlib.nullcontext() as page:
        if page:
            # In a thread: a browser in the terminal returns only when it is closed.
            Thread(target=webbrowser.open, args=(page,), daemon=True).start()
        server.run(sockets=[server_socket])


def _print_link(pairing: Pairing, words: Words) -> None:
    """Print the link that pairs a device, as a code to scan and as a line."""
    # A terminal that is gone, or cannot show the code, is no reason to stop.
    with contextlib.suppress(OSError, UnicodeError):
        print(qr_text(pairing.link), file=sys.stderr, flush=True)
    with contextlib.suppress(OSError, UnicodeError):
        print(words("cli-served-at", address=pairing.link), flush=True)


@contextlib.contextmanager
def _address_to_open(parts: Parts, address: str) -> Iterator[str]:
    """Give the address that this machine's browser should open; empty if there is none.

    With a key it is a page in the data folder that redirects to the app. Every user of this machine
    can read the command that starts a browser; only its owner can read this page.
    """
    if parts.pairing is None:
        yield address
        return
    page = locations.pairing(parts.data) / "open.html"
    link = parts.pairing.link_at(address)
    try:
        write_secret(page, f'<meta http-equiv="refresh" content="0;url={link}">\n'.encode("ascii"))
    except MachineError as error:
        log.warning("No browser was opened: %s", error)
        yield ""
        return
    try:
        yield page.absolute().as_uri()
    finally:
        page.unlink(missing_ok=True)
