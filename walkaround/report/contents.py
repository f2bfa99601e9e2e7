"""The contents of a page, the same for PDF and HTML.

All texts are in the reader's language; a renderer only places them. There are few kinds of blocks,
so that a renderer need only define how each looks.
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
        head: the names of the columns; empty strings for a table without a head.
        shares: the share of the width of each column; they add up to 1.
        rows: the cells of each row.
        strong: the columns in bold, from 0.
    """

    head: tuple[str, ...]
    shares: tuple[float, ...]
    rows: tuple[tuple[str, ...], ...]
    strong: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class ReportPicture:
    """One picture; pictures that fit next to each other are in one row.

    Attributes:
        svg: a complete SVG document, see `drawing`.
        share: its share of the page's width.
    """

    svg: str
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class Photo:
    """One photo, upright; photos that fit next to each other are in one row.

    Attributes:
        jpeg: the content of the file.
        caption: where it was taken, in a few words.
        share: its share of the page's width.
    """

    jpeg: bytes
    caption: str
    share: float


NO_PHOTOS: Mapping[str, bytes] = MappingProxyType({})
"""The photos of a walk without any, or of a page that must not have any."""


@dataclass(frozen=True, slots=True)
class FormLine:
    """One line to fill in by hand: its purpose, then blanks with their names.

    Attributes:
        what: the purpose of the line.
        blanks: the name of each blank.
        filled: the content of each blank; an empty text where somebody is to write.
    """

    what: str
    blanks: tuple[str, ...]
    filled: tuple[str | ReportPicture, ...] = ()


Block = Prose | Table | ReportPicture | Photo | FormLine


@dataclass(frozen=True, slots=True)
class Section:
    """A heading and the blocks below it."""

    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True, slots=True)
class Contents:
    """The contents of a whole page.

    Attributes:
        language: the code of the language.
        paper: the paper size that is usual where the vehicle's rules apply.
        title: the subject of the record.
        about: what kind of record it is, and what it is not.
        stamp: the text across the page; empty for a complete walk.
        facts: names and values at the top.
        headline: what was found, in one line.
        sections: the sections.
        foot: the text at the foot of each sheet, before its number.
        page: the pattern of a sheet's number, with `{page}` and `{pages}`.
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
