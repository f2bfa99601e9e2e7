"""How many wrong keys an address may show before it has to wait.

What keeps a key from being guessed is its length; this keeps whoever tries from filling the log
and the processor. Only different wrong keys count: a page that was left open and shows its old
cookie again and again guesses nothing.
"""

from __future__ import annotations

from collections import OrderedDict
from hashlib import sha256
from ipaddress import IPv6Address, ip_address
from math import ceil

MOST = 10
"""So many different wrong keys within `WINDOW_S`, then the address waits."""
WINDOW_S = 60.0
ADDRESSES = 4096
"""So many addresses are remembered; the one longest quiet is forgotten first."""


def guesser(client: str) -> str:
    """Whom a guess counts against: the address, of an IPv6 one the network (its first 64 bits).

    One machine may take any address of its IPv6 network (RFC 4291, 2.5.1; RFC 8981).
    """
    try:
        address = ip_address(client)
    except ValueError:
        return client
    if isinstance(address, IPv6Address):
        if address.ipv4_mapped is not None:
            return str(address.ipv4_mapped)
        return str(IPv6Address(int(address) >> 64 << 64))
    return str(address)


class Guesses:
    """The wrong keys of the last minute, by address."""

    def __init__(self) -> None:
        self._wrong: OrderedDict[str, dict[bytes, float]] = OrderedDict()

    def wait_s(self, client: str, now_s: float) -> int:
        """Whole seconds this address must wait before anything it shows is looked at; 0: none."""
        times = self._recent(guesser(client), now_s).values()
        return max(1, ceil(min(times) + WINDOW_S - now_s)) if len(times) >= MOST else 0

    def wrong(self, client: str, shown: str, now_s: float) -> None:
        """Note that this address showed a wrong key; only a digest of it is kept.

        Args:
            client: its address.
            shown: what it showed.
            now_s: seconds on a clock that is never set back.
        """
        who = guesser(client)
        recent = self._recent(who, now_s)
        if len(recent) < MOST:
            recent.setdefault(sha256(shown.encode("utf-8", "surrogatepass")).digest(), now_s)
        self._wrong[who] = recent
        self._wrong.move_to_end(who)
        if len(self._wrong) > ADDRESSES:
            self._wrong.popitem(last=False)

    def _recent(self, who: str, now_s: float) -> dict[bytes, float]:
        noted = self._wrong.get(who, {})
        return {digest: at_s for digest, at_s in noted.items() if now_s - at_s < WINDOW_S}
