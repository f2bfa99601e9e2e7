"""Text is as large as was chosen on this phone, at once and after it comes back; pages are pinched.

A size of text up to 200 % and zoom: WCAG 2.2, success criterion 1.4.4.
"""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page

from browser.phone import Phone
from browser.serving import Served

pytestmark = pytest.mark.browser


def font_px(page: Page) -> str:
    """How large Flutter is told to draw text, against 16 px."""
    return str(page.evaluate("document.documentElement.style.fontSize"))


def spread_fingers(page: Page) -> float:
    """Put two fingers on the page and move them apart; how much larger it is shown then."""
    touch = page.context.new_cdp_session(page)

    def points(apart: int) -> list[dict[str, int]]:
        return [{"x": 200, "y": 400 + way * apart, "id": n} for n, way in enumerate((-1, 1))]

    touch.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": points(40)})
    for apart in range(45, 120, 5):
        touch.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": points(apart)})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    page.wait_for_function("() => visualViewport.scale > 1.2")
    return float(page.evaluate("visualViewport.scale"))


def test_text_is_as_large_as_chosen_and_a_page_can_be_pinched(
    app: Served, chromium: Browser
) -> None:
    context = chromium.new_context(
        viewport={"width": 412, "height": 915}, has_touch=True, is_mobile=True
    )
    phone = Phone(context.new_page(), 0.0)
    phone.open(app.address, "settings")
    before = phone.box("Spoken").height
    phone.tap("200 %")
    phone.page.wait_for_function("() => document.documentElement.style.fontSize === '32px'")
    phone.at_rest(400)
    assert phone.box("Spoken").height > before
    phone.reload()
    assert font_px(phone.page) == "32px"
    assert spread_fingers(phone.page) > 1.2
    # What Flutter lays its page out in stays as it was.
    assert phone.page.evaluate("Math.round(visualViewport.width)") == 412
    context.close()
