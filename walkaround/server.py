"""The web app: Flet's pages, mounted beside the speech clips and the record files.

Only loopback addresses are served: whoever can reach the server can answer for the mechanic.
"""

from __future__ import annotations

import asyncio
import contextlib
import socket
import webbrowser
from collections.abc import AsyncIterator
from threading import Thread

import flet as ft
import uvicorn
from fastapi import FastAPI
from fastapi.responses import FileResponse, Response

from walkaround import locations
from walkaround.bootstrap import Parts
from walkaround.errors import MachineError, WalkaroundError
from walkaround.exchange import walk_csv, walk_json
from walkaround.ui.app import page_main
from walkaround.vehiclefile import vehicle_toml


def asgi(parts: Parts) -> FastAPI:
    """The whole web app on these parts."""
    pages = ft.run(
        page_main(parts),
        export_asgi_app=True,
        no_cdn=True,
        assets_dir=str(locations.assets()),
    )

    @contextlib.asynccontextmanager
    async def life(_: FastAPI) -> AsyncIterator[None]:
        async with pages.router.lifespan_context(pages):
            yield

    app = FastAPI(lifespan=life, docs_url=None, redoc_url=None, openapi_url=None)

    @app.get("/speech/{digest}.wav")
    async def clip(digest: str) -> Response:
        path = parts.voice.file(digest)
        if path is None:
            return Response(status_code=404)
        headers = {"Cache-Control": "public, max-age=31536000, immutable"}
        return FileResponse(path, media_type="audio/wav", headers=headers)

    @app.get("/files/{name}")
    async def record(name: str) -> Response:
        return await asyncio.to_thread(_record_file, parts, name)

    @app.get("/vehicles/{name}")
    async def vehicle(name: str) -> Response:
        return _vehicle_file(parts, name)

    app.mount("/", pages)
    return app


def _vehicle_file(parts: Parts, name: str) -> Response:
    """One vehicle as a download, `ID.toml`."""
    vehicle = parts.shelf.vehicle(name.removesuffix(".toml"))
    if vehicle is None or not name.endswith(".toml"):
        return Response(status_code=404)
    return _download(vehicle_toml(vehicle), "application/toml", name)


def _record_file(parts: Parts, name: str) -> Response:
    """One walk as a download, `WALK.csv` or `WALK.json`."""
    walk_id, _, kind = name.rpartition(".")
    writers = {"csv": (walk_csv, "text/csv"), "json": (walk_json, "application/json")}
    if kind not in writers:
        return Response(status_code=404)
    try:
        walk = parts.desk.walk(walk_id)
    except WalkaroundError:
        return Response(status_code=404)
    write, media_type = writers[kind]
    return _download(write(walk), media_type, f"walkaround_{walk.id}.{kind}")


def _download(text: str, media_type: str, name: str) -> Response:
    return Response(
        text,
        media_type=f"{media_type}; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )


def open_port(host: str, port: int) -> socket.socket:
    """The socket to serve on; port 0 takes any free one.

    Raises:
        MachineError: the port is taken or the address is none of this machine's.
    """
    listening = socket.socket(socket.AF_INET6 if ":" in host else socket.AF_INET)
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((host, port))
        listening.listen(128)
    except OSError as error:
        listening.close()
        raise MachineError(
            f"Port {port} on {host} cannot be used ({error.strerror}); "
            "choose another with --port, or stop the program that has it."
        ) from error
    except OverflowError:
        listening.close()
        raise MachineError(
            f"There is no port {port}; choose one from 0 to 65535 with --port."
        ) from None
    return listening


def serve(parts: Parts, listening: socket.socket, *, open_browser: bool) -> None:
    """Serve until stopped; one line on standard output holds the whole address."""
    host, port = listening.getsockname()[:2]
    address = f"http://{f'[{host}]' if ':' in host else host}:{port}/"
    print(f"walkaround is at {address}", flush=True)
    config = uvicorn.Config(asgi(parts), log_level="warning", timeout_graceful_shutdown=2)
    if open_browser:
        # In a thread: a browser of the terminal returns only when it is left.
        Thread(target=webbrowser.open, args=(address,), daemon=True).start()
    uvicorn.Server(config).run(sockets=[listening])
