"""The commands that hand walks on and bring them together: `share`, `merge`, `verify`."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import message
from walkaround.bootstrap import system_clock
from walkaround.cli_options import add_data, add_json, add_output, data_folder, print_document
from walkaround.disk import locations
from walkaround.exchange.merge import Merged, merge
from walkaround.exchange.share import share
from walkaround.exchange.shop_key import ShopKey, known_shops, long_key, save_known_shop, shop_label
from walkaround.exchange.verify import Verified, verify
from walkaround.records.open_walks import OpenWalks
from walkaround.records.photos import PhotoFolder
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.words.language import Words


def add_exchange(commands: Any, words: Words) -> None:
    """Add the commands to those of the command line."""
    sharing = commands.add_parser("share", help=words("help-share"))
    sharing.add_argument("walks", nargs="*", metavar="WALK", help=words("help-share-walk"))
    add_output(sharing, words("help-share-output"), required=True)
    sharing.add_argument("--shop", metavar="NAME", help=words("help-share-shop"))
    sharing.set_defaults(run=_share)
    merging = commands.add_parser("merge", help=words("help-merge"))
    merging.add_argument("files", type=Path, nargs="+", metavar="FILE")
    merging.set_defaults(run=_merge)
    verifying = commands.add_parser("verify", help=words("help-verify"))
    verifying.add_argument("file", type=Path, metavar="FILE")
    verifying.add_argument("--keep-as", metavar="NAME", help=words("help-verify-keep"))
    verifying.set_defaults(run=_verify)
    for each in (sharing, merging, verifying):
        add_data(each, words, default=argparse.SUPPRESS)
        add_json(each, words)


def _share(options: argparse.Namespace) -> int:
    data, words = data_folder(options), options.words
    key = ShopKey.of(data)
    if options.shop is not None:
        save_known_shop(data, key.public, options.shop)
        key = ShopKey.of(data)
    shared = share(options.output, WalkReader(data), PhotoFolder(data), options.walks, key)
    left_out = {walk: words.text(why) for walk, why in shared.left_out.items()}
    document = {
        "file": str(options.output),
        "walks": shared.walks,
        "left_out": left_out,
        "shop": key.shop,
        "key": key.public,
    }
    signed = {"shop": shop_label(key.shop), "key": long_key(key.public)}
    summary = words("cli-shared", count=len(shared.walks), **signed)
    lines = [words("cli-left-out", walk=walk, why=why) for walk, why in left_out.items()]
    print_document(options, document, "\n".join([summary, *lines]))
    return 1 if left_out else 0


def _merge(options: argparse.Namespace) -> int:
    data = locations.data_dir(options.data)
    store = WalkStore(data)
    try:
        merged = merge(options.files, data, store, OpenWalks(store, system_clock))
    finally:
        store.close()
    print_document(
        options, merged_document(merged, options.words), merged_text(merged, options.words)
    )
    return 1 if merged.refused else 0


def merged_document(merged: Merged, words: Words) -> dict[str, Any]:
    """Tell what became of the walks of some record files, for programs."""
    return {
        "added": sorted(merged.added),
        "same": sorted(merged.same),
        "conflicts": sorted(merged.conflicts),
        "refused": sorted(merged.refused),
        "reasons": {walk: words.text(why) for walk, why in sorted(merged.refused.items())},
        "signed": [words.text(signed) for signed in merged.signer_messages],
    }


def merged_text(merged: Merged, words: Words) -> str:
    """Tell what became of the walks of some record files, for people."""
    lines = [words.text(merged.counts)]
    lines += [words.text(signed) for signed in merged.signer_messages]
    lines += [words("exchange-conflict", walk=walk) for walk in sorted(merged.conflicts)]
    lines += [words.text(why) for _, why in sorted(merged.refused.items())]
    return "\n".join(lines)


def _verify(options: argparse.Namespace) -> int:
    data, words = locations.data_dir(options.data), options.words
    verified = verify(options.file, known_shops(data))
    if options.keep_as is not None:
        if verified.faults or verified.signer is None:
            what = message("problem-key-not-kept")
            mend = message("problem-keep-of-a-sound-file")
            raise InputError([Problem(message("argument"), "--keep-as", what, mend)])
        save_known_shop(data, verified.signer.key, options.keep_as)
        verified = verify(options.file, known_shops(data))
    print_document(options, _verified(verified, words), _verified_text(verified, words))
    return 1 if verified.faults else 0


def _verified(verified: Verified, words: Words) -> dict[str, Any]:
    signer = verified.signer
    return {
        "changed": bool(verified.faults),
        "changes": [{"walk": walk, "what": words.text(what)} for walk, what in verified.faults],
        "signed": words.text(verified.signer_message),
        "signed_by": {"shop": signer.shop, "key": signer.key} if signer else None,
        "walks": verified.walks,
        "photos": verified.photos,
    }


def _verified_text(verified: Verified, words: Words) -> str:
    lines = [words.text(what) for _, what in verified.faults]
    if not lines:
        lines = [words("cli-verified", walks=verified.walks, photos=verified.photos)]
    return "\n".join(dict.fromkeys([words.text(verified.signer_message), *lines]))
