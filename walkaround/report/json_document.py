"""The complete record of a walk as one JSON document: the sealed events, and their texts.

Whoever gets it can verify that nothing was changed. Its keys must not change.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from walkaround.base.units import Units
from walkaround.plan.steps import Step
from walkaround.report.walk_texts import about_words, result_text
from walkaround.walk.advance import advance
from walkaround.walk.chambers import ends_of
from walkaround.walk.events import Answered, Finished
from walkaround.walk.seals import event_json
from walkaround.walk.state import Defect, Walk, answer_counts
from walkaround.words.air_hold import all_readings_words
from walkaround.words.answers import answer_text, given_word, reason_text, seen_words
from walkaround.words.chambers import chambers_text
from walkaround.words.language import Words
from walkaround.words.leak import gauges_text
from walkaround.words.measured_values import (
    apart_at,
    apart_text,
    limit_text,
    outcome_text,
    value_text,
    values_at,
)

RECORD_SCHEMA = 1
IN_PSI = Units()
"""The units of files for others: those of the rules."""

_KEYS = (
    "walk", "vehicle", "scope", "partial", "time_utc", "who", "part", "step", "title", "answer",
    "stands", "defect", "reason", "seen", "readings", "result", "note", "source", "provenance",
    "notice", "doubt",
)  # fmt: skip


def walk_json(walk: Walk, words: Words, damage: str = "") -> str:
    """Write the whole record as one JSON document.

    Args:
        walk: the walk.
        words: the language of the texts.
        damage: a sentence about what the walk's file has lost; empty if nothing.
    """
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
        "counts": answer_counts(walk),
        "open_defects": [_defect(walk, defect, words) for defect in walk.open_defects],
        "answers": _rows(walk, words),
        "events": [event_json(event) for event in walk.events],
    }
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def _rows(walk: Walk, words: Words) -> list[dict[str, str]]:
    """Return a row for each answer, with the readings it was based on, and each missing answer."""
    rows, walk_then = [], Walk()
    for event in walk.events:
        walk_then = advance(walk_then, event)
        if isinstance(event, Answered):
            rows.append(_row(walk, event, walk_then, words))
    if walk.phase == "finished":
        no_answer = {
            "answer": answer_text("not_checked", words).lower(),
            "stands": "yes",
            "reason": words("record-walk-ended"),
        }
        unanswered = (step for step in walk.steps if step.id not in walk.answers)
        rows += [_step_cells(walk, step, words) | no_answer for step in unanswered]
    return rows


def readings_and_result(walk_then: Walk, event: Answered, words: Words) -> tuple[str, str]:
    """Return the readings that an answer was based on, and their result, as texts.

    Args:
        walk_then: the walk when the answer was given.
        event: the answer.
        words: the language.
    """
    step = _step(walk_then, event.step)
    readings = result = ""
    if hold := walk_then.holds.get(step.id):
        readings, result = all_readings_words(hold, words), result_text(walk_then, hold, words)
    elif step.kind == "gauges" and walk_then.told_gauges:
        readings = gauges_text(walk_then.told_gauges, words)
    elif ends := ends_of(step):
        readings = "; ".join(chambers_text(walk_then, ends, words))
    elif step.measure and (measured := walk_then.measured.get(step.id)):
        readings = words.row(
            words("measured-of-value", name=value.name, judged=value_text(measured[value.id]))
            for value in step.measure.values
            if value.id in measured
        )
        apart = apart_at(walk_then, step)
        sentences = [outcome_text(step.measure, measured, words)]
        sentences += [apart_text(apart, words)] if apart else []
        result = " ".join(filter(None, (*sentences, limit_text(step.measure, words))))
    if event.choice:
        result = given_word(step, event, words)
    return readings, result


def _row(walk: Walk, event: Answered, walk_then: Walk, words: Words) -> dict[str, str]:
    """Return the row of one answer; `walk_then` is the walk when it was given."""
    step = _step(walk, event.step)
    defect = walk.defects.get(step.id)
    readings, result = readings_and_result(walk_then, event, words)
    return {
        **_step_cells(walk, step, words),
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


def _step_cells(walk: Walk, step: Step, words: Words) -> dict[str, str]:
    """Return the cells of a row about the walk and the step; the others are empty."""
    assert walk.plan is not None
    return dict.fromkeys(_KEYS, "") | {
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
        "doubt": step.doubt,
        "notice": words("record-notice"),
    }


def _step(walk: Walk, step_id: str) -> Step:
    return next(step for step in walk.steps if step.id == step_id)


def _defect(walk: Walk, defect: Defect, words: Words) -> Mapping[str, Any]:
    step = _step(walk, defect.step)
    readings = values_at(walk.events, defect.found)
    return {
        "step": step.id,
        "title": words.text(step.title),
        "answer": defect.found.answer,
        "seen": seen_words(step, defect.found.seen, words),
        "measured": outcome_text(step.measure, readings, words) if step.measure else "",
    }
