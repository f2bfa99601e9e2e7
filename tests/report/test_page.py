"""The page of a walk: its facts, read back from the PDF and the HTML, and compared with the walk's.

pypdf, a library that shares nothing with the one that writes the page, reads the PDF; Python's own
parser reads the HTML.
"""

from __future__ import annotations

import io
import re
from base64 import b64encode
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from hashlib import sha256
from html.parser import HTMLParser
from unicodedata import normalize

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from pypdf import PdfReader
from support import handed_over
from support.english import ENGLISH
from support.handed_over import NAMES, Walker, lettered, library, planned
from support.walks import STEPS, begun, plan, step

from walkaround.comparison.later_walks import LaterLook
from walkaround.diagnosis.findings import NOTHING_LIKELY
from walkaround.disk.locations import assets
from walkaround.library.walk_causes import likely_causes
from walkaround.records.export import FileKind, export_walk
from walkaround.report.contents import Contents, FormLine, Photo, Prose, ReportPicture, Table
from walkaround.report.page import WalkContext, contents_of
from walkaround.report.pdf import MOST_SHEETS
from walkaround.report.tables import walk_row
from walkaround.report.walk_texts import time_text
from walkaround.walk.advance import advance
from walkaround.walk.events import Answered, OdometerRead, Photographed, Repaired, Tried
from walkaround.walk.seals import seal
from walkaround.walk.state import Walk

KINDS: dict[str, Callable[[], Walk]] = {
    "whole": handed_over.whole,
    "with findings": handed_over.with_findings,
    "ended early": handed_over.ended_early,
    "partial": handed_over.partial,
    "under way": handed_over.going,
    "recheck": handed_over.recheck,
    **{name: lambda name=name: lettered(name) for name in NAMES},  # type: ignore[misc]
}


@cache
def walk_of(kind: str) -> Walk:
    return KINDS[kind]()


@cache
def reader(kind: str) -> PdfReader:
    return PdfReader(io.BytesIO(export_walk(walk_of(kind), "pdf", ENGLISH)))


def squeezed(text: str) -> str:
    """A text without blanks: where lines break is the renderer's own."""
    return re.sub(r"\s", "", normalize("NFC", text))


@cache
def pdf_text(kind: str) -> str:
    return squeezed("\n".join(page.extract_text() for page in reader(kind).pages))


class _Texts(HTMLParser):
    """What is read of an HTML document, and every address in it."""

    def __init__(self) -> None:
        super().__init__()
        self.texts: list[str] = []
        self.tags: set[str] = set()
        self.addresses: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.addresses += [value or "" for name, value in attrs if name in ("src", "href")]

    def handle_data(self, data: str) -> None:
        self.texts.append(data)


@cache
def html(kind: str) -> _Texts:
    parser = _Texts()
    parser.feed(export_walk(walk_of(kind), "html", ENGLISH).decode())
    return parser


def html_text(kind: str) -> str:
    return squeezed("".join(html(kind).texts))


def written(contents: Contents) -> list[str]:
    """Every text of the page but those in pictures."""
    texts = [contents.title, contents.about, contents.headline]
    texts += [text for fact in contents.facts for text in fact]
    for section in contents.sections:
        texts.append(section.title)
        for block in section.blocks:
            match block:
                case Prose(text=text):
                    texts.append(text)
                case Table(head=head, rows=rows):
                    texts += [*head, *(cell for row in rows for cell in row)]
                case FormLine(what=what, blanks=blanks):
                    texts += [what, *blanks]
                case ReportPicture(svg=svg):
                    texts += re.findall(r"<text[^>]*>([^<]*)</text>", svg)
    return texts


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("text_of", [pdf_text, html_text], ids=["pdf", "html"])
def test_everything_on_the_page_can_be_read_back(kind: str, text_of: Callable[[str], str]) -> None:
    text = text_of(kind)
    lines = [line for each in written(contents_of(walk_of(kind), ENGLISH)) for line in each.split()]
    missing = [word for word in lines if squeezed(word) not in text]
    # A word that is longer than its column is broken with nothing between.
    assert missing == []


