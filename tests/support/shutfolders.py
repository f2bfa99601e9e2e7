"""Folders that cannot be read, for real: rights that bind root too, and a disk that fails."""

from __future__ import annotations

import ctypes
import errno
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

_VERSION_3 = 0x20080522
_ANY_FILE = 1 << 1 | 1 << 2
"""CAP_DAC_OVERRIDE and CAP_DAC_READ_SEARCH: to pass over the rights of files (capabilities(7))."""


class _Header(ctypes.Structure):
    _fields_ = (("version", ctypes.c_uint32), ("pid", ctypes.c_int))


class _Rights(ctypes.Structure):
    _fields_ = tuple((name, ctypes.c_uint32) for name in ("effective", "permitted", "inheritable"))


@contextmanager
def bound_by_rights() -> Iterator[None]:
    """The rights of files bind this thread even if it is root's, as they bind every other user."""
    if os.geteuid() != 0:
        yield
        return
    if sys.platform != "linux":
        pytest.skip("root reads everything here")
    libc = ctypes.CDLL(None, use_errno=True)
    header, rights = _Header(_VERSION_3, 0), (_Rights * 2)()
    assert libc.capget(ctypes.byref(header), rights) == 0, os.strerror(ctypes.get_errno())
    before = rights[0].effective
    rights[0].effective = before & ~_ANY_FILE
    assert libc.capset(ctypes.byref(header), rights) == 0, os.strerror(ctypes.get_errno())
    try:
        yield
    finally:
        rights[0].effective = before
        assert libc.capset(ctypes.byref(header), rights) == 0, os.strerror(ctypes.get_errno())


@contextmanager
def shut(folder: Path, mode: int = 0) -> Iterator[Callable[[], None]]:
    """Nobody may read the folder until what is given here is called."""
    with bound_by_rights():
        folder.chmod(mode)
        try:
            yield lambda: folder.chmod(0o755)
        finally:
            folder.chmod(0o755)


@contextmanager
def failing(
    monkeypatch: pytest.MonkeyPatch, folder: Path, number: int = errno.EIO
) -> Iterator[list[str]]:
    """The disk fails where the names in the folder lie; told is how often it was asked."""
    asked: list[str] = []
    scandir = os.scandir

    def fails(path: str) -> os._ScandirIterator[str]:
        if Path(path) == folder:
            asked.append(path)
            raise OSError(number, os.strerror(number), path)
        return scandir(path)

    with monkeypatch.context() as patch:
        patch.setattr(os, "scandir", fails)
        yield asked
