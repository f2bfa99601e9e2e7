"""A walk as a file for others: CSV with one row an answer, JSON with everything.

Both carry the notice of what the record is not. The JSON holds the sealed events, so that whoever
gets it can check that nothing was changed.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Mapping
from typing import Any, get_args
from unicodedata import normalize

from walkaround.airhold.hold import Hold
from walkaround.base.message import message
from walkaround.base.plaintext import is_hidden
from walkaround.base.units import Units
from walkaround.brakes.not_covered import not_covered
from walkaround.plan.steps import Step
from walkaround.vehicle.model import POWER_UNITS
from walkaround.walk.advance import advance
from walkaround.walk.chambers import ends_of
from walkaround.walk.events import Answer, Answered, Finished, plain
from walkaround.walk.state import Defect, Walk
from walkaround.words.air_hold import (
    hold_ending,
    hold_result,
    limit_words,
    plain_rule,
    recorded,
    span_words,
)
from walkaround.words.answers import answer_text, given_word, reason_text, seen_words
from walkaround.words.clocks import clock_notes
from walkaround.words.language import Words
from walkaround.words.leak import corrected_text, figures_text, gauges_text, remembered_text
from walkaround.words.measured import (
    apart_at,
    apart_text,
    chambers_text,
    limit_text,
    outcome_text,
    value_text,
    values_at,
)

RECORD_SCHEMA = 1
IN_PSI = Units()
"""Files for others are in the units of the rules."""

COLUMNS = (
    "walk", "vehicle", "scope", "partial", "time_utc", "who", "part", "step", "title", "answer",
    "stands", "defect", "reason", "seen", "readings", "result", "note", "source", "provenance",
    "notice",
)  # fmt: skip
# What a spreadsheet takes for the beginning of a formula, in any width (OWASP, "CSV Injection").
_FORMULA = frozenset("=+-@")
_QUOTES = frozenset("'\"`\u2018\u2019\u201c\u201d")
_NUMBER = re.compile(r"[+-]?[0-9]+(\.[0-9]+)?")


def walk_csv(walk: Walk, words: Words, damage: str = "") -> str:
    """Write one row for each answer given, in order; `stands` is "no" if a later one replaced it.

    Steps without any answer have a row too, with answer `not checked`.

    Args:
        walk: of which the record is.
        words: the language it is written in.
        damage: a sentence about what its file has lost; empty if nothing.
    """
    out = io.StringIO()
    rows = csv.DictWriter(out, COLUMNS, lineterminator="\r\n")
    rows.writeheader()
    for row in _rows(walk, words.shown_in(IN_PSI)):
        row["notice"] = f"{row['notice']} {damage}".strip()
        rows.writerow({key: _defused(value) for key, value in row.items()})
    return out.getvalue()


def walk_json(walk: Walk, words: Words, damage: str = "") -> str:
    """Write the whole record as one JSON document; the arguments are those of `walk_csv`."""
    assert walk.plan is not None
    words = words.shown_in(IN_PSI)
    ends = (event for event in walk.events if isinstance(event, Finished))
    document = {
        "format": "walkaround record",
        "schema": RECORD_SCHEMA,
        "notice": words("record-notice"),
        "damage": damage,
        "walk": walk.id,
        "vehicle": walk.plan.vehicle.model_dump(mode="json", exclude_defaults=True),
        "scope": walk.plan.scope,
        "partial": walk.partial,
        "air": walk.plan.air,
        "towed": walk.plan.towed,
        "about": about_words(walk, words),
        "recheck_of": walk.plan.recheck_of,
        "began": walk.events[0].at.utc.isoformat(),
        "finished": next((end.at.utc.isoformat() for end in ends), ""),
        "counts": counts(walk),
        "open_defects": [_defect(walk, defect, words) for defect in walk.open_defects],
        "answers": _rows(walk, words),
        "events": [plain(event) for event in walk.events],
    }
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def counts(walk: Walk) -> dict[str, int]:
    """Count how many steps have each answer, and how many defects are open and rechecked."""
    tally: dict[str, int] = dict.fromkeys(get_args(Answer), 0)
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


def about_words(walk: Walk, words: Words) -> list[str]:
    """Tell of the walk's air, what it went by, what the clocks did, what is not covered."""
    plan = walk.plan
    assert plan is not None
    sentences: list[str] = []
    if any(step.air for step in plan.steps):
        if plan.vehicle.kind not in POWER_UNITS:
            sentences.append(words(f"record-air-{plan.air}"))
        if plan.towed:
            sentences.append(words("record-towed", count=plan.towed))
    if remembered := remembered_text(plan, words):
        sentences.append(remembered)
    if plan.shop:
        sentences.append(figures_text(plan.shop, words))
    sentences += clock_notes(walk.events, words)
    if plan.scope != "lamps":
        sentences += map(words.text, not_covered(plan.vehicle))
    return sentences


