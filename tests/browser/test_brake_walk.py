"""The air part of a tow vehicle, to its record: one stroke is over its limit.

Of each sort of step the first is done by hand, and the one that is over.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import pytest
from playwright.sync_api import Browser
from support.english import ENGLISH
from support.voices import SilentVoice
from support.walks import FakeClock

from browser.holding import enter, perform
from browser.phone import SIZES, Box, Phone, in_hand
from browser.seeds import NAMES, TRACTOR, answer, of_each_sort
from browser.serving import Served, served
from walkaround.plan.steps import Plan, Step
from walkaround.report.tables import walk_csv
from walkaround.timing import Timing
from walkaround.walk.state import Walk

pytestmark = pytest.mark.browser

SIZE = "phone"
OVER = "stroke_2_left"
"""Here the stroke is 2 1/4 in; a clamp chamber type 30 may have 2 in: 49 CFR 393.47(e)(1)."""
KEY_PX = 48.0
"""The least height of a key, as touch guidelines have it."""


@dataclass
class Visit:
    """What the walk left behind."""

    plan: Plan
    keys: list[Box] = field(default_factory=list)
    over: str = ""
    record: str = ""
    walk: Walk = field(default_factory=Walk)
    table: Sequence[Mapping[str, str]] = ()


@pytest.fixture(scope="module")
def visit(chromium: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Visit]:
    folder, clock = tmp_path_factory.mktemp("brakes"), FakeClock()
    voice = SilentVoice("The depot is quiet today.")
    timing = Timing(dead_s=0.0)
    with (
        served(folder / "data", clock, voice, timing=timing) as app,
        in_hand(chromium, SIZE, dead_s=timing.dead_s) as phone,
    ):
        try:
            phone.open(app.address)
            phone.press(phone.card(NAMES[TRACTOR]))
            phone.tap("Brakes")
            phone.tap("One")
            yield _visited(app, phone, clock)
        except Exception:
            phone.page.screenshot(path=folder / "failed.png")
            raise


def _visited(app: Served, phone: Phone, clock: FakeClock) -> Visit:
    phone.answer("Start the walk")
    phone.at(1)
    plan = app.parts.open_walks.walk(phone.walk_id).plan
    assert plan is not None
    visit, by_hand, walk_id = Visit(plan), of_each_sort(plan), phone.walk_id
    for place, step in enumerate(plan.steps, 1):
        phone.at(place, str(step.title))
        if step.id not in by_hand | {OVER}:
            answer(app.parts, walk_id, step)
            continue
        if step.id == OVER:
            _too_far(phone, visit)
            continue
        if step.measure:
            visit.keys.append(_a_key(phone, step))
        perform(phone, clock, plan, step)
        phone.answer()
    phone.stays("Close the record")
    visit.record = phone.text()
    phone.answer("Close the record")
    phone.stays("Table (CSV)")
    visit.walk = app.parts.open_walks.walk(phone.walk_id)
    visit.table = list(csv.DictReader(io.StringIO(walk_csv(visit.walk, ENGLISH))))
    return visit


def _too_far(phone: Phone, visit: Visit) -> None:
    enter(phone, "2 …", "1/4")
    phone.stays("Measure again")
    visit.over = phone.text()
    phone.answer("Defect")


def _a_key(phone: Phone, step: Step) -> Box:
    assert step.measure is not None
    first = {"s": str(step.measure.begin), "in": "1 …", "psi": "100"}
    return phone.box(first[step.measure.quantity])


def test_every_step_has_its_answer_and_one_is_a_defect(visit: Visit) -> None:
    assert list(visit.walk.answers) == [step.id for step in visit.plan.steps]
    assert [defect.step for defect in visit.walk.open_defects] == [OVER]


def test_a_stroke_over_its_limit_can_only_be_a_defect_and_says_to_find_the_cause(
    visit: Visit,
) -> None:
    assert 'button "OK"' not in visit.over
    assert "Over the limit" in visit.over
    assert "find the cause, do not adjust it" in visit.over


def test_keys_are_large_enough_for_gloves_and_on_the_screen(visit: Visit) -> None:
    for box in visit.keys:
        assert box.height >= KEY_PX
        assert box.inside(*SIZES[SIZE])


def test_the_table_holds_every_value_with_its_limit(visit: Visit) -> None:
    rows = {(row["step"], row["fact"]): row for row in visit.table}
    assert "2 1/4 in" in rows[OVER, "answer"]["result"]
    assert rows[OVER, "value"]["value_in"] == "2.25"
    assert rows[OVER, "value"]["verdict"] == "over"
    for step in visit.plan.steps:
        if step.measure or step.hold:
            assert rows[step.id, "reading" if step.hold else "value"]["read"], step.id
            assert rows[step.id, "answer"]["result"], step.id


def test_the_limits_are_those_of_a_combination(visit: Visit) -> None:
    """49 CFR 570.57(a)(5) and (6): 3 and 4 psi in a minute with one unit towed."""
    holds = [step.hold for step in visit.plan.steps if step.hold]
    assert [hold.limit_psi_per_min for hold in holds] == [3.0, 4.0]


def test_the_record_never_calls_the_brakes_safe(visit: Visit) -> None:
    assert "1 open defect" in visit.record
    assert not re.search(r"\bsafe\b", visit.record, re.IGNORECASE)
    assert "Not a periodic inspection (49 CFR 396.17)" in visit.record
