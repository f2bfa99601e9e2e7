"""What a walk allows. Whatever it refuses, it refuses in a sentence and is not changed by."""

from __future__ import annotations

from typing import Any, get_args

import pytest
from support.walks import (
    HOLD,
    STEPS,
    Teller,
    at_the_hold,
    begun,
    defective,
    hold_rule,
    plan,
    refused,
    step,
)

from walkaround.base.errors import NotNowError
from walkaround.walk.advance import advance, fold
from walkaround.walk.events import (
    AirTemperature,
    Answered,
    Began,
    ChamberTold,
    Finished,
    GaugesTold,
    Heard,
    HoldBegan,
    HoldEnded,
    HoldVoided,
    Measured,
    Noted,
    OdometerRead,
    Paused,
    Photographed,
    ReadingMended,
    ReadingTaken,
    Repaired,
    Resumed,
    Revisited,
    Signed,
    TakenBack,
    TimerBegan,
    Tried,
)
from walkaround.walk.state import Phase
from walkaround.walk.transitions import TRANSITIONS

AT_THE_HOLD: dict[type[Any], dict[str, Any]] = {
    Began: {"walk": "20261125_081502_4f3a9c", "plan": plan()},
    Answered: {"step": HOLD, "answer": "not_checked", "reason": "no_air"},
    Noted: {"step": "chocks", "text": "wet ground"},
    Photographed: {"step": "chocks", "photo": "3f" * 32},
    Revisited: {"step": "chocks", "purpose": "change"},
    HoldBegan: {"step": HOLD},
    ReadingTaken: {"step": HOLD, "gauge": "supply", "at_s": 75.0, "psi": 109.0},
    HoldEnded: {"step": HOLD},
    HoldVoided: {"step": HOLD, "why": "A hose came off."},
    Tried: {"trial": "cable:", "outcome": "same"},
    TakenBack: {"trial": "cable:"},
    Heard: {"step": HOLD, "places": ("tank", "relay_exhaust")},
    Signed: {"what": "tag_placed", "name": "Ana"},
    OdometerRead: {"value": 48213, "unit": "mi"},
    Paused: {},
    Resumed: {},
    Finished: {},
}
"""Each kind of event with a body that suits a walk whose present step is the air hold."""
MEASURING = (
    AirTemperature, ChamberTold, GaugesTold, Measured, ReadingMended, Repaired, TimerBegan,
)  # fmt: skip
"""Those that suit other steps than that, or a defect."""


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
    kinds |= {kind.model_fields["kind"].default for kind in MEASURING}
    assert {name for row in TRANSITIONS.values() for name in row} == kinds
    assert {after for row in TRANSITIONS.values() for after in row.values()} <= set(TRANSITIONS)


@pytest.mark.parametrize("number", [1, 2, 4])
def test_an_event_takes_the_next_number_and_no_other(number: int) -> None:
    teller = begun()
    teller.ok("chocks", "tail_rear")
    event = teller.sealed(Noted, step="chocks", text="x")
    assert advance(teller.walk, event).events[-1].seq == 3
    with pytest.raises(NotNowError, match=f"{number} does not follow event 2"):
        advance(teller.walk, event.model_copy(update={"seq": number}))


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


def test_a_reading_is_mended_at_its_own_time_while_the_hold_runs() -> None:
    teller = at_the_hold("stepping")
    teller.tell(HoldBegan, step=HOLD)
    supply = {"step": HOLD, "gauge": "supply"}
    teller.tell(ReadingTaken, **supply, at_s=0.0, psi=100.0)
    assert "was not read at 30 s" in refused(teller, ReadingMended, **supply, at_s=30.0, psi=110.0)
    assert "stays" in refused(teller, ReadingMended, **supply, at_s=0.0, psi=None)
    teller.tell(ReadingMended, **supply, at_s=0.0, psi=110.0)
    [look] = teller.walk.holds[HOLD].readings
    assert (look.at_s, look.psi, look.before) == (0.0, 110.0, (100.0,))
    teller.tell(ReadingTaken, **supply, at_s=60.0, psi=109.0)
    teller.tell(HoldEnded, step=HOLD)
    late = {**supply, "at_s": 0.0, "psi": 109.0}
    assert "takes no event" in refused(teller, ReadingMended, **late)
    assert fold(teller.walk.events) == teller.walk


