"""The pages that the app hands out, read on a phone instead of printed."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from browser.allsizes import SMALLEST_PX
from browser.seldom_screens import PAGES, page_path
from browser.serving import Served

pytestmark = pytest.mark.browser

LEAST_COLUMN_PX = 64.0
"""Of a column of 360 px so much holds the longest words that stand alone in a cell at 16 px."""
_READ = """() => {
  const words = [...document.body.querySelectorAll("*")].filter((node) =>
    !node.closest("svg, [aria-hidden]") && node.getClientRects().length &&
    [...node.childNodes].some((child) => child.nodeType === 3 && child.textContent.trim()));
  const px = (node) => parseFloat(getComputedStyle(node).fontSize);
  return {
    smallest_px: Math.min(...words.map(px)),
    beyond_px: document.documentElement.scrollWidth - innerWidth,
    narrow: words.filter((node) => node.matches("td, th, .blank") &&
      node.getBoundingClientRect().width < %s).map((node) => node.textContent),
  };
}"""


@pytest.mark.parametrize("name", PAGES)
def test_a_page_is_read_on_a_narrow_phone_without_a_lens(
    app: Served, chromium: Browser, name: str
) -> None:
    address = app.address + page_path(app.parts, name)
    with chromium.new_context(viewport={"width": 360, "height": 640}) as context:
        page = context.new_page()
        page.set_content(page.request.get(address).text())
        found = page.evaluate(_READ % LEAST_COLUMN_PX)
    assert found["smallest_px"] >= SMALLEST_PX
    assert found["beyond_px"] <= 0
    assert not found["narrow"]
