"""The commands of a fleet's database: `publish` and `pull`."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from walkaround.base.errors import InputError, MachineError, Problem
from walkaround.base.message import message
from walkaround.bootstrap import system_clock
from walkaround.cli_exchange import merged_document, merged_text
from walkaround.cli_options import add_data, add_json, data_folder, print_document
from walkaround.disk import locations
from walkaround.disk.durable import read_file
from walkaround.disk.secrets import write_secret
from walkaround.records.open_walks import OpenWalks
from walkaround.records.store import WalkStore
from walkaround.words.language import Words


def add_fleet(commands: Any, words: Words) -> None:
    """Add the commands to those of the command line."""
    publishing = commands.add_parser("publish", help=words("help-publish"))
    publishing.add_argument("address", metavar="ADDRESS", help=words("help-fleet-address"))
    publishing.set_defaults(run=_publish)
    pulling = commands.add_parser("pull", help=words("help-pull"))
    pulling.add_argument("vehicle", metavar="VEHICLE", help=words("help-pull-vehicle"))
    pulling.add_argument("--from", dest="address", metavar="ADDRESS", help=words("help-pull-from"))
    pulling.set_defaults(run=_pull)
    for each in (publishing, pulling):
        add_data(each, words, default=argparse.SUPPRESS)
        add_json(each, words)


def _publish(options: argparse.Namespace) -> int:
    data, words = data_folder(options), options.words
    _look_for_extra()
    from walkaround.fleet.connection import without_password
    from walkaround.fleet.publish import publish

    done = publish(options.address, data)
    write_secret(_kept(data), without_password(options.address).encode())
    left_out = {walk: words.text(why) for walk, why in done.left_out.items()}
    document = {"walks": done.walks, "facts": done.facts, "same": done.same, "left_out": left_out}
    summary = words("cli-published", walks=done.walks, facts=done.facts, same=done.same)
    lines = [words("cli-left-out", walk=walk, why=why) for walk, why in left_out.items()]
    print_document(options, document, "\n".join([summary, *lines]))
    return 1 if left_out else 0


def _pull(options: argparse.Namespace) -> int:
    data = locations.data_dir(options.data)
    _look_for_extra()
    from walkaround.fleet.pull import pull

    kept = (read_file(_kept(data)) or b"").decode("utf-8", "replace")
    address = options.address or kept
    if not address:
        what, mend = message("fleet-no-address-kept"), message("fleet-write-an-address")
        raise InputError([Problem(message("argument"), "--from", what, mend)])
    store = WalkStore(data)
    try:
        merged = pull(address, options.vehicle, data, store, OpenWalks(store, system_clock))
    finally:
        store.close()
    document, text = merged_document(merged, options.words), merged_text(merged, options.words)
    print_document(options, document, text)
    return 1 if merged.refused else 0


def _kept(data: Path) -> Path:
    """Where the address last published to is kept, without its password."""
    return locations.sharing(data) / "fleet.txt"


def _look_for_extra() -> None:
    try:
        import psycopg  # noqa: F401
    except ImportError as error:
        raise MachineError(message("fleet-no-driver")) from error
