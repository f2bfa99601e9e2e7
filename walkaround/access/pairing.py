"""Pairing: the key, the link that pairs a device, and the link as a QR code.

A device opens the link, typed or scanned from a screen or a terminal (ISO/IEC 18004).
"""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path
from threading import Lock

import segno

from walkaround.access.admission import KEY_PARAMETER, cookie_value
from walkaround.disk.secrets import new_key, stored_key

_QUIET_BORDER = 4
"""The width of the quiet zone around a code, in modules, as the standard requires."""


class Pairing:
    """The key and the link that pair devices; may be used from any thread.

    Attributes:
        key: the current key; a secret.
    """

    def __init__(self, file: Path, address: str, *, new: bool = False) -> None:
        """Read the key of a data folder.

        Args:
            file: the path of the key's file.
            address: where other devices reach the app, such as `http://192.0.2.7:8765/`.
            new: whether to make a new key, so that no device is paired any more.

        Raises:
            MachineError: the key cannot be read or written.
        """
        self._file = file
        self._address = address
        self._watchers: list[Callable[[], None]] = []
        self._renew_lock = Lock()
        self.key = new_key(file) if new else stored_key(file)

    @property
    def link(self) -> str:
        """The address that pairs the device on which it is opened; a secret."""
        return self.link_at(self._address)

    @property
    def link_id(self) -> str:
        """An identifier of the link that reveals nothing of the key."""
        return cookie_value(self.link)[:12]

    def link_at(self, address: str) -> str:
        """Return the link for another address of this machine; a secret."""
        return f"{address}?{KEY_PARAMETER}={self.key}"

    def watch(self, call: Callable[[], None]) -> None:
        """Register a function to call when the key has changed, in the thread that changed it."""
        self._watchers.append(call)

    def renew(self) -> None:
        """Change the key: no device is paired any more.

        Raises:
            MachineError: the new key could not be saved; the old one stays.
        """
        with self._renew_lock:
            self.key = new_key(self._file)
        for call in self._watchers:
            call()


def qr_text(link: str) -> str:
    """Draw the code in half-block characters, dark on light in a dark terminal."""
    out = io.StringIO()
    _code(link).terminal(out, border=_QUIET_BORDER, compact=True)
    return out.getvalue()


def qr_png(link: str) -> bytes:
    """Draw the code as a PNG, black on white, eight pixels a module."""
    out = io.BytesIO()
    _code(link).save(out, kind="png", scale=8, border=_QUIET_BORDER)
    return out.getvalue()


def qr_svg(link: str) -> str:
    """Draw the code as an SVG that scales with its page, black on white."""
    return _code(link).svg_inline(border=_QUIET_BORDER, omitsize=True, light="#fff")


def qr_modules(link: str) -> tuple[tuple[bool, ...], ...]:
    """Return the code row by row, dark modules as True, with the quiet zone."""
    rows = _code(link).matrix_iter(border=_QUIET_BORDER)
    return tuple(tuple(bool(module) for module in row) for row in rows)


def _code(link: str) -> segno.QRCode:
    return segno.make_qr(link, error="m")
