"""The refusals of the gate, and the security headers of every response.

A request that is not let in gets one small page in plain words, and nothing else.

The headers allow what Flutter's page needs, WebAssembly, inline scripts, and pictures and sounds
from memory; nothing else, and nothing from other sites. Sources: W3C Content Security Policy Level
3; OWASP HTTP Headers Cheat Sheet (both from memory).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Literal

from starlette.responses import HTMLResponse

from walkaround.base.message import Message, message

Headers = tuple[tuple[bytes, bytes], ...]
Refusal = Literal["unpaired", "foreign", "wait", "large", "full"]

_STATUS: Mapping[Refusal, int] = {
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
_FIXED_HEADERS: Headers = (
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
_REMOVED_HEADERS = {b"access-control-allow-origin", b"server"}


def refusal_page(why: Refusal, text_of: Callable[[Message], str], wait_s: int = 0) -> HTMLResponse:
    """Return the response to a request that is not let in.

    Args:
        why: the reason.
        text_of: translates a message.
        wait_s: seconds until it may be sent again; 0 if waiting changes nothing.
    """
    page = _PAGE.format(
        language=text_of(message("access-language")),
        title=text_of(message(f"access-{why}-title")),
        text=text_of(message(f"access-{why}-text")),
    )
    # The rest of the request is not read.
    headers = {"cache-control": "no-store", "connection": "close"}
    if why == "unpaired":
        # RFC 9110, 15.5.2: a 401 names a scheme. No browser asks for a password at this one.
        headers["www-authenticate"] = "Pairing"
    if wait_s:
        headers["retry-after"] = str(wait_s)
    return HTMLResponse(page, _STATUS[why], headers)


def with_security_headers(
    headers: Iterable[tuple[bytes, bytes]], host: str
) -> list[tuple[bytes, bytes]]:
    """Add our headers to those of a response; they replace any of the same name.

    Args:
        headers: the headers of the response.
        host: the request's Host if it is well-formed, else empty.
    """
    # Older WebKit does not count WebSockets among 'self' (WebKit bug 201591, from memory).
    sockets = f" ws://{host} wss://{host}" if host else ""
    policy = "; ".join((*_POLICY, f"connect-src 'self' blob: data:{sockets}"))
    our_headers = (*_FIXED_HEADERS, (b"content-security-policy", policy.encode("latin-1")))
    replaced = _REMOVED_HEADERS | {name for name, _ in our_headers}
    return [
        *((name, value) for name, value in headers if name.lower() not in replaced),
        *our_headers,
    ]
