"""A reading entered wrong: asked about before it counts, and mended without moving the clock."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.walks import FakeClock, hold_rule

from walkaround.airhold.correction import (
    correction_refusal,
    is_crossing_tap,
    meant_psi,
    with_correction,
)
from walkaround.airhold.gauge import Gauge
from walkaround.airhold.hold import Hold
from walkaround.rules.limits import Line

HELD = Hold(rule=hold_rule(supply=110.0), began=FakeClock()())


@pytest.mark.parametrize(
    ("last", "read", "meant"),
    [
        (90, 80, 90), (91, 80, 90), (110, 95, 105), (110, 99, 109), (89, 98, 88), (110, 104, 110),
        (110, 105, None), (110, 110, None), (110, 111, None), (90, 190, 90),
    ],
)  # fmt: skip
def test_a_jump_is_taken_for_a_wrong_figure_among_the_tens(
    last: float, read: float, meant: float | None
) -> None:
    assert meant_psi(HELD.with_reading("supply", 0.0, last), "supply", read) == meant


def test_a_jump_on_a_coarse_gauge_is_counted_in_its_own_marks() -> None:
    coarse = Hold(
        rule=HELD.rule, began=HELD.began, gauges={"supply": Gauge(name="supply", step=5.0)}
    )
    assert meant_psi(coarse, "supply", 85.0) is None
    assert meant_psi(coarse, "supply", 60.0) == 110.0


@given(
    psi=st.lists(st.integers(90, 112), min_size=1, max_size=6),
    which=st.integers(0, 5),
    to=st.integers(90, 112),
)
def test_mending_moves_no_mark_and_changes_no_other_reading(
    psi: list[int], which: int, to: int
) -> None:
    hold, marks_s = HELD, [0.0, 30.0, 60.0, 75.0, 90.0, 105.0]
    for at_s, each in zip(marks_s, psi, strict=False):
        hold = hold.with_reading("supply", at_s, each)
    which %= len(psi)
    after = with_correction(hold, "supply", marks_s[which], to)
    assert after.marks_s() == hold.marks_s()
    assert (after.from_s, after.end_s, after.last_s) == (hold.from_s, hold.end_s, hold.last_s)
    assert [look.psi for look in after.readings] == [*psi[:which], to, *psi[which + 1 :]]
    assert [look.at_s for look in after.readings] == marks_s[: len(psi)]
    assert after.readings[which].before == (psi[which],)


@pytest.mark.parametrize(("read", "tapped"), [("supply", "service"), ("service", "supply")])
def test_a_figure_may_be_changed_but_of_taps_only_the_last_be_taken_back(
    read: Line, tapped: Line
) -> None:
    """A tap's mark is known and its time cannot be told again; the first one begins the minute."""
    marks = {tapped: Gauge(name=tapped, step=5.0, crossing=True)}
    hold = Hold(rule=hold_rule(supply=110.0, service=110.0), began=HELD.began, gauges=marks)
    looks = ((read, 0.0, 110.0), (read, 30.0, 109.0), (tapped, 1.0, 110.0), (tapped, 20.0, 105.0))
    for gauge, at_s, psi in (*looks, (tapped, 40.0, 100.0)):
        hold = hold.with_reading(gauge, at_s, psi)

    def may_be(gauge: str, at_s: float, psi: float | None) -> bool:
        return correction_refusal(hold, gauge, at_s, psi) is None

    assert may_be(read, 0.0, 108.0)
    assert may_be(read, 30.0, 108.0)
    assert not may_be(read, 30.0, None)
    assert not may_be(read, 31.0, 108.0)
    assert [may_be(tapped, at_s, None) for at_s in (1.0, 20.0, 40.0)] == [False, False, True]
    assert not any(may_be(tapped, at_s, 105.0) for at_s in (1.0, 20.0, 40.0))
    assert [is_crossing_tap(hold, *look[:2]) for look in looks] == [False] * 4
    assert is_crossing_tap(hold, tapped, 40.0)
    alone = with_correction(with_correction(hold, tapped, 40.0, None), tapped, 20.0, None)
    assert correction_refusal(alone, tapped, 1.0, 105.0) is None
    assert correction_refusal(alone, tapped, 1.0, None) is not None