def test_a_tap_at_a_mark_that_was_not_crossed_is_taken_back_but_never_the_first() -> None:
    teller = begun(plan((step("gauges", "secure", "gauges"), *STEPS)))
    coarse = {"supply": {"name": "supply", "step": 5.0, "crossing": True}}
    told = {"step": "gauges", "gauges": coarse, "altitude_m": 0.0, "at_zero": True}
    teller.tell(GaugesTold, **told)
    while teller.walk.here is not None and teller.walk.here.id != HOLD:
        teller.ok(teller.walk.here.id)
    teller.tell(HoldBegan, step=HOLD)
    supply = {"step": HOLD, "gauge": "supply"}
    teller.tell(ReadingTaken, **supply, at_s=2.0, psi=115.0)
    assert "stays" in refused(teller, ReadingMended, **supply, at_s=2.0, psi=None)
    teller.tell(ReadingMended, **supply, at_s=2.0, psi=110.0)
    teller.tell(ReadingTaken, **supply, at_s=20.0, psi=105.0)
    assert "stays" in refused(teller, ReadingMended, **supply, at_s=2.0, psi=None)
    assert "stays" in refused(teller, ReadingMended, **supply, at_s=20.0, psi=100.0)
    teller.tell(ReadingMended, **supply, at_s=20.0, psi=None)
    assert [look.psi for look in teller.walk.holds[HOLD].readings] == [110.0]


def test_only_a_hold_is_held() -> None:
    assert "no air hold" in refused(begun(), HoldBegan, step="chocks")


# Gauges, values, times


def value(id_: str, **bounds: float | str) -> dict[str, float | str]:
    return {"id": id_, "name": id_, **bounds}


def measuring(quantity: str = "psi", *values: dict[str, float | str], **more: Any) -> Teller:
    """A walk whose only steps take these values and then do something."""
    measure = {"quantity": quantity, "values": values, **more}
    return begun(plan((step("m", "warning", "measure", measure=measure), STEPS[-1])))


WARNING = (value("primary", at_least=60.0), value("secondary", at_least=60.0))


def measured(teller: Teller, amount: float, value_id: str = "primary", unit: str = "psi") -> None:
    teller.tell(Measured, step="m", value_id=value_id, value=amount, unit=unit)


def test_a_measured_step_is_ok_only_with_every_value_in_and_within() -> None:
    teller = measuring("psi", *WARNING)
    assert "every value" in refused(teller, Answered, step="m", answer="ok")
    measured(teller, 62.0)
    assert "every value" in refused(teller, Answered, step="m", answer="ok")
    measured(teller, 60.0, "secondary")
    teller.ok("m")
    assert not teller.walk.open_defects


@pytest.mark.parametrize("answer", ["ok", "not_checked"])
def test_a_value_outside_its_limit_is_a_defect_whatever_the_thumb_says(answer: str) -> None:
    teller = measuring("psi", *WARNING)
    measured(teller, 55.0)
    reason = "no_time" if answer == "not_checked" else None
    body = {"step": "m", "answer": answer, "reason": reason}
    assert "outside its limit" in refused(teller, Answered, **body)
    teller.found("m")
    assert [defect.step for defect in teller.walk.open_defects] == ["m"]


def test_a_value_that_was_mistyped_is_measured_again() -> None:
    teller = measuring("psi", *WARNING)
    measured(teller, 6.0)
    measured(teller, 66.0)
    measured(teller, 64.0, "secondary")
    teller.ok("m")


def test_what_nothing_bounds_cannot_be_ok() -> None:
    teller = measuring("in", value("stroke"), known=False)
    measured(teller, 1.5, "stroke", "in")
    assert "every value" in refused(teller, Answered, step="m", answer="ok")
    teller.tell(Answered, step="m", answer="not_checked", reason="other")


def test_a_step_takes_only_its_own_values_in_units_that_fit() -> None:
    teller = measuring("psi", *WARNING)
    odd = {"step": "m", "value": 60.0}
    assert "no value called" in refused(teller, Measured, value_id="supply", unit="psi", **odd)
    assert "no value in mm" in refused(teller, Measured, value_id="primary", unit="mm", **odd)
    assert "no stopwatch" in refused(teller, TimerBegan, step="m")
    measured(teller, 4.2, unit="bar")


