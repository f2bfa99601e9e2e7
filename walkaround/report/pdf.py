"""The page as a PDF: text that can be selected, pictures that stay sharp at any size.

One sheet if all fits on one in letters that are easy to read, else up to three, in smaller letters
if needed. Nothing is ever left out: what does not fit on three takes more. The font comes with the
app, so that a sheet looks the same everywhere; a character that it lacks is written as its code.
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
    FormLine,
    Photo,
    Prose,
    ReportPicture,
    Section,
    Table,
)
from walkaround.report.sheet import FOOT_MM, INK, LARGEST, MARGIN_MM, QUIET, PaperSheet

_SMALLEST_FOR_ONE, _SMALLEST = 7.5, 5.0
"""Points. Letters below the first would save a sheet, but nobody would read it; letters below the
second nobody could read."""
_STEP = 0.5
MOST_SHEETS = 3
_BETWEEN_MM = 3.0
"""The gap between two photos."""
_WRITING_MM, _SIGNED_MM = 7.5, 10.0
"""The height of a line to write on, and of one with a signature."""
_SIGNED_SHARES = (0.45, 0.32, 0.23)
"""The shares of the width of name, signature and day."""


def page_pdf(contents: Contents, printed_at: datetime, fonts: Path) -> bytes:
    """Return the page as a PDF.

    Args:
        contents: the contents of the page.
        printed_at: the date in the metadata of the file.
        fonts: the folder of the app's fonts.
    """
    with closing(_Sheets(contents, printed_at, fonts, LARGEST)) as largest:
        filled = largest.filled
        if largest.page == 1:
            return bytes(largest.output())
    for most_sheets, smallest in ((1, _SMALLEST_FOR_ONE), (MOST_SHEETS, _SMALLEST + _STEP)):
        # The area of text grows with the square of its size; lines to write on do not.
        size = min(LARGEST, _STEP * round(LARGEST * sqrt(most_sheets / filled) / _STEP))
        while size >= smallest:
            with closing(_Sheets(contents, printed_at, fonts, size)) as sheets:
                if sheets.page <= most_sheets:
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
        """Write the foot of a sheet: the walk, what the record is not, and the sheet's number."""
        self.set_xy(self.l_margin, self.h - MARGIN_MM - FOOT_MM / 2)
        number = self._contents.page.replace("{page}", str(self.page))
        with self.letters("", 0.82, QUIET):
            # Its width with the number of sheets, which is filled in at the end.
            width = self.get_string_width(number.replace("{pages}", "9"))
            foot_width = self.epw - width - 4
            self.set_x(self.w - self.r_margin - width)
            self.cell(width, self.line_mm, number)
            foot = self.drawable(self._contents.foot)
            scale = min(1.0, foot_width / self.get_string_width(foot))
        with self.letters("", 0.82 * scale, QUIET):
            self.set_x(self.l_margin)
            self.cell(foot_width, self.line_mm, foot)
        if stamp := self._contents.stamp:
            self.stamp(stamp)

    def _head(self) -> None:
        contents, width = self._contents, self.epw
        if contents.stamp:
            with self.letters("B", 1.2):
                drawn_width = self.get_string_width(contents.stamp) + 6
                self.set_line_width(0.6)
                self.rect(self.w - self.r_margin - drawn_width, self.t_margin, drawn_width, 8)
                self.set_xy(self.w - self.r_margin - drawn_width, self.t_margin)
                self.cell(drawn_width, 8, contents.stamp, align=Align.C)
            width -= drawn_width + 4
        self.set_xy(self.l_margin, self.t_margin)
        with self.letters("B", 1.9):
            self.put(contents.title, width, 1.7 * self.line_mm)
        with self.letters("B"):
            self.put(contents.about, width, self.line_mm)
        self.set_y(max(self.get_y(), self.t_margin + 8) + 1.5)
        self._facts()
        with self.letters("B", 1.35):
            self.put(contents.headline, self.epw, 1.5 * self.line_mm)

    def _facts(self) -> None:
        """Write names and values in two columns."""
        facts, half = self._contents.facts, self.epw / 2
        with self.letters("B"):
            name_width = max(self.get_string_width(self.drawable(name)) for name, _ in facts) + 4
        rows = (len(facts) + 1) // 2
        top, lowest = self.get_y(), self.get_y()
        for column, part in enumerate((facts[:rows], facts[rows:])):
            y = top
            for name, value in part:
                self.set_xy(self.l_margin + column * half, y)
                with self.letters("B"):
                    self.cell(name_width, self.line_mm, self.drawable(name))
                x = self.get_x()
                if not value:
                    low = y + self.line_mm - 0.6
                    self.rule(x + 1, self.l_margin + (column + 1) * half - 4, low)
                self.put(value, half - name_width - 4, self.line_mm)
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
        """Return the height of a section's first block, mm, if it cannot be split; else 0."""
        if isinstance(block, Photo):
            return self._photo_mm(block)
        return self.picture_mm(block)[1] if isinstance(block, ReportPicture) else 0.0

    def _photo_mm(self, photo: Photo) -> float:
        """Return the height of a photo's box, mm; photos of phones are 3:4."""
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
            case FormLine():
                self._to_write(block)

    def _table(self, table: Table) -> None:
        widths = [share * self.epw for share in table.shares]
        if any(table.head):
            self._row(widths, table.head, frozenset(range(len(widths))))
        for row in table.rows:
            self._row(widths, row, table.strong)

    def _row(self, widths: Sequence[float], row: Sequence[str], strong: frozenset[int]) -> None:
        """Write one row; it may be split over sheets if it is higher than a quarter of one."""
        cells: list[list[str]] = []
        for column, (text, width) in enumerate(zip(row, widths, strict=True)):
            with self.letters("B" if column in strong else ""):
                cells.append(self.in_lines(text, width - 2))
        line_count = max(map(len, cells))
        self.make_room(min(line_count * self.line_mm, self.h / 4))
        done = 0
        while done < line_count:
            self.make_room(self.line_mm)
            top = self.get_y()
            # Cell by cell, so that a cell can be selected as a whole.
            count = min(line_count - done, max(1, int((self.bottom - top) / self.line_mm)))
            x = self.l_margin
            for column, (lines, width) in enumerate(zip(cells, widths, strict=True)):
                with self.letters("B" if column in strong else ""):
                    for number, line in enumerate(lines[done : done + count]):
                        self.set_xy(x, top + number * self.line_mm)
                        self.cell(width, self.line_mm, line)
                x += width
            done += count
            self.set_xy(self.l_margin, top + count * self.line_mm)
        self.rule(self.l_margin, self.w - self.r_margin, self.get_y() + 0.3, 0.1)
        self.set_y(self.get_y() + 0.8)

    def _to_write(self, block: FormLine) -> None:
        name_width = 0.34 * self.epw
        with self.letters("B"):
            lines = self.in_lines(block.what, name_width - 3)
        shares = _SIGNED_SHARES if block.filled else (1 / len(block.blanks),) * len(block.blanks)
        widths = [(self.epw - name_width) * share for share in shares]
        with self.letters("", 0.88, QUIET):
            indents = [self.get_string_width(blank) + 2.5 for blank in block.blanks]
        with self.letters("B", 0.88):
            texts = [
                self.in_lines(each, width - indent - 2.5) if isinstance(each, str) else []
                for each, width, indent in zip(block.filled, widths, indents, strict=False)
            ]
        has_drawing = any(isinstance(each, ReportPicture) for each in block.filled)
        rows = max(map(len, [lines, *texts]))
        height = max(_SIGNED_MM if has_drawing else _WRITING_MM, rows * self.line_mm + 1.5)
        self.make_room(height)
        y = self.get_y()
        with self.letters("B"):
            self._upwards(lines, self.l_margin, y + height, name_width)
        x = self.l_margin + name_width
        for number, (blank, width, indent) in enumerate(
            zip(block.blanks, widths, indents, strict=True)
        ):
            with self.letters("", 0.88, QUIET):
                self._upwards([blank], x, y + height, indent)
            self.rule(x + indent, x + width - 2.5, y + height - 0.6)
            filled = block.filled[number] if block.filled else ""
            if isinstance(filled, ReportPicture):
                drawn = min(width - indent - 2.5, (height - 1) * WIDE / HIGH)
                self.put_picture(filled, x + indent, y + height - 1 - drawn * HIGH / WIDE, drawn)
            elif filled:
                with self.letters("B", 0.88):
                    self._upwards(texts[number], x + indent, y + height - 0.3, width)
            x += width
        self.set_xy(self.l_margin, y + height)

    def _upwards(self, lines: Sequence[str], x: float, low: float, width: float) -> None:
        """Write lines in the current letters, the last one just above `low`."""
        for number, line in enumerate(lines):
            self.set_xy(x, low - (len(lines) - number) * self.line_mm)
            self.cell(width, self.line_mm, line)

    def _pictures(self, row: Sequence[ReportPicture]) -> None:
        """Place pictures side by side."""
        if not row:
            return
        self.make_room(max(self.picture_mm(picture)[1] for picture in row))
        x, y, lowest = self.l_margin, self.get_y(), self.get_y()
        for picture in row:
            width, height = self.picture_mm(picture)
            self.put_picture(picture, x, y, width)
            x, lowest = x + width, max(lowest, y + height)
        self.set_xy(self.l_margin, lowest + 0.25 * self.line_mm)

    def _photos(self, row: Sequence[Photo]) -> None:
        """Place photos side by side in boxes of one size, with captions below."""
        if not row:
            return
        height = self._photo_mm(row[0])
        width = row[0].share * self.epw - _BETWEEN_MM
        with self.letters("", 0.88):
            captions = [self.in_lines(photo.caption, width) for photo in row]
        most_sheets = max(map(len, captions))
        self.make_room(height + most_sheets * self.line_mm + 1)
        x, y = self.l_margin, self.get_y()
        for photo, lines in zip(row, captions, strict=True):
            self.put_photo(photo, x, y, width, height)
            with self.letters("", 0.88):
                for number, line in enumerate(lines):
                    self.set_xy(x, y + height + 0.5 + number * self.line_mm)
                    self.cell(width, self.line_mm, line)
            x += width + _BETWEEN_MM
        self.set_xy(self.l_margin, y + height + most_sheets * self.line_mm + 1)
