"""What whoever is not let in gets to see: one small page in plain words that tells nothing else."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from walkaround.access.securityheaders import Headers

Why = Literal["unpaired", "foreign", "wait", "large", "full"]

_STATUS: Mapping[Why, int] = {
    "unpaired": 401,
    "foreign": 403,
    "large": 413,
    "wait": 429,
    "full": 503,
}
_HEADINGS: Mapping[Why, str] = {
    "unpaired": "This device is not paired",
    "foreign": "Not from here",
    "large": "Too much at once",
    "wait": "Too many wrong keys",
    "full": "Too many pages are open",
}
_WORDS: Mapping[Why, str] = {
    "unpaired": "Go to the computer that runs walkaround and scan the code on its screen with this "
    "device, or open the whole address that it shows, with the key at its end.",
    "foreign": "Open the very address that walkaround shows on the computer that runs it.",
    "large": "Nothing that is sent here may be as large as this.",
    "wait": "Too many wrong keys came from this device or its network. Wait a minute, then scan "
    "the code on the screen of the computer that runs walkaround.",
    "full": "Close pages that nobody looks at, then load this one again.",
}


@dataclass(frozen=True, slots=True)
class Refusal:
    """An answer that lets nobody in."""

    status: int
    headers: Headers
    page: bytes


def refusal(why: Why, wait_s: int = 0) -> Refusal:
    """The answer to a request that is not let in; after `wait_s` seconds it may come again."""
    page = _page(_HEADINGS[why], _WORDS[why]).encode()
    headers: list[tuple[bytes, bytes]] = [
        (b"content-type", b"text/html; charset=utf-8"),
        (b"content-length", str(len(page)).encode()),
        (b"cache-control", b"no-store"),
        # Whatever the request still carries is not read.
        (b"connection", b"close"),
    ]
    if why == "unpaired":
        # RFC 9110, 15.5.2: a 401 names how to be let in. No browser asks for a password at this.
        headers.append((b"www-authenticate", b"Pairing"))
    if wait_s:
        headers.append((b"retry-after", str(wait_s).encode()))
    return Refusal(_STATUS[why], tuple(headers), page)


def _page(title: str, text: str) -> str:
    return (
        '<!DOCTYPE html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        '<meta name="color-scheme" content="light dark">'
        f"<title>{title}</title><style>body{{font:20px/1.5 system-ui,sans-serif;max-width:32em;"
        "margin:15vh auto;padding:0 24px}h1{font-size:28px}</style></head>"
        f"<body><main><h1>{title}</h1><p>{text}</p></main></body></html>\n"
    )
