"""The words for each step, short and long; the cues and the result of an air hold."""

from __future__ import annotations

import re
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from plans import shipped_plans
from walks import STEPS, FakeClock, begun, hold_rule

from walkaround.airhold import assess
from walkaround.checklist import Station
from walkaround.holds import Hold
from walkaround.prompts import (
    LAST_SECONDS,
    SPOT_WORDS,
    counted,
    hold_bounds,
    hold_cues,
    hold_result,
    hold_results,
    listed,
    next_gauge,
    prompt,
    summary_words,
)
from walkaround.saying import spoken
from walkaround.steps import OTHERS, Item, Step

SEMI, PUMP = "sandbag_semitrailer_7", "pump_trailer_3"
ALL_STEPS = [
    pytest.param(step_, id=f"{whose}-{step_.id}")
    for whose, plan in shipped_plans().items()
    for step_ in plan.steps
]


def words(whose: str, step_id: str, power: str = "box", wording: str = "short") -> str:
    found = shipped_plans()[whose].step(step_id)
    assert found is not None
    return prompt(found, power, "long" if wording == "long" else "short").body


@pytest.mark.parametrize(
    ("whose", "step_id", "first", "then"),
    [
        (
            SEMI,
            "tail_rear",
            "At the rear. Pin 6 on, tail.",
            "Two tail lamps and licence-plate lamp, steady. Nothing else lit.",
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
            "Front, intermediate and rear side marker lamps, steady. Nothing else lit.",
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
            "Along the left side. Rear, intermediate and front side reflectors",
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
            "At the rear. Pins A, C and H on, blackout marker.",
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
            assert all(item.what in long and item.why in long for item in taught)


def test_a_box_without_a_flasher_is_told_of_only_where_there_is_one() -> None:
    steady = "lights it steady: that is right too"
    assert steady in words(SEMI, "left_turn_rear", wording="long")
    assert steady not in words(SEMI, "left_turn_rear", "cab", wording="long")
    assert steady not in words(SEMI, "tail_rear", wording="long")


@pytest.mark.parametrize("each", ALL_STEPS)
def test_a_warning_is_said_before_the_act_it_warns_of(each: Step) -> None:
    for wording in ("short", "long"):
        found = prompt(each, "box", wording)
        assert found.say.endswith(found.body)
        if each.caution:
            assert found.say.startswith(each.caution)
        if each.meter_first:
            assert each.meter_first in found.say.removesuffix(found.body)


@pytest.mark.parametrize("each", ALL_STEPS)
def test_every_prompt_is_whole_sentences_that_can_be_said(each: Step) -> None:
    for power in ("box", "cab", "helper"):
        for wording in ("short", "long"):
            found = prompt(each, power, wording)
            assert re.search(r"[.?]$", found.say), found.say
            assert not re.search(r"  |\.\.|[{}]|None", found.say), found.say
            assert not re.search(r"\d", spoken(found.say))
            assert not re.search(r"(?i)\bsafe\b", found.say)


@pytest.mark.parametrize("each", ALL_STEPS)
def test_what_the_experienced_hear_fits_one_breath(each: Step) -> None:
    # About 2.7 words a second at 160 words per minute; the longest takes some 20 seconds with
    # its warning, the body alone well under 15.
    assert len(prompt(each, "box", "short").body.split()) <= 36


def test_every_spot_has_its_words() -> None:
    assert set(SPOT_WORDS) == set(get_args(Station))


def items(*names: str) -> list[Item]:
    return [Item(id=name.replace(" ", "_"), name=name) for name in names]


@pytest.mark.parametrize(
    ("names", "one_side", "said"),
    [
        (["left tail lamp", "right tail lamp"], False, "two tail lamps"),
        (["left tail lamp"], False, "left tail lamp"),
        (["left tail lamp"], True, "tail lamp"),
        (
            ["left tail lamp", "right tail lamp", "licence-plate lamp"],
            False,
            "two tail lamps and licence-plate lamp",
        ),
        (
            [f"{side} rear identification lamp" for side in ("left", "centre", "right")],
            False,
            "three rear identification lamps",
        ),
        (
            ["left stop lamp and left rear turn signal"],
            False,
            "left stop lamp and left rear turn signal",
        ),
        (
            ["left tail lamp and left stop lamp", "right tail lamp and right stop lamp"],
            False,
            "two tail lamps and stop lamps",
        ),
        (
            ["right front side marker lamp", "right rear side marker lamp"],
            True,
            "front and rear side marker lamps",
        ),
        (
            ["left rear side reflector", "left front side reflector", "left side reflective tape"],
            True,
            "rear and front side reflectors and side reflective tape",
        ),
        ([], False, ""),
    ],
)
def test_lamps_are_counted_in_few_words(names: list[str], one_side: bool, said: str) -> None:
    assert counted(items(*names), one_side=one_side) == said


def test_words_in_a_list_are_joined_as_in_a_sentence() -> None:
    assert [listed(w) for w in ([], ["a"], ["a", "b"], ["a", "b", "c"])] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]


START = FakeClock()()
ONE = Hold(rule=hold_rule(supply=110.0), began=START)
TWO = Hold(rule=hold_rule(supply=110.0, service=90.0), began=START)


def test_a_hold_is_led_by_voice_from_start_to_stop() -> None:
    assert hold_cues(ONE) == (
        (0.0, "Start. Read the supply gauge."),
        (30.0, "30 seconds. Read the supply gauge."),
        (50.0, "10 seconds."),
        (55.0, "5"),
        (56.0, "4"),
        (57.0, "3"),
        (58.0, "2"),
        (59.0, "1"),
        (60.0, "Stop. Read the supply gauge."),
    )


@given(st.floats(0, 60), st.sampled_from([ONE, TWO]))
def test_cues_come_in_order_and_move_with_a_late_start(late_s: float, hold: Hold) -> None:
    late = hold.with_reading(hold.rule.gauges[-1], late_s, 100.0)
    cues = hold_cues(late)
    times = [at_s for at_s, _ in cues]
    assert times == sorted(times)
    assert times[-1] == late.end_s
    assert times[-2] == pytest.approx(late.end_s - 1)
    assert len([word for _, word in cues if word.isdigit()]) == LAST_SECONDS


def test_the_second_gauge_is_asked_for_after_the_first() -> None:
    assert next_gauge("service") == "Now the service gauge."


@pytest.mark.parametrize(
    ("drop_psi", "limit", "said"),
    [
        (2, 2, "Supply gauge lost 2 psi/min. Within the limit of 2 psi/min."),
        (2.5, 2, "Supply gauge lost 2.5 psi/min. Over the limit of 2 psi/min."),
        (0, 3, "Supply gauge lost 0 psi/min. Within the limit of 3 psi/min."),
        (-1, 2, "Supply gauge gained 1 psi/min. Within the limit of 2 psi/min."),
        (10, 2, "Supply gauge lost 10 psi/min. Over the limit of 2 psi/min."),
    ],
)
def test_a_result_tells_rate_and_limit(drop_psi: float, limit: float, said: str) -> None:
    found = assess([(0, 110), (60, 110 - drop_psi)], limit)
    assert hold_result("supply", found, limit) == said


def test_each_gauge_has_its_sentence_and_says_how_sure_it_is() -> None:
    hold = TWO
    for gauge, at_s, psi in [
        ("supply", 0.0, 110.0), ("service", 0.0, 90.0),
        ("supply", 60.0, 109.0), ("service", 60.0, 90.0),
    ]:  # fmt: skip
        hold = hold.with_reading(gauge, at_s, psi)
    assert hold_results(hold) == (
        "Supply gauge lost 1 psi/min. Within the limit of 2 psi/min. "
        "Service gauge lost 0 psi/min. Within the limit of 2 psi/min."
    )
    bounds = hold_bounds(hold.results()["supply"])
    low, high = (float(n) for n in re.findall(r"(-?\d\.\d) to (-?\d\.\d)", bounds)[0])
    assert low <= 1 <= high
    assert "cannot tell" in bounds
    assert "cannot tell" not in hold_bounds(assess([(0, 110), (60, 90)], 2.0))


def test_the_end_of_a_walk_tells_what_is_open_and_what_was_left() -> None:
    teller = begun()
    teller.ok("chocks")
    assert "No open defect." in summary_words(teller.walk)
    teller.found("tail_rear", tail_left="dark")
    left = len([s for s in STEPS if s.kind != "act"]) - 1
    assert f"1 open defect. {left} not checked." in summary_words(teller.walk)
    teller.found("backup_rear", backup_centre="dark")
    assert "2 open defects." in summary_words(teller.walk)
    assert not re.search(r"(?i)\bsafe\b", summary_words(teller.walk))
