"""What the cab is told at every step of every demo vehicle, from every shipped power source."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

import pytest
from support.english import ENGLISH
from support.walks import Teller, begun, plan, step

from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.plan.steps import Plan, Step
from walkaround.walk.events import Answered, Finished, Paused
from walkaround.walk.state import Walk
from walkaround.words.cab import CabWords, cab_words

CALLED, HANDS_OFF, SWITCH = (ENGLISH(f"cab-{id_}") for id_ in ("called", "hands-off", "switch"))
MARKER = step("marker", "lamps", "lamp", power=True, switching="Lamp switch on; all else off.")
SIDE = step("marker_side", "lamps", "lamp", power=True)
TAPE = step("tape", "lamps", "look", power=True)
STOP = step("stop", "lamps", "lamp", power=True, switching="Brake pedal down; all else off.")


@pytest.fixture(scope="module")
def plans() -> list[Plan]:
    library = load_library(shipped(), today=date(2026, 11, 25))
    return [
        plan_walk(vehicle, library.rules, power=power, together=power == "cab")
        for vehicle in library.vehicles
        for power in ("cab", "box")
        if power in powers_for(vehicle, library.power_sources)
    ]


def told(plans: list[Plan]) -> Iterator[tuple[Step, CabWords]]:
    """Each step as it would be asked, all before it answered OK."""
    for each in plans:
        walk = begun(each).walk
        for at in each.steps:
            answers = {before.id: ok(before.id) for before in each.steps[: each.steps.index(at)]}
            yield at, cab_words(Walk("stepping", walk.id, each, walk.events, answers), ENGLISH)


def ok(step_id: str) -> Answered:
    return Answered.model_construct(step=step_id, answer="ok")


def test_whatever_moves_air_or_has_somebody_at_the_brakes_is_hands_off(plans: list[Plan]) -> None:
    for at, words in told(plans):
        if at.part != "lamps" and (at.air or at.soft or at.quiet):
            assert words.hands_off
            assert words.say.startswith((HANDS_OFF, CALLED))
            assert str(at.caution) in words.say
            assert words.soft == (at.soft or at.quiet)
        if at.soft or at.quiet or at.hold:
            assert words.head == HANDS_OFF


def test_at_every_lamp_of_a_cab_the_setting_is_shown_whole(plans: list[Plan]) -> None:
    seen = 0
    for at, words in told([each for each in plans if each.power == "cab"]):
        if at.kind == "lamp":
            seen += 1
            assert words.head in (SWITCH, CALLED)
            shown = "; ".join(words.lines).lower()
            assert not at.switching or str(at.switching).strip(".").lower() in shown
    assert seen > 20


def test_what_has_nothing_to_switch_is_not_spoken_but_says_what_is_done_outside(
    plans: list[Plan],
) -> None:
    for at, words in told(plans):
        if not words.say:
            assert not at.air
            assert not at.switching
            assert at.spot != "cab"
            assert words.outside in (str(at.short), str(at.title))


def answered(teller: Teller, *ids: str) -> CabWords:
    return cab_words(teller.ok(*ids), ENGLISH)


def test_a_setting_stands_until_the_next_one() -> None:
    teller = begun(plan((MARKER, SIDE, TAPE, STOP)))
    first = cab_words(teller.walk, ENGLISH)
    assert first.lines == ("Lamp switch on", "All else off")
    assert (first.outside, first.later) == ("marker", "marker_side")
    assert answered(teller, "marker").say == first.say
    assert answered(teller, "marker_side").say == first.say
    last = answered(teller, "tape")
    assert (last.say, last.later) == ("Brake pedal down; all else off.", "")


def test_going_back_brings_the_setting_of_that_step_back() -> None:
    teller = begun(plan((MARKER, SIDE, STOP)))
    teller.ok("marker", "marker_side")
    teller.back("marker_side")
    assert cab_words(teller.walk, ENGLISH).say == "Lamp switch on; all else off."


def test_a_doubtful_pin_is_metered_before_anything_is_switched() -> None:
    doubtful = STOP.model_copy(update={"meter_first": "pin 7 may move a gate"})
    words = cab_words(begun(plan((doubtful,))).walk, ENGLISH)
    assert words.head == CALLED
    assert words.hands_off
    assert words.lines[0] == "Meter first: pin 7 may move a gate."
    assert words.say.index("Meter first") < words.say.index("Brake pedal")


def test_what_is_done_in_the_cab_waits_until_it_is_called_if_brakes_move() -> None:
    pedal = step(
        "pedal", "applied_hold", "act", spot="cab", air=True, short="Pedal down.", caution="Clear?"
    )
    key = step("key", "secure", "act", spot="cab", short="Key out.")
    moves = cab_words(begun(plan((pedal,))).walk, ENGLISH)
    assert (moves.head, moves.lines) == (CALLED, ("Clear?", "Pedal down."))
    assert moves.say == f"{CALLED}. Clear?"
    still = cab_words(begun(plan((key,))).walk, ENGLISH)
    assert (still.lines, still.say, still.hands_off) == (("Key out.",), "Key out.", False)


def test_a_walk_that_does_not_go_on_asks_for_nothing() -> None:
    teller = begun(plan((MARKER,)))
    teller.tell(Paused)
    assert not cab_words(teller.walk, ENGLISH).say
    done = begun(plan((MARKER,)))
    assert answered(done, "marker").lines == ("Every step has an answer.",)
    done.tell(Finished)
    assert cab_words(done.walk, ENGLISH).head == "The walk is closed"


def test_going_back_to_a_lamp_brings_nobody_out_from_the_brakes(plans: list[Plan]) -> None:
    """A lamp is rechecked while the application is locked and somebody measures a stroke."""
    seen = 0
    for each in plans:
        walk = begun(each).walk
        lamps = [at for at in each.steps if at.part == "lamps"]
        for place in (at for at in each.steps if at.soft or at.air):
            before = each.steps[: each.steps.index(place)]
            answers = {at.id: ok(at.id) for at in before}
            for lamp in lamps:
                if lamp not in before:
                    continue
                seen += 1
                back = Walk("stepping", walk.id, each, walk.events, answers, revisiting=lamp.id)
                words = cab_words(back, ENGLISH)
                assert words.hands_off
                assert words.head == HANDS_OFF
                assert words.soft or not (place.soft or place.quiet)
    assert seen > 20
