"""Everything that is said of a walk comes from message files and checklists: nothing stays English.

The language of these tests is made of the English files, so that it is always whole.
"""

from __future__ import annotations

from typing import get_args

import pytest
from fluent.syntax import FluentParser
from fluent.syntax.ast import Message, Placeable, Term, TextElement
from fluent.syntax.serializer import serialize_expression
from fluent.syntax.visitor import Visitor
from support.plans import shipped_plans
from support.pseudo_language import (
    accented,
    english_in,
    pseudo_file,
    pseudo_text,
    pseudo_words,
    sources_in,
)
from support.walks import begun

from walkaround.library.languages import message_files
from walkaround.plan.steps import Plan
from walkaround.words.cab import cab_words
from walkaround.words.language import Words
from walkaround.words.measured_values import limit_text
from walkaround.words.prompts import Wording, prompt

PLANS = shipped_plans()


@pytest.fixture(scope="module")
def words() -> Words:
    return pseudo_words(PLANS.values())


class _Pieces(Visitor):
    def __init__(self) -> None:
        self.placeables: list[str] = []
        self.texts: list[str] = []

    def visit_Placeable(self, node: Placeable) -> None:
        if type(node.expression).__name__ != "SelectExpression":
            self.placeables.append(serialize_expression(node.expression))
        self.generic_visit(node)

    def visit_TextElement(self, node: TextElement) -> None:
        self.texts.append(node.value)


def pieces(source: str) -> dict[str, _Pieces]:
    """What each message of a file says, and what is filled into it."""
    entries = FluentParser().parse(source).body
    found = {entry.id.name: _Pieces() for entry in entries if isinstance(entry, Message | Term)}
    for entry in entries:
        if isinstance(entry, Message | Term):
            found[entry.id.name].visit(entry)
    return found


def test_it_has_every_message_with_all_that_is_filled_in_and_no_english() -> None:
    for source in message_files("en"):
        english, pseudo = pieces(source), pieces(pseudo_file(source))
        assert english.keys() == pseudo.keys()
        for id_, message in english.items():
            assert pseudo[id_].placeables == message.placeables, id_
            assert not [word for text in pseudo[id_].texts for word in english_in(text)], id_


def test_its_texts_are_about_two_fifths_longer() -> None:
    sources = message_files("en")
    english = [text for file in sources for each in pieces(file).values() for text in each.texts]
    pseudo = [
        text
        for file in sources
        for each in pieces(pseudo_file(file)).values()
        for text in each.texts
    ]
    assert 1.25 < sum(map(len, pseudo)) / sum(map(len, english)) < 1.5


def test_what_stands_in_braces_is_kept() -> None:
    assert pseudo_text("Charge to {110 psi} at {side}.") == (
        f"{accented('Charge to ')}{{110 psi}}{accented(' at ')}{{side}}."
    )


@pytest.mark.parametrize("whose", PLANS)
def test_no_prompt_of_any_vehicle_holds_a_word_of_english(whose: str, words: Words) -> None:
    plan = PLANS[whose]
    kept = set(sources_in(plan))
    left = set()
    for step in plan.steps:
        for power in ("box", "cab", "helper"):
            for wording in get_args(Wording):
                told = prompt(step, power, wording, words)
                left |= {(step.id, word) for word in english_in(told.say, kept)}
                left |= {(step.id, word) for word in english_in(told.title, kept)}
        if step.measure:
            also = (words.text(each) for each in (*step.measure.also, step.measure.advice))
            for text in (limit_text(step.measure, words), *also):
                left |= {(step.id, word) for word in english_in(text, kept)}
    assert left == set()


@pytest.mark.parametrize("whose", PLANS)
def test_the_cab_hears_no_english(whose: str, words: Words) -> None:
    plan: Plan = PLANS[whose]
    kept = set(sources_in(plan))
    teller = begun(plan)
    first = cab_words(teller.walk, words)
    texts = (first.head, *first.lines, first.outside, first.later, first.say)
    assert not [word for text in texts for word in english_in(text, kept)]
