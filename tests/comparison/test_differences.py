"""Two scripted walkers with known differences: each is named, and nothing else."""

from __future__ import annotations

import pytest
from sklearn.metrics import cohen_kappa_score
from support.chambers import CHAMBERS, chamber_plan
from support.walks import HOLD, STEPS, begun, plan, step

from walkaround.airhold.gauge import Gauge
from walkaround.comparison.differences import compare
from walkaround.plan.values import Measure, Value
from walkaround.walk.events import Answered, ChamberTold, Measured
from walkaround.walk.state import Walk

STROKE = step(
    "stroke_1_left",
    "strokes",
    "measure",
    measure=Measure(
        quantity="in",
        values=(Value(id="stroke", name="stroke", at_most=2.0),),
        limit="at most 2 in",
        advice="adjust",
    ),
)
"""One stroke; the limit is invented."""


FINE = {"supply": Gauge(name="supply", step=0.5)}


def walked(
    *, left: str = "", backup: str = "ok", end_psi: float = 110.0, stroke: float = 24, fine: bool
) -> Walk:
    """A whole walk as one walker made it: what the left tail lamp did, a stroke in sixteenths."""
    on_steps = plan((*STEPS[:-1], STROKE, STEPS[-1]))
    teller = begun(on_steps.model_copy(update={"known_gauges": FINE if fine else {}}))
    teller.ok("chocks")
    if left:
        teller.found("tail_rear", tail_left=left)
    else:
        teller.ok("tail_rear")
    teller.tell(Answered, step="backup_rear", answer=backup)
    teller.ok("reflectors_rear")
    teller.hold(end_psi=end_psi)
    teller.ok(HOLD, "leaks_axle_1")
    measured = {"value_id": "stroke", "value": stroke / 16, "unit": "in"}
    teller.tell(Measured, step=STROKE.id, **measured)
    return teller.ok(STROKE.id, "vent")


def named(first: Walk, second: Walk) -> dict[str, tuple[bool, tuple[str, ...], bool]]:
    """Of each step that differs: whether in what was said, of which things, and in readings."""
    found = compare(first, second).differences
    return {
        each.step.id: (each.answers_differ, each.things, each.readings_differ) for each in found
    }


def test_each_known_difference_is_named_and_kappa_is_the_librarys() -> None:
    first = walked(left="dim", backup="not_fitted", end_psi=110.0, stroke=24, fine=True)
    second = walked(left="dark", end_psi=108.5, stroke=28, fine=True)
    assert named(first, second) == {
        "tail_rear": (True, ("tail_left",), False),
        "backup_rear": (True, ("backup_centre",), False),
        HOLD: (False, (), True),
        STROKE.id: (False, (), True),
    }
    # Seven things: two tail lamps, backup lamp, reflectors, hold, leaks, stroke.
    firsts = ["dim", "ok", "not_fitted", "ok", "ok", "ok", "ok"]
    seconds = ["dark", "ok", "ok", "ok", "ok", "ok", "ok"]
    agreed = compare(first, second).agreement
    assert (agreed.things, agreed.alike) == (7, 5)
    assert agreed.kappa == pytest.approx(cohen_kappa_score(firsts, seconds))


def test_walks_that_say_the_same_differ_nowhere() -> None:
    walk = walked(left="dark", fine=False)
    assert named(walk, walked(left="dark", fine=False)) == {}
    assert compare(walk, walk).agreement.kappa == 1.0


@pytest.mark.parametrize(("fine", "differs"), [(True, True), (False, False)])
def test_air_holds_differ_by_more_than_their_gauges_can_hide(fine: bool, differs: bool) -> None:
    # 1.5 psi more in a minute: each drop is known to one mark, so to 1 psi together, or to 2.
    first, second = walked(end_psi=110.0, fine=fine), walked(end_psi=108.5, fine=fine)
    assert (HOLD in named(first, second)) == differs


@pytest.mark.parametrize(("sixteenths", "differs"), [(25, False), (26, True)])
def test_strokes_differ_by_more_than_a_mark_of_the_tape(sixteenths: int, differs: bool) -> None:
    first, second = walked(stroke=24, fine=False), walked(stroke=sixteenths, fine=False)
    assert (STROKE.id in named(first, second)) == differs


def test_a_step_that_one_left_unanswered_differs() -> None:
    whole, teller = walked(fine=False), begun(plan((*STEPS[:-1], STROKE, STEPS[-1])))
    teller.ok("chocks", "tail_rear")
    left_out = ["backup_rear", "reflectors_rear", HOLD, "leaks_axle_1", STROKE.id]
    assert [*named(whole, teller.walk)] == left_out


def test_chambers_read_otherwise_differ() -> None:
    def read(type_: str) -> Walk:
        teller, end = begun(chamber_plan()), "axle_1_left"
        chamber = {"actuator": "clamp", "type": type_, "long_stroke": False}
        teller.tell(ChamberTold, step=CHAMBERS.id, end=end, **chamber)
        return teller.found(CHAMBERS.id, axle_1_left="differs")

    assert named(read("24"), read("24")) == {}
    assert named(read("24"), read("36")) == {CHAMBERS.id: (True, (), False)}
