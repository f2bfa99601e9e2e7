"""The key by which this shop signs what it shares, and the keys of other shops that it knows.

Keys are Ed25519 (RFC 8032). Anybody can call a key "Depot North"; that a key is theirs is known
only once somebody has compared it with them and had it kept here.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Self

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives import serialization
from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey, Ed25519PublicKey

from walkaround.base.errors import MachineError
from walkaround.base.message import Text, message
from walkaround.base.plaintext import one_line
from walkaround.disk import locations
from walkaround.disk.durable import read_file
from walkaround.disk.secrets import write_secret

LONGEST_SHOP_NAME = 60
KEY = re.compile("[0-9a-f]{64}")
"""A public key, 32 bytes in hex."""
_SIGNATURE = re.compile("[0-9a-f]{128}")


@dataclass(frozen=True, slots=True)
class ShopKey:
    """This shop's key.

    Attributes:
        shop: what the shop calls itself in what it signs; may be empty.
        public: the public half, in hex.
    """

    shop: str
    public: str
    _private: Ed25519PrivateKey

    @classmethod
    def of(cls, data: Path) -> Self:
        """Take up the key of a data folder; make one if there is none yet.

        Its name is the one that is kept with the key among those that are known.

        Raises:
            MachineError: it cannot be read or written, or is damaged. It is never made anew
                without being asked: others would take what is signed then for a forgery.
        """
        path = locations.sharing(data) / "shop_key.pem"
        if read_file(path) is None:
            write_secret(path, _pem(Ed25519PrivateKey.generate()))
        try:
            key = serialization.load_pem_private_key(read_file(path) or b"", password=None)
        except (ValueError, TypeError) as error:
            raise MachineError(message("shop-key-damaged", path=str(path))) from error
        if not isinstance(key, Ed25519PrivateKey):
            raise MachineError(message("shop-key-damaged", path=str(path)))
        public = key.public_key().public_bytes_raw().hex()
        return cls(known_shops(data).get(public, ""), public, key)

    def sign(self, text: bytes) -> str:
        """Sign this, in hex."""
        return self._private.sign(text).hex()


def shop_name(name: str) -> str:
    """Write a shop's name as it may stand in a file: one line, nothing unseen."""
    return one_line(name)[:LONGEST_SHOP_NAME].strip()


def called(shop: str) -> Text:
    """Tell what a shop is called in a sentence, also one that gave itself no name."""
    return shop or message("exchange-no-name")


def signed_by(key: str, text: bytes, signature: str) -> bool:
    """Tell whether whoever holds the private half of this key signed this."""
    if not KEY.fullmatch(key) or not _SIGNATURE.fullmatch(signature):
        return False
    try:
        Ed25519PublicKey.from_public_bytes(bytes.fromhex(key)).verify(
            bytes.fromhex(signature), text
        )
    except (InvalidSignature, ValueError):
        return False
    return True


def short_key(key: str) -> str:
    """Return the first figures of a key, by which people name one that they know."""
    return key[:4]


def long_key(key: str) -> str:
    """So much of a key as has to be compared before it is known, in fours."""
    return " ".join(key[at : at + 4] for at in range(0, 32, 4))


def known_shops(data: Path) -> Mapping[str, str]:
    """Name the shops whose keys are kept here, by key.

    Raises:
        MachineError: the file is there and cannot be read, or is damaged.
    """
    path = _known(data)
    content = read_file(path)
    if content is None:
        return {}
    try:
        shops = json.loads(content)
    except (ValueError, RecursionError):
        shops = None
    if not isinstance(shops, dict) or not all(isinstance(name, str) for name in shops.values()):
        raise MachineError(message("known-shops-damaged", path=str(path)))
    return {key: shop_name(name) for key, name in shops.items() if KEY.fullmatch(key)}


def know_shop(data: Path, key: str, name: str) -> None:
    """Keep a shop's key: from now on what it signs is said to be of this shop.

    Raises:
        MachineError: it could not be kept.
    """
    shops = {**known_shops(data), key: shop_name(name)}
    write_secret(_known(data), json.dumps(shops, ensure_ascii=False, indent=1).encode())


def _known(data: Path) -> Path:
    return locations.sharing(data) / "known_shops.json"


def _pem(key: Ed25519PrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