def test_a_recheck_measures_anew() -> None:
    teller = measuring("psi", value("primary", at_least=60.0))
    measured(teller, 55.0)
    teller.found("m")
    teller.back("m", "recheck")
    assert "m" not in teller.walk.measured
    assert "every value" in refused(teller, Answered, step="m", answer="ok")
    measured(teller, 61.0)
    teller.ok("m")
    assert teller.walk.defects["m"].state == "rechecked"


def test_giving_a_measurement_up_leaves_its_defect_open() -> None:
    teller = measuring("psi", value("primary", at_least=60.0))
    measured(teller, 55.0)
    teller.found("m")
    teller.back("m", "recheck")
    teller.tell(Answered, step="m", answer="not_checked", reason="no_air")
    assert teller.walk.defects["m"].state == "open"


def test_a_stopwatch_runs_before_its_time_is_taken() -> None:
    teller = measuring("s", value("time", at_most=45.0))
    teller.tell(TimerBegan, step="m")
    assert teller.walk.timers["m"] == teller.walk.events[-1].at
    measured(teller, 44.0, "time", "s")
    teller.ok("m")


@pytest.mark.parametrize("trouble", [{"boot": "boot_b"}, {"asleep_s": 5.0}])
def test_a_time_that_ran_while_the_computer_was_away_is_not_taken(trouble: dict[str, Any]) -> None:
    teller = measuring("s", value("time", at_most=45.0))
    teller.tell(TimerBegan, step="m")
    for name, to in trouble.items():
        setattr(teller.clock, name, to)
    taken = {"step": "m", "value_id": "time", "value": 44.0, "unit": "s"}
    assert "start again" in refused(teller, Measured, **taken)
    teller.tell(TimerBegan, step="m")
    teller.tell(Measured, **taken)


@pytest.mark.parametrize("trouble", [{"boot": "boot_b"}, {"asleep_s": 5.0}])
def test_a_hold_takes_no_reading_once_its_time_is_lost(trouble: dict[str, Any]) -> None:
    """Also before a page has noticed that, and voided it."""
    teller = at_the_hold("holding")
    for name, to in trouble.items():
        setattr(teller.clock, name, to)
    late = {"step": HOLD, "gauge": "supply", "at_s": 75.0, "psi": 110.0}
    assert "hold again" in refused(teller, ReadingTaken, **late)
    assert "hold again" in refused(teller, HoldEnded, step=HOLD, how="early", at_s=60.0)


GAUGES = {"supply": {"name": "supply", "unit": "kPa", "step": 20.0}}


def test_the_gauges_are_told_before_their_step_is_done_and_an_air_hold_reads_them_so() -> None:
    teller = begun(plan((step("gauges", "connect", "gauges"), STEPS[4])))
    assert "not been told" in refused(teller, Answered, step="gauges", answer="ok")
    told = {"gauges": GAUGES, "altitude_m": 250.0, "at_zero": True}
    teller.tell(GaugesTold, step="gauges", **told)
    teller.ok("gauges")
    assert "asks for no gauges" in refused(teller, GaugesTold, step=HOLD, **told)
    teller.tell(HoldBegan, step=HOLD)
    assert teller.walk.holds[HOLD].gauge("supply").unit == "kPa"
    assert teller.walk.holds[HOLD].gauge("service").unit == "psi"


def waiting(gone_s: float, **more: Any) -> Teller:
    """A walk at a step that waits 900 s from an act, with so much gone by since."""
    wait = step("held", "finish", "wait", wait={"after": "vent", "seconds": 900.0})
    teller = begun(plan((STEPS[-1], wait)))
    teller.ok("vent")
    teller.clock.wait(gone_s)
    for name, to in more.items():
        setattr(teller.clock, name, to)
    return teller


@pytest.mark.parametrize(
    ("gone_s", "more", "left"),
    [
        (0.0, {}, "900 s"),
        (899.0, {}, "1 s"),
        (900.0, {}, ""),
        (300.0, {"asleep_s": 600.0}, ""),  # it goes on while the computer sleeps
        # Of a restart counts how long the computer is on again, whatever the wall clock says.
        (90_000.0, {"boot": "boot_b", "mono_s": 60.0}, "840 s"),
        (90_000.0, {"boot": "boot_b", "mono_s": 900.0}, ""),
    ],
)
def test_a_wait_is_over_when_its_time_has_gone_by(
    gone_s: float, more: dict[str, Any], left: str
) -> None:
    teller = waiting(gone_s, **more)
    if left:
        assert f"{left} are still to go" in refused(teller, Answered, step="held", answer="ok")
        teller.tell(Answered, step="held", answer="not_checked", reason="no_time")
    else:
        teller.ok("held")