def _rows(walk: Walk, words: Words) -> list[dict[str, str]]:
    """The answers as the record tells them, each with what was read until it was given."""
    rows, then = [], Walk()
    for event in walk.events:
        then = advance(then, event)
        if isinstance(event, Answered):
            rows.append(_row(walk, event, then, words))
    if walk.phase == "finished":
        left = {
            "answer": answer_text("not_checked", words).lower(),
            "stands": "yes",
            "reason": words("record-walk-ended"),
        }
        unanswered = (step for step in walk.steps if step.id not in walk.answers)
        rows += [_about(walk, step, words) | left for step in unanswered]
    return rows


def _row(walk: Walk, event: Answered, then: Walk, words: Words) -> dict[str, str]:
    """One answer; what was read is that of the walk as it stood `then`."""
    step = _step(walk, event.step)
    defect = walk.defects.get(step.id)
    readings = result = ""
    if hold := then.holds.get(step.id):
        readings, result = recorded(hold, words), result_text(then, hold, words)
    elif step.kind == "gauges" and then.told_gauges:
        readings = gauges_text(then.told_gauges, words)
    elif ends := ends_of(step):
        readings = "; ".join(chambers_text(then, ends, words))
    elif step.measure and (taken := then.measured.get(step.id)):
        readings = words.row(
            words("measured-of-value", name=value.name, judged=value_text(taken[value.id]))
            for value in step.measure.values
            if value.id in taken
        )
        apart = apart_at(then, step)
        came_to = [outcome_text(step.measure, taken, words)]
        came_to += [apart_text(apart, words)] if apart else []
        result = " ".join(filter(None, (*came_to, limit_text(step.measure, words))))
    if event.choice:
        result = given_word(step, event, words)
    return {
        **_about(walk, step, words),
        "time_utc": event.at.utc.isoformat(timespec="seconds"),
        "who": event.who,
        "answer": answer_text(event.answer, words).lower(),
        "stands": "yes" if walk.answers[step.id].id == event.id else "no",
        "defect": defect.state if defect and defect.found.id == event.id else "",
        "reason": reason_text(event.reason, words).lower() if event.reason else "",
        "seen": seen_words(step, event.seen, words),
        "readings": readings,
        "result": result,
    }


def _about(walk: Walk, step: Step, words: Words) -> dict[str, str]:
    """A row's cells that tell of the walk and the step; the others are empty."""
    assert walk.plan is not None
    return dict.fromkeys(COLUMNS, "") | {
        "walk": walk.id,
        "vehicle": walk.plan.vehicle.name,
        "scope": walk.plan.scope,
        "partial": "yes" if walk.partial else "no",
        "part": step.part,
        "step": step.id,
        "title": words.text(step.title),
        "note": walk.notes.get(step.id, ""),
        "source": step.source,
        "provenance": step.provenance,
        "notice": words("record-notice"),
    }


def _step(walk: Walk, step_id: str) -> Step:
    return next(step for step in walk.steps if step.id == step_id)


def result_text(walk: Walk, hold: Hold, words: Words) -> str:
    """Tell what a hold came to: each gauge's verdict, bounds and plain rule result; how it ended.

    What the air's temperature did, where it was given, is told last.
    """
    if hold.void:
        return words("record-void", why=hold.void)
    sentences: list[str] = []
    for line, assessment in hold.results().items():
        verdict = message(f"verdict-{assessment.verdict}")
        sentences.append(hold_result(line, assessment, hold, words))
        if assessment.reason != "misread":
            span = span_words(assessment, words)
            sentences.append(words("record-bounds", span=span, verdict=verdict))
        if assessment.verdict != "undecided" or hold.ended == "settling":
            sentences.append(plain_rule(assessment, hold.rule.limit_psi_per_min, words))
    if sentences:
        sentences += [hold_ending(hold, words), limit_words(hold.rule, words)]
    if hold.air_c:
        sentences.append(corrected_text(hold, hold.air_c, words, walk.altitude_m))
    return " ".join(filter(None, sentences))


def _defect(walk: Walk, defect: Defect, words: Words) -> Mapping[str, Any]:
    step = _step(walk, defect.step)
    taken = values_at(walk.events, defect.found)
    return {
        "step": step.id,
        "title": words.text(step.title),
        "answer": defect.found.answer,
        "seen": seen_words(step, defect.found.seen, words),
        "measured": outcome_text(step.measure, taken, words) if step.measure else "",
    }


def _defused(text: str) -> str:
    """A cell that a spreadsheet would run as a formula starts with an apostrophe instead.

    Some take blanks, quotes and what is not seen (a tab, a line break) away before they look. A
    plain number stays one.
    """
    if _NUMBER.fullmatch(text):
        return text
    seen = (c for c in text if c not in _QUOTES and (is_hidden(c) or not c.isspace()))
    first = next(seen, "")
    runs = first and (is_hidden(first) or normalize("NFKC", first)[0] in _FORMULA)
    return f"'{text}" if runs else text
