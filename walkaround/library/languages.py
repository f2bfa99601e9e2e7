"""Reads the message files of a language, which come with the app."""

from __future__ import annotations

from importlib.resources import files


def message_files(language: str) -> tuple[str, ...]:
    """The text of each message file of this language.

    Args:
        language: a folder of `walkaround/words`, such as `en`.
    """
    folder = files("walkaround.words") / language
    named = sorted((file.name, file) for file in folder.iterdir() if file.name.endswith(".ftl"))
    return tuple(file.read_text(encoding="utf-8") for _, file in named)
