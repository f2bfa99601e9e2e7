"""The contents of the board as a page to print."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime

from walkaround.board.rows import Board, BoardRow, FaultTexts, OpenDefect, age_days
from walkaround.records.walk_line import WalkLine
from walkaround.report.contents import Block, Contents, Prose, Section, Table
from walkaround.words.language import Words


def board_contents(board: Board, fault_texts: FaultTexts, now: datetime, words: Words) -> Contents:
    """Make the contents of the page.

    Args:
        board: the board.
        fault_texts: what was found; without a text only the step is named.
        now: the present time, in the shop's time zone.
        words: the language.
    """
    day = f"{now:%Y-%m-%d %H:%M}"
    tagged = [row for row in board.vehicles if row.tag]
    with_defects = [row for row in board.vehicles if row.defects]
    count = sum(len(row.defects) for row in with_defects)
    sections = [
        (words("board-tagged"), [*_tagged(tagged, words)]),
        (words("board-open"), [*_open(with_defects, fault_texts, now, words)]),
        (words("board-going"), [*_going(board.going, words)]),
    ]
    return Contents(
        language=words.language,
        paper="letter",
        title=words("board-title"),
        about=words("report-about"),
        stamp="",
        facts=(
            (words("board-made"), day),
            (words("board-vehicles"), str(len(with_defects))),
            (words("board-tags"), str(len(tagged))),
            (words("board-under-way"), str(len(board.going))),
        ),
        headline=words("summary-headline", count=count),
        sections=tuple(Section(title, tuple(blocks)) for title, blocks in sections),
        foot=words("board-foot", day=day),
        page=words("report-page"),
    )


def _tagged(rows: list[BoardRow], words: Words) -> Iterator[Block]:
    if not rows:
        yield Prose(words("board-none-tagged"))
        return
    yield Table(
        (words("report-vehicle"), words("report-plate"), words("board-tag-since")),
        (0.5, 0.2, 0.3),
        tuple((row.line.vehicle_name, row.line.plate, _day(row.tag)) for row in rows if row.tag),
        strong=frozenset({0}),
    )


def _open(
    rows: list[BoardRow], fault_texts: FaultTexts, now: datetime, words: Words
) -> Iterator[Block]:
    if not rows:
        yield Prose(words("board-none-open"))
        return

    def what(defect: OpenDefect) -> str:
        title = words.text(defect.title)
        more = fault_texts.get((defect.walk, defect.step), "")
        return words("report-found", step=title, what=more) if more else title

    cells = []
    for row in rows:
        named = "\n".join(filter(None, (row.line.vehicle_name, row.line.plate)))
        for number, defect in enumerate(row.defects):
            age = words("board-age", days=age_days(defect.since, now))
            cells.append(("" if number else named, what(defect), age, ""))
    head = (words("report-vehicle"), words("report-what"), words("board-open-for"))
    columns = (*head, words("board-done-by"))
    yield Table(columns, (0.22, 0.46, 0.12, 0.2), tuple(cells), strong=frozenset({0}))


def _going(lines: tuple[WalkLine, ...], words: Words) -> Iterator[Block]:
    if not lines:
        yield Prose(words("board-none-going"))
        return
    yield Table(
        (
            words("report-vehicle"),
            words("report-begun"),
            words("report-who"),
            words("report-state"),
        ),
        (0.32, 0.2, 0.22, 0.26),
        tuple(
            (
                line.vehicle_name,
                _day(line),
                words.row(line.who),
                going_state(line, words),
            )
            for line in lines
        ),
        strong=frozenset({0}),
    )


def going_state(line: WalkLine, words: Words) -> str:
    """Say how far a walk is, and how many defects are open in it."""
    count = len(line.open_defects)
    return words("record-going", answered=line.answered, steps=line.steps, count=count)


def _day(line: WalkLine) -> str:
    return f"{line.began.astimezone():%Y-%m-%d %H:%M}"
