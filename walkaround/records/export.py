"""The export of a walk as a file of each kind, and the name of such a file."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Literal, TypeVar, get_args

from walkaround.base.errors import InputError, Problem, WalkaroundError
from walkaround.base.message import message
from walkaround.comparison.later_walks import NOTHING_LATER, Later, LaterLook, look_of
from walkaround.disk.locations import assets
from walkaround.records.overview import Overview, later_walks
from walkaround.report.html import page_html
from walkaround.report.json_document import walk_json
from walkaround.report.page import NO_CONTEXT, WalkContext, contents_of
from walkaround.report.tables import walk_csv, walk_lines
from walkaround.walk.state import Walk
from walkaround.words.language import Words

FileKind = Literal["pdf", "html", "csv", "ndjson", "json"]
_K = TypeVar("_K", bound=str)
FILE_KINDS: tuple[FileKind, ...] = get_args(FileKind)
PAGES = frozenset({"pdf", "html"})
"""The kinds that include likely causes."""


def export_walk(
    walk: Walk,
    kind: FileKind,
    words: Words,
    context: WalkContext = NO_CONTEXT,
) -> bytes:
    """Export a walk that has begun as a file of this kind.

    Args:
        walk: the walk.
        kind: the page as PDF or HTML, its facts as CSV or JSON lines, or everything as JSON.
        words: the language.
        context: what is known of it besides; photos, likely causes and shop are for the page.
    """
    match kind:
        case "pdf":
            # Imported here, since this takes long and most commands do not need it.
            from walkaround.report.pdf import page_pdf

            time_utc = walk.events[-1].at.utc
            contents = contents_of(walk, words, context)
            return page_pdf(contents, time_utc, assets() / "fonts")
        case "html":
            text = page_html(contents_of(walk, words, context))
        case "csv":
            text = walk_csv(walk, words, context.damage, context.later)
        case "ndjson":
            text = walk_lines(walk, words, context.damage, context.later)
        case "json":
            text = walk_json(walk, words, context.damage)
    # A lone surrogate, which JSON may have and UTF-8 may not, becomes a question mark.
    return text.encode("utf-8", "replace")


def later_looks(walk: Walk, overview: Overview, walk_of: Callable[[str], Walk]) -> Later:
    """Return what later walks found of the defects that a walk left open.

    Args:
        walk: the walk.
        overview: all walks of its data folder; without open double checks.
        walk_of: reads a walk by its id; a walk that it cannot read is left out.
    """
    line = next((line for line in overview.lines if line.id == walk.id), None)
    if line is None or not line.open_defects:
        return NOTHING_LATER
    of_vehicle = [each for each in reversed(overview.lines) if each.vehicle == line.vehicle]
    later: dict[str, tuple[LaterLook, ...]] = {}
    for step, looks in later_walks(line, of_vehicle).items():
        with suppress(WalkaroundError):
            each_look = (look_of(walk_of(id_), step, state) for state, id_ in looks)
            later[step] = tuple(look for look in each_look if look)
    return later


def kind_by_ending(path: Path, kinds: Sequence[_K]) -> _K:
    """Return which of these kinds the ending of a file's name means.

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
    """Return a file name with the vehicle and the beginning of the walk, valid on any system.

    Args:
        walk: the walk.
        kind: the kind of file; `zip` for a record file.
    """
    assert walk.plan is not None
    began = walk.events[0].at.local()
    return f"{walk.plan.vehicle.id}_{began:%Y-%m-%d_%H%M}.{kind}"
