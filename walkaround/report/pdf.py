"""The page as a PDF: text that can be selected, pictures that stay sharp at any size.

One sheet where all fits on one in letters that are easily read, else up to three, set smaller
where it must be. Nothing is ever left out: what is too long for three in the smallest letters takes
more. The font comes with the app, so that a sheet reads the same everywhere; a character that it
lacks is written as its code.
"""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import closing
from datetime import datetime
from math import sqrt
from pathlib import Path

from fpdf import Align

from walkaround.base.signing import HIGH, WIDE
from walkaround.report.contents import (
    Block,
    Contents,
    Photo,
    Prose,
    ReportPicture,
    Section,
    Table,
    ToWrite,
)
from walkaround.report.sheet import FOOT_MM, INK, LARGEST, MARGIN_MM, QUIET, PaperSheet

_SMALLEST_FOR_ONE, _SMALLEST = 7.5, 5.0
"""Points. Smaller letters than the first would save a sheet, and nobody would read it; smaller ones
than the second nobody could."""
_STEP = 0.5
MOST_SHEETS = 3
_BETWEEN_MM = 3.0
"""Between two photos."""
_WRITING_MM, _SIGNED_MM = 7.5, 10.0
"""Height of a line to write on, and of one that bears a signature."""
_SIGNED_SHARES = (0.45, 0.32, 0.23)
"""Of the width, for name, signature and day."""


def page_pdf(contents: Contents, printed_at: datetime, fonts: Path) -> bytes:
    """Write the page as a PDF.

    Args:
        contents: what it says.
        printed_at: the date in the file's own description.
        fonts: the folder of the app's fonts.
    """
    with closing(_Sheets(contents, printed_at, fonts, LARGEST)) as largest:
        filled = largest.filled
        if largest.page == 1:
            return bytes(largest.output())
    for most, smallest in ((1, _SMALLEST_FOR_ONE), (MOST_SHEETS, _SMALLEST + _STEP)):
        # Letters take room by the square of their size; lines to write on do not.
        size = min(LARGEST, _STEP * round(LARGEST * sqrt(most / filled) / _STEP))
        while size >= smallest:
            with closing(_Sheets(contents, printed_at, fonts, size)) as sheets:
                if sheets.page <= most:
                    return bytes(sheets.output())
            size -= _STEP
    with closing(_Sheets(contents, printed_at, fonts, _SMALLEST)) as sheets:
        return bytes(sheets.output())


