"""What the gate itself answers, and what every answer tells the browser to forbid itself.

A request that is not let in gets one small page in plain words, and nothing else.

Of the headers: Flutter's page runs WebAssembly and scripts that stand in the page, and holds
pictures and sounds in memory; nothing else is allowed, and nothing at all from elsewhere. Sources:
W3C Content Security Policy Level 3; OWASP HTTP Headers Cheat Sheet (both from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Literal

from starlette.responses import HTMLResponse

from walkaround.base.message import Message, message

Headers = tuple[tuple[bytes, bytes], ...]
Why = Literal["unpaired", "foreign", "wait", "large", "full"]

_STATUS: Mapping[Why, int] = {
    "unpaired": 401,
    "foreign": 403,
    "large": 413,
    "wait": 429,
    "full": 503,
}
_PAGE = (
    '<!DOCTYPE html><html lang="{language}"><head><meta charset="utf-8">'
    '<meta name="viewport" content="width=device-width, initial-scale=1">'
    '<meta name="color-scheme" content="light dark">'
    "<title>{title}</title><style>body{{font:20px/1.5 system-ui,sans-serif;max-width:32em;"
    "margin:15vh auto;padding:0 24px}}h1{{font-size:28px}}</style></head>"
    "<body><main><h1>{title}</h1><p>{text}</p></main></body></html>\n"
)

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


def refusal_page(why: Why, read: Callable[[Message], str], wait_s: int = 0) -> HTMLResponse:
    """Answer a request that is not let in; after `wait_s` seconds it may come again.

    Args:
        why: what keeps it out.
        read: puts a message into words.
        wait_s: seconds until it may come again; 0 where waiting changes nothing.
    """
    page = _PAGE.format(
        language=read(message("access-language")),
        title=read(message(f"access-{why}-title")),
        text=read(message(f"access-{why}-text")),
    )
    # Whatever the request still carries is not read.
    headers = {"cache-control": "no-store", "connection": "close"}
    if why == "unpaired":
        # RFC 9110, 15.5.2: a 401 names how to be let in. No browser asks for a password at this.
        headers["www-authenticate"] = "Pairing"
    if wait_s:
        headers["retry-after"] = str(wait_s)
    return HTMLResponse(page, _STATUS[why], headers)


def secured(headers: Iterable[tuple[bytes, bytes]], host: str) -> list[tuple[bytes, bytes]]:
    """Put our headers into an answer, in place of any of the same name.

    Args:
        headers: those it has.
        host: the request's Host, already found well-formed; empty where it was not.
    """
    # Older WebKit does not count WebSockets among 'self' (WebKit bug 201591, from memory).
    sockets = f" ws://{host} wss://{host}" if host else ""
    policy = "; ".join((*_POLICY, f"connect-src 'self' blob: data:{sockets}"))
    ours = (*_ALWAYS, (b"content-security-policy", policy.encode("latin-1")))
    replaced = _NEVER | {name for name, _ in ours}
    return [*((name, value) for name, value in headers if name.lower() not in replaced), *ours]
