"""Scripted walks on a computer whose clock jumps, that sleeps and restarts between any two events.

What is checked against is true time, which the test's clock keeps and the walk never sees.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support.english import ENGLISH
from support.stores import MemoryStore
from support.troubledclock import FIRST, LAST, TroubledClock
from support.walks import HOLD, STEPS, new_ids, plan, step

from walkaround.airhold.hold import ASLEEP_S
from walkaround.base.errors import NotNowError
from walkaround.records.open_walks import OpenWalks
from walkaround.records.walk_line import line_of
from walkaround.report.json_document import walk_json
from walkaround.report.tables import walk_csv
from walkaround.ui.taps.values import passed_s
from walkaround.walk.advance import fold
from walkaround.walk.events import (
    Answered,
    HoldBegan,
    HoldEnded,
    Measured,
    ReadingTaken,
    TimerBegan,
)
from walkaround.walk.timers import stopwatch_trouble, surely_passed_s, wait_left_s
from walkaround.words.clocks import clock_notes

TIMED = step(
    "rebuild",
    "reserve",
    "measure",
    measure={
        "quantity": "s",
        "limit": "invented",
        "values": [{"id": "time", "name": "time", "at_most": 45.0}],
    },
)
WAIT_S = 900.0
WAIT = step("held", "finish", "wait", wait={"after": "vent", "seconds": WAIT_S})
PLAN = plan((STEPS[0], TIMED, STEPS[4], STEPS[6], WAIT))

Trouble = tuple[str, Any]
_seconds = st.floats(min_value=0.0, max_value=4000.0)
_years = st.sampled_from([datetime(year, 6, 1, tzinfo=UTC) for year in (1970, 2099, 9999)])
troubles = st.lists(
    st.one_of(
        st.tuples(st.just("wait"), _seconds),
        st.tuples(st.just("sleep"), _seconds),
        st.tuples(st.just("reboot"), _seconds),
        st.tuples(st.just("set_by"), st.floats(min_value=-1e6, max_value=1e6)),
        st.tuples(st.just("set_to"), _years),
    ),
    max_size=2,
)
AWAY = ("sleep", "reboot")


@dataclass
class Depot:
    """One walk being walked, and what truly happened to its computer."""

    clock: TroubledClock
    store: MemoryStore = field(default_factory=MemoryStore)
    away: list[float] = field(default_factory=list)
    restarts: int = 0
    done: list[tuple[str, str]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.open_walks = OpenWalks(self.store, self.clock, new_ids())
        self.id = self.open_walks.begin(PLAN, "Ana")

    def suffers(self, several: Sequence[Trouble]) -> None:
        for what, how in several:
            if what in AWAY and (what == "reboot" or how > ASLEEP_S):
                self.away.append(self.clock.true_s)
            self.restarts += what == "reboot"
            getattr(self.clock, what)(how)

    def do(self, kind: type[Any], step_id: str, **body: Any) -> str:
        """Let it happen; the sentence of the refusal if it may not."""
        try:
            self.open_walks.do(self.id, "Ana", (kind, {"step": step_id, **body}))
        except NotNowError as refused:
            return str(refused)
        self.done.append((kind.__name__, step_id))
        return ""

    def was_away_since(self, true_s: float) -> bool:
        return any(at >= true_s for at in self.away)


@pytest.mark.parametrize("tells_boot", [True, False])
@settings(max_examples=200)
@given(several=st.lists(troubles, min_size=8, max_size=8), up_s=st.floats(0.0, 2000.0))
def test_order_and_time_are_right_or_given_up_with_a_sentence(
    tells_boot: bool, several: list[list[Trouble]], up_s: float
) -> None:
    here = Depot(TroubledClock(tells_boot))
    # Where all look alike, a clock set back by just as much as it slept cannot be seen.
    trouble = iter(several if tells_boot else [each[:1] for each in several])
    here.suffers(next(trouble))
    assert here.do(Answered, "chocks", answer="ok") == ""
    here.suffers(next(trouble))
    _time_it(here, next(trouble))
    here.suffers(next(trouble))
    _hold_it(here, next(trouble), next(trouble))
    assert here.do(Answered, "vent", answer="ok") == ""
    _wait_for_it(here, next(trouble), up_s)
    here.suffers(next(trouble))
    _whole(here, tells_boot)


def _time_it(here: Depot, trouble: list[Trouble]) -> None:
    """A stopwatch's time is the true one, or it is not taken."""
    assert here.do(TimerBegan, TIMED.id) == ""
    began_s = here.clock.true_s
    here.suffers(trouble)
    walk = here.open_walks.walk(here.id)
    value = min(5000.0, passed_s(walk.timers[TIMED.id], here.clock()))
    why = here.do(Measured, TIMED.id, value_id="time", value=value, unit="s")
    if why:
        assert "start again" in why
        assert trouble
    else:
        true_s = here.clock.true_s - began_s
        assert value == pytest.approx(min(5000.0, true_s), abs=ASLEEP_S + 0.1)
        assert not here.was_away_since(began_s)
    slow = not why and value > 45.0
    answer = {"answer": "defect"} if slow else {"answer": "not_checked", "reason": "no_time"}
    assert here.do(Answered, TIMED.id, **answer) == ""


