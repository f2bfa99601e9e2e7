"""One walk: what each event changes, and that no sequence of events leaves an illegal walk."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from support.walks import (
    HOLD,
    STEPS,
    FakeClock,
    Teller,
    at_the_hold,
    begun,
    defective,
    plan,
    refused,
)

from walkaround.base.errors import NotNowError
from walkaround.walk.advance import fold
from walkaround.walk.events import (
    Answered,
    Finished,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    Noted,
    Paused,
    ReadingMended,
    ReadingTaken,
    Resumed,
    Revisited,
)
from walkaround.walk.state import FAULTS, Walk
from walkaround.walk.transitions import TRANSITIONS


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


def test_a_note_stands_for_its_step_and_the_last_one_counts() -> None:
    teller = begun()
    teller.tell(Noted, step="vent", text="slow")
    teller.tell(Noted, step="vent", text="very slow")
    assert teller.walk.notes == {"vent": "very slow"}
    assert "no step" in refused(teller, Noted, step="nowhere", text="x")


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


def test_giving_up_a_hold_that_was_over_leaves_its_defect_open() -> None:
    teller = at_the_hold("stepping")
    teller.hold(end_psi=100.0)
    teller.found(HOLD)
    teller.back(HOLD, "recheck")
    teller.back(HOLD, "change")
    teller.tell(Answered, step=HOLD, answer="not_checked", reason="no_time")
    assert states(teller) == {HOLD: "open"}


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
        st.sampled_from([ReadingTaken, ReadingMended]),
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
