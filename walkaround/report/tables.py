"""Tables of walks: CSV by RFC 4180, and JSON lines; one row for each fact or each walk.

The name of a column has its unit. No cell of a CSV starts a formula in a spreadsheet; JSON lines
have all values unchanged, numbers as numbers.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterable, Mapping, Sequence
from unicodedata import normalize

from walkaround.base.plaintext import is_hidden
from walkaround.comparison.later_walks import NOTHING_LATER, Later, LaterState
from walkaround.report.facts import COLUMNS, Cell, Row, about_walk, report_facts
from walkaround.walk.events import Finished
from walkaround.walk.state import Walk, answer_counts
from walkaround.words.language import Words

WALK_COLUMNS = (
    "walk", "vehicle_id", "vehicle", "plate", "vin", "scope", "partial", "phase", "recheck_of",
    "began_utc", "last_answer_utc", "finished_utc", "who", "steps", "ok", "defect", "missing",
    "not_fitted", "not_checked", "defects_open", "defects_rechecked", "open_steps", "tag",
    "odometer_mi", "odometer_km", "trouble",
)  # fmt: skip
# The beginnings of a formula in spreadsheets, in any width (OWASP, "CSV Injection").
_FORMULA = frozenset("=+-@")
_QUOTES = frozenset("'\"`\u2018\u2019\u201c\u201d")
_NUMBER = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")


def walk_csv(walk: Walk, words: Words, damage: str = "", later: Later = NOTHING_LATER) -> str:
    """Return a CSV with one row for each fact; see `report_facts` for the arguments."""
    return rows_csv(COLUMNS, report_facts(walk, words, damage, _last_looks(later)))


def walk_lines(walk: Walk, words: Words, damage: str = "", later: Later = NOTHING_LATER) -> str:
    """Return JSON lines, one for each fact; see `report_facts` for the arguments."""
    return rows_lines(report_facts(walk, words, damage, _last_looks(later)))


def _last_looks(later: Later) -> Mapping[str, tuple[LaterState, str]]:
    return {step: (looks[-1].state, looks[-1].walk) for step, looks in later.items()}


def walk_row(walk: Walk, trouble: str = "") -> Row:
    """Return the row of one walk; `trouble` is a sentence about damage to its file."""
    assert walk.plan is not None
    tally = answer_counts(walk)
    last = max(walk.answers.values(), key=lambda answer: answer.seq, default=None)
    end = next((event for event in walk.events if isinstance(event, Finished)), None)
    return dict.fromkeys(WALK_COLUMNS) | {
        **about_walk(walk),
        "phase": walk.phase,
        "recheck_of": walk.plan.recheck_of or None,
        "began_utc": walk.events[0].at.utc.isoformat(timespec="seconds"),
        "last_answer_utc": last.at.utc.isoformat(timespec="seconds") if last else None,
        "finished_utc": end.at.utc.isoformat(timespec="seconds") if end else None,
        "who": ", ".join(dict.fromkeys(event.who for event in walk.events)),
        **tally,
        "open_steps": " ".join(defect.step for defect in walk.open_defects) or None,
        "tag": walk.tag or None,
        **({f"odometer_{walk.odometer.unit}": walk.odometer.value} if walk.odometer else {}),
        "trouble": trouble or None,
    }


def rows_csv(head: Sequence[str], rows: Iterable[Row]) -> str:
    """Return rows as CSV, below the names of the columns if `head` is not empty."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    if head:
        writer.writerow(head)
    writer.writerows(map(_cell, row.values()) for row in rows)
    return out.getvalue()


def rows_lines(rows: Iterable[Row]) -> str:
    """Return rows as JSON lines."""
    return "".join(f"{json.dumps(row, ensure_ascii=False)}\n" for row in rows)


def _cell(value: Cell) -> str:
    match value:
        case None:
            return ""
        case bool():
            return "yes" if value else "no"
        case str():
            return _never_a_formula(value)
        case _:
            return f"{value:.10g}"


def _never_a_formula(text: str) -> str:
    """Put an apostrophe before a text that a spreadsheet would run as a formula.

    Some spreadsheets first remove blanks, quotes and invisible characters (a tab, a line break). A
    plain number is not changed.
    """
    if _NUMBER.fullmatch(text):
        return text
    seen = (c for c in text if c not in _QUOTES and (is_hidden(c) or not c.isspace()))
    first = next(seen, "")
    runs = first and (is_hidden(first) or normalize("NFKC", first)[0] in _FORMULA)
    return f"'{text}" if runs else text