def _hold_it(here: Depot, first: list[Trouble], second: list[Trouble]) -> None:
    """A hold's readings stand at their true seconds, or the hold is void."""
    assert here.do(HoldBegan, HOLD) == ""
    began_s = here.clock.true_s
    for trouble in ([], first, second):
        here.suffers(trouble)
        here.clock.wait(31.0)
        if trouble:
            here.open_walks.void_untrusted_hold(here.id)  # as each page does four times a second
        hold = here.open_walks.walk(here.id).holds[HOLD]
        at_s = hold.elapsed_s(here.clock())
        if here.do(ReadingTaken, HOLD, gauge="supply", at_s=min(3600.0, at_s), psi=110.0) == "":
            true_s = min(3600.0, here.clock.true_s - began_s)
            assert at_s == pytest.approx(true_s, abs=3 * ASLEEP_S) or at_s > 3600.0
    ended = here.do(HoldEnded, HOLD, how="early", at_s=min(3600.0, at_s)) == ""
    here.open_walks.void_untrusted_hold(here.id)
    hold = here.open_walks.walk(here.id).holds[HOLD]
    assert not (ended and here.was_away_since(began_s))
    assert ended or str(hold.void).endswith("hold again.")
    answer = {"answer": "ok"} if ended else {"answer": "not_checked", "reason": "no_time"}
    assert here.do(Answered, HOLD, **answer) == ""


def _wait_for_it(here: Depot, trouble: list[Trouble], up_s: float) -> None:
    """A wait is over once its time has truly passed, never sooner; a restart may make it longer."""
    began_s, restarts = here.clock.true_s, here.restarts
    here.suffers(trouble)
    here.clock.wait(up_s)
    true_s = here.clock.true_s - began_s
    left_s = wait_left_s(here.open_walks.walk(here.id), WAIT, here.clock())
    why = here.do(Answered, WAIT.id, answer="ok")
    assert (why == "") == (left_s <= 0)
    assert left_s >= WAIT_S - true_s - 1e-3
    if here.clock.tells_boot and here.restarts == restarts:
        assert left_s == pytest.approx(WAIT_S - true_s, abs=1e-3)
    if why:
        assert "still to go" in why
        assert here.do(Answered, WAIT.id, answer="not_checked", reason="no_time") == ""


def _whole(here: Depot, tells_boot: bool) -> None:
    """Nothing is lost, doubled or out of order, and the record can be read and told."""
    walk = here.open_walks.walk(here.id)
    told = [(type(event).__name__, event.step) for event in walk.events[1:] if event.who == "Ana"]  # type: ignore[union-attr]
    assert told == here.done
    assert [event.seq for event in walk.events] == list(range(len(walk.events)))
    assert list(walk.answers) == [step.id for step in PLAN.steps]
    assert fold(here.store.walks[here.id]) == walk
    assert walk_csv(walk, ENGLISH)
    assert walk_json(walk, ENGLISH)
    assert line_of(walk).answered == len(PLAN.steps)
    notes = clock_notes(walk.events, ENGLISH)
    assert len(notes) <= 5
    assert all(note.endswith(".") and len(note) < 200 for note in notes)
    if tells_boot:
        boots = {event.at.boot for event in walk.events}
        assert any("restarted" in note for note in notes) == (len(boots) > 1)


@pytest.mark.parametrize(
    ("tells_boot", "why"),
    [(True, "slept while"), (False, "slept, was restarted or its clock was set while")],
)
def test_a_stopwatch_names_what_took_its_time_as_far_as_the_system_tells(
    tells_boot: bool, why: str
) -> None:
    clock = TroubledClock(tells_boot=tells_boot)
    began = clock()
    clock.wait(60)
    assert stopwatch_trouble(began, clock()) is None
    clock.sleep(60)
    assert why in str(stopwatch_trouble(began, clock()))


def test_a_restart_counts_before_it_and_after_it_but_not_itself() -> None:
    clock = TroubledClock()
    moments = [clock()]
    clock.wait(300)
    moments.append(clock())
    clock.reboot(off_s=5000, up_s=60)
    moments.append(clock())
    clock.sleep(100)
    assert surely_passed_s([*moments, clock()]) == pytest.approx(300 + 60 + 100)


@pytest.mark.parametrize("wall", [FIRST, datetime(2099, 5, 1, tzinfo=UTC), LAST])
def test_a_walk_begins_goes_on_and_is_told_in_any_year(wall: datetime) -> None:
    here = Depot(TroubledClock(wall=wall))
    assert here.do(Answered, "chocks", answer="ok") == ""
    here.clock.set_by(-3e9)
    here.clock.set_by(9e11)
    assert here.do(TimerBegan, TIMED.id) == ""
    walk = here.open_walks.walk(here.id)
    assert here.id.startswith(f"{wall:%Y%m%d}")
    assert walk.events[0].at.local_text()[:3] in (f"{wall:%Y}"[:3], "196")
    assert walk_json(walk, ENGLISH)
    assert line_of(walk).id == here.id
