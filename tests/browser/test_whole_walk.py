"""Two vehicles, from the first screen to the files of the closed record.

Each is walked once; the tests look at what that visit left behind. The semitrailer is walked by
hand from beginning to end, with brief sounds, since real ones would be heard out for half a minute;
of the pump trailer the first step of each sort, with real speech and as slowly as people are.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import pytest
from playwright.sync_api import Browser
from pypdf import PdfReader
from support.english import ENGLISH
from support.voices import BriefVoice
from support.walks import FakeClock

from browser.holding import perform
from browser.phone import RIGHT, SIZES, Box, Phone, in_hand
from browser.seeds import NAMES, PUMP_TRAILER, SEMITRAILER, answer, of_each_sort
from browser.serving import Served, served
from walkaround.plan.steps import Plan, Step
from walkaround.settings import RATES_WPM
from walkaround.timing import Timing
from walkaround.voice.clips import RenderedVoice
from walkaround.walk.seals import good_events
from walkaround.walk.state import Walk
from walkaround.words.prompts import prompt
from walkaround.words.pronunciation import pronounced

pytestmark = pytest.mark.browser

ZONE_PX = {"phone": 110.0, "small phone": 100.0}
"""The least height of an answer zone: 120 are aimed at, a gloved finger; a low page has less."""
RATE_WPM = max(RATES_WPM)
"""A mechanic in a hurry: steps with many lamps are heard out before they are answered."""


@dataclass
class Visit:
    """What one whole walk left behind; `by_hand` are the steps that were done on the phone."""

    size: str
    plan: Plan
    by_hand: Sequence[Step]
    zones: dict[str, list[Box]] = field(default_factory=dict)
    screens: dict[str, str] = field(default_factory=dict)
    heard: Sequence[Mapping[str, Any]] = ()
    statuses: Mapping[str, int] = field(default_factory=dict)
    refused: Sequence[tuple[str, str]] = ()
    record: str = ""
    records: str = ""
    table: Sequence[Mapping[str, str]] = ()
    page: bytes = b""
    document: Mapping[str, Any] = field(default_factory=dict)
    files: Sequence[str] = ()
    walk: Walk = field(default_factory=Walk)


@pytest.fixture(
    scope="module",
    params=[(SEMITRAILER, "phone", "Fewest looks"), (PUMP_TRAILER, "small phone", "One by one")],
    ids=["semitrailer", "pump_trailer"],
)
def visit(
    request: pytest.FixtureRequest, chromium: Browser, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Visit]:
    vehicle_id, size, circuits = request.param
    folder, clock = tmp_path_factory.mktemp("visit"), FakeClock()
    whole, speech = vehicle_id == SEMITRAILER, folder / "speech"
    voice = BriefVoice(speech) if whole else RenderedVoice(speech)
    timing = Timing(dead_s=0.0) if whole else Timing()
    with (
        served(folder / "data", clock, voice, timing=timing) as app,
        in_hand(chromium, size, dead_s=timing.dead_s) as phone,
    ):
        try:
            app.parts.store.change_settings({"rate_wpm": RATE_WPM})
            phone.open(app.address)
            # Drawn once more when its size is known: then a card is where it stays.
            phone.at_rest(300)
            phone.press(phone.card(NAMES[vehicle_id]))
            phone.tap(circuits)
            yield _visited(app, phone, clock, size, whole=whole)
        except Exception:
            phone.page.screenshot(path=folder / "failed.png")
            raise


def _visited(app: Served, phone: Phone, clock: FakeClock, size: str, *, whole: bool) -> Visit:
    phone.answer("Start the walk")
    phone.at(1)
    plan = app.parts.open_walks.walk(phone.walk_id).plan
    assert plan is not None
    walk_id, some = phone.walk_id, of_each_sort(plan)
    visit = Visit(size, plan, [step for step in plan.steps if whole or step.id in some])
    for place, step in enumerate(plan.steps, 1):
        phone.at(place, str(step.title))
        if step not in visit.by_hand:
            answer(app.parts, walk_id, step)
            continue
        if not whole:
            phone.tap("Again")
        phone.heard(_digest(app, plan, step))
        perform(phone, clock, plan, step)
        # On a busy machine an answer may not be live yet.
        phone.read_on(RIGHT, moment_ms=50)
        visit.screens[step.id] = phone.text()
        visit.zones[step.id] = _zones(phone, step)
        phone.answer()
    phone.answer("Close the record")
    phone.stays("Table (CSV)")
    _take_away(app, phone, visit)
    return visit


def _digest(app: Served, plan: Plan, step: Step) -> str:
    return app.parts.voice.digest(
        pronounced(prompt(step, plan.power, "short", ENGLISH).say), RATE_WPM
    )


def _zones(phone: Phone, step: Step) -> list[Box]:
    both = not (step.must or step.hold or step.kind == "gauges")
    return [phone.box(RIGHT), *([phone.box("Defect")] if both else [])]


def _take_away(app: Served, phone: Phone, visit: Visit) -> None:
    visit.record = phone.text()
    visit.walk = app.parts.open_walks.walk(phone.walk_id)
    table, document = _downloaded(phone, "Table (CSV)"), _downloaded(phone, "All (JSON)")
    visit.page = _saved(phone, "Page (PDF)")
    visit.files = (table, document)
    visit.table = list(csv.DictReader(io.StringIO(table)))
    visit.document = json.loads(document)
    visit.heard = phone.sounds()
    visit.statuses = {each.url: each.status for each in phone.responses}
    visit.refused = [(asked.resource_type, asked.url) for asked in phone.refused]
    phone.tap("Back")
    phone.card(visit.plan.vehicle.name).wait_for()
    visit.records = phone.text()


def _saved(phone: Phone, button: str) -> bytes:
    with phone.page.expect_download() as waiting:
        phone.button(button).tap()
    return waiting.value.path().read_bytes()


def _downloaded(phone: Phone, button: str) -> str:
    return _saved(phone, button).decode()


def test_every_step_is_answered_and_the_record_closed(visit: Visit) -> None:
    assert visit.walk.phase == "finished"
    assert list(visit.walk.answers) == [step.id for step in visit.plan.steps]
    assert {answer.answer for answer in visit.walk.answers.values()} == {"ok"}
    assert not visit.walk.partial
    assert "No open defect" in visit.record


def test_the_table_has_one_row_for_each_answer(visit: Visit) -> None:
    answers = [row for row in visit.table if row["fact"] == "answer"]
    assert [row["step"] for row in answers] == [step.id for step in visit.plan.steps]
    assert {(row["answer"], row["stands"], row["partial"]) for row in answers} == {
        ("ok", "yes", "no")
    }
    first, *others = visit.table
    assert "49 CFR 396.17" in first["notice"]
    assert not any(row["notice"] for row in others)


def test_the_table_tells_what_each_air_hold_measured(visit: Visit) -> None:
    """Read at 0, 30 and 60 s; nothing was lost."""
    read: dict[str, list[tuple[str, ...]]] = {}
    for row in visit.table:
        if row["fact"] == "reading":
            read.setdefault(row["step"], []).append((row["gauge"], row["at_s"], row["value_psi"]))
    supply = [("supply", at_s, "110") for at_s in ("0", "30", "60")]
    service = [("service", at_s, "90") for at_s in ("0", "30", "60")]
    assert read["supply_hold"] == supply
    assert read["applied_hold"] == [
        row for both in zip(supply, service, strict=True) for row in both
    ]
    rows = {row["step"]: row for row in visit.table if row["fact"] == "answer"}
    result = rows["supply_hold"]["result"]
    assert "Supply gauge lost 0 psi/min. Within the limit of 2 psi/min." in result
    assert "Plain rule: lost 0 psi/min, within." in result


def test_the_page_is_a_pdf_of_this_vehicle(visit: Visit) -> None:
    text = "".join(page.extract_text() for page in PdfReader(io.BytesIO(visit.page)).pages)
    assert text.startswith(visit.plan.vehicle.name)
    assert "Not a periodic inspection (49 CFR 396.17)" in text


def test_the_document_holds_every_event_with_a_seal_that_fits(visit: Visit) -> None:
    rows = visit.document["events"]
    assert "49 CFR 396.17" in visit.document["notice"]
    assert len(good_events(rows)) == len(rows) == len(visit.walk.events)
    rows[3]["who"] = "someone else"
    assert len(good_events(rows)) == 3


def test_nowhere_is_a_vehicle_called_safe(visit: Visit) -> None:
    everything = [*visit.screens.values(), visit.record, visit.records, *visit.files]
    assert not [text for text in everything if re.search(r"\bsafe\b", text, re.IGNORECASE)]
    assert "Not a periodic inspection (49 CFR 396.17)" in visit.record


def test_the_walk_is_listed_under_records(visit: Visit) -> None:
    listed = re.findall(r'button "([^"]*)"', visit.records)
    [line] = [name for name in listed if visit.plan.vehicle.name in name]
    assert "Closed, no open defect" in line


def test_each_step_is_spoken_in_the_page(visit: Visit) -> None:
    """Each step's sound, and those of the air holds, was fetched whole and did play."""
    fetched = {url: status for url, status in visit.statuses.items() if "/speech/" in url}
    assert set(fetched.values()) <= {200, 206}
    played = [sound["src"] for sound in visit.heard if sound["what"] == "playing"]
    assert len(set(played)) >= len(visit.by_hand)
    assert set(played) <= set(fetched)


def test_the_answer_zones_are_large_and_on_the_screen(visit: Visit) -> None:
    width, height = SIZES[visit.size]
    for step_id, boxes in visit.zones.items():
        for box in boxes:
            assert box.height >= ZONE_PX[visit.size], step_id
            assert box.inside(width, height), step_id


def test_the_whole_visit_needs_no_other_machine(visit: Visit) -> None:
    """The page toolkit asks once, when it loads, for a script that draws animations.

    It was refused, like anything from elsewhere, and nothing of it was missed.
    """
    assert [kind for kind, _ in visit.refused] in ([], ["script"])
    assert all(url.startswith(("http://127.0.0.1:", "blob:")) for url in visit.statuses)
