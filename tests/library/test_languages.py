"""Message files: complete, and every message of them is said somewhere."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from fluent.syntax import FluentParser
from fluent.syntax.ast import BaseNode, Junk, Message, MessageReference, Term
from fluent.syntax.visitor import Visitor
from support.english import ENGLISH

import walkaround
from walkaround.bootstrap import language_words
from walkaround.library.languages import checklist_texts, languages, message_files
from walkaround.words.language import entries_of as parts_of

PACKAGE = Path(walkaround.__file__).parent
SAYING = ("message", "words", "self")


def called_with() -> Iterator[str]:
    """The first argument of each call that says a message; `answer-*` where it is made up."""
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call) or not node.args:
                continue
            if ast.unparse(node.func).split(".")[-1] in SAYING:
                yield from ids_in(node.args[0])


def ids_in(node: ast.expr) -> Iterator[str]:
    if isinstance(node, ast.IfExp):
        yield from ids_in(node.body)
        yield from ids_in(node.orelse)
    elif isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield node.value
    elif isinstance(node, ast.JoinedStr):
        parts = [p.value if isinstance(p, ast.Constant) else "*" for p in node.values]
        yield "".join(str(part) for part in parts)


def entries_of(language: str) -> list[BaseNode]:
    return [entry for text in message_files(language) for entry in FluentParser().parse(text).body]


def referred_to(language: str) -> list[str]:
    """The messages that stand inside other messages of this language."""
    ids: list[str] = []

    class References(Visitor):
        def visit_MessageReference(self, node: MessageReference) -> None:
            ids.append(node.id.name)

    for entry in entries_of(language):
        References().visit(entry)
    return ids


def defined(language: str) -> list[str]:
    entries = entries_of(language)
    assert not [entry for entry in entries if isinstance(entry, Junk)]
    return [entry.id.name for entry in entries if isinstance(entry, Message)]


def fits(id_: str, pattern: str) -> bool:
    return Path(id_).match(pattern) if "*" in pattern else id_ == pattern


@pytest.mark.parametrize("language", languages())
def test_every_entry_is_read_by_itself_as_fluent_reads_the_whole_file(language: str) -> None:
    """fluent.syntax, the reference parser, on the one hand; the cuts of `words` on the other."""
    whole = [entry for entry in entries_of(language) if isinstance(entry, Message | Term)]
    cut = parts_of(message_files(language))
    assert len(whole) == len(cut)
    for entry, (name, part) in zip(whole, cut.items(), strict=True):
        (alone,) = FluentParser().parse(part).body
        assert name == ("-" if isinstance(entry, Term) else "") + entry.id.name
        assert entry.equals(alone, ignored_fields=["span", "comment"]), name


def test_no_message_stands_twice() -> None:
    ids = defined("en")
    assert sorted(ids) == sorted(set(ids))


def test_every_message_that_is_said_is_there() -> None:
    ids = defined("en")
    assert [said for said in set(called_with()) if not any(fits(id_, said) for id_ in ids)] == []


def test_every_message_that_is_there_is_said() -> None:
    said = set(called_with()) | set(referred_to("en"))
    assert [id_ for id_ in defined("en") if not any(fits(id_, each) for each in said)] == []


def test_english_spanish_and_a_begun_language_come_with_the_app() -> None:
    assert languages() == ("de", "en", "es")


@pytest.mark.parametrize("language", [each for each in languages() if each != "en"])
def test_a_language_says_nothing_that_english_does_not(language: str) -> None:
    ids = defined(language)
    assert sorted(ids) == sorted(set(ids))
    assert set(ids) <= set(defined("en"))


def test_what_checklists_say_is_found_by_its_id_and_what_it_was_written_as() -> None:
    written = "Charge red to {supply_psi}"
    texts = checklist_texts("es")
    assert (
        texts["air_brakes_trailer/supply_charged/title", written] == "Cargue la roja a {supply_psi}"
    )
    assert checklist_texts("de") == {}


def test_a_language_that_is_not_whole_says_once_what_it_lacks(
    caplog: pytest.LogCaptureFixture,
) -> None:
    language_words.cache_clear()
    with caplog.at_level("INFO"):
        german = language_words("de")
        german("home-go-on")
        german("answer-ok")
    assert german("home-go-on") == "Weiter"
    assert german("page-to-start") == ENGLISH("page-to-start")
    told = [record.message for record in caplog.records]
    assert told == [f"de lacks {german.lacking} messages, which are shown in English"]
    assert german.lacking > 500


def test_a_language_without_files_is_refused() -> None:
    with pytest.raises(FileNotFoundError):
        message_files("xx")
    assert ENGLISH.language == "en"
