"""What stands on the page of a walk, before anybody knows whether it becomes PDF or HTML.

All words are there, in the reader's language; a renderer places them and decides nothing. Blocks
are few and plain, so that each renderer says how each looks and no more.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal


@dataclass(frozen=True, slots=True)
class Prose:
    """A paragraph; `quiet` is smaller."""

    text: str
    look: Literal["plain", "quiet"] = "plain"


@dataclass(frozen=True, slots=True)
class Table:
    """Rows of cells.

    Attributes:
        head: what each column holds; empty strings for a table without a head.
        shares: of the width, by column; they add up to 1.
        rows: the cells; those of `strong` columns are bold.
    """

    head: tuple[str, ...]
    shares: tuple[float, ...]
    rows: tuple[tuple[str, ...], ...]
    strong: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class ReportPicture:
    """One SVG document that stands alone, as `drawing` makes them.

    Attributes:
        share: of the page's width; several that fit in a row stand in one.
    """

    svg: str
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Photo:
    """One photo, upright; several that fit in a row stand in one.

    Attributes:
        jpeg: the file.
        caption: where it was taken, in a few words.
        share: of the page's width.
    """

    jpeg: bytes
    caption: str
    share: float


NO_PHOTOS: Mapping[str, bytes] = MappingProxyType({})
"""Of a walk without any, or whose page is to have none."""


@dataclass(frozen=True, slots=True)
class ToWrite:
    """One line to be filled in by hand: what it is for, then names with room to write.

    Attributes:
        filled: what is there already, by blank; an empty text where the pen is to write.
    """

    what: str
    blanks: tuple[str, ...]
    filled: tuple[str | ReportPicture, ...] = ()


Block = Prose | Table | ReportPicture | Photo | ToWrite


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and what stands under it."""

    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Contents:
    """A whole page.

    Attributes:
        language: its code.
        paper: the sheet that is usual where the vehicle's rules are.
        title: what the record is of.
        about: what kind of record it is, and what it is not.
        stamp: what stands across it; empty where the whole was done.
        facts: names and values of the head.
        headline: what was found, in one line.
        foot: at the foot of each page, before its number.
        page: how a page is numbered, with `{page}` and `{pages}` to fill.
    """

    language: str
    paper: Literal["letter", "a4"]
    title: str
    about: str
    stamp: str
    facts: tuple[tuple[str, str], ...]
    headline: str
    sections: tuple[Section, ...]
    foot: str
    page: str
