"""A walk in Spanish: nothing is left in English, and it takes hardly longer to hear."""

from __future__ import annotations

from typing import get_args

import pytest
from support.english import ENGLISH
from support.plans import shipped_plans
from support.pseudo_language import sources_in
from support.spanish import SPANISH, english_words
from support.walks import begun

from walkaround.words.cab import cab_words
from walkaround.words.measured_values import limit_text
from walkaround.words.prompts import Wording, prompt, words_said

PLANS = shipped_plans()
LONGER = 1.25
"""A prompt is heard at a wheel or in an exhaust's noise: so much longer it may be, and no more."""


@pytest.mark.parametrize("together", [False, True])
@pytest.mark.parametrize("whose", PLANS)
def test_no_prompt_of_any_vehicle_is_left_in_english(whose: str, together: bool) -> None:
    plan = shipped_plans(together)[whose]
    # Sources are quoted as they were published, also where they are spoken.
    sources = set(sources_in(plan))
    kept = sources | {SPANISH.spoken(source) for source in sources}
    left = set()
    for step in plan.steps:
        for power in ("box", "cab", "helper"):
            for wording in get_args(Wording):
                told = prompt(step, power, wording, SPANISH)
                texts = (told.title, told.body, told.pins, told.say, SPANISH.spoken(told.say))
                left |= {(step.id, word) for text in texts for word in english_words(text, kept)}
        if step.measure:
            also = (SPANISH.text(each) for each in (*step.measure.also, step.measure.advice))
            for text in (limit_text(step.measure, SPANISH), *also):
                left |= {(step.id, word) for word in english_words(text, kept)}
    assert left == set()


@pytest.mark.parametrize("whose", PLANS)
def test_the_cab_hears_no_english(whose: str) -> None:
    first = cab_words(begun(PLANS[whose]).walk, SPANISH)
    texts = (first.head, *first.lines, first.outside, first.later, first.say)
    kept = set(sources_in(PLANS[whose]))
    assert not [word for text in texts for word in english_words(text, kept)]


@pytest.mark.parametrize("wording", get_args(Wording))
@pytest.mark.parametrize("whose", PLANS)
def test_a_walk_is_heard_in_hardly_more_words(whose: str, wording: Wording) -> None:
    plan = PLANS[whose]
    assert words_said(plan, wording, SPANISH) <= LONGER * words_said(plan, wording, ENGLISH)


def test_nothing_is_spoken_with_a_digit_or_a_unit_left() -> None:
    said = {
        SPANISH.spoken(prompt(step, plan.power, wording, SPANISH).say)
        for plan in PLANS.values()
        for step in plan.steps
        for wording in get_args(Wording)
    }
    assert not [text for text in said if any(c.isdigit() for c in text)]
    assert not [text for text in said if {"psi", "in", "mm"} & set(text.split())]


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        (("lamps-both", "luz de cola"), "ambas luces de cola"),
        (("lamps-both", "reflector"), "ambos reflectores"),
        (("lamps-both", "faro"), "ambos faros"),
    ],
)
def test_lamps_are_counted_with_their_gender(asked: tuple[str, str], said: str) -> None:
    id_, lamp = asked
    assert SPANISH(id_, lamps=SPANISH("lamp-plural", lamp=lamp)) == said


@pytest.mark.parametrize(
    ("lamp", "said"),
    [("luz de cola", "luz de cola izquierda"), ("reflector", "reflector izquierdo")],
)
def test_a_side_agrees_with_its_lamp(lamp: str, said: str) -> None:
    assert SPANISH("lamp-on-side", lamp=lamp, side=SPANISH("side-left")) == said
