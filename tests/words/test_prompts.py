"""The words for each step, short and long."""

from __future__ import annotations

import re
from datetime import date
from typing import get_args

import pytest
from support.english import ENGLISH
from support.plans import shipped_plans
from support.walks import STEPS, begun, plan, step

from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.plan.steps import UNPLACED, Step
from walkaround.rules.checklist import Station, Wording
from walkaround.words.prompts import place_words, prompt, summary_words, words_said
from walkaround.words.pronunciation import pronounced

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
    ("whose", "step_id", "said"),
    [
        (SEMI, "tail_rear", "Rear. Tail lamps on. Three ID lamps, both tails on; rest dark."),
        (SEMI, "left_turn_rear", "Rear. Left turn on. Left turn flashing; rest dark."),
        (
            SEMI,
            "stop_rear",
            "Rear. Stop lamps on. Both stops on; rest dark. Upper white tape, both reflectors, "
            "lower tape: all there, none broken, clean? Anything else?",
        ),
        (
            SEMI,
            "marker_front",
            "Front. Clearance and markers on. Both clearance lamps on. Anything else?",
        ),
        (
            SEMI,
            "marker_right_side",
            "Right side. Clearance and markers on. Three side markers on. Three reflectors, side "
            "tape: all there, none broken, clean? Anything else?",
        ),
        (
            SEMI,
            "abs_left_side",
            "Left side. Watch the ABS lamp. ABS power on; rest off. It lights, then goes out.",
        ),
        (
            PUMP,
            "left_stop_turn_rear",
            "Rear. Left stop/turn on. Left stop/turn flashing; rest dark.",
        ),
        (
            PUMP,
            "blackout_marker_rear",
            "Rear. Blackout markers on. Both blackout markers on; rest dark.",
        ),
    ],
)
def test_a_lamp_step_says_where_what_is_on_and_what_must_be_seen(
    whose: str, step_id: str, said: str
) -> None:
    assert words(whose, step_id) == said


def test_what_stays_switched_is_said_again_only_to_who_comes_back() -> None:
    library = load_library(shipped(), today=date(2026, 11, 25))
    towed = next(vehicle for vehicle in library.vehicles if vehicle.id == SEMI)
    at_the_rear = plan_walk(towed, library.rules, power="cab").step("look_1_rear")
    assert at_the_rear
    assert at_the_rear.stays
    on = prompt(at_the_rear, "cab", "short", ENGLISH).say
    back = prompt(at_the_rear, "cab", "short", ENGLISH, anew=True).say
    assert "parking lamps on" not in on
    assert "parking lamps on" in back


def test_contacts_are_shown_and_not_said() -> None:
    for whole in shipped_plans().values():
        for lamp in whole.steps:
            if lamp.kind == "lamp" and whole.power == "box":
                told = prompt(lamp, "box", "short", ENGLISH)
                assert re.fullmatch(r"Pins? [\w, ]+", told.pins), lamp.id
                assert not re.search(r"(?i)\bpins?\b", told.say)


def test_a_brisk_lamp_step_says_place_switch_and_what_is_seen_and_nothing_else() -> None:
    found = shipped_plans()[SEMI].step("stop_rear")
    assert found is not None
    assert prompt(found, "box", "brisk", ENGLISH).say == (
        "Rear. Stop lamps on. Both stops on; rest dark. "
        "Upper white tape, both reflectors, lower tape."
    )


def test_a_part_is_explained_aloud_the_first_time_and_shown_every_time() -> None:
    for whole in shipped_plans().values():
        lamps = [step for step in whole.steps if step.part == "lamps"]
        told = {step.id: prompt(step, whole.power, "long", ENGLISH) for step in lamps}
        # Of a dark lamp nothing is explained, only its darkness is expected.
        explained = [
            (step.id, str(item.what))
            for step in lamps
            for item in step.items
            if item.what and step.expect.get(item.id) != "dark"
        ]
        assert all(what in told[step_id].body for step_id, what in explained)
        for what in {what for _, what in explained}:
            first = next(step_id for step_id, text in explained if text == what)
            assert [step.id for step in lamps if what in told[step.id].say] == [first]


@pytest.mark.parametrize("whose", [SEMI, PUMP])
def test_long_words_begin_with_the_short_ones_of_a_lamp_and_teach(whose: str) -> None:
    for lamp in shipped_plans()[whose].steps:
        if lamp.kind == "lamp":
            short, long = (words(whose, lamp.id, wording=w) for w in ("short", "long"))
            assert long.startswith(short)
            taught = [i for i in lamp.items if i.kind not in UNPLACED]
            assert all(str(item.what) in long and str(item.why) in long for item in taught)


def test_a_box_without_a_flasher_is_told_of_only_where_there_is_one() -> None:
    steady = "lights it without flashing: that is right too"
    assert steady in words(SEMI, "left_turn_rear", wording="long")
    assert steady not in words(SEMI, "left_turn_rear", "cab", wording="long")
    assert steady not in words(SEMI, "tail_rear", wording="long")


@pytest.mark.parametrize("each", ALL_STEPS)
def test_a_warning_is_said_before_the_act_it_warns_of(each: Step) -> None:
    for wording in get_args(Wording):
        found = prompt(each, "box", wording, ENGLISH)
        # What was explained before is shown, but not said.
        said = found.say if not each.caution else found.say.removeprefix(f"{found.caution} ")
        assert found.body.startswith(said[:20])
        assert wording == "long" or said == found.body
        if each.caution:
            assert found.say.startswith(str(each.caution))


@pytest.mark.parametrize("each", ALL_STEPS)
def test_every_prompt_is_whole_sentences_that_can_be_said(each: Step) -> None:
    for power in ("box", "cab", "helper"):
        for wording in get_args(Wording):
            found = prompt(each, power, wording, ENGLISH)
            assert re.search(r"[.?]$", found.say), found.say
            assert not re.search(r"  |\.\.|[{}]|None", found.say), found.say
            assert not re.search(r"\d", pronounced(found.say))
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


@pytest.mark.parametrize("wording", get_args(Wording))
@pytest.mark.parametrize("each", ALL_STEPS)
def test_what_is_asked_is_said_before_what_is_explained(each: Step, wording: Wording) -> None:
    told = prompt(each, "box", wording, ENGLISH)
    assert told.say.startswith(told.order)
    assert told.order.startswith(told.caution)
    assert 0 < told.order_share <= 1
    if wording != "long" or each.kind != "lamp":
        assert told.order == told.say
    else:
        # The explanation of what is lit need not be waited for.
        short = prompt(each, "box", "short", ENGLISH)
        assert told.order == short.say
