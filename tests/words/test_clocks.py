"""What a record says about the clocks of the computer it was made on."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, field

import pytest
from support.english import ENGLISH
from support.troubledclock import FIRST, LAST, TroubledClock
from support.walks import HOLD, STEPS, Teller, plan

from walkaround.report.json_document import walk_json
from walkaround.report.walk_texts import about_words
from walkaround.walk.events import Answered
from walkaround.words.clocks import SET_S, SLEPT_S, SLEW, clock_notes, span_text

Trouble = Callable[[TroubledClock], None]


@dataclass
class Told(Teller):
    """A walk on a computer in trouble."""

    clock: TroubledClock = field(default_factory=TroubledClock)  # type: ignore[assignment]


def after(*troubles: Trouble, tells_boot: bool = True) -> tuple[str, ...]:
    """The notes of a walk in which, 30 s after each answer, one of these happened."""
    told = Told(clock=TroubledClock(tells_boot))
    told.begin()
    for trouble, step in zip(troubles, STEPS, strict=False):
        told.ok(step.id)
        told.clock.wait(30.0)
        trouble(told.clock)
    told.tell(Answered, step=STEPS[len(troubles)].id, answer="not_checked", reason="no_time")
    return clock_notes(told.walk.events, ENGLISH)


BACK = 'The clock of the computer was set back 1 h 2 min during this walk, after step "chocks".'
SLEPT = 'The computer slept 12 min during this walk, after step "chocks".'


@pytest.mark.parametrize(
    ("trouble", "told"),
    [
        (lambda clock: clock.set_by(-3720), BACK),
        (lambda clock: clock.set_by(3720), BACK.replace("back", "forward")),
        (lambda clock: clock.set_to(FIRST), BACK.replace("1 h 2 min", "20,782 days")),
        (lambda clock: clock.sleep(720), SLEPT),
        (lambda clock: clock.reboot(60), SLEPT.replace("slept 12 min", "was restarted")),
    ],
)
def test_one_sentence_says_what_how_far_and_after_which_step(trouble: Trouble, told: str) -> None:
    assert after(trouble) == (told,)


@pytest.mark.parametrize("tells_boot", [True, False])
@pytest.mark.parametrize(
    "trouble",
    [
        lambda clock: clock.wait(7200.0),
        lambda clock: clock.set_by(SET_S - 0.1),
        lambda clock: clock.set_by(0.1 - SET_S),
        # A time service that slows or hastens the clock by 500 ppm for ten hours.
        lambda clock: (clock.wait(36_000), clock.set_by(36_000 * SLEW))[0],
        lambda clock: (clock.wait(36_000), clock.set_by(-36_000 * SLEW))[0],
    ],
)
def test_a_clock_that_is_kept_right_is_no_trouble(trouble: Trouble, tells_boot: bool) -> None:
    assert after(trouble, tells_boot=tells_boot) == ()


def test_a_lid_closed_for_a_moment_is_not_told() -> None:
    assert after(lambda clock: clock.sleep(SLEPT_S)) == ()
    assert len(after(lambda clock: clock.sleep(SLEPT_S + 1))) == 1


def test_a_restart_that_lost_the_time_says_both() -> None:
    def dead_battery(clock: TroubledClock) -> None:
        clock.reboot(60)
        clock.set_to(FIRST)

    restarted, back = after(dead_battery)
    assert "restarted" in restarted
    assert "set back 20,782 days" in back


def test_many_of_a_kind_are_one_sentence_and_never_more_than_five() -> None:
    def all_at_once(clock: TroubledClock) -> None:
        clock.sleep(600)
        clock.set_by(-3600)

    notes = after(*[all_at_once] * 4)
    assert notes == (
        'The computer slept 4 times during this walk, 40 min in all, first after step "chocks".',
        "The clock of the computer was set back 4 times by 1 h at most during this walk, "
        'first after step "chocks".',
    )
    mixed = [
        lambda clock: clock.reboot(60),
        lambda clock: clock.set_by(4000),
        all_at_once,
        lambda clock: clock.set_to(LAST),
    ]
    assert 1 < len(after(*mixed)) <= 5


def test_where_the_system_cannot_tell_the_words_name_what_it_may_have_been() -> None:
    doubt = "slept, was restarted or had its clock set forward"
    for trouble in (lambda clock: clock.sleep(720), lambda clock: clock.set_by(720)):
        assert f"{doubt} 12 min" in after(trouble, tells_boot=False)[0]
    (back,) = after(lambda clock: clock.set_by(-720), tells_boot=False)
    assert "set back 12 min" in back
    (restarted,) = after(lambda clock: clock.reboot(60), tells_boot=False)
    assert "restarted" in restarted


def test_before_the_first_answer_is_a_place_too() -> None:
    told = Told()
    told.begin()
    told.clock.set_by(-600)
    told.ok("chocks")
    assert clock_notes(told.walk.events, ENGLISH)[0].endswith("before its first answer.")


def test_the_record_and_its_files_carry_the_notes() -> None:
    told = Told()
    told.begin()
    told.ok("chocks")
    told.clock.set_by(-3720)
    told.ok("tail_rear")
    assert BACK in about_words(told.walk, ENGLISH)
    assert BACK in json.loads(walk_json(told.walk, ENGLISH))["about"]


def test_no_events_have_no_notes() -> None:
    assert clock_notes((), ENGLISH) == ()
    told = Told()
    told.begin(plan(tuple(step for step in STEPS if step.id == HOLD)))
    assert clock_notes(told.walk.events, ENGLISH) == ()


@pytest.mark.parametrize(
    ("seconds", "text"),
    [
        (8.4, "8 s"),
        (119.4, "119 s"),
        (120.0, "2 min"),
        (3570.0, "1 h"),
        (3720.0, "1 h 2 min"),
        (7200.0, "2 h"),
        (200_000.0, "2 days"),
        (4.1e9, "47,454 days"),
    ],
)
def test_a_span_is_told_in_the_units_that_matter(seconds: float, text: str) -> None:
    assert span_text(seconds, ENGLISH) == text
