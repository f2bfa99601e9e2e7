"""The board on paper: one sheet for a shop of this size, in letters that can be selected."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader
from support.english import ENGLISH
from support.shop import day, walks

from walkaround.board.page import board_contents, going_state
from walkaround.board.rows import Board, board_of
from walkaround.disk.locations import assets
from walkaround.records.overview import overview_of
from walkaround.records.walk_line import WalkLine, line_of
from walkaround.report.html import page_html
from walkaround.report.pdf import page_pdf


@pytest.fixture(scope="module")
def board() -> Board:
    return board_of(overview_of(map(line_of, walks())))


def text_of(board: Board, seen: dict[tuple[str, str], str]) -> list[str]:
    contents = board_contents(board, seen, day(11, 26), ENGLISH)
    pages = PdfReader(io.BytesIO(page_pdf(contents, day(11, 26), assets() / "fonts"))).pages
    return [re.sub(r"\s+", " ", page.extract_text()) for page in pages]


def test_everything_on_the_board_stands_on_one_sheet(board: Board) -> None:
    (text,) = text_of(board, {})
    for row in board.vehicles:
        assert row.line.vehicle_name in text
        for defect in row.defects:
            assert ENGLISH.text(defect.title) in text
    assert "54 days" in text  # from October 3 to November 26
    assert "Depot tractor 2" in text


def test_what_was_seen_stands_beside_its_step(board: Board) -> None:
    defect = board.vehicles[-1].defects[0]
    (text,) = text_of(board, {(defect.walk, defect.step): "right stop lamp dark"})
    assert f"{ENGLISH.text(defect.title)}: right stop lamp dark" in text


def test_an_empty_board_says_so() -> None:
    (text,) = text_of(Board((), ()), {})
    for said in ("No defect is open", "No walk is under way", "No tag was placed"):
        assert said in text


def test_a_board_of_many_vehicles_takes_no_more_than_three_sheets(board: Board) -> None:
    many = Board(board.vehicles * 15, board.going)
    assert len(text_of(many, {})) <= 3
    assert page_html(board_contents(many, {}, day(11, 26), ENGLISH)).count("<tr>") > 60


@pytest.mark.parametrize(
    ("defects", "state"),
    [
        ((), "8 of 13 answered"),
        (("look_1_rear",), "8 of 13 answered, 1 open defect"),
        (("look_1_rear", "load_rear"), "8 of 13 answered, 2 open defects"),
    ],
)
def test_a_walk_under_way_says_what_is_wrong_so_far(defects: tuple[str, ...], state: str) -> None:
    line = WalkLine("20261125_081502_4f3a9c", day(11), answered=8, steps=13, open_defects=defects)
    assert going_state(line, ENGLISH) == state
