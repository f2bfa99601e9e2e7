"""Who is let in: what a request must show before anything of the app sees it.

Without a key only this machine is served, and then a page of another site that is open in the
same browser must not get through either: neither under a name of its own that leads here (DNS
rebinding), nor by a WebSocket, which browsers open across sites. Hence Host and Origin. With a
key, a device that shows it once is given a cookie made from it, and shows that from then on.

What keeps a key from being guessed is its length. That an address must wait after ten wrong ones
keeps whoever tries from filling the log and the processor. Only different wrong keys count: a page
that was left open and shows its old cookie again and again guesses nothing.
"""

from __future__ import annotations

import hmac
import re
from collections import OrderedDict
from dataclasses import dataclass
from hashlib import sha256
from ipaddress import IPv6Address, ip_address
from math import ceil
from typing import Literal
from urllib.parse import parse_qsl

KEY_PARAMETER = "key"
"""What the key is called in an address: `/?key=...`."""
MOST_WRONG = 10
"""The number of different wrong keys within `WINDOW_S` after which an address waits."""
WINDOW_S = 60.0
ADDRESSES = 4096
"""The number of addresses that are remembered; the one longest quiet is forgotten first."""
_COOKIE = "walkaround_pairing"
_HOST = re.compile(r"(\[[0-9a-f:.]+\]|[0-9a-z._-]{1,253})(?::[0-9]{1,5})?", re.IGNORECASE)
_READS = ("GET", "HEAD")

Scheme = Literal["http", "https"]


@dataclass(frozen=True, slots=True)
class RequestHead:
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

    @property
    def is_reading(self) -> bool:
        """Whether it asks for a page or a file, as a browser that goes to an address does."""
        return self.method in _READS and not self.socket

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key in its address; only an address that a browser goes to may hold one."""
        pairs = parse_qsl(self.query, keep_blank_values=True, errors="replace")
        return tuple(value for name, value in pairs if name == KEY_PARAMETER and self.is_reading)

    @property
    def pairing_cookies(self) -> tuple[str, ...]:
        """The values of every cookie with our name (RFC 6265, 4.2)."""
        pairs = (pair.strip().partition("=") for pair in ";".join(self.cookies).split(";"))
        ours = cookie_name(self.scheme)
        return tuple(value for name, equals, value in pairs if equals and name == ours)


@dataclass(frozen=True, slots=True)
class Decision:
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
    """Name the cookie.

    Over https it has the prefix that makes browsers take it from a secure page only (RFC 6265bis,
    4.1.3.2). A name of its own, since over http a browser would not replace the secure one.
    """
    return f"__Host-{_COOKIE}" if scheme == "https" else _COOKIE


def cookie_value(key: str) -> str:
    """Make what a paired device shows; the key cannot be had from it."""
    return hmac.new(key.encode(), b"walkaround: paired", sha256).hexdigest()


def same_text(text: str, right: str) -> bool:
    """Tell whether two texts are the same, in a time that does not tell how much of them is."""
    return hmac.compare_digest(text.encode("utf-8", "surrogatepass"), right.encode())


class Admission:
    """Decides on requests, and remembers who showed wrong keys."""

    def __init__(self) -> None:
        self._wrong = WrongKeys()

    def decide(self, head: RequestHead, key: str | None, now_s: float) -> Decision:
        """Decide what becomes of a request.

        Args:
            head: what is looked at of it.
            key: the key as it is now; None where only this machine is served, without one.
            now_s: seconds on a clock that is never set back.
        """
        if not _at_home(head, here_only=key is None):
            return Decision("foreign")
        if key is None:
            return Decision("enter")
        keys, cookies = head.keys, head.pairing_cookies
        right = cookie_value(key)
        if [cookie for cookie in cookies if same_text(cookie, right)]:
            # Its address may still hold a key, right or not: it does not stay there.
            return Decision("pair" if keys else "enter")
        if wait_s := self._wrong.wait_s(head.client, now_s):
            return Decision("wait", wait_s)
        if len(keys) == 1 and same_text(keys[0], key):
            return Decision("pair")
        for shown in (*keys, *cookies):
            self._wrong.note(head.client, shown, now_s)
        return Decision("unpaired")


class WrongKeys:
    """The wrong keys of the last minute, by address."""

    def __init__(self) -> None:
        self._shown: OrderedDict[str, dict[bytes, float]] = OrderedDict()

    def wait_s(self, client: str, now_s: float) -> int:
        """Whole seconds this address must wait before anything it shows is looked at; 0: none."""
        times = self._recent(guesser(client), now_s).values()
        return max(1, ceil(min(times) + WINDOW_S - now_s)) if len(times) >= MOST_WRONG else 0

    def note(self, client: str, key: str, now_s: float) -> None:
        """Note that this address showed a wrong key; only a digest of it is kept.

        Args:
            client: its address.
            key: what it showed.
            now_s: seconds on a clock that is never set back.
        """
        who = guesser(client)
        recent = self._recent(who, now_s)
        if len(recent) < MOST_WRONG:
            recent.setdefault(sha256(key.encode("utf-8", "surrogatepass")).digest(), now_s)
        self._shown[who] = recent
        self._shown.move_to_end(who)
        if len(self._shown) > ADDRESSES:
            self._shown.popitem(last=False)

    def _recent(self, who: str, now_s: float) -> dict[bytes, float]:
        noted = self._shown.get(who, {})
        return {digest: at_s for digest, at_s in noted.items() if now_s - at_s < WINDOW_S}


def guesser(client: str) -> str:
    """Name whom a wrong key counts against: the address, or of an IPv6 one its first 64 bits.

    One machine may take any address of its IPv6 network (RFC 4291, 2.5.1; RFC 8981).
    """
    try:
        address = ip_address(client)
    except ValueError:
        return client
    if isinstance(address, IPv6Address):
        return str(address.ipv4_mapped or IPv6Address(int(address) >> 64 << 64))
    return str(address)


def _at_home(head: RequestHead, *, here_only: bool) -> bool:
    """Whether Host and Origin are those of this app's pages."""
    host = head.hosts[0].lower() if len(head.hosts) == 1 else ""
    parsed = _HOST.fullmatch(host)
    if parsed is None or (here_only and not is_here(parsed[1])):
        return False
    if not head.origins:
        return head.is_reading
    return [origin.lower() for origin in head.origins] == [f"{head.scheme}://{host}"]


def is_here(name: str) -> bool:
    """Tell whether a name or address always means the machine itself."""
    try:
        address = ip_address(name.strip("[]"))
    except ValueError:
        return name == "localhost"
    mapped = address.ipv4_mapped if isinstance(address, IPv6Address) else None
    return (mapped or address).is_loopback
