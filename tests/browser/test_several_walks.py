"""More than one walk: paused, side by side, partial, rechecked, and without a voice."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from support.voices import SilentVoice
from support.walks import FakeClock

from browser.phone import Phone
from browser.seeds import NAMES, PUMP_TRAILER, SEMITRAILER, place_of, plan_for, walked
from browser.serving import Served, served

pytestmark = pytest.mark.browser

TAIL = "tail_rear"


def test_a_walk_left_for_later_is_taken_up_where_it_was(app: Served, phone: Phone) -> None:
    place = place_of(plan_for(app.parts, SEMITRAILER), "stop_rear")
    walk_id = walked(app.parts, SEMITRAILER, "stop_rear")
    phone.open(app.address, f"walk/{walk_id}")
    phone.at(place)
    phone.tap("More")
    phone.answer("Stop for now")
    phone.sees(re.compile("Air is in the lines"))
    phone.answer("Stop, leave it so")
    phone.headed("Start a walk")
    assert app.parts.open_walks.walk(walk_id).phase == "paused"
    phone.tap("Continue")
    phone.at(place)
    phone.answer("OK")
    phone.at(place + 1)


def test_unfinished_walks_stand_side_by_side(app: Served, phone: Phone, clock: FakeClock) -> None:
    """Two of one vehicle and one of another; each goes on by itself."""
    upto = {SEMITRAILER: ("lines_on", "tail_rear"), PUMP_TRAILER: ("rear_lines_shut",)}
    begun = []
    for vehicle_id, steps in upto.items():
        for step in steps:
            begun.append((walked(app.parts, vehicle_id, step), vehicle_id, step))
            clock.wait(60)
    phone.open(app.address)
    for walk_id, vehicle_id, step in reversed(begun):
        plan = plan_for(app.parts, vehicle_id)
        place, steps = place_of(plan, step), len(plan.steps)
        phone.sees(re.compile(f"Unfinished, at step {place} of {steps}"))
        at = [other for other, *_ in reversed(begun)].index(walk_id)
        phone.press(phone.page.get_by_role("button", name="Continue", exact=True).nth(at))
        phone.at(place)
        assert phone.walk_id == walk_id
        phone.page.goto(app.address)
        phone.wake()


def test_a_walk_of_lamps_only_is_marked_partial(app: Served, phone: Phone) -> None:
    phone.open(app.address)
    phone.press(phone.card(NAMES[PUMP_TRAILER]))
    phone.tap("Lamps")
    plan = plan_for(app.parts, PUMP_TRAILER, "lamps", together=True)
    phone.sees(f"{len(plan.steps)} steps")
    phone.answer("Start the walk")
    phone.at(1)
    walk = app.parts.open_walks.walk(phone.walk_id)
    assert walk.plan is not None
    assert walk.plan.scope == "lamps"
    assert not [step for step in walk.steps if step.air]

    walk_id = walked(app.parts, PUMP_TRAILER, scope="lamps")
    phone.page.goto(f"{app.address}walk/{walk_id}")
    phone.wake()
    phone.sees("Partial: lamps only.")
    phone.answer("Close the record")
    phone.stays("Table (CSV)")
    phone.sees("Partial: lamps only.")


def test_a_walk_ended_early_says_what_was_not_checked(app: Served, phone: Phone) -> None:
    walk_id = walked(app.parts, SEMITRAILER, "rods_back")
    phone.open(app.address, f"walk/{walk_id}")
    phone.tap("More")
    phone.tap("End this walk here")
    phone.answer("End it here")
    phone.stays("Table (CSV)")
    phone.sees("Partial: ended before its last step.")
    phone.sees("Rods back, hoses along the frame: not reached")


def test_without_a_voice_the_walk_goes_on_with_one_plain_notice(
    data: Path, clock: FakeClock, phone: Phone
) -> None:
    with served(
        data,
        clock,
        SilentVoice("No voice: no speech engine was found; the words are on the screen."),
    ) as app:
        phone.open(app.address)
        phone.press(phone.card(NAMES[SEMITRAILER]))
        phone.answer("Start the walk")
        for place in (1, 2, 3):
            phone.at(place)
            assert phone.text().count("No voice: no speech engine was found") == 1
            phone.answer()
        phone.at(4)
        assert not phone.sounds()
        phone.page.goto("about:blank")


def test_a_closed_record_starts_the_recheck_of_its_defects(
    app: Served, phone: Phone, clock: FakeClock
) -> None:
    walk_id = walked(app.parts, SEMITRAILER, bad={TAIL: {"rear_left": "dark"}})
    phone.open(app.address, f"walk/{walk_id}")
    phone.answer("Close the record")
    phone.stays("Recheck the defects")
    phone.sees("left tail lamp dark")
    phone.page.goto(app.address)
    phone.wake()
    assert "1 open defect" in phone.card(NAMES[SEMITRAILER]).inner_text()

    phone.page.goto(f"{app.address}record/{walk_id}")
    phone.wake()
    clock.wait(3600)
    phone.answer("Recheck the defects")
    phone.at(1)
    recheck = app.parts.open_walks.walk(phone.walk_id)
    titles = [str(step.title) for step in recheck.steps]
    assert TAIL in [step.id for step in recheck.steps]
    assert "Charge red to 110 psi" not in titles
    for place, title in enumerate(titles, 1):
        phone.at(place, title)
        phone.answer()
    phone.sees("Partial: the recheck of earlier defects only.")
    phone.answer("Close the record")
    phone.stays("Table (CSV)")
    phone.gone("Recheck the defects")
    phone.page.goto(app.address)
    phone.wake()
    phone.card(NAMES[SEMITRAILER]).wait_for()
    assert "open defect" not in phone.text()