@pytest.mark.parametrize("kind", ["pdf", "html"])
def test_the_page_tells_likely_causes_and_what_was_tried_of_what_is_open(kind: FileKind) -> None:
    bad, drops = {"look_3_rear": {"rear_left": "dark"}}, {"supply_hold": 5.0}
    teller = Walker(planned(), bad=bad, drops=drops).walked()
    teller.tell(Tried, trial="breaker:stop", outcome="in")
    likely = likely_causes(teller.walk, library())
    page = export_walk(teller.walk, kind, ENGLISH, WalkContext(likely=likely))
    text = squeezed(page.decode()) if kind == "html" else _text_of(page)
    assert likely.lamps
    assert likely.air
    for found in likely.lamps.likely + likely.air.likely:
        assert squeezed(str(found[0].name))[1:] in text
    assert squeezed("Look at the breaker or fuse of stop lamps. Not tripped.") in text
    mended = likely_causes(Walker(planned()).closed(), library())
    assert mended == NOTHING_LIKELY


def _text_of(pdf: bytes) -> str:
    return squeezed("".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages))


@pytest.mark.parametrize("kind", KINDS)
def test_the_page_names_vehicle_plate_vin_and_everybody_who_answered(kind: str) -> None:
    walk, text = walk_of(kind), pdf_text(kind)
    assert walk.plan is not None
    vehicle = walk.plan.vehicle
    people = {event.who for event in walk.events}
    for told in (vehicle.name, vehicle.plate, vehicle.vin, walk.id, *people):
        assert squeezed(told) in text
    assert "2026-11-2508:15" in text


@pytest.mark.parametrize("kind", KINDS)
def test_every_fault_seen_every_note_and_every_reading_stand_on_the_page(kind: str) -> None:
    walk, text = walk_of(kind), pdf_text(kind)
    for defect in walk.defects.values():
        step = next(step for step in walk.steps if step.id == defect.step)
        names = {item.id: str(item.name) for item in step.items}
        for item in defect.found.seen:
            assert squeezed(names[item]) in text
    for note in walk.notes.values():
        assert squeezed(note) in text
    for hold in walk.holds.values():
        for look in hold.readings:
            assert squeezed(f"{look.gauge} {look.at_s:g} s {look.psi:g} psi") in text


def test_what_is_uncertain_about_the_rule_of_a_finding_stands_beside_it() -> None:
    steps = [each.model_copy(update={"doubt": "read in a digest"}) for each in STEPS]
    teller = begun(plan(tuple(steps)))
    teller.ok("chocks")
    told = written(contents_of(teller.found("tail_rear", tail_left="dark"), ENGLISH))
    [beside] = [text for text in told if "read in a digest" in text]
    assert STEPS[1].source in beside


@pytest.mark.parametrize("kind", KINDS)
def test_every_step_stands_on_the_page_checked_or_not(kind: str) -> None:
    """Of lamps that were looked at it is the lamps that are told, not each look."""
    walk, text = walk_of(kind), pdf_text(kind)
    for each in walk.steps:
        given = walk.answers.get(each.id)
        if each.part == "lamps" and given and given.answer == "ok":
            continue
        if each.values and given and given.answer == "ok":
            continue
        assert squeezed(str(each.title)) in text, each.id


@pytest.mark.parametrize(
    ("kind", "stamp"),
    [
        ("whole", ""),
        ("with findings", ""),
        ("ended early", "ENDED EARLY"),
        ("partial", "PARTIAL"),
        ("recheck", "PARTIAL"),
        ("under way", "NOT FINISHED"),
    ],
)
def test_what_is_not_whole_is_stamped_on_every_sheet(kind: str, stamp: str) -> None:
    assert contents_of(walk_of(kind), ENGLISH).stamp == stamp
    for sheet in reader(kind).pages:
        found = [
            each
            for each in ("PARTIAL", "ENDED EARLY", "NOT FINISHED")
            if squeezed(each) in squeezed(sheet.extract_text())
        ]
        assert found == [stamp] * bool(stamp)


def test_the_stamp_says_both_where_both_are_so() -> None:
    walker = handed_over.Walker(handed_over.planned(scope="lamps"), upto="look_1_rear")
    assert contents_of(walker.closed(), ENGLISH).stamp == "PARTIAL, ENDED EARLY"


@pytest.mark.parametrize("kind", KINDS)
def test_every_sheet_says_whose_it_is_what_it_is_not_and_its_number(kind: str) -> None:
    walk, sheets = walk_of(kind), reader(kind).pages
    for number, sheet in enumerate(sheets, start=1):
        text = squeezed(sheet.extract_text())
        assert squeezed(f"page {number} of {len(sheets)}") in text
        assert f"walk{walk.id}.Notaperiodicinspection(49CFR396.17)." in text


@pytest.mark.parametrize("kind", KINDS)
def test_a_page_takes_three_sheets_at_most(kind: str) -> None:
    assert len(reader(kind).pages) <= MOST_SHEETS