class _Sheets(PaperSheet):
    """All sheets in letters of one size."""

    def __init__(self, contents: Contents, printed_at: datetime, fonts: Path, size: float) -> None:
        super().__init__(contents.paper, fonts, size)
        self._contents = contents
        self.set_creation_date(printed_at)
        self.set_title(contents.title)
        self.set_subject(contents.about)
        self.set_lang(contents.language)
        self.alias_nb_pages("{pages}")
        self.add_page()
        self.set_xy(self.l_margin, self.t_margin)
        self._head()
        for section in contents.sections:
            self._section(section)

    def footer(self) -> None:
        """Say at the foot of every sheet of which walk it is, what it is not, and its number."""
        self.set_xy(self.l_margin, self.h - MARGIN_MM - FOOT_MM / 2)
        number = self._contents.page.replace("{page}", str(self.page))
        with self.letters("", 0.82, QUIET):
            # Its width once the number of sheets is known; that is filled in at the end.
            wide = self.get_string_width(number.replace("{pages}", "9"))
            room = self.epw - wide - 4
            self.set_x(self.w - self.r_margin - wide)
            self.cell(wide, self.line_mm, number)
            foot = self.drawable(self._contents.foot)
            scale = min(1.0, room / self.get_string_width(foot))
        with self.letters("", 0.82 * scale, QUIET):
            self.set_x(self.l_margin)
            self.cell(room, self.line_mm, foot)
        if stamp := self._contents.stamp:
            self.stamp(stamp)

    def _head(self) -> None:
        contents, wide = self._contents, self.epw
        if contents.stamp:
            with self.letters("B", 1.2):
                across = self.get_string_width(contents.stamp) + 6
                self.set_line_width(0.6)
                self.rect(self.w - self.r_margin - across, self.t_margin, across, 8)
                self.set_xy(self.w - self.r_margin - across, self.t_margin)
                self.cell(across, 8, contents.stamp, align=Align.C)
            wide -= across + 4
        self.set_xy(self.l_margin, self.t_margin)
        with self.letters("B", 1.9):
            self.put(contents.title, wide, 1.7 * self.line_mm)
        with self.letters("B"):
            self.put(contents.about, wide, self.line_mm)
        self.set_y(max(self.get_y(), self.t_margin + 8) + 1.5)
        self._facts()
        with self.letters("B", 1.35):
            self.put(contents.headline, self.epw, 1.5 * self.line_mm)

    def _facts(self) -> None:
        """Names and values in two columns."""
        facts, half = self._contents.facts, self.epw / 2
        with self.letters("B"):
            named = max(self.get_string_width(self.drawable(name)) for name, _ in facts) + 4
        rows = (len(facts) + 1) // 2
        top, lowest = self.get_y(), self.get_y()
        for column, part in enumerate((facts[:rows], facts[rows:])):
            y = top
            for name, value in part:
                self.set_xy(self.l_margin + column * half, y)
                with self.letters("B"):
                    self.cell(named, self.line_mm, self.drawable(name))
                x = self.get_x()
                if not value:
                    low = y + self.line_mm - 0.6
                    self.rule(x + 1, self.l_margin + (column + 1) * half - 4, low)
                self.put(value, half - named - 4, self.line_mm)
                y = self.get_y()
            lowest = max(lowest, y)
        self.set_xy(self.l_margin, lowest + 1.5)

    def _section(self, section: Section) -> None:
        self.set_y(self.get_y() + 0.5 * self.line_mm)
        self.make_room(5 * self.line_mm + self._first_mm(section.blocks[0]))
        with self.letters("B", 1.12):
            self.put(section.title, self.epw, 1.3 * self.line_mm)
        self.rule(self.l_margin, self.w - self.r_margin, self.get_y(), 0.5)
        self.set_y(self.get_y() + 0.25 * self.line_mm)
        row: list[ReportPicture | Photo] = []
        for block in section.blocks:
            other_kind = row and type(row[0]) is not type(block)
            if not isinstance(block, ReportPicture | Photo):
                self._side_by_side(row)
                row = []
                self._block(block)
            elif other_kind or sum(each.share for each in row) + block.share > 1.001:
                self._side_by_side(row)
                row = [block]
            else:
                row.append(block)
        self._side_by_side(row)

    def _side_by_side(self, row: Sequence[ReportPicture | Photo]) -> None:
        self._pictures([each for each in row if isinstance(each, ReportPicture)])
        self._photos([each for each in row if isinstance(each, Photo)])

    def _first_mm(self, block: Block) -> float:
        """How high a section's first block is, where it cannot be broken."""
        if isinstance(block, Photo):
            return self._photo_mm(block)
        return self.picture_mm(block)[1] if isinstance(block, ReportPicture) else 0.0

    def _photo_mm(self, photo: Photo) -> float:
        """How high the box is that a photo has to fit in; a phone's is three to four."""
        return 0.75 * (photo.share * self.epw - _BETWEEN_MM) * self.small

    def _block(self, block: Block) -> None:
        self.set_x(self.l_margin)
        match block:
            case Prose(text=text, look=look):
                quiet = look == "quiet"
                with self.letters("", 0.88 if quiet else 1.0, QUIET if quiet else INK):
                    self.put(text, self.epw, self.line_mm * (0.92 if quiet else 1.0))
                self.set_y(self.get_y() + 0.25 * self.line_mm)
            case Table():
                self._table(block)
            case ToWrite():
                self._to_write(block)

    def _table(self, table: Table) -> None:
        wides = [share * self.epw for share in table.shares]
        if any(table.head):
            self._row(wides, table.head, frozenset(range(len(wides))))
        for row in table.rows:
            self._row(wides, row, table.strong)

    def _row(self, wides: Sequence[float], row: Sequence[str], strong: frozenset[int]) -> None:
        """One row; one that is higher than a quarter of a sheet goes on over the next."""
        cells: list[list[str]] = []
        for column, (text, wide) in enumerate(zip(row, wides, strict=True)):
            with self.letters("B" if column in strong else ""):
                cells.append(self.in_lines(text, wide - 2))
        high = max(map(len, cells))
        self.make_room(min(high * self.line_mm, self.h / 4))
        done = 0
        while done < high:
            self.make_room(self.line_mm)
            top = self.get_y()
            # Cell after cell, so that a cell is selected as a whole.
            fit = min(high - done, max(1, int((self.bottom - top) / self.line_mm)))
            x = self.l_margin
            for column, (lines, wide) in enumerate(zip(cells, wides, strict=True)):
                with self.letters("B" if column in strong else ""):
                    for number, line in enumerate(lines[done : done + fit]):
                        self.set_xy(x, top + number * self.line_mm)
                        self.cell(wide, self.line_mm, line)
                x += wide
            done += fit
            self.set_xy(self.l_margin, top + fit * self.line_mm)
        self.rule(self.l_margin, self.w - self.r_margin, self.get_y() + 0.3, 0.1)
        self.set_y(self.get_y() + 0.8)

    def _to_write(self, block: ToWrite) -> None:
        named = 0.34 * self.epw
        with self.letters("B"):
            lines = self.in_lines(block.what, named - 3)
        shares = _SIGNED_SHARES if block.filled else (1 / len(block.blanks),) * len(block.blanks)
        wides = [(self.epw - named) * share for share in shares]
        with self.letters("", 0.88, QUIET):
            lefts = [self.get_string_width(blank) + 2.5 for blank in block.blanks]
        with self.letters("B", 0.88):
            texts = [
                self.in_lines(each, wide - left - 2.5) if isinstance(each, str) else []
                for each, wide, left in zip(block.filled, wides, lefts, strict=False)
            ]
        ink = any(isinstance(each, ReportPicture) for each in block.filled)
        rows = max(map(len, [lines, *texts]))
        high = max(_SIGNED_MM if ink else _WRITING_MM, rows * self.line_mm + 1.5)
        self.make_room(high)
        y = self.get_y()
        with self.letters("B"):
            self._upwards(lines, self.l_margin, y + high, named)
        x = self.l_margin + named
        for number, (blank, wide, left) in enumerate(zip(block.blanks, wides, lefts, strict=True)):
            with self.letters("", 0.88, QUIET):
                self._upwards([blank], x, y + high, left)
            self.rule(x + left, x + wide - 2.5, y + high - 0.6)
            filled = block.filled[number] if block.filled else ""
            if isinstance(filled, ReportPicture):
                across = min(wide - left - 2.5, (high - 1) * WIDE / HIGH)
                self.put_picture(filled, x + left, y + high - 1 - across * HIGH / WIDE, across)
            elif filled:
                with self.letters("B", 0.88):
                    self._upwards(texts[number], x + left, y + high - 0.3, wide)
            x += wide
        self.set_xy(self.l_margin, y + high)

    def _upwards(self, lines: Sequence[str], x: float, low: float, wide: float) -> None:
        """Lines of the present letters, the last one just above this height."""
        for number, line in enumerate(lines):
            self.set_xy(x, low - (len(lines) - number) * self.line_mm)
            self.cell(wide, self.line_mm, line)

    def _pictures(self, row: Sequence[ReportPicture]) -> None:
        """Pictures side by side."""
        if not row:
            return
        self.make_room(max(self.picture_mm(picture)[1] for picture in row))
        x, y, lowest = self.l_margin, self.get_y(), self.get_y()
        for picture in row:
            wide, high = self.picture_mm(picture)
            self.put_picture(picture, x, y, wide)
            x, lowest = x + wide, max(lowest, y + high)
        self.set_xy(self.l_margin, lowest + 0.25 * self.line_mm)

    def _photos(self, row: Sequence[Photo]) -> None:
        """Photos side by side, each whole in a box of one size, with its words below it."""
        if not row:
            return
        high = self._photo_mm(row[0])
        wide = row[0].share * self.epw - _BETWEEN_MM
        with self.letters("", 0.88):
            captions = [self.in_lines(photo.caption, wide) for photo in row]
        most = max(map(len, captions))
        self.make_room(high + most * self.line_mm + 1)
        x, y = self.l_margin, self.get_y()
        for photo, lines in zip(row, captions, strict=True):
            self.put_photo(photo, x, y, wide, high)
            with self.letters("", 0.88):
                for number, line in enumerate(lines):
                    self.set_xy(x, y + high + 0.5 + number * self.line_mm)
                    self.cell(wide, self.line_mm, line)
            x += wide + _BETWEEN_MM
        self.set_xy(self.l_margin, y + high + most * self.line_mm + 1)
