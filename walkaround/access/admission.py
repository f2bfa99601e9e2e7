"""Admission: what a request must show before it reaches the app.

Without a key only this machine is served. A page of another site in the same browser must not get
through either: neither under a name of its own that resolves to this machine (DNS rebinding), nor
by a WebSocket, which browsers open across sites. Hence the checks of Host and Origin. With a key, a
device that shows it once gets a cookie made from it, and shows the cookie from then on.

The length of a key prevents guessing. An address must wait after ten wrong keys, so that guessing
cannot fill the log and the processor. Only different wrong keys count: a page that was left open
and shows its old cookie again and again guesses nothing.
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
"""The name of the key in an address: `/?key=...`."""
MOST_WRONG = 10
"""The number of different wrong keys within `WINDOW_S` after which an address must wait."""
WINDOW_S = 60.0
MOST_ADDRESSES = 4096
"""The most addresses that are remembered; the least recent one is forgotten first."""
_COOKIE = "walkaround_pairing"
_HOST = re.compile(r"(\[[0-9a-f:.]+\]|[0-9a-z._-]{1,253})(?::[0-9]{1,5})?", re.IGNORECASE)
_READS = ("GET", "HEAD")

Scheme = Literal["http", "https"]


@dataclass(frozen=True, slots=True)
class RequestHead:
    """The parts of a request that are checked; a header sent twice is there twice.

    Attributes:
        client: the address it came from.
        scheme: `http` or `https`.
        method: `GET` and so on; a WebSocket's handshake is a GET too.
        socket: whether it asks for a WebSocket.
        query: the query string of its address.
        hosts: every Host header.
        origins: every Origin header.
        cookies: every Cookie header.
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
        """Whether it asks for a page or a file, as a browser does for an address."""
        return self.method in _READS and not self.socket

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key in its address; only an address that a browser opens may have one."""
        pairs = parse_qsl(self.query, keep_blank_values=True, errors="replace")
        return tuple(value for name, value in pairs if name == KEY_PARAMETER and self.is_reading)

    @property
    def pairing_cookies(self) -> tuple[str, ...]:
        """The values of every cookie with our name (RFC 6265, 4.2)."""
        pairs = (pair.strip().partition("=") for pair in ";".join(self.cookies).split(";"))
        name_of_ours = cookie_name(self.scheme)
        return tuple(value for name, equals, value in pairs if equals and name == name_of_ours)


@dataclass(frozen=True, slots=True)
class Decision:
    """What to do with a request.

    Attributes:
        act: `enter`; `pair`: right key, set the cookie and redirect to the address without the key;
            `unpaired`: no key or a wrong one; `foreign`: wrong Host or Origin; `wait`: too many
            wrong keys.
        wait_s: how long to wait in whole seconds, for `wait`.
    """

    act: Literal["enter", "pair", "unpaired", "foreign", "wait"]
    wait_s: int = 0


def cookie_name(scheme: Scheme) -> str:
    """Return the name of the cookie.

    Over https it has the prefix that makes browsers accept it from a secure page only (RFC
    6265bis, 4.1.3.2). The two names differ, since over http a browser would not replace the secure
    cookie.
    """
    return f"__Host-{_COOKIE}" if scheme == "https" else _COOKIE


def cookie_value(key: str) -> str:
    """Return the cookie of a paired device; the key cannot be computed from it."""
    return hmac.new(key.encode(), b"walkaround: paired", sha256).hexdigest()


def is_same_secret(text: str, right: str) -> bool:
    """Tell whether two secrets are equal, in a time that does not depend on their content."""
    return hmac.compare_digest(text.encode("utf-8", "surrogatepass"), right.encode())


class Admission:
    """Decides on requests, and remembers who showed wrong keys."""

    def __init__(self) -> None:
        self._wrong = WrongKeys()

    def decide(self, head: RequestHead, key: str | None, now_s: float) -> Decision:
        """Decide what to do with a request.

        Args:
            head: the parts of it that are checked.
            key: the current key; None if only this machine is served, without a key.
            now_s: monotonic seconds.
        """
        if not _is_own_page(head, loopback_only=key is None):
            return Decision("foreign")
        if key is None:
            return Decision("enter")
        keys, cookies = head.keys, head.pairing_cookies
        right_cookie = cookie_value(key)
        if [cookie for cookie in cookies if is_same_secret(cookie, right_cookie)]:
            # The address may still have a key, right or not: the redirect removes it.
            return Decision("pair" if keys else "enter")
        if wait_s := self._wrong.wait_s(head.client, now_s):
            return Decision("wait", wait_s)
        if len(keys) == 1 and is_same_secret(keys[0], key):
            return Decision("pair")
        for secret in (*keys, *cookies):
            self._wrong.note(head.client, secret, now_s)
        return Decision("unpaired")


class WrongKeys:
    """The wrong keys of the last minute, by address."""

    def __init__(self) -> None:
        self._wrong_keys: OrderedDict[str, dict[bytes, float]] = OrderedDict()

    def wait_s(self, client: str, now_s: float) -> int:
        """Return how long this address must wait, in whole seconds; 0 if it need not."""
        times = self._recent(client_network(client), now_s).values()
        return max(1, ceil(min(times) + WINDOW_S - now_s)) if len(times) >= MOST_WRONG else 0

    def note(self, client: str, key: str, now_s: float) -> None:
        """Note that this address showed a wrong key; only a digest of the key is stored.

        Args:
            client: the address.
            key: the wrong key or cookie.
            now_s: monotonic seconds.
        """
        network = client_network(client)
        recent = self._recent(network, now_s)
        if len(recent) < MOST_WRONG:
            recent.setdefault(sha256(key.encode("utf-8", "surrogatepass")).digest(), now_s)
        self._wrong_keys[network] = recent
        self._wrong_keys.move_to_end(network)
        if len(self._wrong_keys) > MOST_ADDRESSES:
            self._wrong_keys.popitem(last=False)

    def _recent(self, network: str, now_s: float) -> dict[bytes, float]:
        times = self._wrong_keys.get(network, {})
        return {digest: at_s for digest, at_s in times.items() if now_s - at_s < WINDOW_S}


def client_network(client: str) -> str:
    """Return what a wrong key counts against: the address, or the first 64 bits of an IPv6 address.

    One machine may use any address of its IPv6 network (RFC 4291, 2.5.1; RFC 8981).
    """
    try:
        address = ip_address(client)
    except ValueError:
        return client
    if isinstance(address, IPv6Address):
        return str(address.ipv4_mapped or IPv6Address(int(address) >> 64 << 64))
    return str(address)


def _is_own_page(head: RequestHead, *, loopback_only: bool) -> bool:
    """Tell whether Host and Origin are those of this app's pages."""
    host = head.hosts[0].lower() if len(head.hosts) == 1 else ""
    parsed = _HOST.fullmatch(host)
    if parsed is None or (loopback_only and not is_loopback(parsed[1])):
        return False
    if not head.origins:
        return head.is_reading
    return [origin.lower() for origin in head.origins] == [f"{head.scheme}://{host}"]


def is_loopback(name: str) -> bool:
    """Tell whether a name or an address always means this machine."""
    try:
        address = ip_address(name.strip("[]"))
    except ValueError:
        return name == "localhost"
    mapped = address.ipv4_mapped if isinstance(address, IPv6Address) else None
    return (mapped or address).is_loopback
