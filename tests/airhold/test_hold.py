"""An air hold as it runs: what is due when, how a look is stamped, when its time is lost."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.walks import FakeClock, hold_rule

from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import ASLEEP_S, LATE_S, Hold
from walkaround.base.clock import Moment
from walkaround.library.load import load_files

START = FakeClock()()
ONE = Hold(rule=hold_rule(supply=110.0), began=START)
TWO = Hold(rule=hold_rule(supply=110.0, service=90.0), began=START)


def after(seconds: float, **more: object) -> Moment:
    """The moment so many seconds into the hold."""
    return START.model_copy(update={"mono_s": START.mono_s + seconds, **more})


def read(hold: Hold, *looks: tuple[str, float, float]) -> Hold:
    for gauge, at_s, psi in looks:
        hold = hold.with_reading(gauge, at_s, psi)
    return hold


SUPPLY_0 = ("supply", 0.0, 110.0)
SERVICE_0 = ("service", 0.0, 90.0)
SUPPLY_30 = ("supply", 30.0, 109.0)


@pytest.mark.parametrize(
    ("hold", "looks", "elapsed_s", "due"),
    [
        (ONE, [], 0.0, ("supply", 0.0)),
        (ONE, [], 29.9, ("supply", 0.0)),
        (ONE, [], 30.0, ("supply", 30.0)),  # the start was missed: the minute begins here
        (ONE, [SUPPLY_0], 29.9, None),
        (ONE, [SUPPLY_0], 30.0, ("supply", 30.0)),
        (ONE, [SUPPLY_0, SUPPLY_30], 59.9, None),
        (ONE, [SUPPLY_0, SUPPLY_30], 60.0, ("supply", 60.0)),
        (ONE, [SUPPLY_0], 60.0, ("supply", 60.0)),  # half time was missed: not asked any more
        (ONE, [SUPPLY_0, ("supply", 60.0, 108.0)], 74.9, None),
        (ONE, [SUPPLY_0, ("supply", 60.0, 108.0)], 75.0, ("supply", 75.0)),
        (ONE, [("supply", 25.0, 110.0)], 54.9, None),
        (ONE, [("supply", 25.0, 110.0)], 55.0, ("supply", 55.0)),
        (ONE, [("supply", 25.0, 110.0)], 84.9, ("supply", 55.0)),
        (ONE, [("supply", 25.0, 110.0)], 85.0, ("supply", 85.0)),
        (TWO, [], 0.0, ("supply", 0.0)),
        (TWO, [SUPPLY_0], 3.0, ("service", 0.0)),
        (TWO, [SUPPLY_0, SERVICE_0], 3.0, None),
        (TWO, [SUPPLY_0, SERVICE_0, SUPPLY_30], 31.0, ("service", 30.0)),
        (TWO, [SUPPLY_0, ("service", 25.0, 90.0)], 54.0, None),
        (TWO, [SUPPLY_0, ("service", 25.0, 90.0)], 85.0, ("supply", 85.0)),
    ],
)
def test_what_is_due_follows_from_the_clock_and_the_readings(
    hold: Hold,
    looks: list[tuple[str, float, float]],
    elapsed_s: float,
    due: tuple[str, float] | None,
) -> None:
    assert read(hold, *looks).due(after(elapsed_s)) == due


@pytest.mark.parametrize(
    ("mark_s", "elapsed_s", "stamp_s"),
    [
        (0.0, 0.0, 0.0),
        (30.0, 34.2, 30.0),
        (30.0, 30.0 + LATE_S, 30.0),
        (30.0, 30.0 + LATE_S + 0.06, 40.1),
        (60.0, 75.0, 75.0),
    ],
)
def test_a_look_is_stamped_with_its_mark_unless_it_came_late(
    mark_s: float, elapsed_s: float, stamp_s: float
) -> None:
    assert ONE.stamp_s(mark_s, after(elapsed_s)) == stamp_s


def test_a_late_first_reading_ends_the_hold_as_much_later() -> None:
    late = read(TWO, SUPPLY_0, ("service", 25.0, 90.0))
    assert (TWO.from_s, late.from_s) == (0.0, 25.0)
    assert late.marks_s()[:4] == (0.0, 55.0, 85.0, 100.0)
    assert late.marks_s()[-1] == late.last_s == 325.0
    assert late.remaining_s(after(80.0)) == pytest.approx(5.0)
    assert late.remaining_s(after(100.0)) == 0.0


@pytest.mark.parametrize(
    ("elapsed_s", "mark_s"),
    [(0, 30), (29.9, 30), (30, 60), (60, 75), (284.9, 285), (285, 300), (299.9, 300), (400, 300)],
)
def test_the_next_look_is_at_the_next_mark_and_after_the_last_at_none_later(
    elapsed_s: float, mark_s: float
) -> None:
    assert ONE.next_mark_s(after(elapsed_s)) == mark_s


def test_a_longer_rule_has_fewer_marks_after_its_time_and_one_of_five_minutes_none() -> None:
    for seconds, marks_s in ((120.0, (0.0, 60.0, 120.0, 135.0)), (290.0, (0.0, 145.0, 290.0))):
        hold = replace(ONE, rule=ONE.rule.model_copy(update={"seconds": seconds}))
        assert hold.marks_s()[: len(marks_s)] == marks_s
        assert hold.last_s <= 300.0 < hold.last_s + 15.0
    ten = replace(ONE, rule=ONE.rule.model_copy(update={"seconds": 600.0}))
    assert ten.marks_s() == (0.0, 300.0, 600.0)


@given(st.lists(st.tuples(st.sampled_from(["supply", "service"]), st.floats(0, 200)), max_size=12))
def test_with_the_minute_in_each_gauge_has_its_whole_minute_between_readings(
    looks: list[tuple[str, float]],
) -> None:
    hold = TWO
    for gauge, at_s in looks:
        if all(r.at_s < at_s for r in hold.readings if r.gauge == gauge):
            hold = hold.with_reading(gauge, at_s, 100.0)
    if hold.minute_in(200.0):
        for gauge in hold.rule.gauges:
            times = [r.at_s for r in hold.readings if r.gauge == gauge]
            assert times[-1] - times[0] >= hold.rule.seconds - 1e-9


@pytest.mark.parametrize(
    ("looks", "minute_in"),
    [
        ([SUPPLY_0, SERVICE_0, ("supply", 60.0, 109.0), ("service", 60.0, 89.0)], True),
        ([SUPPLY_0, SERVICE_0, ("supply", 60.0, 109.0), ("service", 59.9, 89.0)], False),
        ([SUPPLY_0, SERVICE_0, ("supply", 60.0, 109.0)], False),
        ([SUPPLY_0, ("service", 70.0, 90.0), ("supply", 130.0, 109.0)], False),
        ([], False),
    ],
)
def test_the_minute_is_in_when_each_gauge_has_both_its_readings(
    looks: list[tuple[str, float, float]], minute_in: bool
) -> None:
    assert read(TWO, *looks).minute_in(200.0) is minute_in


def steady(until_s: float, psi_per_min: float = 0.0) -> Hold:
    """Readings at 0, 30, 60 s and then every 15 s, without error."""
    times = [mark for mark in ONE.marks_s() if mark <= until_s]
    return read(ONE, *[("supply", at_s, 110.0 - psi_per_min * at_s / 60) for at_s in times])


def test_a_hold_goes_on_every_15_s_while_it_is_undecided_and_ends_after_five_minutes() -> None:
    limit = ONE.rule.limit_psi_per_min
    for until_s in (60.0, 75.0, 150.0, 285.0):
        undecided = steady(until_s, limit)
        assert undecided.ending(until_s) == ""
        assert undecided.due(after(until_s + 15)) == ("supply", until_s + 15)
    assert steady(300.0, limit).ending(300.0) == "time_up"
    assert steady(300.0, limit).due(after(400.0)) is None


@pytest.mark.parametrize(
    ("psi_per_min", "until_s", "how"), [(0.0, 60.0, "decided"), (9.0, 120.0, "decided")]
)
def test_a_clear_hold_ends_at_once(psi_per_min: float, until_s: float, how: str) -> None:
    assert steady(until_s, psi_per_min).ending(until_s) == how
    assert steady(30.0, psi_per_min).ending(30.0) == ""


def test_cooling_air_ends_a_hold_as_settling_and_tells_of_no_leak() -> None:
    cooling = read(ONE, SUPPLY_0, ("supply", 30.0, 105.0), ("supply", 60.0, 104.0))
    assert cooling.ending(60.0) == "settling"
    assert not replace(cooling, ended="settling", ended_s=60.0).over()


@given(st.floats(0, 120))
def test_the_reading_at_the_last_mark_always_ends_the_hold(first_s: float) -> None:
    hold = read(ONE, ("supply", first_s, 110.0))
    for mark in hold.marks_s()[2:]:
        hold = read(hold, ("supply", mark, 110.0 - 2.0 * (mark - first_s) / 60))
    assert hold.marks_s()[-1] == hold.last_s
    assert hold.ending(hold.last_s) == "time_up"


COARSE = Gauge(name="supply", step=5.0, crossing=True)
CROSSED = replace(ONE, gauges={"supply": COARSE})


def test_a_gauge_read_by_crossing_is_never_due_and_has_its_minute_from_the_first_tap() -> None:
    assert CROSSED.crossing == "supply"
    assert CROSSED.due(after(60.0)) is None
    assert not CROSSED.minute_in(200.0)
    tapped = read(CROSSED, ("supply", 20.0, 110.0))
    assert not tapped.minute_in(79.9)
    assert tapped.minute_in(80.0)


def test_a_needle_that_crosses_no_further_mark_is_within_once_that_is_clear() -> None:
    tapped = read(CROSSED, ("supply", 1.0, 110.0))
    # One more mark, 5 psi, at 2 psi/min takes 150 s; it is clear some time after that.
    assert tapped.ending(140.0) == ""
    assert tapped.ending(240.0) == "decided"
    assert tapped.results(240.0)["supply"].verdict == "within"


def test_a_needle_of_which_no_mark_was_tapped_voids_the_hold_in_the_end() -> None:
    assert CROSSED.odd_readings(299.0) is None
    assert "No mark was tapped on the supply gauge" in str(CROSSED.odd_readings(300.0))


def test_readings_that_cannot_be_are_told_in_a_sentence() -> None:
    odd = read(CROSSED, ("supply", 1.0, 110.0), ("supply", 1.0, 105.0))
    assert str(odd.odd_readings(10.0)).endswith("hold again.")
    twice = read(CROSSED, ("supply", 1.0, 110.0), ("supply", 2.0, 110.0), ("supply", 3.0, 108.0))
    assert "tap before" in str(twice.odd_readings(10.0)), "the first of what is wrong is told"
    assert read(ONE, SUPPLY_0, SUPPLY_30).odd_readings(30.0) is None


@pytest.mark.parametrize(
    ("now", "told"),
    [
        (after(30.0), ""),
        (after(30.0, asleep_s=START.asleep_s + ASLEEP_S), ""),
        (after(30.0, asleep_s=START.asleep_s + ASLEEP_S + 0.1), "slept"),
        (after(30.0, asleep_s=START.asleep_s - ASLEEP_S - 0.1), "slept"),
        (after(30.0, boot="boot_b"), "restarted"),
        (after(-900.0, boot="boot_b"), "restarted"),
    ],
)
def test_a_reboot_or_a_sleep_takes_the_time_of_a_hold(now: Moment, told: str) -> None:
    trouble = ONE.time_trouble(now)
    assert (told in str(trouble)) if told else trouble is None


def test_where_sleep_and_restart_look_the_same_the_hold_names_both() -> None:
    began = START.model_copy(update={"boot": "darwin"})
    trouble = replace(ONE, began=began).time_trouble(after(30.0, boot="darwin", asleep_s=60.0))
    assert "slept, was restarted or its clock was set" in str(trouble)


def test_seconds_never_run_backwards_below_zero() -> None:
    assert ONE.elapsed_s(after(-5.0)) == 0.0
    assert ONE.remaining_s(after(-5.0)) == 60.0


def test_entry_starts_from_the_last_reading_and_first_from_the_pressure_set() -> None:
    assert (TWO.last_psi("supply"), TWO.last_psi("service")) == (110.0, 90.0)
    assert read(TWO, SUPPLY_0, SUPPLY_30).last_psi("supply") == 109.0


@pytest.mark.parametrize(
    ("psi", "how"),
    [
        ([110, 10.9, 109], "settling"),
        ([110, 100, 109], ""),  # the next reading tells which of them it was
        ([110, 100, 109, 109], "settling"),
        ([110, 110, 119], ""),  # the next reading tells whether it rose
    ],
)
def test_a_hold_with_a_reading_that_does_not_fit_ends_without_a_result(
    psi: list[float], how: str
) -> None:
    looks = list(zip((0.0, 30.0, 60.0, 75.0), psi, strict=False))
    hold = read(ONE, *[("supply", at_s, each) for at_s, each in looks])
    last_s = looks[-1][0]
    assert hold.ending(last_s) == how
    assert hold.minute_in(last_s)
    assert not hold.may_end_early(last_s)
    assert not replace(hold, ended="settling", ended_s=last_s).over()


def test_a_reading_that_does_not_fit_on_one_gauge_hides_no_leak_on_the_other() -> None:
    service = [(at_s, 90 - at_s / 10) for at_s in (0.0, 30.0, 60.0, 75.0, 90.0)]
    supply = list(zip((0.0, 30.0, 60.0, 75.0, 90.0), (110, 110, 110, 110, 119), strict=True))
    hold = read(
        TWO, *[("service", *look) for look in service], *[("supply", *look) for look in supply]
    )
    assert hold.results(90.0)["supply"].reason == "misread"
    assert hold.ending(90.0) == "decided"
    assert replace(hold, ended="decided", ended_s=90.0).over()


def test_the_plain_rule_may_end_a_minute_whose_readings_fit() -> None:
    hold = read(ONE, SUPPLY_0, SUPPLY_30)
    assert not hold.may_end_early(59.9)
    assert read(hold, ("supply", 60.0, 108.0)).may_end_early(60.0)


def test_each_gauge_is_judged_by_its_own_readings() -> None:
    looks = [SUPPLY_0, SERVICE_0, ("supply", 60.0, 108.0)]
    assert set(read(TWO, *looks).results()) == {"supply"}
    steady = read(TWO, *looks, ("service", 60.0, 90.0))
    leaking = read(TWO, *looks, ("service", 60.0, 87.0))
    steady, leaking = (replace(h, ended="early", ended_s=60.0) for h in (steady, leaking))
    assert not steady.over()  # 2 psi in the minute, the limit itself
    assert leaking.over()
    assert leaking.results()["supply"].rule_verdict == "within"
    assert leaking.results()["service"].rule_rate_psi_per_min == pytest.approx(3.0)


def test_a_hold_runs_until_it_is_ended_or_void() -> None:
    assert ONE.running
    assert not Hold(rule=ONE.rule, began=START, ended="early").running
    assert not Hold(rule=ONE.rule, began=START, void="A hose came off.").running


CHECKLIST = """
id = "own"
title = "Own"
source = "the depot"
provenance = "memory"
[[step]]
id = "long_hold"
part = "supply_hold"
kind = "hold"
title = "Hold"
short = "Hold."
long = "Hold it."
spot = "source"
source = "the depot"
provenance = "memory"
[step.hold]
seconds = 7200
set_psi = { supply = 900 }
limit_psi_per_min = 400
limit_source = "the depot"
limit_provenance = "memory"
"""


def test_a_hold_that_no_walk_can_run_is_told(tmp_path: Path) -> None:
    path = tmp_path / "own.toml"
    path.write_text(CHECKLIST, encoding="utf-8")
    problems = load_files([path], today=date(2026, 11, 1)).problems
    assert [problem.key for problem in problems] == [
        "step long_hold.hold.seconds",
        "step long_hold.hold.limit_psi_per_min",
        "step long_hold.hold.set_psi.supply",
    ]
    assert str(problems[0]).endswith(": is 7200; write 1800 at most.")
