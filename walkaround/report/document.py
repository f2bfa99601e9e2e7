"""A walk as one JSON document with everything: the sealed events, and what they say in words.

Whoever gets it can check that nothing was changed. Its keys stay as they are.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from walkaround.base.units import Units
from walkaround.plan.steps import Step
from walkaround.report.about import about_words, result_text
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
"""Files for others are in the units of the rules."""

_KEYS = (
    "walk", "vehicle", "scope", "partial", "time_utc", "who", "part", "step", "title", "answer",
    "stands", "defect", "reason", "seen", "readings", "result", "note", "source", "provenance",
    "notice", "doubt",
)  # fmt: skip


def walk_json(walk: Walk, words: Words, damage: str = "") -> str:
    """Write the whole record as one JSON document.

    Args:
        walk: of which the record is.
        words: the language it is written in.
        damage: a sentence about what its file has lost; empty if nothing.
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
    """The answers as the record tells them, each with what was read until it was given."""
    rows, then = [], Walk()
    for event in walk.events:
        then = advance(then, event)
        if isinstance(event, Answered):
            rows.append(_row(walk, event, then, words))
    if walk.phase == "finished":
        no_answer = {
            "answer": answer_text("not_checked", words).lower(),
            "stands": "yes",
            "reason": words("record-walk-ended"),
        }
        unanswered = (step for step in walk.steps if step.id not in walk.answers)
        rows += [_about(walk, step, words) | no_answer for step in unanswered]
    return rows


def told_at(then: Walk, event: Answered, words: Words) -> tuple[str, str]:
    """Tell what an answer was given on, and what that came to, in words.

    Args:
        then: the walk as it stood when the answer was given.
        event: the answer.
        words: the language.
    """
    step = _step(then, event.step)
    readings = result = ""
    if hold := then.holds.get(step.id):
        readings, result = all_readings_words(hold, words), result_text(then, hold, words)
    elif step.kind == "gauges" and then.told_gauges:
        readings = gauges_text(then.told_gauges, words)
    elif ends := ends_of(step):
        readings = "; ".join(chambers_text(then, ends, words))
    elif step.measure and (measured := then.measured.get(step.id)):
        readings = words.row(
            words("measured-of-value", name=value.name, judged=value_text(measured[value.id]))
            for value in step.measure.values
            if value.id in measured
        )
        apart = apart_at(then, step)
        came_to = [outcome_text(step.measure, measured, words)]
        came_to += [apart_text(apart, words)] if apart else []
        result = " ".join(filter(None, (*came_to, limit_text(step.measure, words))))
    if event.choice:
        result = given_word(step, event, words)
    return readings, result


def _row(walk: Walk, event: Answered, then: Walk, words: Words) -> dict[str, str]:
    """One answer; what was read is that of the walk as it stood `then`."""
    step = _step(walk, event.step)
    defect = walk.defects.get(step.id)
    readings, result = told_at(then, event, words)
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
