"""The card of a vehicle's walk: every step in brisk words, and the QR code that starts it.

Black on white, in three columns. Letters are as large as fit on one sheet; if even the smallest
that can be read do not fit, there is another sheet.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from contextlib import closing
from datetime import datetime
from pathlib import Path

from walkaround.plan.steps import Plan, Step
from walkaround.report.sheet import INK, LARGEST, QUIET, PaperSheet
from walkaround.words.language import Words
from walkaround.words.prompts import prompt

SMALLEST = 6.0
"""Points; package leaflets are printed no smaller (common practice, no source)."""
_STEP = 0.25
_COLUMNS = 3
_CODE_MM = 28.0
_BETWEEN_MM = 5.0
_NUMBER_MM = 6.0


def quick_card(
    plan: Plan,
    power_text: str,
    link: str,
    code: Sequence[Sequence[bool]],
    printed_at: datetime,
    words: Words,
    fonts: Path,
) -> bytes:
    """Return the card as a PDF.

    Args:
        plan: the plan of the whole walk.
        power_text: the name of the power source.
        link: the address of the vehicle's start page.
        code: the address as a QR code, row by row, dark modules as True.
        printed_at: the date in the metadata of the file.
        words: the language.
        fonts: the folder of the app's fonts.
    """

    def in_size(size: float) -> _Card:
        return _Card(plan, power_text, link, code, words, fonts, size)

    def fits(size: float) -> bool:
        with closing(in_size(size)) as card:
            return card.page == 1

    sizes = [SMALLEST + _STEP * number for number in range(int((LARGEST - SMALLEST) / _STEP) + 1)]
    # The smallest is used whether it fits or not.
    fit = bisect_left(sizes, True, lo=1, key=lambda size: not fits(size)) - 1
    with closing(in_size(sizes[fit])) as card:
        card.set_creation_date(printed_at)
        return bytes(card.output())


class _Card(PaperSheet):
    """The card with letters of one size."""

    def __init__(
        self,
        plan: Plan,
        power_text: str,
        link: str,
        code: Sequence[Sequence[bool]],
        words: Words,
        fonts: Path,
        size: float,
    ) -> None:
        super().__init__("letter" if plan.vehicle.rules == "us" else "a4", fonts, size)
        self._plan, self._words = plan, words
        self.set_title(words("card-title", vehicle=plan.vehicle.name))
        self.set_lang(words.language)
        self.add_page()
        self._head(power_text, link, code)
        self._column_width = (self.epw - (_COLUMNS - 1) * _BETWEEN_MM) / _COLUMNS
        self._column = 0
        for number, step in enumerate(plan.steps, 1):
            self._step(number, step)

    def footer(self) -> None:
        """Write at the foot what the card is not."""
        words = self._words
        with self.letters("", 0.9, QUIET):
            for number, line in enumerate(self.in_lines(words("card-foot"), self.epw)):
                self.set_xy(self.l_margin, self.bottom + 1 + number * self.line_mm)
                self.cell(self.epw, self.line_mm, line)

    def _head(self, power_text: str, link: str, code: Sequence[Sequence[bool]]) -> None:
        words, vehicle = self._words, self._plan.vehicle
        right = self.w - self.r_margin - _CODE_MM
        self._code(code, right, self.t_margin)
        width = self.epw - _CODE_MM - _BETWEEN_MM
        self.set_xy(self.l_margin, self.t_margin)
        with self.letters("B", 2.0):
            self.put(vehicle.name, width, 1.8 * self.line_mm)
        vehicle_lines = [words(f"record-{name}", mark=mark) for name, mark in self._marks() if mark]
        about = words("card-about", switched=power_text, count=len(self._plan.steps))
        for line in (*vehicle_lines, about, words("card-code"), link):
            self.put(line, width, self.line_mm)
        self._top = self.get_y() + self.line_mm / 2
        self._below_code = max(self._top, self.t_margin + _CODE_MM)
        self.set_y(self._top)

    def _marks(self) -> tuple[tuple[str, str], ...]:
        return ("plate", self._plan.vehicle.plate), ("vin", self._plan.vehicle.vin)

    def _code(self, code: Sequence[Sequence[bool]], left: float, top: float) -> None:
        module = _CODE_MM / len(code)
        self.set_fill_color(*INK)
        for row, modules in enumerate(code):
            for column, dark in enumerate(modules):
                if dark:
                    # A little larger, or some screens show a light line between two dark modules.
                    place = left + column * module, top + row * module
                    self.rect(*place, module + 0.02, module + 0.02, style="F")

    def _step(self, number: int, step: Step) -> None:
        """Write one step, not split over columns."""
        words, width = self._words, self._column_width - _NUMBER_MM
        step_prompt = prompt(step, self._plan.power, "brisk", words)
        body = " ".join(filter(None, (step_prompt.switch, step_prompt.see)))
        title, caution = step_prompt.title, step_prompt.caution
        if body.rstrip(".") == title.rstrip("."):
            body = ""
        parts = [("B", title), ("B", words("card-caution", caution=caution) if caution else "")]
        parts.append(("", body))
        lines: list[tuple[str, str]] = []
        for style, text in parts:
            with self.letters("B" if style else ""):
                lines += [(style, line) for line in self.in_lines(text, width)] if text else []
        height = len(lines) * self.line_mm
        if self.get_y() + height > self.bottom:
            self._next_column()
        with self.letters("B"):
            self.set_x(self._left)
            self.cell(_NUMBER_MM, self.line_mm, str(number))
        for style, line in lines:
            self.set_x(self._left + _NUMBER_MM)
            with self.letters("B" if style else ""):
                self.cell(width, self.line_mm, line)
            self.set_y(self.get_y() + self.line_mm)
        self.rule(self._left, self._left + self._column_width, self.get_y() + 0.25, 0.1)
        self.set_y(self.get_y() + 0.7)

    @property
    def _left(self) -> float:
        return self.l_margin + self._column * (self._column_width + _BETWEEN_MM)

    def _next_column(self) -> None:
        self._column += 1
        if self._column == _COLUMNS:
            self.add_page()
            self._column = 0
            self._top = self._below_code = self.t_margin
        # The QR code is above the last column only.
        self.set_y(self._below_code if self._column == _COLUMNS - 1 else self._top)
