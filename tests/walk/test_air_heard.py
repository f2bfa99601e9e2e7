"""What a walk tells of its air: holds, what was heard and tried, and when that counts no more."""

from __future__ import annotations

import math

import pytest
from support.walks import HOLD, Teller, hold_rule, plan, step

from walkaround.walk.events import (
    Answered,
    Heard,
    HoldBegan,
    HoldEnded,
    ReadingTaken,
    Revisited,
    TakenBack,
    Tried,
)
from walkaround.walk.evidence.air_heard import air_heard, brakes_at, losing_steps

LAMP = step("tail_rear", "lamps", "lamp")
STEPS = (
    LAMP,
    step(HOLD, "supply_hold", "hold", air=True, hold=hold_rule(supply=110.0)),
    step("applied", "applied_hold", "hold", air=True, hold=hold_rule(supply=110.0, service=90.0)),
    step(
        "lines_off",
        "finish",
        "look",
        air=True,
        items=(
            {"id": "red_air", "name": "air back out of red"},
            {"id": "holder", "name": "holder"},
        ),
    ),
)


def held(teller: Teller, step_id: str, *psi: float) -> None:
    """Hold with these readings of red at 0, 30 and 60 s, blue standing still."""
    teller.tell(HoldBegan, step=step_id)
    rule = teller.walk.holds[step_id].rule
    for at_s, value in zip((0.0, 30.0, 60.0), psi, strict=True):
        for gauge in rule.gauges:
            shown = value if gauge == "supply" else 90.0
            teller.clock.wait(1)
            teller.tell(ReadingTaken, step=step_id, gauge=gauge, at_s=at_s, psi=shown)
    teller.clock.wait(70)
    teller.tell(HoldEnded, step=step_id, how="early", at_s=61.0)


def at_the_first_hold() -> Teller:
    teller = Teller()
    teller.begin(plan(STEPS))
    teller.ok(LAMP.id)
    return teller


def test_the_last_holds_and_what_was_heard_at_them_are_told() -> None:
    teller = at_the_first_hold()
    held(teller, HOLD, 110, 107, 104)
    assert [each.id for each in losing_steps(teller.walk)] == [HOLD]
    teller.tell(Heard, step=HOLD, places=("tank",))
    teller.tell(Answered, step=HOLD, answer="defect")
    held(teller, "applied", 110, 106, 102)
    teller.tell(Heard, step="applied", places=("chamber", "tank"))
    teller.tell(Heard, step="applied", places=("nothing",))
    told = air_heard(teller.walk)
    assert [each.brakes for each in told.holds] == ["released", "applied"]
    assert told.holds[0].gauges["supply"].psi_per_min == pytest.approx(6.0)  # type: ignore[union-attr]
    assert told.holds[1].gauges["service"].psi_per_min == pytest.approx(0.0)  # type: ignore[union-attr]
    # GUM 4.3.7 and least squares over 0, 0.5 and 1 min: an eye of 0.25 psi, 1 s at 6 psi/min, and
    # marks 1 psi apart (variance 1 / 12).
    error = math.sqrt((0.25**2 + 0.1**2 + 1 / 12) / 0.5)
    assert told.holds[0].gauges["supply"].error == pytest.approx(error, rel=0.1)  # type: ignore[union-attr]
    assert told.heard == {"released": ("tank",), "applied": ("nothing",)}
    assert brakes_at(STEPS[-1]) is None


def test_nothing_heard_any_more_is_that_nobody_listened() -> None:
    teller = at_the_first_hold()
    held(teller, HOLD, 110, 107, 104)
    teller.tell(Heard, step=HOLD, places=("tank",))
    teller.tell(Heard, step=HOLD, places=())
    assert air_heard(teller.walk).heard == {}


def test_a_recheck_of_a_hold_forgets_what_was_heard_and_tried_of_air_alone() -> None:
    teller = at_the_first_hold()
    held(teller, HOLD, 110, 107, 104)
    teller.tell(Heard, step=HOLD, places=("tank",))
    teller.tell(Answered, step=HOLD, answer="defect")
    teller.tell(Tried, trial="soap:released:tank", outcome="bubbles")
    teller.tell(Tried, trial="plug:red", outcome="stands")
    teller.tell(Tried, trial="wiggle:", outcome="same")
    teller.tell(TakenBack, trial="plug:red")
    assert set(teller.walk.tried) == {"soap:released:tank", "wiggle:"}
    walk = teller.tell(Revisited, step=HOLD, purpose="recheck")
    assert walk.tried == {"wiggle:": "same"}
    assert walk.heard == {}


def test_what_was_tried_for_a_lamp_that_was_no_defect_goes_with_it() -> None:
    teller = Teller()
    teller.begin(plan(STEPS))
    teller.tell(Answered, step=LAMP.id, answer="defect")
    teller.tell(Tried, trial="wiggle:", outcome="same")
    teller.tell(Tried, trial="plug:red", outcome="stands")
    teller.tell(Revisited, step=LAMP.id, purpose="change")
    walk = teller.tell(Answered, step=LAMP.id, answer="ok")
    assert walk.defects[LAMP.id].state == "withdrawn"
    assert walk.tried == {"plug:red": "stands"}


def test_air_back_out_of_red_is_heard_with_red_empty() -> None:
    teller = at_the_first_hold()
    for each in (HOLD, "applied"):
        held(teller, each, 110, 110, 110)
        teller.ok(each)
    teller.tell(Answered, step="lines_off", answer="defect", seen={"red_air": "leak"})
    assert air_heard(teller.walk).heard == {"dumped": ("red_gladhand",)}
