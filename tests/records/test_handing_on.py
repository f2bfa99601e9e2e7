"""Records handed on: no cell runs as a formula, nothing tells of the machine they come from."""

from __future__ import annotations

import csv
import getpass
import io
import json
import re
import socket
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from support.english import ENGLISH
from support.made_up_vehicles import TODAY
from support.stores import saved
from support.walks import STEPS, WALK_ID, begun, plan, step

from walkaround.base.plaintext import some_lines
from walkaround.disk import locations
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.records.reader import WalkReader
from walkaround.records.store import WalkStore
from walkaround.report.facts import COLUMNS
from walkaround.report.json_document import walk_json
from walkaround.report.tables import walk_csv
from walkaround.walk.advance import fold
from walkaround.walk.events import Noted
from walkaround.walk.state import Walk

# OWASP, "CSV Injection": a cell that begins with one of these may run; NUL after OWASP ASVS 5.0,
# requirement 1.2.10.
STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "\uff1d", "\uff0b", "\uff0d", "\uff20", "\0")
# What some spreadsheets take away before they look: blanks, quotes, and what is not seen.
BEFORE = ("", " ", "  ", "\u00a0", "\u3000", '"', "'", "\"'", "\u200b", "\ufeff", "\u201c")
PLAIN = ("-1.5", "+2", "-0.25", "-10")


def rows(walk: Walk) -> list[dict[str, str]]:
    """As Python's reader of RFC 4180 has it."""
    return list(csv.DictReader(io.StringIO(walk_csv(walk, ENGLISH), newline="")))


def walk_with(text: str) -> Walk:
    """A walk with this text everywhere that a stranger's record can have one."""
    vehicle = plan().vehicle.model_copy(update={"name": text})
    odd = {"title": text, "source": text, "part": "secure"}
    first = step("chocks", "secure", "act").model_copy(update=odd)
    teller = begun(plan((first, *STEPS[1:]), vehicle=vehicle))
    teller.ok("chocks")
    return teller.walk


def runs(cell: str) -> bool:
    """Whether a spreadsheet that takes every liberty would run this cell, which is no number."""
    if re.fullmatch("[+-]?[0-9]+([.][0-9]+)?", cell):
        return False
    return cell.lstrip("".join(BEFORE)).startswith(STARTS) and not cell.startswith("'")


@pytest.mark.parametrize("start", STARTS)
@pytest.mark.parametrize("before", BEFORE)
def test_no_cell_begins_as_a_formula_does(start: str, before: str) -> None:
    text = f"{before}{start}HYPERLINK(A1)"
    row = rows(walk_with(text))[0]
    assert row["vehicle"] == row["title"] == row["source"] == f"'{text}"


@pytest.mark.parametrize("number", PLAIN)
def test_a_number_stays_a_number(number: str) -> None:
    assert rows(walk_with(number))[0]["title"] == number


@pytest.mark.parametrize("text", ["-1.5 psi", "-1+cmd|' /C calc'!A0", "+1 to +3", "-", "=", "@"])
def test_what_only_begins_as_a_number_is_text(text: str) -> None:
    assert rows(walk_with(text))[0]["title"] == f"'{text}"


@example("-0")
@given(st.text(max_size=40) | st.sampled_from(STARTS).flatmap(lambda c: st.text().map(c.__add__)))
def test_every_cell_reads_as_the_text_but_for_an_apostrophe_before_it(text: str) -> None:
    walk = walk_with(text)
    [row] = rows(walk)
    assert list(row) == list(COLUMNS)
    assert not any(runs(cell) for cell in row.values())
    assert row["title"] in (text, f"'{text}")
    assert row["vehicle"] == row["title"] == row["source"]
    assert len(list(csv.reader(io.StringIO(walk_csv(walk, ENGLISH), newline="")))) == 2


@given(st.text(max_size=40))
def test_a_note_and_a_name_are_sealed_without_what_is_not_seen(text: str) -> None:
    teller = begun()
    teller.tell(Noted, step="chocks", text=text)
    teller.ok("chocks")
    assert rows(teller.walk)[0]["note"] in (some_lines(text), f"'{some_lines(text)}")


@pytest.fixture(scope="module")
def real_walk() -> Walk:
    library = load_library(locations.shipped(), today=TODAY)
    walk = begun(plan_walk(library.vehicles[0], library.rules)).walk
    assert walk.plan is not None
    return walk


def texts_in(value: Any) -> list[str]:
    if isinstance(value, dict):
        return [*value, *(text for inner in value.values() for text in texts_in(inner))]
    if isinstance(value, list):
        return [text for inner in value for text in texts_in(inner)]
    return [value] if isinstance(value, str) else []


def test_no_file_tells_of_paths_or_of_the_machine(real_walk: Walk, tmp_path: Path) -> None:
    """What tells of a machine: its folders, its name, who is logged in."""
    store = WalkStore(tmp_path)
    saved(store)
    store.close()
    walks = (real_walk, fold(WalkReader(tmp_path).load(WALK_ID).events))
    machine = {str(tmp_path), str(Path.home()), socket.gethostname(), str(locations.shipped())}
    for walk in walks:
        texts = [*texts_in(json.loads(walk_json(walk, ENGLISH))), walk_csv(walk, ENGLISH)]
        for secret in (*machine, getpass.getuser() + "@"):
            assert not [text for text in texts if secret in text]


def test_the_json_has_these_keys_and_no_other(real_walk: Walk) -> None:
    """A key added later must be looked at: nothing of pairing, settings or folders goes out."""
    assert set(json.loads(walk_json(real_walk, ENGLISH))) == {
        *("format", "schema", "notice", "walk", "vehicle", "scope", "partial", "air", "towed"),
        *("about", "recheck_of", "began", "finished", "counts", "open_defects", "answers"),
        "damage",
        "events",
    }
