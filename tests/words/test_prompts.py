"""The words for each step, short and long."""

from __future__ import annotations

import re
from typing import get_args

import pytest
from support.english import ENGLISH
from support.plans import shipped_plans
from support.walks import STEPS, begun, plan, step

from walkaround.plan.steps import OTHERS, Step
from walkaround.rules.checklist import Station, Wording
from walkaround.words.prompts import place_words, prompt, summary_words, words_said
from walkaround.words.spoken import spoken

SEMI, PUMP = "sandbag_semitrailer_7", "pump_trailer_3"
ALL_STEPS = [
    pytest.param(step_, id=f"{whose}-{step_.id}")
    for whose, plan in shipped_plans().items()
    for step_ in plan.steps
]


def words(whose: str, step_id: str, power: str = "box", wording: str = "short") -> str:
    found = shipped_plans()[whose].step(step_id)
    assert found is not None
    return prompt(found, power, "long" if wording == "long" else "short", ENGLISH).body


@pytest.mark.parametrize(
    ("whose", "step_id", "first", "then"),
    [
        (
            SEMI,
            "tail_rear",
            "At the rear. Pin 6 on, tail.",
            "Two tail lamps and three rear identification lamps, steady. Nothing else lit.",
        ),
        (
            SEMI,
            "left_turn_rear",
            "At the rear. Pin 3 on, left turn.",
            "Left rear turn signal, flashing. Nothing else lit.",
        ),
        (
            SEMI,
            "stop_rear",
            "At the rear. Pin 4 on, stop.",
            "Two stop lamps, steady. Nothing else lit.",
        ),
        (
            SEMI,
            "marker_front",
            "At the front. Pin 2 on, marker.",
            "Two front clearance lamps, steady. Nothing else lit.",
        ),
        (
            SEMI,
            "marker_right_side",
            "Along the right side. Pin 2 on, marker.",
            "Front, intermediate, and rear side marker lamps, steady. Nothing else lit.",
        ),
        (
            SEMI,
            "abs_left_side",
            "Along the left side. Stand where you see the ABS lamp. Pin 7 on, ABS.",
            "It lights for a moment, then goes out.",
        ),
        (
            SEMI,
            "reflectors_left_side",
            "Along the left side. Rear, intermediate, and front side reflectors",
            "and side reflective tape: there, whole and clean?",
        ),
        (
            PUMP,
            "left_stop_turn_rear",
            "At the rear. Pin B on, left stop and turn.",
            "Left stop lamp and left rear turn signal, flashing. Nothing else lit.",
        ),
        (
            PUMP,
            "blackout_marker_rear",
            "At the rear. Pins A, C, and H on, blackout marker.",
            "Two rear blackout markers, steady. Nothing else lit.",
        ),
    ],
)
def test_a_lamp_step_says_where_what_is_on_and_what_must_be_seen(
    whose: str, step_id: str, first: str, then: str
) -> None:
    assert words(whose, step_id) == f"{first} {then}"


@pytest.mark.parametrize("whose", [SEMI, PUMP])
def test_long_words_begin_with_the_short_ones_of_a_lamp_and_teach(whose: str) -> None:
    for lamp in shipped_plans()[whose].steps:
        if lamp.kind == "lamp":
            short, long = (words(whose, lamp.id, wording=w) for w in ("short", "long"))
            assert long.startswith(short)
            taught = [i for i in lamp.items if i.id != OTHERS]
            assert all(str(item.what) in long and str(item.why) in long for item in taught)


def test_a_box_without_a_flasher_is_told_of_only_where_there_is_one() -> None:
    steady = "lights it steady: that is right too"
    assert steady in words(SEMI, "left_turn_rear", wording="long")
    assert steady not in words(SEMI, "left_turn_rear", "cab", wording="long")
    assert steady not in words(SEMI, "tail_rear", wording="long")


@pytest.mark.parametrize("each", ALL_STEPS)
def test_a_warning_is_said_before_the_act_it_warns_of(each: Step) -> None:
    for wording in get_args(Wording):
        found = prompt(each, "box", wording, ENGLISH)
        assert found.say.endswith(found.body)
        if each.caution:
            assert found.say.startswith(str(each.caution))
        if each.meter_first:
            assert str(each.meter_first) in found.say.removesuffix(found.body)


@pytest.mark.parametrize("each", ALL_STEPS)
def test_every_prompt_is_whole_sentences_that_can_be_said(each: Step) -> None:
    for power in ("box", "cab", "helper"):
        for wording in get_args(Wording):
            found = prompt(each, power, wording, ENGLISH)
            assert re.search(r"[.?]$", found.say), found.say
            assert not re.search(r"  |\.\.|[{}]|None", found.say), found.say
            assert not re.search(r"\d", spoken(found.say))
            assert not re.search(r"(?i)\bsafe\b", found.say)


@pytest.mark.parametrize("each", ALL_STEPS)
def test_what_the_experienced_hear_fits_one_breath(each: Step) -> None:
    # About 2.7 words a second at 160 words per minute; the longest takes some 20 seconds with
    # its warning, the body alone well under 15.
    assert len(prompt(each, "box", "short", ENGLISH).body.split()) <= 36


@pytest.mark.parametrize(
    ("title", "brisk", "said"),
    [
        ("Chocks on", "Left side. Chocks, front and back.", "Left side. Chocks, front and back."),
        ("Chocks on", "", "Chocks on."),
        ("Pushrods out? Any leaks?", "", "Pushrods out? Any leaks?"),
    ],
)
def test_who_knows_the_walk_hears_the_brisk_words_or_else_the_title(
    title: str, brisk: str, said: str
) -> None:
    written = step("chocks", "secure", "act", title=title, short="Short.", brisk=brisk)
    assert prompt(written, "box", "brisk", ENGLISH).say == said


def test_every_place_has_its_words() -> None:
    said = {
        place_words(step("x", "lamps", "look", spot=spot), ENGLISH) for spot in get_args(Station)
    }
    assert len(said) == len(get_args(Station))


def test_the_end_of_a_walk_tells_what_is_open_and_what_was_left() -> None:
    teller = begun()
    teller.ok("chocks")
    assert "No open defect." in summary_words(teller.walk, ENGLISH)
    teller.found("tail_rear", tail_left="dark")
    left = len([s for s in STEPS if s.kind != "act"]) - 1
    assert f"1 open defect. {left} not checked." in summary_words(teller.walk, ENGLISH)
    teller.found("backup_rear", backup_centre="dark")
    assert "2 open defects." in summary_words(teller.walk, ENGLISH)
    assert not re.search(r"(?i)\bsafe\b", summary_words(teller.walk, ENGLISH))


def test_words_are_counted_as_they_are_said() -> None:
    acts = tuple(
        step(f"s{n}", "secure", "act", title="x", **texts)
        for n, texts in enumerate(
            (
                {"short": "Set 110 psi.", "long": "Set 110 psi, and wait."},
                {"short": "Wait.", "caution": "Stand clear.", "long": "Wait."},
            )
        )
    )
    # "Set one hundred ten P S I."; "Stand clear. Wait."
    assert words_said(plan(acts), "short", ENGLISH) == 7 + 3
    assert words_said(plan(acts), "long", ENGLISH) == 9 + 3
