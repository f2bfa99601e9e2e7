"""The app, served two ways: in this process on a clock of the test's, or as the real command."""

from __future__ import annotations

import subprocess
import sysconfig
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Thread
from urllib.parse import urlsplit

import uvicorn
from starlette.types import ASGIApp

from walkaround.access.certificate import Certificate
from walkaround.base.clock import Clock
from walkaround.bootstrap import Parts, build
from walkaround.timing import Timing
from walkaround.voice.clips import Voice
from walkaround.web.addresses import open_port
from walkaround.web.server import asgi, config

COMMAND = Path(sysconfig.get_path("scripts")) / "walkaround"


@dataclass(frozen=True)
class Served:
    """A running app: where it is, and the parts it is made of."""

    address: str
    parts: Parts


@contextmanager
def running(
    app: ASGIApp, certificate: Certificate | None = None, ping_s: float | None = None
) -> Iterator[str]:
    """A web app in a thread of this process, served as the command serves it; its address.

    With `ping_s` it pings its pages so often, and gives one up that does not answer for so long.
    """
    listening = open_port("127.0.0.1", 0)
    settings = config(app, certificate)
    if ping_s is not None:
        settings.ws_ping_interval = settings.ws_ping_timeout = ping_s
    server = uvicorn.Server(settings)
    thread = Thread(target=server.run, kwargs={"sockets": [listening]}, name="server")
    thread.start()
    try:
        yield f"{'https' if certificate else 'http'}://127.0.0.1:{listening.getsockname()[1]}/"
    finally:
        server.should_exit = True
        thread.join()
        listening.close()


@contextmanager
def served(
    data: Path,
    clock: Clock,
    voice: Voice,
    *,
    ping_s: float | None = None,
    timing: Timing | None = None,
) -> Iterator[Served]:
    """walkaround in a thread of this process, wired as the command wires it."""
    parts = build(data, clock=clock, voice=voice, timing=timing)
    try:
        with running(asgi(parts), ping_s=ping_s) as address:
            yield Served(address, parts)
    finally:
        parts.close()


class Command:
    """The `walkaround` command as a process of its own, which can be killed and started again."""

    def __init__(self, data: Path, *more: str) -> None:
        """`more` are arguments besides data folder, port and no browser."""
        self._data = data
        self._more = more
        self._port = 0
        self._process: subprocess.Popen[str] | None = None
        self.address = ""

    def start(self) -> None:
        """Start it, on the port it had before if it ran before; it is listening then."""
        arguments = ["--port", str(self._port), "--no-browser", "--data", str(self._data)]
        arguments += self._more
        self._process = subprocess.Popen(
            [COMMAND, *arguments], stdout=subprocess.PIPE, text=True, encoding="utf-8"
        )
        self.address = self.line().split()[-1]
        self._port = urlsplit(self.address).port or 0

    def line(self) -> str:
        """The next line on its standard output, once it is there."""
        assert self._process is not None
        assert self._process.stdout is not None
        return self._process.stdout.readline()

    def kill(self) -> None:
        """End it as a crash or a power cut would: SIGKILL, nothing put in order."""
        assert self._process is not None
        self._process.kill()
        self._gone(self._process)

    def stop(self) -> None:
        """End it as Ctrl+C does."""
        if self._process is not None and self._process.returncode is None:
            self._process.terminate()
            self._gone(self._process)

    def _gone(self, process: subprocess.Popen[str]) -> None:
        process.wait(timeout=20)
        assert process.stdout is not None
        process.stdout.close()
