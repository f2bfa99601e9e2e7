"""Share on a record: the phone's own sheet gets the page; where there is none, a download comes.

Headless Chromium has no sheet, so these tests put one in place (Web Share, W3C Recommendation: what
`canShare` and `share` take, and the errors by which `share` tells that nothing was shared).
"""

from __future__ import annotations

from typing import Any

import pytest
from playwright.sync_api import Download

from browser.phone import Phone
from browser.seeds import PUMP_TRAILER, plan_for, walked
from browser.serving import Served
from walkaround.walk.events import Finished

pytestmark = [pytest.mark.browser, pytest.mark.usefixtures("one_page")]

SHEET = """
window.shared = [];
navigator.canShare = ({ files }) => files.every((file) => file.type === 'application/pdf');
navigator.share = async ({ files }) => {
  window.shared.push({ name: files[0].name, head: await files[0].slice(0, 5).text() });
  if (%r) { throw new DOMException('', %r); }
};
"""
NO_SHEET = "delete navigator.canShare; delete navigator.share;"


def record(app: Served, phone: Phone, refusal: str | None) -> str:
    """A page on a closed record, with a sheet that ends so; without one if None."""
    second = plan_for(app.parts, PUMP_TRAILER).steps[1].id
    walk_id = walked(app.parts, PUMP_TRAILER, second)
    app.parts.open_walks.do(walk_id, "Kim", (Finished, {}))
    phone.open(app.address, f"record/{walk_id}")
    sheet = NO_SHEET if refusal is None else SHEET % (refusal, refusal)
    # Without a value: one that is a function would be called.
    phone.page.evaluate(f"{sheet} null")
    phone.button("Share").wait_for()
    return f"{PUMP_TRAILER}_{app.parts.open_walks.walk(walk_id).events[0].at.local():%Y-%m-%d_%H%M}"


def opens(phone: Phone, link: str) -> None:
    """Tap on a link: the page opens its address itself, and tells the server nothing."""
    phone.stays(link)
    phone.button(link).tap()


def shared(phone: Phone) -> Any:
    """What the sheet got, once it got something; no text of ours may be run by the page itself."""
    while not (got := phone.page.evaluate("window.shared")):
        phone.page.wait_for_timeout(50)
    [only] = got
    return only


def downloaded(phone: Phone, link: str) -> Download:
    with phone.page.expect_download() as waiting:
        opens(phone, link)
    return waiting.value


def test_the_sheet_gets_the_page_under_its_own_name(app: Served, phone: Phone) -> None:
    name = record(app, phone, "")
    opens(phone, "Share")
    assert shared(phone) == {"name": f"{name}.pdf", "head": "%PDF-"}


@pytest.mark.parametrize("refusal", [None, "NotAllowedError"])
def test_where_there_is_no_sheet_or_it_takes_nothing_the_record_file_is_downloaded(
    app: Served, phone: Phone, refusal: str | None
) -> None:
    name = record(app, phone, refusal)
    assert downloaded(phone, "Share").suggested_filename == f"{name}.zip"


def test_a_sheet_that_was_closed_downloads_nothing(app: Served, phone: Phone) -> None:
    name = record(app, phone, "AbortError")
    came: list[str] = []
    phone.page.on("download", lambda download: came.append(download.suggested_filename))
    opens(phone, "Share")
    assert shared(phone)
    # What is downloaded next is the first that comes.
    downloaded(phone, "Page (PDF)")
    assert came == [f"{name}.pdf"]
