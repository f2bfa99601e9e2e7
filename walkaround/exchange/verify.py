"""Whether a record file is as it was shared, and by whom: everything that was changed is named."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from walkaround.base.garbage_collection import garbage_collection_off
from walkaround.base.message import Message, message
from walkaround.exchange.arriving import arriving
from walkaround.exchange.opened import RecordFileError, Signer, opened
from walkaround.exchange.shop_key import ShopKey, called, known_shops, long_key, short_key
from walkaround.exchange.signatures import signatures_in
from walkaround.records.walk_file import WalkFile

MOST_FAULTS = 100
"""The most faults that are named for one file."""


@dataclass(slots=True)
class Verified:
    """What was found of a record file.

    Attributes:
        signer: who signed the file; None if nobody did.
        standing: one sentence about that, see `standing`.
        walks, photos: how many there are in it.
        faults: everything that was changed: the id of the walk, "" for what is of no walk, and a
            sentence.
        refused: whether `merge` refuses the file whole, and not only walks that were changed.
    """

    signer: Signer | None = None
    standing: Message = field(default_factory=lambda: message("exchange-not-signed"))
    walks: int = 0
    photos: int = 0
    faults: list[tuple[str, Message]] = field(default_factory=list)
    refused: bool = False


def verify(path: Path, shops: Mapping[str, str]) -> Verified:
    """Look at every byte of a record file.

    Args:
        path: the file.
        shops: names of shops by the keys that are kept of them.

    Raises:
        InputError: there is no such file.
        MachineError: it cannot be read.
    """
    verified = Verified()
    try:
        with opened(path) as file, garbage_collection_off():
            if not file.whole:
                verified.faults.append(("", message("exchange-bytes-changed")))
            verified.signer = file.signer()
            verified.standing = standing(verified.signer, shops)
            if verified.signer and (fault := signer_fault(verified.signer, shops)):
                verified.faults.append(("", fault))
            verified.refused = bool(verified.faults)
            photos = set[str]()
            for _, each in arriving(file, saving=False):
                verified.walks += 1
                verified.faults += [(each.walk_id, fault) for fault in each.faults]
                photos.update(each.photos)
            verified.photos = len(file.photos)
            for photo in sorted(set(file.photos) - photos):
                verified.faults.append(("", message("exchange-photo-of-none", photo=photo[:8])))
    except RecordFileError as error:
        verified.faults.append(("", error.why))
        verified.refused = True
    del verified.faults[MOST_FAULTS:]
    return verified


def standing(signer: Signer | None, shops: Mapping[str, str]) -> Message:
    """Say in a sentence by whom a file or a walk is signed, and whether that shop is known here."""
    if signer is None:
        return message("exchange-not-signed")
    if not signer.holds:
        return message(
            "exchange-changed-since", shop=called(signer.shop), key=short_key(signer.key)
        )
    if signer.key in shops:
        shop = shops[signer.key]
        return message("exchange-signed", shop=called(shop), key=short_key(signer.key))
    return message("exchange-signed-unknown", shop=called(signer.shop), key=long_key(signer.key))


def signer_fault(signer: Signer, shops: Mapping[str, str]) -> Message | None:
    """Say what is wrong with the signature of a file; None if nothing is."""
    if not signer.holds:
        return standing(signer, shops)
    if signer.shop and signer.shop in shops.values() and shops.get(signer.key) != signer.shop:
        return message("exchange-other-key", shop=called(signer.shop), key=long_key(signer.key))
    return None


def standings(walk_id: str, file: WalkFile, shops: Mapping[str, str]) -> list[Message]:
    """Say who signed a walk as it is here, or what it was before; a sentence for each."""
    seals = [event.digest for event in file.events]
    signed = [one for one in signatures_in(file.origin.signed) if one and one.holds(walk_id, seals)]
    whole = [one for one in signed if one.entries == len(seals)]
    signers = [Signer(one.shop, one.key, bool(whole)) for one in whole or signed[:1]]
    return [standing(signer, shops) for signer in signers] or [standing(None, shops)]


def shop_of(data: Path, walk_id: str, file: WalkFile) -> str:
    """Name the shop in which a walk was made, by the keys kept in its data folder.

    That is this shop, or of a walk from elsewhere the one that signed all of it.

    Returns:
        Empty where no name is kept.

    Raises:
        MachineError: the keys cannot be read.
    """
    shops = known_shops(data)
    if not shops:
        # Nothing is named, this shop neither; to read a walk makes no key for it.
        return ""
    if not file.origin.elsewhere:
        return ShopKey.of(data).shop
    seals = [event.digest for event in file.events]
    signed = (one for one in signatures_in(file.origin.signed) if one)
    return next(
        (
            shops[one.key]
            for one in signed
            if one.key in shops and one.entries == len(seals) and one.holds(walk_id, seals)
        ),
        "",
    )
