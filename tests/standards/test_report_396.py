"""What the page of a walk says of 49 CFR part 396, against the sections, and what it never says.

Read in the electronic Code of Federal Regulations:

- 396.3(b)(1), (c): a vehicle's records identify it; they are kept where it is housed or maintained
  for 1 year, and for 6 months after it leaves the motor carrier's control.
- 396.11(a)(3)(ii): where a driver's report lists a defect, the motor carrier or its agent certifies
  on that report that it was repaired or that repair is unnecessary, before the vehicle is operated
  again.
- 396.17(c): a vehicle passes a periodic inspection at least once in 12 months, and carries either
  the report under 396.21(a), or a sticker or decal with the date, who keeps the report, what
  identifies the vehicle, and a certification that it has passed.
- 396.25(a), (c), (d): brake work is the responsibility of those who are qualified for it, by
  training or experience.

396.21(a), from memory: the report names the inspector and the motor carrier, its date and the
vehicle, tells the components inspected and the results, and certifies the inspection as accurate,
complete and in accordance with the section.
"""

from __future__ import annotations

import io
import re
from functools import cache
from typing import get_args

import pytest
from pypdf import PdfReader
from support import handed_over
from support.english import ENGLISH
from support.shop import LINE
from support.walks import Teller

from walkaround.base.signing import SignedFor
from walkaround.records.export import export_walk
from walkaround.report.contents import FormLine, ReportPicture
from walkaround.report.page import contents_of
from walkaround.walk.events import Signed
from walkaround.walk.state import Walk

WALKS = {
    "whole": handed_over.whole,
    "with findings": handed_over.with_findings,
    "ended early": handed_over.ended_early,
    "partial": handed_over.partial,
    "recheck": handed_over.recheck,
    "signed": lambda: signed_for(*get_args(SignedFor)),
    "tractor": lambda: handed_over.Walker(handed_over.planned("depot_tractor_2")).closed(),
}
NEVER = (
    r"annual",
    r"inspect(ed|or|ors|s)\b",
    r"pass(ed|es)?\b",
    r"396\.(19|21|23)",
    r"accurate|complete and",
    r"certif(y|ies|icate|ication)",
    r"sticker|decal",
    r"\bdue\b|expir|valid (un)?til|next inspection|12 months|14 months",
    r"qualified inspector",
    r"\bsafe(ly)?\b|roadworthy|fit for|in compliance",
)
"""Of 396.17(c) and 396.21(a): what would make it pass for the report of a periodic inspection; and
what no check of lamps and air brakes can say."""


def signed_for(*lines: str) -> Walk:
    """The walk with findings, in which these lines are signed with a finger."""
    teller = Teller(walk=handed_over.with_findings())
    for what in lines:
        teller.tell(Signed, what=what, name=f"Oksana {what}", strokes=(LINE,))
    return teller.walk


@cache
def walk_of(kind: str) -> Walk:
    return WALKS[kind]()


@cache
def text_of(kind: str) -> str:
    pages = PdfReader(io.BytesIO(export_walk(walk_of(kind), "pdf", ENGLISH))).pages
    return re.sub(r"\s+", " ", " ".join(page.extract_text() for page in pages))


def lines_to_sign(kind: str) -> str:
    sections = contents_of(walk_of(kind), ENGLISH).sections
    return "\n".join(b.what for s in sections for b in s.blocks if isinstance(b, FormLine))


@pytest.mark.parametrize("kind", WALKS)
@pytest.mark.parametrize("word", NEVER)
def test_no_word_makes_it_pass_for_a_periodic_inspection(kind: str, word: str) -> None:
    """Neither on the page nor in the HTML; what the rules' own titles say of walks is no claim."""
    for text in (text_of(kind), export_walk(walk_of(kind), "html", ENGLISH).decode()):
        assert not re.search(word, text, re.IGNORECASE)


@pytest.mark.parametrize("kind", WALKS)
def test_inspection_is_named_only_to_say_that_it_is_none(kind: str) -> None:
    text = text_of(kind)
    assert text.count("periodic inspection") >= 2
    assert not re.search(r"(?<!ot a periodic )inspection", text, re.IGNORECASE)
    assert "(49 CFR 396.17)" in text


@pytest.mark.parametrize("kind", WALKS)
def test_it_says_how_long_such_records_are_kept(kind: str) -> None:
    """396.3(c)."""
    text = text_of(kind)
    assert "49 CFR 396.3(c)" in text
    assert "housed or maintained for 1 year, and for 6 months after the vehicle has left" in text


@pytest.mark.parametrize("kind", WALKS)
def test_it_identifies_the_vehicle(kind: str) -> None:
    """396.3(b)(1): company number, serial number."""
    plan = walk_of(kind).plan
    assert plan is not None
    for told in (plan.vehicle.id, plan.vehicle.vin, plan.vehicle.plate):
        assert told
        assert told in text_of(kind)


def test_a_repair_is_certified_on_the_drivers_report_and_not_here() -> None:
    """396.11(a)(3)(ii)."""
    lines = lines_to_sign("with findings")
    assert "certified on that report (circle one): repaired / repair unnecessary" in lines
    assert "49 CFR 396.11(a)(3)(ii)" in lines
    assert "396.11" not in lines_to_sign("whole")


def test_brake_repairs_are_signed_off_by_a_named_person_qualified_for_brakes() -> None:
    """396.25."""
    sections = contents_of(walk_of("with findings"), ENGLISH).sections
    [line] = [
        b for s in sections for b in s.blocks if isinstance(b, FormLine) and "396.25" in b.what
    ]
    assert "qualified for brakes" in line.what
    assert line.blanks == ("Name", "Signature", "Date")
    assert "396.25" not in lines_to_sign("partial")


def test_what_was_signed_on_the_phone_stands_on_its_line_with_name_signature_and_day() -> None:
    """396.25: by a named qualified person; 396.11(a)(3)(ii): certified on the driver's report."""
    for what, said in (
        ("brakes", "396.25"),
        ("drivers_unnecessary", "Repair unnecessary, as cert"),
    ):
        sections = contents_of(signed_for(what), ENGLISH).sections
        lines = [b for s in sections for b in s.blocks if isinstance(b, FormLine)]
        [line] = [line for line in lines if said in line.what]
        name, ink, day = line.filled
        assert name == f"Oksana {what}"
        assert isinstance(ink, ReportPicture)
        assert day == "2026-11-25"
    assert not any("circle one" in line.what for line in lines)


@pytest.mark.parametrize("what", get_args(SignedFor))
def test_who_signed_can_be_selected_on_the_paper(what: str) -> None:
    assert f"Oksana {what}" in text_of("signed")
    assert f"Signature of Oksana {what}" in export_walk(walk_of("signed"), "html", ENGLISH).decode()
