"""One walk: what may happen when, and what it changes. Illegal events change nothing."""

from __future__ import annotations

from typing import Any, get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from walks import STEPS, FakeClock, Teller, begun, hold_rule, plan, step

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
from walkaround.state import FAULTS, Phase, Walk
from walkaround.walk import advance, fold

HOLD = "supply_hold"

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


def at_the_hold(phase: Phase) -> Teller:
    """A walk in this phase whose present step is the air hold, with readings in if it runs."""
    teller = Teller()
    if phase == "unstarted":
        return teller
    teller.begin()
    teller.ok("chocks", "tail_rear", "backup_rear", "reflectors_rear")
    if phase == "holding":
        teller.tell(HoldBegan, step=HOLD)
        for at_s in (0.0, 60.0):
            teller.tell(ReadingTaken, step=HOLD, gauge="supply", at_s=at_s, psi=110.0)
    if phase == "paused":
        teller.tell(Paused)
    if phase == "finished":
        teller.tell(Finished)
    return teller


def refused(teller: Teller, kind: type[Any], **body: Any) -> str:
    """The sentence with which the event is refused; the walk must not have changed."""
    before = teller.walk
    with pytest.raises(NotNowError) as caught:
        teller.tell(kind, **body)
    assert teller.walk is before
    assert fold(before.events) == before
    return str(caught.value)


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


def test_steps_are_asked_in_order_and_each_is_answered_once() -> None:
    teller = begun()
    for expected in STEPS:
        assert teller.walk.here == expected
        if expected.id == HOLD:
            teller.hold()
        teller.ok(expected.id)
        assert "not the one being asked" in refused(teller, Answered, step=expected.id, answer="ok")
    assert teller.walk.here is None


def test_a_finished_walk_with_every_answer_is_whole_and_one_ended_early_is_partial() -> None:
    early, whole = begun(), begun(plan(STEPS[:2]))
    early.ok("chocks")
    whole.ok("chocks", "tail_rear")
    assert early.tell(Finished).partial
    assert not whole.tell(Finished).partial
    assert begun(plan(scope="brakes")).walk.partial


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


def test_a_note_stands_for_its_step_and_the_last_one_counts() -> None:
    teller = begun()
    teller.tell(Noted, step="vent", text="slow")
    teller.tell(Noted, step="vent", text="very slow")
    assert teller.walk.notes == {"vent": "very slow"}
    assert "no step" in refused(teller, Noted, step="nowhere", text="x")


def defective(step_id: str = "tail_rear") -> Teller:
    teller = begun()
    teller.ok("chocks")
    teller.found(step_id, tail_left="dark")
    return teller


def states(teller: Teller) -> dict[str, str]:
    return {step: defect.state for step, defect in teller.walk.defects.items()}


def test_a_defect_stays_open_until_its_step_is_repeated_and_ok() -> None:
    teller = defective()
    teller.ok("backup_rear")
    teller.back("tail_rear", "recheck")
    teller.found("tail_rear", tail_left="dim")
    assert states(teller) == {"tail_rear": "open"}
    teller.back("tail_rear", "recheck")
    teller.tell(Answered, step="tail_rear", answer="not_checked", reason="no_power")
    assert states(teller) == {"tail_rear": "open"}
    teller.back("tail_rear", "recheck")
    teller.ok("tail_rear")
    assert states(teller) == {"tail_rear": "rechecked"}
    assert teller.walk.open_defects == ()
    assert teller.walk.here == STEPS[3]


def test_a_mistaken_defect_is_withdrawn_and_a_rechecked_one_stays_rechecked() -> None:
    teller = defective()
    teller.back("tail_rear")
    assert teller.walk.here == STEPS[1]
    teller.ok("tail_rear")
    assert states(teller) == {"tail_rear": "withdrawn"}
    rechecked = defective()
    rechecked.back("tail_rear", "recheck")
    rechecked.ok("tail_rear")
    rechecked.back("tail_rear")
    rechecked.ok("tail_rear")
    assert states(rechecked) == {"tail_rear": "rechecked"}


def test_a_defect_found_again_is_open_again() -> None:
    teller = defective()
    teller.back("tail_rear", "recheck")
    teller.ok("tail_rear")
    teller.back("tail_rear")
    teller.found("tail_rear", tail_right="dark")
    assert states(teller) == {"tail_rear": "open"}
    assert teller.walk.defects["tail_rear"].found.seen == {"tail_right": "dark"}


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


def test_giving_up_a_hold_that_was_over_leaves_its_defect_open() -> None:
    teller = at_the_hold("stepping")
    teller.hold(end_psi=100.0)
    teller.found(HOLD)
    teller.back(HOLD, "recheck")
    teller.back(HOLD, "change")
    teller.tell(Answered, step=HOLD, answer="not_checked", reason="no_time")
    assert states(teller) == {HOLD: "open"}


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


