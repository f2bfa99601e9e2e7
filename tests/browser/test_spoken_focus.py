"""Where a screen reader's focus is at a new step: on its first answer, or else on its title."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect
from support.english import ENGLISH

from browser.phone import PATIENCE_MS, Phone
from browser.seeds import SEMITRAILER, answer, plan_for, walked
from browser.serving import Served

pytestmark = [pytest.mark.browser, pytest.mark.usefixtures("one_page")]


@pytest.mark.parametrize("step_id", ["stroke_1_right", "applied_hold", "gauges", "chocks_off"])
def test_a_step_without_an_answer_to_be_given_at_once_has_its_title_focused(
    app: Served, phone: Phone, step_id: str
) -> None:
    steps = plan_for(app.parts, SEMITRAILER).steps
    at = [step.id for step in steps].index(step_id)
    walk_id = walked(app.parts, SEMITRAILER, steps[at - 1].id)
    phone.open(app.address, f"walk/{walk_id}")
    answer(app.parts, walk_id, steps[at - 1])
    title = ENGLISH.text(steps[at].title)
    phone.headed(title)
    heading = phone.page.get_by_role("heading", name=title, exact=True)
    expect(heading).to_be_focused(timeout=PATIENCE_MS)


def test_elsewhere_the_first_answer_is_focused(app: Served, phone: Phone) -> None:
    phone.open(app.address, f"walk/{walked(app.parts, SEMITRAILER, 'supply_charged')}")
    expect(phone.button("Done")).to_be_focused(timeout=PATIENCE_MS)
