"""A walk as a file for others: CSV with one row an answer, JSON with everything.

Both carry the notice of what the record is not. The JSON holds the sealed events, so that whoever
gets it can check that nothing was changed.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Mapping
from typing import Any

from walkaround.airhold import Assessment
from walkaround.answers import ANSWER_WORDS, REASON_WORDS, seen_words
from walkaround.events import Answered, Finished, plain
from walkaround.holds import Hold
from walkaround.prompts import hold_result
from walkaround.state import Defect, Walk
from walkaround.steps import Step
from walkaround.walk import advance

NOTICE = (
    "A check of lamps and air brakes: what was checked, found and not checked. "
    "Not a periodic inspection (49 CFR 396.17). Brake repairs are signed off by qualified "
    "people (49 CFR 396.25)."
)
RECORD_SCHEMA = 1

COLUMNS = (
    "walk", "vehicle", "scope", "partial", "time_utc", "who", "part", "step", "title", "answer",
    "stands", "defect", "reason", "seen", "readings", "result", "note", "source", "provenance",
    "notice",
)  # fmt: skip
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def walk_csv(walk: Walk) -> str:
    """One row for each answer given, in order; `stands` tells those that a later one replaced.

    Steps without any answer have a row too, with answer `not checked`.
    """
    out = io.StringIO()
    rows = csv.DictWriter(out, COLUMNS, lineterminator="\r\n")
    rows.writeheader()
    for row in _rows(walk):
        rows.writerow({key: _defused(value) for key, value in row.items()})
    return out.getvalue()


def walk_json(walk: Walk) -> str:
    """The whole record as one JSON document."""
    assert walk.plan is not None
    document = {
        "format": "walkaround record",
        "schema": RECORD_SCHEMA,
        "notice": NOTICE,
        "walk": walk.id,
        "vehicle": walk.plan.vehicle.model_dump(mode="json", exclude_defaults=True),
        "scope": walk.plan.scope,
        "partial": walk.partial,
        "recheck_of": walk.plan.recheck_of,
        "began": walk.events[0].at.utc.isoformat(),
        "finished": _finished(walk),
        "counts": counts(walk),
        "open_defects": [_defect(walk, defect) for defect in walk.open_defects],
        "answers": list(_rows(walk)),
        "events": [plain(event) for event in walk.events],
    }
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def counts(walk: Walk) -> dict[str, int]:
    """How many steps have each answer, and how many defects are open and rechecked."""
    tally: dict[str, int] = dict.fromkeys(ANSWER_WORDS, 0)
    for step in walk.steps:
        given = walk.answers.get(step.id)
        tally[given.answer if given else "not_checked"] += 1
    rechecked = sum(defect.state == "rechecked" for defect in walk.defects.values())
    return {
        **tally,
        "steps": len(walk.steps),
        "defects_open": len(walk.open_defects),
        "defects_rechecked": rechecked,
    }


def _rows(walk: Walk) -> list[dict[str, str]]:
    """The answers as the record tells them. A hold's readings are those it was answered on."""
    rows, then = [], Walk()
    for event in walk.events:
        then = advance(then, event)
        if isinstance(event, Answered):
            rows.append(_row(walk, event, then.holds.get(event.step)))
    if walk.phase == "finished":
        rows += [_open_row(walk, step) for step in walk.steps if step.id not in walk.answers]
    return rows


def _row(walk: Walk, event: Answered, hold: Hold | None) -> dict[str, str]:
    step = next(step for step in walk.steps if step.id == event.step)
    defect = walk.defects.get(step.id)
    stands = walk.answers[step.id].id == event.id
    return {
        **_common(walk, step),
        "time_utc": event.at.utc.isoformat(timespec="seconds"),
        "who": event.who,
        "answer": ANSWER_WORDS[event.answer].lower(),
        "stands": "yes" if stands else "no",
        "defect": defect.state if defect and defect.found.id == event.id else "",
        "reason": REASON_WORDS[event.reason].lower() if event.reason else "",
        "seen": seen_words(step, event.seen),
        "readings": readings_text(hold) if hold else "",
        "result": result_text(hold) if hold else "",
    }


def _open_row(walk: Walk, step: Step) -> dict[str, str]:
    return {**_common(walk, step), "answer": "not checked", "stands": "yes", "reason": "walk ended"}


def _common(walk: Walk, step: Step) -> dict[str, str]:
    assert walk.plan is not None
    empty = dict.fromkeys(COLUMNS, "")
    return empty | {
        "walk": walk.id,
        "vehicle": walk.plan.vehicle.name,
        "scope": walk.plan.scope,
        "partial": "yes" if walk.partial else "no",
        "part": step.part,
        "step": step.id,
        "title": step.title,
        "note": walk.notes.get(step.id, ""),
        "source": step.source,
        "provenance": step.provenance,
        "notice": NOTICE,
    }


def readings_text(hold: Hold) -> str:
    """Every reading: "supply 0 s 110 psi, supply 30 s 109 psi"."""
    return ", ".join(f"{r.gauge} {r.at_s:g} s {r.psi:g} psi" for r in hold.readings)


def result_text(hold: Hold) -> str:
    """The plain rule result of each gauge, then the bounds of its rate."""
    if hold.void:
        return f"void: {hold.void}"
    return " ".join(_result(gauge, found, hold) for gauge, found in hold.results().items())


def _result(gauge: str, found: Assessment, hold: Hold) -> str:
    low, high = found.low_psi_per_min, found.high_psi_per_min
    sentence = hold_result(gauge, found, hold.rule.limit_psi_per_min)
    return f"{sentence} Bounds {low:.1f} to {high:.1f} psi/min ({found.verdict})."


def _defect(walk: Walk, defect: Defect) -> Mapping[str, Any]:
    step = next(step for step in walk.steps if step.id == defect.step)
    seen = seen_words(step, defect.found.seen)
    return {"step": step.id, "title": step.title, "answer": defect.found.answer, "seen": seen}


def _finished(walk: Walk) -> str:
    ends = [event for event in walk.events if isinstance(event, Finished)]
    return ends[0].at.utc.isoformat() if ends else ""


def _defused(text: str) -> str:
    """A cell that a spreadsheet would run as a formula starts with an apostrophe instead."""
    return f"'{text}" if text.startswith(_FORMULA) else text
