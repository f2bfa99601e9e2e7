"""Signatures of walks: a shop signs the events of a walk up to one of them, by its seal.

A seal covers every event before it (see `walk.seals`), so its signature covers all of them and
their photos, whose digests are in the events. A walk that was continued stays signed up to there.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Self

from walkaround.exchange.shop_key import LONGEST_SHOP_NAME, ShopKey, is_signed_by, shop_name

MOST_SIGNATURES = 16
"""The most signatures of one walk; those of the most entries are kept."""
_FORM = "walkaround walk signature 1"


@dataclass(frozen=True, slots=True)
class Signature:
    """One shop's signature of a walk.

    Attributes:
        shop: the name of the shop, as it gives it.
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
    def create(cls, key: ShopKey, walk_id: str, seals: Sequence[str]) -> Self:
        """Sign a walk with this id and these seals of its events."""
        unsigned = cls(key.shop, key.public, len(seals), seals[-1], "")
        return cls(key.shop, key.public, len(seals), seals[-1], key.sign(unsigned.text(walk_id)))

    @classmethod
    def read(cls, row: Mapping[str, Any]) -> Self | None:
        """Parse a stored signature; return None if it is not valid."""
        if set(row) != {"shop", "key", "entries", "tip", "signature"}:
            return None
        texts = all(type(row[name]) is str for name in ("shop", "key", "tip", "signature"))
        if not texts or type(row["entries"]) is not int or row["entries"] < 1:
            return None
        if len(row["shop"]) > LONGEST_SHOP_NAME or shop_name(row["shop"]) != row["shop"]:
            return None
        return cls(**row)

    def row(self) -> dict[str, Any]:
        """Return the signature as it is stored."""
        return {
            "shop": self.shop,
            "key": self.key,
            "entries": self.entries,
            "tip": self.tip,
            "signature": self.signature,
        }

    def text(self, walk_id: str) -> bytes:
        """Return the text that is signed."""
        signed = {"form": _FORM, "walk": walk_id, **self.row()}
        del signed["signature"]
        return canonical_json(signed).encode()

    def holds(self, walk_id: str, seals: Sequence[str]) -> bool:
        """Tell whether it is genuine, and these seals are, or continue, those that were signed."""
        return (
            self.entries <= len(seals)
            and seals[self.entries - 1] == self.tip
            and is_signed_by(self.key, self.text(walk_id), self.signature)
        )


def signatures_in(rows: Iterable[object]) -> list[Signature | None]:
    """Parse stored signatures; None for each that is not valid."""
    return [Signature.read(row) if isinstance(row, dict) else None for row in rows]


def merge_signatures(signatures: Iterable[Signature]) -> tuple[Signature, ...]:
    """Merge signatures of one walk: each once, in a fixed order, at most `MOST_SIGNATURES`."""
    each_once = {
        (-one.entries, one.key, one.tip): one
        for one in sorted(signatures, key=lambda one: (one.shop, one.signature), reverse=True)
    }
    return tuple(each_once[place] for place in sorted(each_once)[:MOST_SIGNATURES])


def canonical_json(value: object) -> str:
    """Write a value as canonical JSON: sorted keys, no spaces."""
    return json.dumps(value, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
