"""Every fact of a walk as a row of its own: each answer, lamp, reading, rate and value.

Numbers are numbers, in the units of the rules, and the name of each column says which: psi gauge,
inches, seconds, percent, psi/min. A column that does not apply to a fact is None.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain
from types import MappingProxyType

from walkaround.base.units import AS_WRITTEN, from_psi
from walkaround.comparison.later_walks import LaterState
from walkaround.plan.steps import UNPLACED, Item, Step
from walkaround.plan.values import Value
from walkaround.report.json_document import readings_and_result
from walkaround.walk.advance import states
from walkaround.walk.chambers import ends_of
from walkaround.walk.events import NO_FAULT, Answered, Repaired, Tried
from walkaround.walk.measured_values import amount, in_base, judge_value
from walkaround.walk.state import FAULTS, Walk
from walkaround.words.answers import answer_text, reason_text, seen_text
from walkaround.words.chambers import chambers_text
from walkaround.words.language import Words
from walkaround.words.measured_values import value_text

Cell = str | float | bool | None
Row = dict[str, Cell]

COLUMNS = (
    "walk", "vehicle_id", "vehicle", "plate", "vin", "scope", "partial", "time_utc", "who",
    "part", "step", "title", "fact", "item", "item_name", "lamp", "answer", "by", "stands",
    "defect", "later", "later_walk", "reason", "seen", "gauge", "at_s", "read",
    "value_psi", "at_least_psi", "at_most_psi",
    "value_in", "at_least_in", "at_most_in",
    "value_s", "at_least_s", "at_most_s",
    "value_percent", "at_least_percent", "at_most_percent",
    "rate_psi_per_min", "rate_low_psi_per_min", "rate_high_psi_per_min",
    "rule_rate_psi_per_min", "at_most_psi_per_min",
    "verdict", "rule_verdict", "result", "note", "source", "provenance", "doubt", "notice",
)  # fmt: skip
"""`fact` is the kind of row: answer, lamp, item, reading, hold, value, chamber, repair or trial.

