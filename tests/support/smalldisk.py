"""Real disks that fill up and real folders that nothing can be written in, where root can have
them: a small file system in memory, and a read-only view of a folder."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

KILOBYTES = 512


@contextmanager
def small_disk(folder: Path) -> Iterator[None]:
    """The folder is a disk of half a megabyte; the test is skipped where none can be had."""
    folder.mkdir()
    with _mounted(folder, "-t", "tmpfs", "-o", f"size={KILOBYTES}k", "walkaround"):
        yield


@contextmanager
def read_only(folder: Path) -> Iterator[None]:
    """Nothing can be written in or below the folder; the test is skipped if it still can."""
    with _mounted(folder, "--bind", str(folder)):
        _run("mount", "-o", "remount,bind,ro", str(folder))
        yield


class Ballast:
    """A file that takes all the room there is on a disk."""

    def __init__(self, disk: Path) -> None:
        self._path = disk / "ballast"

    def fill(self) -> None:
        with self._path.open("wb", buffering=0) as file:
            try:
                while file.write(bytes(1024)):
                    pass
            except OSError:
                return

    def free(self) -> None:
        self._path.unlink()


@contextmanager
def _mounted(folder: Path, *how: str) -> Iterator[None]:
    if os.geteuid() != 0:
        pytest.skip("only root can mount a disk")
    if said := _run("mount", *how, str(folder)):
        pytest.skip(f"no disk can be mounted here: {said}")
    try:
        yield
    finally:
        _run("umount", str(folder))


def _run(*command: str) -> str:
    """What the command had to say; nothing if it worked."""
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return (done.stderr.strip() or "it failed") if done.returncode else ""