def test_a_recheck_of_a_hold_starts_from_nothing() -> None:
    teller = at_the_hold("stepping")
    teller.hold(end_psi=100.0)
    teller.found(HOLD)
    teller.back(HOLD, "recheck")
    assert "after its last reading" in refused(teller, Answered, step=HOLD, answer="ok")
    teller.hold()
    teller.ok(HOLD)
    assert states(teller) == {HOLD: "rechecked"}


def test_a_void_hold_does_not_count() -> None:
    teller = at_the_hold("holding")
    teller.tell(HoldVoided, step=HOLD, why="A hose came off.")
    assert teller.walk.holds[HOLD].void == "A hose came off."
    assert "after its last reading" in refused(teller, Answered, step=HOLD, answer="ok")
    teller.hold()
    teller.ok(HOLD)


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


_STEP_IDS = st.sampled_from([*(step.id for step in STEPS), "nowhere"])
_SEEN = st.dictionaries(
    st.sampled_from(["tail_left", "tail_right", "backup_centre"]),
    st.sampled_from(["dark", "dim", "missing", "not_fitted"]),
    max_size=2,
)
_ANSWERS = st.sampled_from(["ok", "ok", "ok", "defect", "missing", "not_fitted", "not_checked"])
_REASONS = st.sampled_from([None, None, "no_air"])
_KINDS = st.one_of(
    st.tuples(
        st.just(Answered),
        st.fixed_dictionaries(
            {"step": _STEP_IDS, "answer": _ANSWERS, "reason": _REASONS, "seen": _SEEN}
        ),
    ),
    st.tuples(
        st.just(Noted), st.fixed_dictionaries({"step": _STEP_IDS, "text": st.text(max_size=3)})
    ),
    st.tuples(
        st.just(Revisited),
        st.fixed_dictionaries(
            {"step": _STEP_IDS, "purpose": st.sampled_from(["change", "recheck"])}
        ),
    ),
    st.tuples(
        st.just(ReadingTaken),
        st.fixed_dictionaries(
            {
                "step": _STEP_IDS,
                "gauge": st.sampled_from(["supply", "service"]),
                "at_s": st.sampled_from([0.0, 30.0, 60.0, 75.0, 90.0]),
                "psi": st.sampled_from([110.0, 109.0, 107.0]),
            }
        ),
    ),
    st.tuples(st.sampled_from([HoldBegan, HoldEnded]), st.fixed_dictionaries({"step": _STEP_IDS})),
    st.tuples(st.just(HoldVoided), st.just({"step": HOLD, "why": "A hose came off."})),
    st.tuples(st.sampled_from([Paused, Resumed, Resumed, Finished]), st.just({})),
)
# Steps of one's own choosing rarely lead far; "here" is the present step, answered or held.
_FORWARD = st.sampled_from(["ok here", "defect here", "hold here"])


@settings(max_examples=300)
@given(moves=st.lists(st.one_of(_FORWARD, _FORWARD, _KINDS), max_size=40))
def test_any_sequence_of_events_leaves_a_legal_walk(moves: list[Any]) -> None:
    teller = Teller(clock=FakeClock(step_s=1.0))
    teller.begin()
    for move in moves:
        before = teller.walk
        try:
            _make(teller, move)
        except NotNowError:
            assert move in ("hold here",) or teller.walk is before
        _is_legal(teller.walk)
    assert fold(teller.walk.events) == teller.walk


def _make(teller: Teller, move: Any) -> None:
    here = teller.walk.here
    if not isinstance(move, str):
        kind, body = move
        teller.tell(kind, **body)
    elif here and move == "hold here":
        teller.hold(here.id)
    elif here:
        teller.tell(Answered, step=here.id, answer=move.split()[0])


def _is_legal(walk: Walk) -> None:
    assert walk.phase in TRANSITIONS
    assert [event.seq for event in walk.events] == list(range(len(walk.events)))
    running = [step for step, hold in walk.holds.items() if hold.running]
    assert running == ([walk.here.id] if walk.phase == "holding" and walk.here else [])
    known = {step.id: step for step in walk.steps}
    for id_, answer in walk.answers.items():
        assert not (known[id_].must and answer.answer != "ok")
        assert not (known[id_].items and answer.answer == "not_fitted" and id_ == "tail_rear")
        # Whatever was found wrong last is in sight, and only a fault opens a defect.
        if answer.answer in FAULTS:
            assert walk.defects[id_].state == "open"
            assert walk.defects[id_].found == answer
    for id_, defect in walk.defects.items():
        assert defect.state in ("open", "withdrawn", "rechecked")
        if defect.state != "open":
            assert walk.answers[id_].answer not in FAULTS
    hold_answer = walk.answers.get(HOLD)
    if hold_answer and hold_answer.answer == "ok" and HOLD in walk.holds:
        hold = walk.holds[HOLD]
        assert walk.revisiting == HOLD or (hold.ended and not hold.over()) or hold.void
