"""Sheets of paper as a PDF: text in the app's own font, wrapped lines, vector pictures."""

from __future__ import annotations

import io
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Literal
from unicodedata import normalize
from xml.etree import ElementTree

from fpdf import FPDF, Align
from fpdf.drawing_primitives import DeviceGray
from fpdf.enums import MethodReturnValue, TextMode, WrapMode, XPos, YPos

from walkaround.report.contents import Photo, ReportPicture

_FAMILY = "page"
_FILES: dict[Literal["", "B"], str] = {
    "": "DejaVuSansCondensed.ttf",
    "B": "DejaVuSansCondensed-Bold.ttf",
}
MARGIN_MM = 12.0
FOOT_MM = 9.0
LARGEST = 9.0
"""The usual size of letters, points; with smaller ones pictures are smaller too."""
LEAST_PICTURE = 0.83
_POINT_MM = 25.4 / 72
INK, QUIET, _RULE = (0, 0, 0), (60, 60, 60), (110, 110, 110)
_STAMP = 0.62
"""The gray of the outline across a sheet; 1 is white."""
_SVG = "http://www.w3.org/2000/svg"
# Written without a prefix, or the PDF library does not recognize an SVG.
ElementTree.register_namespace("", _SVG)


class PaperSheet(FPDF):
    """Sheets of paper in letters of one size.

    Attributes:
        line_mm: height of a line.
    """

    def __init__(self, paper: Literal["letter", "a4"], fonts: Path, size: float) -> None:
        """Make sheets.

        Args:
            paper: the paper size.
            fonts: the folder of the app's fonts.
            size: the size of letters, points.
        """
        super().__init__(format=paper)
        self._size = size
        self.line_mm = 1.22 * size * _POINT_MM
        for style, name in _FILES.items():
            self.add_font(_FAMILY, style, fonts / name)
        maps = [set(font.cmap) for font in self.fonts.values()]  # type: ignore[union-attr]
        self._drawable = set.intersection(*maps)
        self.set_margin(MARGIN_MM)
        self.c_margin = 0
        self.set_auto_page_break(auto=False)

    def close(self) -> None:
        """Close the files of the fonts, once the last sheet is written."""
        for font in self.fonts.values():
            font.ttfont.close()  # type: ignore[union-attr]

    @property
    def filled(self) -> float:
        """How many sheets are filled, with the filled part of the last one."""
        room = self.bottom - self.t_margin
        return self.page - 1 + (self.get_y() - self.t_margin) / room

    @property
    def small(self) -> float:
        """The scale of pictures: that of the letters, but not so small that text in them could not
        be read."""
        return min(1.0, max(LEAST_PICTURE, self._size / LARGEST))

    @property
    def bottom(self) -> float:
        """The lowest position that may be filled, mm from the top."""
        return self.h - MARGIN_MM - FOOT_MM

    @contextmanager
    def letters(
        self, style: Literal["", "B"], scale: float = 1.0, ink: tuple[int, int, int] = INK
    ) -> Iterator[None]:
        """Use letters of this style, scale and color in the block."""
        self.set_font(_FAMILY, style, self._size * scale)
        self.set_text_color(*ink)
        yield
        self.set_font(_FAMILY, "", self._size)
        self.set_text_color(*INK)

    def drawable(self, text: str) -> str:
        """Return a text in characters that the font has; others are replaced by their codes."""
        return "".join(
            c if ord(c) in self._drawable or c == "\n" else f"[U+{ord(c):04X}]"
            for c in normalize("NFC", text)
        )

    def in_lines(self, text: str, width: float) -> list[str]:
        """Return the lines of a text in the current letters, wrapped to this width, mm."""
        lines = self.multi_cell(
            width,
            self.line_mm,
            self.drawable(text),
            dry_run=True,
            output=MethodReturnValue.LINES,
            align=Align.L,
            wrapmode=WrapMode.WORD,
        )
        assert isinstance(lines, list)
        return lines or [""]

    def make_room(self, height: float) -> None:
        """Begin a new sheet unless there is room for this height, mm."""
        if self.get_y() + height > self.bottom and self.get_y() > self.t_margin:
            self.add_page()

    def put(self, text: str, width: float, line_mm: float) -> None:
        """Write a text in the current letters from the current position down, over sheets."""
        x = self.get_x()
        for line in self.in_lines(text, width):
            self.make_room(line_mm)
            self.set_x(x)
            self.cell(width, line_mm, line, new_x=XPos.LEFT, new_y=YPos.NEXT)

    def rule(self, x0: float, x1: float, y: float, mm: float = 0.2) -> None:
        """Draw a horizontal line, `mm` thick."""
        self.set_line_width(mm)
        self.set_draw_color(*_RULE)
        self.line(x0, y, x1, y)

    def picture_mm(self, picture: ReportPicture) -> tuple[float, float]:
        """Return the width and height of a picture on this paper, mm."""
        root = ElementTree.fromstring(picture.svg)
        width = picture.share * self.epw * self.small
        return width, width * float(root.get("height", 0)) / float(root.get("width", 1))

    def put_picture(self, picture: ReportPicture, x: float, y: float, width: float) -> None:
        """Draw a picture: shapes by the PDF library, text in our own font, to be selectable."""
        root = ElementTree.fromstring(picture.svg)
        scale = width / float(root.get("width", 1))
        texts, title = root.findall(f"{{{_SVG}}}text"), root.findall(f"{{{_SVG}}}title")
        for words_of_it in (*texts, *title):
            root.remove(words_of_it)
        shapes = io.BytesIO(ElementTree.tostring(root))
        self.image(shapes, x=x, y=y, w=width, alt_text=title[0].text)
        for text in texts:
            words = self.drawable(text.text or "")
            self.set_font(_FAMILY, "B", float(text.get("font-size", 0)) * scale / _POINT_MM)
            ink = text.get("fill", "#000000").lstrip("#")
            self.set_text_color(*bytes.fromhex(ink))
            across = self.get_string_width(words)
            left = {"start": 0.0, "end": across}.get(text.get("text-anchor", ""), across / 2)
            at = x + float(text.get("x", 0)) * scale - left, y + float(text.get("y", 0)) * scale
            self.text(*at, words)
        self.set_font(_FAMILY, "", self._size)
        self.set_text_color(*INK)

    def put_photo(self, photo: Photo, x: float, y: float, width: float, height: float) -> None:
        """Place a whole photo in a box, mm, at its left."""
        jpeg = io.BytesIO(photo.jpeg)
        caption = photo.caption
        self.image(jpeg, x=x, y=y, w=width, h=height, keep_aspect_ratio=True, alt_text=caption)

    def stamp(self, stamp: str) -> None:
        """Write across the sheet in outline, so that it hides no text or picture, nor they it."""
        self.set_font(_FAMILY, "B", min(110.0, 620.0 / len(stamp)))
        x, y = self.w / 2, self.h / 2
        with (
            self.local_context(
                text_mode=TextMode.STROKE, draw_color=DeviceGray(_STAMP), line_width=0.45
            ),
            self.rotation(55, x, y),
        ):
            self.text(x - self.get_string_width(stamp) / 2, y, stamp)
