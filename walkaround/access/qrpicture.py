"""An address as a QR code (ISO/IEC 18004), for a terminal and for a screen."""

from __future__ import annotations

import io

import segno

_BORDER = 4
"""Modules of quiet around it, as the standard asks."""


def qr_text(address: str) -> str:
    """The code in half-block characters, dark on light in a dark terminal."""
    out = io.StringIO()
    _code(address).terminal(out, border=_BORDER, compact=True)
    return out.getvalue()


def qr_png(address: str) -> bytes:
    """The code as a PNG, black on white, eight pixels a module."""
    out = io.BytesIO()
    _code(address).save(out, kind="png", scale=8, border=_BORDER)
    return out.getvalue()


def _code(address: str) -> segno.QRCode:
    return segno.make_qr(address, error="m")
