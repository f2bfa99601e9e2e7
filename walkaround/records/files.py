"""A walk as a file of each kind that is handed on, and what such a file is called."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Literal, TypeVar, get_args

from walkaround.base.errors import InputError, Problem, WalkaroundError
from walkaround.base.message import message
from walkaround.compared.later_walks import NOTHING_LATER, Later, LaterLook, look_of
from walkaround.diagnosis.findings import NOTHING_LIKELY, Likely
from walkaround.disk.locations import assets
from walkaround.records.overview import Overview, later_walks
from walkaround.report.contents import NO_PHOTOS
from walkaround.report.document import walk_json
from walkaround.report.html import page_html
from walkaround.report.page import contents_of
from walkaround.report.tables import walk_csv, walk_lines
from walkaround.walk.state import Walk
from walkaround.words.language import Words

FileKind = Literal["pdf", "html", "csv", "ndjson", "json"]
_K = TypeVar("_K", bound=str)
FILE_KINDS: tuple[FileKind, ...] = get_args(FileKind)
PAGES = frozenset({"pdf", "html"})
"""Those of them that tell likely causes."""


def walk_file(
    walk: Walk,
    kind: FileKind,
    words: Words,
    damage: str = "",
    photos: Mapping[str, bytes] = NO_PHOTOS,
    likely: Likely = NOTHING_LIKELY,
    later: Later = NOTHING_LATER,
    where: str = "",
) -> bytes:
    """Write a walk that has begun as a file of this kind.

    Args:
        walk: the walk.
        kind: the page as PDF or HTML, its facts as CSV or JSON lines, or everything as JSON.
        words: the language.
        damage: a sentence about what the walk's own file has lost; empty if nothing.
        photos: those of the walk that are there, by their digests; they stand on the page.
        likely: the likely causes of what is open in it; they do too.
        later: what walks since say of what it left open.
        where: the shop in which it was walked; empty if that is not known.
    """
    match kind:
        case "pdf":
            # What writes it takes long to import; the command line mostly does without.
            from walkaround.report.pdf import page_pdf

            made = walk.events[-1].at.utc
            contents = contents_of(walk, words, damage, photos, likely, later, where)
            return page_pdf(contents, made, assets() / "fonts")
        case "html":
            text = page_html(contents_of(walk, words, damage, photos, likely, later, where))
        case "csv":
            text = walk_csv(walk, words, damage, later)
        case "ndjson":
            text = walk_lines(walk, words, damage, later)
        case "json":
            text = walk_json(walk, words, damage)
    # What JSON may hold and UTF-8 may not, half a character, is written as a question mark.
    return text.encode("utf-8", "replace")


def later_of(walk: Walk, overview: Overview, walk_of: Callable[[str], Walk]) -> Later:
    """Tell what walks since say of what a walk left open.

    Args:
        walk: the walk.
        overview: of its data folder. It tells nothing of double checks that are not closed.
        walk_of: reads a walk by its id. Of one that it cannot read nothing is told.
    """
    line = next((line for line in overview.lines if line.id == walk.id), None)
    if line is None or not line.open_defects:
        return NOTHING_LATER
    of_vehicle = [each for each in reversed(overview.lines) if each.vehicle == line.vehicle]
    later: dict[str, tuple[LaterLook, ...]] = {}
    for step, looks in later_walks(line, of_vehicle).items():
        with suppress(WalkaroundError):
            seen = (look_of(walk_of(id_), step, state) for state, id_ in looks)
            later[step] = tuple(look for look in seen if look)
    return later


def ending(path: Path, kinds: Sequence[_K]) -> _K:
    """Tell by the ending of a file's name which of these kinds it is to be.

    Raises:
        InputError: it is none of them.
    """
    for kind in kinds:
        if path.suffix.lower() == f".{kind}":
            return kind
    endings = tuple(f".{kind}" for kind in kinds)
    what = message("problem-file-ending", name=path.name)
    raise InputError(
        [Problem(message("argument"), "-o", what, message("problem-give-an-ending", kinds=endings))]
    )


def file_name(walk: Walk, kind: FileKind | Literal["zip"]) -> str:
    """Name such a file by its vehicle and when the walk began, in letters that any system takes.

    A walk's record file is a `zip`.
    """
    assert walk.plan is not None
    began = walk.events[0].at.local()
    return f"{walk.plan.vehicle.id}_{began:%Y-%m-%d_%H%M}.{kind}"
