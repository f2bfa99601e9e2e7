"""What a walk allows. Whatever it refuses, it refuses in a sentence and is not changed by."""

from __future__ import annotations

from typing import Any, get_args

import pytest
from walks import (
    HOLD,
    STEPS,
    at_the_hold,
    begun,
    defective,
    hold_rule,
    plan,
    refused,
    step,
)

from walkaround.allowed import TRANSITIONS
from walkaround.errors import NotNowError
from walkaround.events import (
    Answered,
    Began,
    Finished,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    Noted,
    Paused,
    ReadingTaken,
    Resumed,
    Revisited,
)
from walkaround.state import Phase
from walkaround.walk import advance

AT_THE_HOLD: dict[type[Any], dict[str, Any]] = {
    Began: {"walk": "20261125_081502_4f3a9c", "plan": plan()},
    Answered: {"step": HOLD, "answer": "not_checked", "reason": "no_air"},
    Noted: {"step": "chocks", "text": "wet ground"},
    Revisited: {"step": "chocks", "purpose": "change"},
    HoldBegan: {"step": HOLD},
    ReadingTaken: {"step": HOLD, "gauge": "supply", "at_s": 75.0, "psi": 109.0},
    HoldEnded: {"step": HOLD},
    HoldVoided: {"step": HOLD, "why": "A hose came off."},
    Paused: {},
    Resumed: {},
    Finished: {},
}
"""Each kind of event with a body that suits a walk whose present step is the air hold."""


@pytest.mark.parametrize("kind", AT_THE_HOLD)
@pytest.mark.parametrize("phase", get_args(Phase))
def test_each_cell_of_the_table_is_what_the_walk_does(phase: Phase, kind: type[Any]) -> None:
    teller = at_the_hold(phase)
    name = kind.model_fields["kind"].default
    if name in TRANSITIONS[phase]:
        assert teller.tell(kind, **AT_THE_HOLD[kind]).phase == TRANSITIONS[phase][name]
    else:
        assert phase in refused(teller, kind, **AT_THE_HOLD[kind])


def test_the_table_knows_every_phase_and_no_other_event() -> None:
    kinds = {kind.model_fields["kind"].default for kind in AT_THE_HOLD}
    assert set(TRANSITIONS) == set(get_args(Phase))
    assert {name for row in TRANSITIONS.values() for name in row} == kinds
    assert {after for row in TRANSITIONS.values() for after in row.values()} <= set(TRANSITIONS)


def test_an_event_that_skips_a_number_is_refused() -> None:
    teller = begun()
    event = teller.sealed(Noted, step="chocks", text="x").model_copy(update={"seq": 5})
    with pytest.raises(NotNowError, match="does not follow"):
        advance(teller.walk, event)


def test_a_must_step_takes_nothing_but_ok() -> None:
    teller = begun()
    for answer in ("defect", "missing", "not_fitted"):
        assert "cannot be skipped" in refused(teller, Answered, step="chocks", answer=answer)
    skipped = {"step": "chocks", "answer": "not_checked", "reason": "no_time"}
    assert "cannot be skipped" in refused(teller, Answered, **skipped)
    teller.ok("chocks")


def test_not_checked_carries_its_reason_and_nothing_else_does() -> None:
    teller = begun()
    teller.ok("chocks")
    assert "reason" in refused(teller, Answered, step="tail_rear", answer="not_checked")
    with_reason = {"step": "tail_rear", "answer": "ok", "reason": "no_time"}
    assert "reason" in refused(teller, Answered, **with_reason)
    teller.tell(Answered, step="tail_rear", answer="not_checked", reason="no_power")
    assert "tail_rear" in {step.id for step in teller.walk.unchecked}


def test_what_is_required_can_be_missing_but_not_unfitted() -> None:
    teller = begun()
    teller.ok("chocks")
    assert "required" in refused(teller, Answered, step="tail_rear", answer="not_fitted")
    unfitted = {"step": "tail_rear", "answer": "defect", "seen": {"tail_left": "not_fitted"}}
    assert "missing" in refused(teller, Answered, **unfitted)
    teller.found("tail_rear", "missing", tail_left="missing")
    assert [defect.step for defect in teller.walk.open_defects] == ["tail_rear"]
    teller.tell(Answered, step="backup_rear", answer="not_fitted")
    assert len(teller.walk.open_defects) == 1


@pytest.mark.parametrize("step_id", ["vent", HOLD])
def test_neither_an_act_nor_a_hold_can_be_unfitted(step_id: str) -> None:
    teller = begun(plan(tuple(step for step in STEPS if step.id == step_id)))
    assert "not fitted" in refused(teller, Answered, step=step_id, answer="not_fitted")


