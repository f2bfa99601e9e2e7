"""The key with which this shop signs what it shares, and the known keys of other shops.

Keys are Ed25519 (RFC 8032). Anybody can name a key "Depot North"; that it is theirs is known only
once somebody has compared it with them and saved it here.
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
        shop: the name of the shop in what it signs; may be empty.
        public: the public key, in hex.
    """

    shop: str
    public: str
    _private: Ed25519PrivateKey

    @classmethod
    def of(cls, data: Path) -> Self:
        """Read the key of a data folder; make one if there is none yet.

        The shop's name is stored among the known shops.

        Raises:
            MachineError: the key cannot be read or written, or is damaged. A damaged key is never
                replaced: others would take what the new one signs for a forgery.
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
        """Return the signature of this text, in hex."""
        return self._private.sign(text).hex()


def shop_name(name: str) -> str:
    """Clean a shop's name for a file: one line, no invisible characters, not too long."""
    return one_line(name)[:LONGEST_SHOP_NAME].strip()


def shop_label(shop: str) -> Text:
    """Return the name of a shop as shown, also of one without a name."""
    return shop or message("exchange-no-name")


def is_signed_by(key: str, text: bytes, signature: str) -> bool:
    """Tell whether this signature of a text was made with this key; both in hex."""
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
    """Return the first digits of a key, by which people name a known one."""
    return key[:4]


def long_key(key: str) -> str:
    """Return as much of a key as people must compare before it is saved, in fours."""
    return " ".join(key[at : at + 4] for at in range(0, 32, 4))


def known_shops(data: Path) -> Mapping[str, str]:
    """Return the names of the shops whose keys are saved here, by key.

    Raises:
        MachineError: the file cannot be read, or is damaged.
    """
    path = _known_shops_path(data)
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


def save_known_shop(data: Path, key: str, name: str) -> None:
    """Save a shop's key: from now on what it signs is shown with this name.

    Raises:
        MachineError: it could not be saved.
    """
    shops = {**known_shops(data), key: shop_name(name)}
    write_secret(_known_shops_path(data), json.dumps(shops, ensure_ascii=False, indent=1).encode())


def _known_shops_path(data: Path) -> Path:
    return locations.sharing(data) / "known_shops.json"


def _pem(key: Ed25519PrivateKey) -> bytes:
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
