"""What a shop signs of a walk: its events up to one of them, by that event's seal.

A seal holds for every event before it (see `walk.seals`), so the signature of one holds for all of
them and for their photos, whose digests are in the events. A walk that went on since is still
signed up to there.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Self

from walkaround.exchange.shop_key import LONGEST_SHOP_NAME, ShopKey, shop_name, signed_by

MOST_SIGNATURES = 16
"""Of one walk; those of the most entries are kept."""
_FORM = "walkaround walk signature 1"


@dataclass(frozen=True, slots=True)
class Signature:
    """One shop's signature of a walk.

    Attributes:
        shop: what the shop calls itself.
        key: its public key, in hex.
        entries: how many events of the walk it signed, from the first on.
        tip: the seal of the last of them.
        signature: in hex.
    """

    shop: str
    key: str
    entries: int
    tip: str
    signature: str

    @classmethod
    def made(cls, key: ShopKey, walk_id: str, seals: Sequence[str]) -> Self:
        """Sign a walk whose events have these seals."""
        unsigned = cls(key.shop, key.public, len(seals), seals[-1], "")
        return cls(key.shop, key.public, len(seals), seals[-1], key.sign(unsigned.text(walk_id)))

    @classmethod
    def read(cls, row: Mapping[str, Any]) -> Self | None:
        """Read one as it was stored; None if it cannot be one."""
        if set(row) != {"shop", "key", "entries", "tip", "signature"}:
            return None
        texts = all(type(row[name]) is str for name in ("shop", "key", "tip", "signature"))
        if not texts or type(row["entries"]) is not int or row["entries"] < 1:
            return None
        if len(row["shop"]) > LONGEST_SHOP_NAME or shop_name(row["shop"]) != row["shop"]:
            return None
        return cls(**row)

    def row(self) -> dict[str, Any]:
        """Write it as it is stored."""
        return {
            "shop": self.shop,
            "key": self.key,
            "entries": self.entries,
            "tip": self.tip,
            "signature": self.signature,
        }

    def text(self, walk_id: str) -> bytes:
        """Tell what is signed."""
        signed = {"form": _FORM, "walk": walk_id, **self.row()}
        del signed["signature"]
        return canonical(signed).encode()

    def holds(self, walk_id: str, seals: Sequence[str]) -> bool:
        """Whether it is no forgery, and these events are those that were signed, or go on there."""
        return (
            self.entries <= len(seals)
            and seals[self.entries - 1] == self.tip
            and signed_by(self.key, self.text(walk_id), self.signature)
        )


def signatures_in(rows: Iterable[object]) -> list[Signature | None]:
    """Read signatures as they were stored; None for each that cannot be one."""
    return [Signature.read(row) if isinstance(row, dict) else None for row in rows]


def united(signatures: Iterable[Signature]) -> tuple[Signature, ...]:
    """Those to keep, each once, in the one order that there is."""
    each_once = {
        (-one.entries, one.key, one.tip): one
        for one in sorted(signatures, key=lambda one: (one.shop, one.signature), reverse=True)
    }
    return tuple(each_once[place] for place in sorted(each_once)[:MOST_SIGNATURES])


def canonical(value: object) -> str:
    """Write a value as JSON in one way only."""
    return json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
