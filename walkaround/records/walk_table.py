"""A table of all walks as a file: one row for each walk, or one row for each of their facts.

Walks are read one after another, the oldest first, so that memory does not grow with their number.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from pathlib import Path
from typing import Literal, get_args

from walkaround.base.errors import WalkaroundError
from walkaround.comparison.later_walks import LaterState
from walkaround.disk.durable import TEMPORARY, write_error
from walkaround.records.overview import Overview, by_vehicle, later_walks
from walkaround.records.reader import WalkReader
from walkaround.records.walk_line import WalkLine
from walkaround.report.facts import COLUMNS, Row, report_facts
from walkaround.report.tables import WALK_COLUMNS, rows_csv, rows_lines, walk_row
from walkaround.walk.advance import fold
from walkaround.words.language import Words

TableKind = Literal["csv", "ndjson"]
TABLE_KINDS: tuple[TableKind, ...] = get_args(TableKind)


def write_walks(
    path: Path,
    reader: WalkReader,
    overview: Overview,
    kind: TableKind,
    words: Words,
    *,
    facts: bool,
) -> None:
    """Write the table; the file appears only when it is complete.

    A walk that cannot be read has a row that says why; its facts are left out. Walks of an open
    double check are left out.

    Args:
        path: the path of the file, in an existing folder.
        reader: reads the walks.
        overview: lists the walks.
        kind: CSV, or JSON lines.
        words: the language of texts in the table.
        facts: whether to write one row for each fact, not for each walk.

    Raises:
        MachineError: the file could not be written.
    """
    columns = COLUMNS if facts else WALK_COLUMNS
    temporary_path = path.with_name(f"{path.name}{TEMPORARY}")
    try:
        with temporary_path.open("w", encoding="utf-8", errors="replace", newline="") as out:
            if kind == "csv":
                out.write(rows_csv(columns, ()))
            walks_of = by_vehicle(overview.lines) if facts else {}
            for line in reversed(overview.lines):
                if line.id in overview.blind:
                    continue
                rows: Iterable[Row] = [_row(reader, line)]
                if facts:
                    all_looks = (
                        later_walks(line, walks_of[line.vehicle]) if line.open_defects else {}
                    )
                    later = {step: row[-1] for step, row in all_looks.items()}
                    rows = _facts(reader, line, words, later)
                out.write(rows_lines(rows) if kind == "ndjson" else rows_csv((), rows))
        temporary_path.replace(path)
    except OSError as error:
        with suppress(OSError):
            temporary_path.unlink(missing_ok=True)
        raise write_error(error, path) from error


def _row(reader: WalkReader, line: WalkLine) -> Row:
    try:
        loaded = reader.load(line.id)
        if loaded.events:
            return walk_row(fold(loaded.events), loaded.notice)
        trouble = loaded.notice
    except WalkaroundError as error:
        trouble = str(error)
    began = line.began.isoformat(timespec="seconds")
    row: Row = {"walk": line.id, "began_utc": began, "trouble": trouble}
    return dict.fromkeys(WALK_COLUMNS) | row


def _facts(
    reader: WalkReader, line: WalkLine, words: Words, later: Mapping[str, tuple[LaterState, str]]
) -> Iterator[Row]:
    with suppress(WalkaroundError):
        loaded = reader.load(line.id)
        if loaded.events:
            yield from report_facts(fold(loaded.events), words, loaded.notice, later)
