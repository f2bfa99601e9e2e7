"""Verifying: whether a record file is as it was shared, and by whom; every change is named."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from walkaround.base.garbage_collection import garbage_collection_off
from walkaround.base.message import Message, message
from walkaround.exchange.file_walks import read_walks
from walkaround.exchange.record_file_reader import RecordFileError, Signer, open_record_file
from walkaround.exchange.shop_key import ShopKey, known_shops, long_key, shop_label, short_key
from walkaround.exchange.signatures import signatures_in
from walkaround.records.walk_file import WalkFile

MOST_FAULTS = 100
"""The most faults that are listed for one file."""


@dataclass(slots=True)
class Verified:
    """The result of verifying a record file.

    Attributes:
        signer: who signed the file; None if nobody did.
        signer_message: one sentence about the signer.
        walks, photos: how many there are in it.
        faults: every change: the id of the walk, "" if it concerns none, and a sentence.
        refused: whether `merge` refuses the whole file, and not only changed walks.
    """

    signer: Signer | None = None
    signer_message: Message = field(default_factory=lambda: message("exchange-not-signed"))
    walks: int = 0
    photos: int = 0
    faults: list[tuple[str, Message]] = field(default_factory=list)
    refused: bool = False


def verify(path: Path, shops: Mapping[str, str]) -> Verified:
    """Check every byte of a record file.

    Args:
        path: the path of the file.
        shops: the names of known shops, by key.

    Raises:
        InputError: there is no such file.
        MachineError: it cannot be read.
    """
    verified = Verified()
    try:
        with open_record_file(path) as file, garbage_collection_off():
            if not file.whole:
                verified.faults.append(("", message("exchange-bytes-changed")))
            verified.signer = file.signer()
            verified.signer_message = signer_message(verified.signer, shops)
            if verified.signer and (fault := signer_fault(verified.signer, shops)):
                verified.faults.append(("", fault))
            verified.refused = bool(verified.faults)
            photos_of_walks = set[str]()
            for _, file_walk in read_walks(file, saving=False):
                verified.walks += 1
                verified.faults += [(file_walk.walk_id, fault) for fault in file_walk.faults]
                photos_of_walks.update(file_walk.photos)
            verified.photos = len(file.photos)
            for photo in sorted(set(file.photos) - photos_of_walks):
                verified.faults.append(("", message("exchange-photo-of-none", photo=photo[:8])))
    except RecordFileError as error:
        verified.faults.append(("", error.why))
        verified.refused = True
    del verified.faults[MOST_FAULTS:]
    return verified


def signer_message(signer: Signer | None, shops: Mapping[str, str]) -> Message:
    """Say in a sentence who signed a file or a walk, and whether that shop is known here."""
    if signer is None:
        return message("exchange-not-signed")
    if not signer.holds:
        return message(
            "exchange-changed-since", shop=shop_label(signer.shop), key=short_key(signer.key)
        )
    if signer.key in shops:
        shop = shops[signer.key]
        return message("exchange-signed", shop=shop_label(shop), key=short_key(signer.key))
    return message(
        "exchange-signed-unknown", shop=shop_label(signer.shop), key=long_key(signer.key)
    )


def signer_fault(signer: Signer, shops: Mapping[str, str]) -> Message | None:
    """Say what is wrong with the signature of a file; return None if nothing is."""
    if not signer.holds:
        return signer_message(signer, shops)
    if signer.shop and signer.shop in shops.values() and shops.get(signer.key) != signer.shop:
        return message("exchange-other-key", shop=shop_label(signer.shop), key=long_key(signer.key))
    return None


def signer_messages(walk_id: str, file: WalkFile, shops: Mapping[str, str]) -> list[Message]:
    """Say who signed a walk, or an earlier state of it; one sentence for each signer."""
    seals = [event.digest for event in file.events]
    signatures = [
        one for one in signatures_in(file.origin.signed) if one and one.holds(walk_id, seals)
    ]
    whole = [one for one in signatures if one.entries == len(seals)]
    signers = [Signer(one.shop, one.key, bool(whole)) for one in whole or signatures[:1]]
    return [signer_message(signer, shops) for signer in signers] or [signer_message(None, shops)]


def shop_of(data: Path, walk_id: str, file: WalkFile) -> str:
    """Return the name of the shop in which a walk was made; empty if no name is known.

    That is this shop; for a walk from elsewhere it is the shop that signed all of it.

    Raises:
        MachineError: the keys cannot be read.
    """
    shops = known_shops(data)
    if not shops:
        # No shop has a name, not even this one; reading a walk must not make a key for it.
        return ""
    if not file.origin.elsewhere:
        return ShopKey.of(data).shop
    seals = [event.digest for event in file.events]
    signatures = (one for one in signatures_in(file.origin.signed) if one)
    return next(
        (
            shops[one.key]
            for one in signatures
            if one.key in shops and one.entries == len(seals) and one.holds(walk_id, seals)
        ),
        "",
    )