def test_a_short_page_takes_one() -> None:
    assert len(reader("partial").pages) == 1


def test_a_page_with_everything_wrong_still_takes_three_sheets() -> None:
    walk = handed_over.everything_wrong(note="Corroded through at the bracket.")
    pages = PdfReader(io.BytesIO(export_walk(walk, "pdf", ENGLISH))).pages
    assert len(pages) <= MOST_SHEETS


def test_what_is_wrong_comes_first_then_what_was_not_checked_then_what_was() -> None:
    titles = [section.title for section in contents_of(walk_of("with findings"), ENGLISH).sections]
    assert titles[:3] == [
        "What is wrong",
        "What was not checked, and why",
        "What was checked, and no fault named",
    ]


def row_of(kind: str, words: str) -> tuple[str, ...]:
    tables = [
        block
        for section in contents_of(walk_of(kind), ENGLISH).sections
        for block in section.blocks
        if isinstance(block, Table)
    ]
    return next(row for table in tables for row in table.rows if any(words in cell for cell in row))


def test_a_defect_that_was_rechecked_says_by_whom_and_is_open_no_more() -> None:
    row = row_of("with findings", "right intermediate side marker lamp broken")
    assert row[3].startswith("Rechecked OK by Bohdan, 2026-11-25")
    assert "Found by Ana, 2026-11-25" in row[1]
    assert "Repair:" not in row[2]


def test_a_defect_that_was_taken_back_says_by_whom_and_asks_for_no_repair() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    teller.back("tail_rear")
    teller.ok("tail_rear")
    contents = contents_of(teller.walk, ENGLISH)
    blocks = contents.sections[0].blocks
    [row] = [row for block in blocks if isinstance(block, Table) for row in block.rows]
    assert row[3].startswith("Taken back as no defect by Ana")
    assert not [block for block in blocks if isinstance(block, ReportPicture)]
    lines = [b.what for s in contents.sections for b in s.blocks if isinstance(b, FormLine)]
    assert lines == ["Walked and recorded"]


def test_a_defect_that_is_open_says_so_in_a_word_and_leaves_room_for_its_repair() -> None:
    row = row_of("with findings", "left tail lamp dark")
    assert row[3] == "OPEN"
    assert "Lens cracked at the lower edge" in row[2]
    assert row[2].endswith("Repair:")


def test_what_was_done_about_a_defect_stands_instead_of_room_to_write_it() -> None:
    teller = begun()
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    what = {"id": "repair-ground"}
    teller.tell(Repaired, step="tail_rear", done="ground", what=what, again=["tail_rear"])
    blocks = contents_of(teller.walk, ENGLISH).sections[0].blocks
    [row] = [row for block in blocks if isinstance(block, Table) for row in block.rows]
    assert row[2].startswith("Ground mended: Ana, 2026-11-25")
    assert "Repair:" not in row[2]


def test_a_stroke_over_its_limit_stands_with_both_figures() -> None:
    assert "2 3/4 in, at most 2 1/2 in: over." in row_of("with findings", "Axle 2, left")[1]


def test_an_undecided_hold_says_why_and_between_which_bounds() -> None:
    row = row_of("with findings", "between 0.8 and 3.2, and the limit is 2")
    assert row[1].count("undecided") == 1


def test_what_was_not_checked_stands_with_its_reason() -> None:
    assert row_of("with findings", "Load or dirt in the way")[1] == "ABS lamp, left side"
    assert "Air hold, brakes released" in row_of("ended early", "Not reached: 18 steps")[1]
    assert row_of("partial", "Not part of this walk")[1] == "the air brakes"


def test_a_lamp_with_a_fault_is_not_among_those_without() -> None:
    """Dark with the tail lamps on; its stop lamp, of the same housing, was right."""
    [row] = [row_of("with findings", "front: both clearance lamps")]
    rear = row[1].partition("rear:")[2].partition("left side:")[0]
    assert "right tail and stop lamp" in rear
    assert "left stop" in rear
    assert "left tail" not in rear
    assert "both ID lamps" in rear


def test_a_rule_in_doubt_says_so_beside_its_source() -> None:
    doubtful = STEPS[1].model_copy(update={"doubt": "read in a summary alone"})
    teller = begun(plan((STEPS[0], doubtful)))
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    texts = written(contents_of(teller.walk, ENGLISH))
    assert "invented (from memory). In doubt: read in a summary alone" in texts


