"""Which English message each translated one was made from, so that a change of English is noticed.

Beside the message files of a language stands `made_from.txt`: a line a message, its id and a digest
of the English that its translator saw. From the folder `tests`, once a message is translated anew:

    python -m support.made_from es home-go-on      # these ids
    python -m support.made_from es                 # those that had no line yet
"""

from __future__ import annotations

import sys
from hashlib import sha256
from pathlib import Path

from fluent.syntax import FluentParser, FluentSerializer
from fluent.syntax.ast import Message

import walkaround
from walkaround.library.languages import message_files

_DIGITS = 8


def digests(language: str = "en") -> dict[str, str]:
    """By id a digest of each message of a language: of what is said, not of comments."""
    of_each: dict[str, str] = {}
    for text in message_files(language):
        for entry in FluentParser().parse(text).body:
            if isinstance(entry, Message):
                entry.comment = None
                said = FluentSerializer().serialize_entry(entry)
                of_each[entry.id.name] = sha256(said.encode()).hexdigest()[:_DIGITS]
    return of_each


def file_of(language: str) -> Path:
    return Path(walkaround.__file__).parent / "words" / language / "made_from.txt"


def made_from(language: str) -> dict[str, str]:
    """By id the digest of the English that each message of a language was made from."""
    lines = file_of(language).read_text(encoding="ascii").splitlines()
    return dict(line.split() for line in lines)


def changed(made: dict[str, str], english: dict[str, str], translated: set[str]) -> list[str]:
    """The ids of messages whose English is another by now, or was never noted, or is gone."""
    wanted = {id_: english.get(id_) for id_ in translated}
    return sorted(id_ for id_ in wanted.keys() | made.keys() if wanted.get(id_) != made.get(id_))


def note(language: str, ids: list[str]) -> None:
    """Note that these messages, or all that had no line, say what today's English says."""
    english, path = digests(), file_of(language)
    before = made_from(language) if path.exists() else {}
    rows = {
        id_: english[id_] if id_ in ids or id_ not in before else before[id_]
        for id_ in digests(language)
    }
    text = "".join(f"{id_} {rows[id_]}\n" for id_ in sorted(rows))
    path.write_text(text, encoding="ascii")


if __name__ == "__main__":
    note(sys.argv[1], sys.argv[2:])
