"""Reads what comes with the app in a language: its messages, and what checklists say in it.

A language is a folder of `walkaround/words` with message files. What the shipped checklists and
tables say stands in a folder of the same name in `checklists/`, a file for each of theirs: TOML
whose keys, joined by `/`, are the ids of the texts, each with what the checklist says and what that
is in this language. A text that has changed since is not translated, lest an old order be said.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable

from walkaround.disk.locations import shipped
from walkaround.library.toml_file import read_table
from walkaround.library.validate import Table

_WORDS = files("walkaround.words")


@cache
def languages() -> tuple[str, ...]:
    """List the code of each language that has message files, in the order of the alphabet."""
    folders = (folder for folder in _WORDS.iterdir() if folder.is_dir() and _messages(folder))
    return tuple(sorted(folder.name for folder in folders))


def message_files(language: str) -> tuple[str, ...]:
    """Yield the text of each message file of this language.

    Args:
        language: a folder of `walkaround/words`, such as `en`.
    """
    return tuple(file.read_text(encoding="utf-8") for file in _messages(_WORDS / language))


def checklist_texts(language: str) -> dict[tuple[str, str], str]:
    """Tell what the shipped checklists and tables say, in this language.

    Returns:
        By the id of the `Message`, such as `air_brakes_trailer/lines_on/title`, and its text as
        the checklist has it: the text in this language.
    """
    paths = sorted((shipped() / language).glob("*.toml"))
    return {
        (f"{path.stem}/{id_}", written): text
        for path in paths
        for id_, (written, text) in _texts(read_table(path))
    }


def _messages(folder: Traversable) -> list[Traversable]:
    return sorted(
        (file for file in folder.iterdir() if file.name.endswith(".ftl")),
        key=lambda file: file.name,
    )


def _texts(table: Table) -> Iterator[tuple[str, list[str]]]:
    for key, value in table.items():
        if isinstance(value, dict):
            yield from ((f"{key}/{id_}", pair) for id_, pair in _texts(value))
        else:
            yield key, value