def test_a_recheck_names_the_walk_that_it_is_of() -> None:
    facts = dict(contents_of(walk_of("recheck"), ENGLISH).facts)
    assert facts["Recheck of walk"] == walk_of("with findings").id


def test_what_later_walks_say_stands_beside_what_this_one_left_open() -> None:
    walk = walk_of("with findings")
    (first, *others) = walk.open_defects
    again = walk_of("recheck")
    look = LaterLook("cured", again.id, "Bohdan", again.events[-1].at)
    contents = contents_of(walk, ENGLISH, WalkContext(later={first.step: (look,)}))
    texts = written(contents)
    left = len(others)
    assert contents.headline.startswith(f"{left + 1} defects left open in this walk; ")
    states = [text for text in texts if text.startswith("OPEN")]
    assert (states.count("OPEN"), len(states)) == (left, left + 1)
    assert states[0] == "OPEN in this walk, OK since"
    said = f"Rechecked OK since by Bohdan, {time_text(look.at, ENGLISH)}, in walk {again.id}."
    assert [text for text in texts if said in text]
    all_cured = {defect.step: (look,) for defect in walk.open_defects}
    assert contents_of(walk, ENGLISH, WalkContext(later=all_cured)).headline.endswith(
        "all rechecked OK since"
    )
    still = {first.step: (replace(look, state="open"),)}
    assert (
        contents_of(walk, ENGLISH, WalkContext(later=still)).headline
        == contents_of(walk, ENGLISH).headline
    )


def test_the_head_names_the_shop_and_leaves_the_line_where_it_is_not_known() -> None:
    walk = walk_of("whole")
    assert (
        dict(contents_of(walk, ENGLISH, WalkContext(shop="Depot North")).facts)["Where"]
        == "Depot North"
    )
    assert dict(contents_of(walk, ENGLISH).facts)["Where"] == ""


def test_the_head_tells_an_odometer_that_was_read_and_asks_for_none() -> None:
    teller = begun()
    assert "Odometer" not in dict(contents_of(teller.walk, ENGLISH).facts)
    teller.tell(OdometerRead, value=48210, unit="mi")
    teller.tell(OdometerRead, value=48213, unit="mi")
    assert dict(contents_of(teller.walk, ENGLISH).facts)["Odometer"] == "48213 mi"
    row = walk_row(teller.walk)
    assert (row["odometer_mi"], row["odometer_km"]) == (48213, None)


def test_what_nobody_told_is_said_not_to_be_given() -> None:
    facts = dict(contents_of(begun().walk, ENGLISH).facts)
    assert facts["Plate"] == facts["VIN"] == "not given"


def test_damage_to_the_walks_file_is_told() -> None:
    damage = "Four entries are lost."
    blocks = contents_of(begun().walk, ENGLISH, WalkContext(damage)).sections[-1].blocks
    assert any(isinstance(b, Prose) and damage in b.text for b in blocks)


def test_lines_to_sign_stand_where_something_is_to_be_signed() -> None:
    def lines(kind: str) -> list[str]:
        sections = contents_of(walk_of(kind), ENGLISH).sections
        return [b.what for s in sections for b in s.blocks if isinstance(b, FormLine)]

    assert lines("whole") == ["Walked and recorded"]
    assert any("49 CFR 396.25" in line for line in lines("with findings"))
    assert not any("49 CFR 396.25" in line for line in lines("partial"))
    assert "Out-of-service tag placed" in lines("partial")
    assert "Out-of-service tag lifted" in lines("partial")


@pytest.mark.parametrize("kind", KINDS)
def test_the_html_stands_alone(kind: str) -> None:
    """Nothing is fetched and nothing runs: no address, no script, no style from elsewhere."""
    assert html(kind).addresses == []
    assert not html(kind).tags & {"script", "link", "iframe", "img", "object", "embed", "base"}
    document = export_walk(walk_of(kind), "html", ENGLISH).decode()
    assert "url(" not in document
    assert "@import" not in document


def test_names_are_text_and_never_markup() -> None:
    name = "<script>alert(1)</script>&amp;"
    a_plan = plan(vehicle=plan().vehicle.model_copy(update={"name": name, "notes": name}))
    teller = begun(a_plan)
    teller.ok("chocks")
    teller.found("tail_rear", tail_left="dark")
    parser = _Texts()
    parser.feed(export_walk(teller.walk, "html", ENGLISH).decode())
    assert "script" not in parser.tags
    assert name in parser.texts


