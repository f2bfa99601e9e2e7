"""Who is let in: what a request must show before anything of the app sees it.

Without a key only this machine is served, and then a page of another site that is open in the
same browser must not get through either: neither under a name of its own that leads here (DNS
rebinding), nor by a WebSocket, which browsers open across sites. Hence Host and Origin. With a
key, whoever shows it once is given a cookie made from it, and shows that from then on.
"""

from __future__ import annotations

import hmac
import re
from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256
from ipaddress import ip_address
from typing import Literal
from urllib.parse import parse_qsl

from walkaround.access.guesses import Guesses

KEY_PARAMETER = "key"
"""What the key is called in an address: `/?key=...`."""
_COOKIE = "walkaround_pairing"
_HOST = re.compile(r"(\[[0-9a-f:.]+\]|[0-9a-z._-]{1,253})(?::[0-9]{1,5})?", re.IGNORECASE)
_READS = ("GET", "HEAD")

Scheme = Literal["http", "https"]


@dataclass(frozen=True, slots=True)
class Knock:
    """What is looked at of a request. A header that came twice is there twice.

    Attributes:
        client: the address it came from.
        scheme: how it came.
        method: `GET` and so on; a WebSocket's handshake is a GET too.
        socket: whether it asks for a WebSocket.
        query: what follows the question mark in its address.
        hosts: every Host.
        origins: every Origin.
        cookies: every Cookie.
    """

    client: str
    scheme: Scheme
    method: str = "GET"
    socket: bool = False
    query: str = ""
    hosts: tuple[str, ...] = ()
    origins: tuple[str, ...] = ()
    cookies: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Verdict:
    """What becomes of a request.

    Attributes:
        act: `enter`; `pair`: right key, give the cookie and lead to the address without it;
            `unpaired`: no key or a wrong one; `foreign`: wrong Host or Origin; `wait`: too many
            wrong keys.
        wait_s: for `wait`, whole seconds.
    """

    act: Literal["enter", "pair", "unpaired", "foreign", "wait"]
    wait_s: int = 0


def cookie_name(scheme: Scheme) -> str:
    """The cookie's name.

    Over https it has the prefix that makes browsers take it from a secure page only (RFC 6265bis,
    4.1.3.2). A name of its own, since over http a browser would not replace the secure one.
    """
    return f"__Host-{_COOKIE}" if scheme == "https" else _COOKIE


def cookie_value(key: str) -> str:
    """What a paired device shows: made from the key, and the key cannot be had from it."""
    return hmac.new(key.encode(), b"walkaround: paired", sha256).hexdigest()


def same(shown: str, right: str) -> bool:
    """Whether both texts are the same; how long this takes does not tell how much of them is."""
    return hmac.compare_digest(shown.encode("utf-8", "surrogatepass"), right.encode())


class Admission:
    """Judges requests, and remembers who showed wrong keys."""

    def __init__(self) -> None:
        self._guesses = Guesses()

    def judge(self, knock: Knock, key: str | None, now_s: float) -> Verdict:
        """What becomes of this request.

        Args:
            knock: what is looked at of it.
            key: the key as it is now; None where only this machine is served, without one.
            now_s: seconds on a clock that is never set back.
        """
        if not _at_home(knock, here_only=key is None):
            return Verdict("foreign")
        if key is None:
            return Verdict("enter")
        shown = tuple(_keys(knock))
        cookies = tuple(_cookies(knock))
        right = cookie_value(key)
        if [cookie for cookie in cookies if same(cookie, right)]:
            # Its address may still hold a key, right or not: it does not stay there.
            return Verdict("pair" if shown else "enter")
        if wait_s := self._guesses.wait_s(knock.client, now_s):
            return Verdict("wait", wait_s)
        if len(shown) == 1 and same(shown[0], key):
            return Verdict("pair")
        for wrong in (*shown, *cookies):
            self._guesses.wrong(knock.client, wrong, now_s)
        return Verdict("unpaired")


def _at_home(knock: Knock, *, here_only: bool) -> bool:
    """Whether Host and Origin are those of a page of ours."""
    host = knock.hosts[0].lower() if len(knock.hosts) == 1 else ""
    found = _HOST.fullmatch(host)
    if found is None or (here_only and not _is_here(found[1])):
        return False
    if not knock.origins:
        return knock.method in _READS and not knock.socket
    return [origin.lower() for origin in knock.origins] == [f"{knock.scheme}://{host}"]


def _is_here(name: str) -> bool:
    if name == "localhost":
        return True
    try:
        return ip_address(name.strip("[]")).is_loopback
    except ValueError:
        return False


def _keys(knock: Knock) -> Iterator[str]:
    """Every key in the address; only an address that a browser goes to may hold one."""
    if knock.method in _READS and not knock.socket:
        for name, value in parse_qsl(knock.query, keep_blank_values=True, errors="replace"):
            if name == KEY_PARAMETER:
                yield value


def _cookies(knock: Knock) -> Iterator[str]:
    """The value of every cookie of ours (RFC 6265, 4.2)."""
    name = cookie_name(knock.scheme)
    for pair in ";".join(knock.cookies).split(";"):
        found, equals, value = pair.strip().partition("=")
        if equals and found == name:
            yield value