A lamp's `item` is its housing. For a defect that the walk left open, `later` is what the last later
walk found of it, and `later_walk` is that walk.
"""


def report_facts(
    walk: Walk,
    words: Words,
    damage: str = "",
    later: Mapping[str, tuple[LaterState, str]] = MappingProxyType({}),
    walk_states: Sequence[Walk] = (),
) -> Iterator[Row]:
    """Return every fact, in the order of the events.

    Only the first row has the notice of what the record is not. A lamp at a step with a fault that
    is not its own has the answer *no fault named*. Steps without an answer when the record was
    closed come last, each with its lamps.

    Args:
        walk: a walk that has begun.
        words: the language of texts.
        damage: a sentence about what the walk's file has lost; empty if nothing.
        later: what the last later walk found of a defect, and that walk, by the step.
        walk_states: the walk after each of its events, if the caller has folded it already.
    """
    words = words.shown_in(AS_WRITTEN)
    notice: str | None = f"{words('record-notice')} {damage}".strip()
    for row in _all_facts(walk, walk_states or states(walk.events), words):
        if row["defect"] == "open" and (last_look := later.get(str(row["step"]))):
            row["later"], row["later_walk"] = last_look
        yield row | {"notice": notice}
        notice = None


def _all_facts(walk: Walk, walk_states: Sequence[Walk], words: Words) -> Iterator[Row]:
    steps = {step.id: step for step in walk.steps}
    for event, walk_then in zip(walk.events, walk_states, strict=True):
        if isinstance(event, Repaired):
            row_values: Row = {"fact": "repair", "result": words.text(event.what)}
            row_values |= {"time_utc": event.at.utc.isoformat(timespec="seconds"), "who": event.who}
            yield _about(walk, steps[event.step], words) | row_values
        elif isinstance(event, Tried):
            yield _blank(walk) | {
                "fact": "trial",
                "item": event.trial,
                "result": event.outcome,
                "stands": walk.tried.get(event.trial) == event.outcome,
                "time_utc": event.at.utc.isoformat(timespec="seconds"),
                "who": event.who,
            }
        elif isinstance(event, Answered):
            step = steps[event.step]
            about = _about(walk, step, words) | _answer_origin(walk, event, words)
            yield about | _answer_row(walk, walk_then, event, words)
            # With the limits of that time: later readings of chambers may change them.
            step_then = next(each for each in walk_then.steps if each.id == step.id)
            facts = chain(
                _item_rows(walk, step, event, words),
                _hold_rows(walk_then, step),
                _value_rows(walk_then, step_then, words),
                _chamber_rows(walk_then, step, words),
            )
            yield from (about | fact for fact in facts)
    if walk.phase == "finished":
        no_answer: Row = {
            "answer": answer_text("not_checked", words).lower(),
            "stands": True,
            "reason": words("record-walk-ended"),
        }
        for step in walk.steps:
            if step.id not in walk.answers:
                about = _about(walk, step, words) | no_answer
                note: Row = {"note": walk.notes.get(step.id)}
                yield about | {"fact": "answer"} | note
                for item in step.items:
                    if item.kind not in UNPLACED:
                        yield from (about | row for row in _lamp_rows(step, item, words))


def about_walk(walk: Walk) -> Row:
    """Return the cells about the walk and its vehicle, which every row of every table has."""
    assert walk.plan is not None
    vehicle = walk.plan.vehicle
    return {
        "walk": walk.id,
        "vehicle_id": vehicle.id,
        "vehicle": vehicle.name,
        "plate": vehicle.plate or None,
        "vin": vehicle.vin or None,
        "scope": walk.plan.scope,
        "partial": walk.partial,
    }


def _blank(walk: Walk) -> Row:
    """Return the cells about the walk; the others are None."""
    return dict.fromkeys(COLUMNS) | about_walk(walk)


def _about(walk: Walk, step: Step, words: Words) -> Row:
    """Return the cells about the walk and a step; the others are None."""
    return _blank(walk) | {
        "part": step.part,
        "step": step.id,
        "title": words.text(step.title),
        "source": step.source,
        "provenance": step.provenance,
        "doubt": step.doubt or None,
    }


def _answer_origin(walk: Walk, event: Answered, words: Words) -> Row:
    return {
        "time_utc": event.at.utc.isoformat(timespec="seconds"),
        "who": event.who,
        "by": words(f"record-by-{event.by}"),
        "stands": walk.answers[event.step].id == event.id,
    }


def _answer_row(walk: Walk, walk_then: Walk, event: Answered, words: Words) -> Row:
    readings, result = readings_and_result(walk_then, event, words)
    defect = walk.defects.get(event.step)
    return {
        "fact": "answer",
        "answer": answer_text(event.answer, words).lower(),
        "defect": defect.state if defect and defect.found.id == event.id else None,
        "reason": reason_text(event.reason, words).lower() if event.reason else None,
        # Readings have rows of their own; descriptions of the gauges have not.
        "result": result or (None if walk_then.measured.get(event.step) else readings or None),
        "note": walk.notes.get(event.step),
    }


def _item_rows(walk: Walk, step: Step, event: Answered, words: Words) -> Iterator[Row]:
    """Return a row for each lamp or other item of a step whose result is known."""
    defect = walk.defects.get(step.id)
    state = defect.state if defect and defect.found.id == event.id else None
    if event.answer in FAULTS and not event.seen:
        return
    for item in step.items:
        seen_as = event.seen.get(item.id)
        if item.kind in UNPLACED and not seen_as:
            continue
        row: Row = {}
        if seen_as in ("missing", "not_fitted"):
            row["answer"] = answer_text(seen_as, words).lower()
        elif seen_as == "built_so":
            row["answer"] = answer_text("ok", words).lower()
        elif seen_as:
            row["answer"] = answer_text("defect", words).lower()
        elif event.answer in FAULTS:
            row["answer"] = words("report-no-fault-named")
        else:
            row["answer"] = answer_text(event.answer, words).lower()
        row["seen"] = seen_text(seen_as, words) if seen_as else None
        row["defect"] = state if seen_as and seen_as not in NO_FAULT else None
        row["reason"] = reason_text(event.reason, words).lower() if event.reason else None
        yield from (row | each for each in _lamp_rows(step, item, words))


def _lamp_rows(step: Step, item: Item, words: Words) -> Iterator[Row]:
    """Return the cells that name an item; one row for each lamp of its housing."""
    for lamp in item.lamps or (None,):
        yield {
            "fact": "lamp" if step.part == "lamps" else "item",
            "item": item.id,
            "item_name": words.text(item.name),
            "lamp": lamp,
        }


def _hold_rows(walk_then: Walk, step: Step) -> Iterator[Row]:
    """Return a row for each reading of an air hold, then for the result of each gauge."""
    hold = walk_then.holds.get(step.id)
    if hold is None:
        return
    for reading in hold.readings:
        gauge = hold.gauge(next(line for line in hold.rule.gauges if line == reading.gauge))
        read = f"{round(from_psi(reading.psi, gauge.unit), 2):g} {gauge.unit}"
        yield {
            "fact": "reading",
            "gauge": reading.gauge,
            "at_s": reading.at_s,
            "read": read,
            "value_psi": reading.psi,
        }
    if hold.void:
        return
    for line, result in hold.results().items():
        # If one reading does not fit, there is no rate: it would be that of the mistake.
        fits = result.reason != "misread"
        yield {
            "fact": "hold",
            "gauge": line,
            "rate_psi_per_min": result.rate_psi_per_min if fits else None,
            "rate_low_psi_per_min": result.low_psi_per_min if fits else None,
            "rate_high_psi_per_min": result.high_psi_per_min if fits else None,
            "rule_rate_psi_per_min": result.rule_rate_psi_per_min,
            "at_most_psi_per_min": hold.rule.limit_psi_per_min,
            "verdict": result.verdict,
            "rule_verdict": result.rule_verdict,
        }


def _value_rows(walk_then: Walk, step: Step, words: Words) -> Iterator[Row]:
    """Return a row for each measured value, with its limits."""
    readings, measure = walk_then.measured.get(step.id, {}), step.measure
    if measure is None:
        return
    for value in measure.values:
        if value.id not in readings:
            continue
        reading = readings[value.id]
        yield {
            "fact": "value",
            "item": value.id,
            "item_name": words.text(value.name),
            "gauge": value.gauge or None,
            "read": value_text(reading),
            f"value_{measure.quantity}": in_base(reading),
            "value_percent": amount(value, readings) if value.before else None,
            **_bounds(value, measure.quantity),
            "verdict": judge_value(measure, value, readings),
        }


def _bounds(value: Value, quantity: str) -> Mapping[str, Cell]:
    unit = "percent" if value.before else quantity
    return {f"at_least_{unit}": value.least, f"at_most_{unit}": value.at_most}


def _chamber_rows(walk_then: Walk, step: Step, words: Words) -> Iterator[Row]:
    for end in ends_of(step):
        [text] = chambers_text(walk_then, [end], words)
        yield {"fact": "chamber", "item": end, "result": text}