# How an air hold ends


def holding(*readings: tuple[float, float]) -> Teller:
    teller = at_the_hold("stepping")
    teller.tell(HoldBegan, step=HOLD)
    for at_s, psi in readings:
        teller.tell(ReadingTaken, step=HOLD, gauge="supply", at_s=at_s, psi=psi)
    return teller


def ended(how: str, at_s: float = 60.0) -> dict[str, Any]:
    return {"step": HOLD, "how": how, "at_s": at_s}


def test_a_hold_ends_as_its_readings_say_and_early_by_the_plain_rule() -> None:
    """2 psi lost in the minute, the limit itself: a gauge read to 1 psi cannot tell."""
    teller = holding((0.0, 110.0), (30.0, 109.0), (60.0, 108.0))
    for how in ("decided", "time_up", "settling"):
        assert "not come to that" in refused(teller, HoldEnded, **ended(how))
    teller.tell(HoldEnded, **ended("early"))
    assert not teller.walk.holds[HOLD].over()
    teller.ok(HOLD)


def test_the_plain_rule_does_not_judge_by_a_reading_that_does_not_fit() -> None:
    """From 100 to 107 psi air was gained: one of them was misread."""
    teller = holding((0.0, 100.0), (30.0, 108.5), (60.0, 107.0))
    assert "does not fit" in refused(teller, HoldEnded, **ended("early"))


@pytest.mark.parametrize("how", ["decided", "time_up", "settling"])
def test_a_hold_that_another_version_judged_is_read_as_that_one_ended_it(how: str) -> None:
    """Today these readings decide nothing; what was answered then stands."""
    teller = holding((0.0, 110.0), (30.0, 109.0), (60.0, 107.0))
    assert "not come to that" in refused(teller, HoldEnded, **ended(how))
    teller.tell(HoldEnded, **ended(how), judged_by=1)
    assert teller.walk.holds[HOLD].results()["supply"].rule_verdict == "over"
    if how == "settling":
        assert "settling" in refused(teller, Answered, step=HOLD, answer="ok")
    else:
        teller.ok(HOLD)


def test_no_hold_of_another_version_ends_before_its_minute_either() -> None:
    teller = holding((0.0, 110.0), (30.0, 104.0))
    assert "not in yet" in refused(teller, HoldEnded, **ended("decided"), judged_by=1)


def test_no_hold_ends_before_its_minute() -> None:
    teller = holding((0.0, 110.0), (30.0, 104.0))
    for how in ("decided", "early"):
        assert "not in yet" in refused(teller, HoldEnded, **ended(how))


def test_a_hold_that_was_clearly_over_can_only_be_a_defect() -> None:
    teller = holding(*zip((0.0, 30.0, 60.0, 75.0, 90.0), (110, 108, 106, 105, 104), strict=True))
    teller.tell(HoldEnded, **ended("decided", 90.0))
    assert "defect" in refused(teller, Answered, step=HOLD, answer="ok")
    teller.found(HOLD)


def test_air_that_was_still_settling_answers_nothing() -> None:
    """6 psi of cooling with a time constant of 30 s: 3.8 psi in the first half, 1.4 after."""
    teller = holding(*zip((0.0, 30.0, 60.0, 75.0, 90.0), (110, 106, 105, 105, 105), strict=True))
    teller.tell(HoldEnded, **ended("settling", 90.0))
    assert "settling" in refused(teller, Answered, step=HOLD, answer="ok")
    teller.tell(HoldBegan, step=HOLD)


def test_the_airs_temperature_belongs_to_a_hold_that_has_ended() -> None:
    teller = at_the_hold("stepping")
    air = {"step": HOLD, "start_c": 30.0, "end_c": 28.5}
    assert "no air hold" in refused(teller, AirTemperature, **air)
    teller.hold()
    teller.tell(AirTemperature, **air)
    assert teller.walk.holds[HOLD].air_c == (30.0, 28.5)
