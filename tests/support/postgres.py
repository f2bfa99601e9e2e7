"""A PostgreSQL of one's own for tests: Debian's package, in a folder, on a socket, no network."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

USER = "depots"


def programs() -> Path:
    """The folder of the newest version's programs; Debian does not put all of them on the path."""
    folders = Path("/usr/lib/postgresql").glob("*/bin")
    return max(folders, key=lambda folder: int(folder.parent.name))


@contextmanager
def server() -> Iterator[str]:
    """Start it and give the address of its socket's folder; all is gone afterwards.

    It will not run as root. A short path: that of a socket has 107 bytes at most.
    """
    folder = Path(tempfile.mkdtemp(prefix="pg_", dir="/tmp"))
    other: dict[str, Any] = {"user": "nobody", "group": "nogroup"} if os.getuid() == 0 else {}
    if other:
        shutil.chown(folder, **other)
    run: dict[str, Any] = {"check": True, "capture_output": True, "cwd": folder, **other}
    start = [programs() / "pg_ctl", "-D", folder / "data", "-w", "-l", folder / "log"]
    settings = f"-c listen_addresses='' -c unix_socket_directories={folder}"
    try:
        make = [programs() / "initdb", "-D", folder / "data", "-U", USER, "-A", "trust"]
        subprocess.run([*make, "-E", "UTF8", "--locale=C", "--no-instructions"], **run)
        # Its standard output would keep a pipe open for as long as it runs.
        subprocess.run(
            [*start, "-o", settings, "start"],
            **run | {"capture_output": False, "stdout": subprocess.DEVNULL},
        )
        try:
            yield str(folder)
        finally:
            subprocess.run([*start, "-m", "immediate", "stop"], **run)
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def address(folder: str, database: str = "postgres") -> str:
    """The address of a database on this server."""
    return f"postgresql://{USER}@/{database}?host={folder}"
