"""The key that pairs devices, and other secrets, in files that no other user can read."""

from __future__ import annotations

import logging
import re
import secrets
from pathlib import Path

from walkaround.base.errors import MachineError
from walkaround.base.message import message
from walkaround.disk import durable as files

log = logging.getLogger(__name__)

_KEY = re.compile(r"[A-Za-z0-9_-]{43}")
"""32 bytes in base64url without padding: 256 bits, which nobody can guess."""


def stored_key(path: Path) -> str:
    """Read the key in this file; make a new one if it is missing or damaged.

    Raises:
        MachineError: the file cannot be read or written.
    """
    content = (files.read_file(path) or b"").decode("latin-1").strip()
    if not _KEY.fullmatch(content):
        # Never a shorter key: with an empty one, a device that shows nothing would be let in.
        if content:
            log.warning("%s was damaged: a new key was made, devices must be paired anew", path)
        return new_key(path)
    _restrict_to_owner(path)
    return content


def new_key(path: Path) -> str:
    """Write a new key into this file, and return it; the old one is void.

    Raises:
        MachineError: it could not be written; the old key stays.
    """
    key = secrets.token_urlsafe(32)
    write_secret(path, f"{key}\n".encode())
    return key


def write_secret(path: Path, content: bytes) -> None:
    """Write a file that only this user can read, in a folder that only this user can enter.

    Raises:
        MachineError: it could not be written.
    """
    files.make_folder(path.parent)
    # The folder first: the file is readable by others until its own mode is set.
    _restrict_to_owner(path.parent)
    files.write_durably(path, content)
    _restrict_to_owner(path)


def _restrict_to_owner(path: Path) -> None:
    try:
        path.chmod(0o700 if path.is_dir() else 0o600)
    except OSError as error:
        raise MachineError(
            message("disk-open-to-others", path=str(path), reason=files.reason(error))
        ) from error
