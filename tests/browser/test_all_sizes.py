"""No step can be answered before what it asks was whole on the screen, at any size of page or text.

At every size caution, title and what is asked are in sight, or the answers are not there; nothing
is smaller than 16 px, and what is asked is at least 24 px wherever 120 px are free. On a phone of
usual size at its usual text no step with keys or choices of its own asks for a tap more.

Every step of every shipped vehicle is drawn in each of the sights: no two are taken for alike,
since a word more can be a line more. One page is put through them all, step by step. On a machine
with other work a sight took 0.9 s, so each half of a vehicle's sights is a test of its own.
"""

from __future__ import annotations

from datetime import date

import pytest
from support.voices import SilentVoice

from browser.allsizes import SIGHTS, Sight, Views, read_through, worn, wrong_with
from browser.phone import Phone
from browser.seeds import SEMITRAILER, answer, plan_for
from browser.serving import Served
from walkaround.disk.locations import shipped
from walkaround.library.load import load_library

pytestmark = pytest.mark.browser
VEHICLES = [each.id for each in load_library(shipped(), today=date(2026, 1, 1)).vehicles]
FEW = (Sight(360, 640, "light", 100), Sight(915, 412, "light", 100), Sight(360, 640, "dark", 200))


STEPS = frozenset(
    {"chocks_on", "tail_rear", "marker_right_side", "rods_back", "gauges", "stroke_1_right"}
)
"""An act, lamps at an end and on a side, a look with nothing to find, choices, and keys."""


@pytest.fixture
def views(monkeypatch: pytest.MonkeyPatch) -> Views:
    """The pages that open, as the server knows them; ask for them before a phone opens one."""
    watched = Views()
    watched.watch(monkeypatch)
    return watched


@pytest.fixture
def voice() -> SilentVoice:
    return SilentVoice()


def wrong_in(
    app: Served,
    phone: Phone,
    views: Views,
    vehicle_id: str,
    sights: tuple[Sight, ...],
    only: frozenset[str] = frozenset(),
    *,
    together: bool = False,
) -> list[str]:
    """What is wrong with the steps of a vehicle, all of them or only some.

    With `together` all those that it has only where circuits are lit together.
    """
    plan = plan_for(app.parts, vehicle_id, together=together)
    ids = {step.id for step in plan.steps}
    asked = only or ids
    if together:
        asked = ids - {step.id for step in plan_for(app.parts, vehicle_id).steps}
    assert asked
    assert asked <= ids
    walk_id = app.parts.open_walks.begin(plan, "Ana")
    phone.open(app.address, f"walk/{walk_id}")
    wrong = []
    for step in plan.steps:
        for sight in sights if step.id in asked else ():
            worn(phone, views, sight)
            where = f"{vehicle_id}, {step.id}, {sight}"
            for _ in range(8):
                now_wrong = wrong_with(phone, views, step, sight)
                if not now_wrong:
                    break
                phone.at_rest(150)
            wrong += [f"{where}: {what}" for what in now_wrong]
        # In the sight that it had last, the words lead to the answers.
        if step.id in asked and not read_through(phone, views):
            wrong.append(f"{vehicle_id}, {step.id}: reading on never comes to the answers")
        answer(app.parts, walk_id, step)
    return wrong


@pytest.mark.soak
def test_few_steps_at_few_sizes(app: Served, phone: Phone, views: Views) -> None:
    assert wrong_in(app, phone, views, SEMITRAILER, FEW, STEPS) == []


@pytest.mark.soak
@pytest.mark.parametrize("percent", [100, 200])
@pytest.mark.parametrize("vehicle_id", VEHICLES)
def test_every_step_at_every_size(
    app: Served, phone: Phone, views: Views, vehicle_id: str, percent: int
) -> None:
    sights = tuple(sight for sight in SIGHTS if sight.percent == percent)
    assert wrong_in(app, phone, views, vehicle_id, sights) == []


@pytest.mark.soak
@pytest.mark.parametrize("vehicle_id", VEHICLES)
def test_every_step_with_circuits_lit_together_at_every_size(
    app: Served, phone: Phone, views: Views, vehicle_id: str
) -> None:
    assert wrong_in(app, phone, views, vehicle_id, SIGHTS, together=True) == []
