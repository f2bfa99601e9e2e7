"""Spanish lacks nothing: each message, and each text of a checklist, with its placeholders."""

from __future__ import annotations

import re
from functools import cache

import pytest
from fluent.syntax import FluentParser
from fluent.syntax.ast import Message, MessageReference, Term, TermReference, VariableReference
from fluent.syntax.visitor import Visitor
from support.checklist_texts import shipped_texts

from walkaround.library.languages import checklist_texts, message_files

_PLACEHOLDER = re.compile(r"\{[^{}]*\}")


class _Filled(Visitor):
    """What goes into a message: arguments, and other messages."""

    def __init__(self) -> None:
        self.names: set[str] = set()

    def visit_VariableReference(self, node: VariableReference) -> None:
        self.names.add(f"${node.id.name}")

    def visit_MessageReference(self, node: MessageReference) -> None:
        self.names.add(node.id.name)

    def visit_TermReference(self, node: TermReference) -> None:
        self.names.add(f"-{node.id.name}")


@cache
def filled(language: str) -> dict[str, set[str]]:
    """What goes into each message of a language, by its id."""
    found = {}
    for source in message_files(language):
        for entry in FluentParser().parse(source).body:
            if isinstance(entry, Message | Term):
                visitor = _Filled()
                visitor.visit(entry)
                found[entry.id.name] = visitor.names
    return found


def test_every_message_is_there() -> None:
    assert sorted(filled("en").keys() - filled("es").keys()) == []


def test_into_each_message_goes_what_goes_into_the_english_one() -> None:
    english, spanish = filled("en"), filled("es")
    of_both = {id_: (english[id_], spanish[id_]) for id_ in english.keys() & spanish.keys()}
    assert {id_: both for id_, both in of_both.items() if both[0] != both[1]} == {}


def test_every_text_of_a_checklist_is_there_as_it_is_written_now() -> None:
    """A text that was changed is to be translated anew; one that is gone, to be taken out."""
    assert set(shipped_texts().items()) ^ set(checklist_texts("es")) == set()


@pytest.mark.parametrize("named", sorted({id_.partition("/")[0] for id_ in shipped_texts()}))
def test_placeholders_of_a_checklists_texts_are_kept(named: str) -> None:
    told = {
        id_: (set(_PLACEHOLDER.findall(written)), set(_PLACEHOLDER.findall(text)))
        for (id_, written), text in checklist_texts("es").items()
        if id_.startswith(f"{named}/")
    }
    assert {id_: both for id_, both in told.items() if both[0] != both[1]} == {}
