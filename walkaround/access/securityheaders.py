"""What every answer tells the browser to forbid itself.

Flutter's page runs WebAssembly and scripts that stand in the page, and holds pictures and sounds
in memory; nothing else is allowed, and nothing at all from elsewhere. Sources: W3C Content
Security Policy Level 3; OWASP HTTP Headers Cheat Sheet (both from memory).
"""

from __future__ import annotations

from collections.abc import Iterable

Headers = tuple[tuple[bytes, bytes], ...]

_POLICY = (
    "default-src 'self'",
    "script-src 'self' 'unsafe-inline' 'wasm-unsafe-eval'",
    "style-src 'self' 'unsafe-inline'",
    "img-src 'self' blob: data:",
    "media-src 'self' blob: data:",
    "font-src 'self'",
    "worker-src 'self' blob:",
    "object-src 'none'",
    "base-uri 'self'",
    "form-action 'none'",
    "frame-ancestors 'none'",
)
_ALWAYS: Headers = (
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-embedder-policy", b"require-corp"),
    (
        b"permissions-policy",
        b"camera=(), display-capture=(), geolocation=(), payment=(), usb=(), "
        b"autoplay=(self), microphone=(self), screen-wake-lock=(self)",
    ),
)
_NEVER = {b"access-control-allow-origin", b"server"}


def secured(headers: Iterable[tuple[bytes, bytes]], host: str) -> list[tuple[bytes, bytes]]:
    """The headers of an answer with ours in place of any of the same name.

    Args:
        headers: those it has.
        host: the request's Host, already found well-formed; empty where it was not.
    """
    ours = (*_ALWAYS, (b"content-security-policy", _policy(host)))
    replaced = _NEVER | {name for name, _ in ours}
    return [*((name, value) for name, value in headers if name.lower() not in replaced), *ours]


def _policy(host: str) -> bytes:
    # Older WebKit does not count WebSockets among 'self' (WebKit bug 201591, from memory).
    sockets = f" ws://{host} wss://{host}" if host else ""
    return "; ".join((*_POLICY, f"connect-src 'self' blob: data:{sockets}")).encode("latin-1")