@pytest.mark.parametrize("answer", ["ok", "not_checked", "not_fitted"])
def test_a_fault_seen_cannot_be_answered_away(answer: str) -> None:
    teller = begun(plan(STEPS[2:3]))
    reason = "no_time" if answer == "not_checked" else None
    body = {"step": "backup_rear", "answer": answer, "reason": reason}
    assert "defect" in refused(teller, Answered, **body, seen={"backup_centre": "dim"})


def test_only_what_the_step_shows_can_be_seen_faulty() -> None:
    teller = begun()
    teller.ok("chocks")
    elsewhere = {"step": "tail_rear", "answer": "defect", "seen": {"backup_centre": "dark"}}
    assert "backup_centre" in refused(teller, Answered, **elsewhere)


def test_one_goes_back_only_to_an_answer_and_rechecks_only_an_open_defect() -> None:
    teller = defective()
    assert "no answer" in refused(teller, Revisited, step="vent", purpose="change")
    assert "no open defect" in refused(teller, Revisited, step="chocks", purpose="recheck")
    teller.back("tail_rear", "recheck")
    teller.ok("tail_rear")
    assert "no open defect" in refused(teller, Revisited, step="tail_rear", purpose="recheck")


def test_an_air_step_is_not_rechecked_once_the_air_has_gone_on() -> None:
    teller = at_the_hold("stepping")
    teller.hold(end_psi=100.0)
    teller.found(HOLD)
    teller.ok("leaks_axle_1")
    assert "a walk of its own" in refused(teller, Revisited, step=HOLD, purpose="recheck")


def test_a_hold_is_answered_after_its_last_reading_only() -> None:
    teller = at_the_hold("stepping")
    for answer in ("ok", "defect"):
        assert "after its last reading" in refused(teller, Answered, step=HOLD, answer=answer)
    teller.tell(HoldBegan, step=HOLD)
    assert "not in yet" in refused(teller, HoldEnded, step=HOLD)
    teller.tell(ReadingTaken, step=HOLD, gauge="supply", at_s=0.0, psi=110.0)
    assert "not in yet" in refused(teller, HoldEnded, step=HOLD)
    teller.tell(ReadingTaken, step=HOLD, gauge="supply", at_s=60.0, psi=109.0)
    teller.tell(HoldEnded, step=HOLD)
    teller.ok(HOLD)


def test_a_hold_over_its_limit_is_a_defect_whatever_else_is_answered() -> None:
    """The limit is 2 psi/min; 3 psi in one minute is over it, 2 psi is not."""
    teller = at_the_hold("stepping")
    teller.hold(end_psi=107.0)
    skipped = {"step": HOLD, "answer": "not_checked", "reason": "no_time"}
    assert "more than its limit" in refused(teller, Answered, step=HOLD, answer="ok")
    assert "more than its limit" in refused(teller, Answered, **skipped)
    teller.found(HOLD)
    equal = at_the_hold("stepping")
    equal.hold(end_psi=108.0)
    equal.ok(HOLD)


def test_nobody_walks_away_from_a_hold_that_was_over() -> None:
    teller = at_the_hold("stepping")
    teller.hold()
    teller.ok(HOLD)
    teller.back(HOLD)
    teller.hold(end_psi=100.0)
    assert "answer step" in refused(teller, Revisited, step="chocks", purpose="change")
    assert "answer step" in refused(teller, Finished)
    teller.found(HOLD)
    teller.back(HOLD)
    teller.back("chocks")


def test_readings_are_of_the_gauges_of_the_hold_and_go_forward_in_time() -> None:
    both = hold_rule(supply=110.0, service=90.0)
    teller = begun(plan((step("both", "applied_hold", "hold", hold=both),)))
    teller.tell(HoldBegan, step="both")
    reading = {"step": "both", "at_s": 30.0, "psi": 90.0}
    assert "no gauge" in refused(teller, ReadingTaken, **reading, gauge="oil")
    teller.tell(ReadingTaken, **reading, gauge="service")
    assert "already read" in refused(teller, ReadingTaken, **reading, gauge="service")
    teller.tell(ReadingTaken, **reading, gauge="supply")
    assert [reading.gauge for reading in teller.walk.holds["both"].readings] == [
        "service",
        "supply",
    ]


def test_only_a_hold_is_held() -> None:
    assert "no air hold" in refused(begun(), HoldBegan, step="chocks")