@settings(max_examples=4, deadline=None)
@given(st.text(max_size=60))
def test_any_text_becomes_a_page(text: str) -> None:
    """As a record of a stranger may hold it; what the font lacks is written as its code."""
    item = {"id": "tail_left", "name": text, "kind": "tail", "lamps": ("tail_left",)}
    odd = step("tail_rear", "lamps", "lamp", items=(item,)).model_copy(update={"title": text})
    vehicle = plan().vehicle.model_copy(update={"name": text, "plate": text, "notes": text})
    teller = begun(plan((STEPS[0], odd), vehicle=vehicle))
    teller.ok("chocks")
    teller.tell(Answered, step="tail_rear", answer="defect", seen={"tail_left": "dark"})
    pages = PdfReader(io.BytesIO(export_walk(teller.walk, "pdf", ENGLISH))).pages
    assert "Not a periodic inspection" in pages[0].extract_text()
    assert export_walk(teller.walk, "html", ENGLISH).decode().endswith("</html>\n")


def test_a_letter_that_the_font_lacks_is_written_as_its_code() -> None:
    a_plan = plan(vehicle=plan().vehicle.model_copy(update={"name": "水泵拖车"}))
    pages = PdfReader(io.BytesIO(export_walk(begun(a_plan).walk, "pdf", ENGLISH))).pages
    assert "[U+6C34][U+6CF5]" in pages[0].extract_text()


def test_the_license_of_the_font_lies_beside_it() -> None:
    """Bitstream Vera's: its notice is to be in all copies."""
    text = (assets() / "fonts" / "LICENSE.txt").read_text(encoding="utf-8")
    assert "Permission is hereby granted, free of charge" in text
    assert {path.suffix for path in (assets() / "fonts").iterdir()} == {".ttf", ".txt"}


def test_the_same_walk_gives_the_same_page_to_the_byte() -> None:
    assert export_walk(walk_of("partial"), "pdf", ENGLISH) == export_walk(
        walk_of("partial"), "pdf", ENGLISH
    )


def photographed(kind: str, count: int) -> tuple[Walk, dict[str, bytes]]:
    """A walk with so many photos, half of them at its defects; by their digests, what they are."""
    walk, photos = walk_of(kind), dict[str, bytes]()
    wrong = [*walk.defects] or [walk.steps[0].id]
    for number in range(count):
        out = io.BytesIO()
        size = (160, 120) if number % 2 else (120, 160)
        Image.new("RGB", size, (200, 20 * number, 60)).save(out, "JPEG")
        photo = sha256(out.getvalue()).hexdigest()
        photos[photo] = out.getvalue()
        step_id = wrong[number % len(wrong)] if number % 2 else walk.steps[-1 - number].id
        body = {"step": step_id, "photo": photo}
        at, id_ = walk.events[-1].at, f"{number:032x}"
        event = seal(Photographed, walk.events[-1], id=id_, at=at, who="Ana", **body)
        walk = advance(walk, event)
    return walk, photos


@pytest.mark.parametrize("count", [1, 3, 12])
@pytest.mark.parametrize("kind", ["with findings", "ended early"])
def test_every_photo_stands_on_the_page_and_it_has_three_sheets_at_most(
    kind: str, count: int
) -> None:
    walk, photos = photographed(kind, count)
    pages = PdfReader(
        io.BytesIO(export_walk(walk, "pdf", ENGLISH, WalkContext(photos=photos)))
    ).pages
    assert len(pages) <= MOST_SHEETS
    shown = [sha256(image.data).hexdigest() for page in pages for image in page.images]
    assert sorted(shown) == sorted(photos)
    document = export_walk(walk, "html", ENGLISH, WalkContext(photos=photos)).decode()
    for data in photos.values():
        assert f"data:image/jpeg;base64,{b64encode(data).decode()}" in document


def test_photos_of_what_is_wrong_come_first_and_bear_its_numbers() -> None:
    walk, photos = photographed("with findings", 6)
    (section,) = (
        x
        for x in contents_of(walk, ENGLISH, WalkContext(photos=photos)).sections
        if x.title == "Photos"
    )
    captions = [block.caption for block in section.blocks if isinstance(block, Photo)]
    of_findings = [re.match(r"[0-9]+(-[0-9]+)?: ", caption) is not None for caption in captions]
    assert of_findings == [True] * 3 + [False] * 3


def test_a_photo_that_is_missing_is_said_to_be() -> None:
    walk, photos = photographed("with findings", 3)
    photos.popitem()
    assert "A photo of this walk is missing." in written(
        contents_of(walk, ENGLISH, WalkContext(photos=photos))
    )
