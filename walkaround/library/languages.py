"""The shipped languages: their messages, and the translations of checklists.

A language is a folder of `walkaround/words` with message files. The translations of the shipped
checklists and tables are in a folder of the same name in `checklists/`, one file for each: TOML
whose keys, joined by `/`, are the ids of the texts, each with the checklist's text and its
translation. If the checklist's text has changed since, it is not translated, so that an outdated
instruction is never given.
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
    """Return the code of each language that has message files, in alphabetical order."""
    folders = (folder for folder in _WORDS.iterdir() if folder.is_dir() and _messages(folder))
    return tuple(sorted(folder.name for folder in folders))


def message_files(language: str) -> tuple[str, ...]:
    """Return the text of each message file of a language.

    Args:
        language: the code of the language, a folder of `walkaround/words`, such as `en`.
    """
    return tuple(file.read_text(encoding="utf-8") for file in _messages(_WORDS / language))


def checklist_texts(language: str) -> dict[tuple[str, str], str]:
    """Return the translations of the shipped checklists and tables in a language.

    Returns:
        The translated text by the id of the `Message`, such as `air_brakes_trailer/lines_on/title`,
        and its text in the checklist.
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
