"""What several commands of the command line have: options, the data folder, how they print."""

from __future__ import annotations

import argparse
import json
from pathlib import Path
from typing import Any

from walkaround.base.errors import MachineError
from walkaround.base.message import message
from walkaround.base.plaintext import written_out
from walkaround.disk import locations
from walkaround.words.language import Words


def add_data(parser: argparse.ArgumentParser, words: Words, default: str | None = None) -> None:
    """Add --data; suppressed by default, it is what was said before the command."""
    help_ = words("help-data")
    parser.add_argument("--data", type=Path, metavar="DIR", default=default, help=help_)


def add_output(parser: argparse.ArgumentParser, help_: str, *, required: bool) -> None:
    """Add -o, the file to write."""
    add = parser.add_argument
    add("-o", "--output", type=Path, metavar="FILE", required=required, help=help_)


def add_json(parser: argparse.ArgumentParser, words: Words) -> None:
    """Add --json."""
    parser.add_argument("--json", action="store_true", help=words("help-json"))


def data_folder(options: argparse.Namespace) -> Path:
    """Name the data folder; one that was named must be there.

    Raises:
        MachineError: it is not.
    """
    data = locations.data_dir(options.data)
    if options.data and not data.is_dir():
        raise MachineError(message("cli-no-data-folder", folder=str(data)))
    return data


def print_document(options: argparse.Namespace, document: dict[str, Any], text: str) -> None:
    """Print the document if JSON was asked for, else the text."""
    printed = json.dumps(document, ensure_ascii=False, indent=1) if options.json else text
    print(written_out(printed), flush=True)
