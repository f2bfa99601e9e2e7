"""Every fact of a walk in a row of its own: each answer, lamp, reading, rate and value.

Numbers are numbers, in the units of the rules, and the name of each column says which: psi gauge,
inches, seconds, percent, psi/min. What a fact does not have is None.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import chain
from types import MappingProxyType

from walkaround.base.units import AS_WRITTEN, from_psi
from walkaround.compared.later_walks import LaterState
from walkaround.plan.steps import UNPLACED, Item, Step
from walkaround.plan.values import Value
from walkaround.report.document import told_at
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
"""`fact` says what a row is: answer, lamp, item, reading, hold, value, chamber, repair or trial.

A lamp's `item` is its housing. Of a defect that the walk left open `later` says what the last look
at it in a later walk came to, and `later_walk` which walk that was.
"""


def report_facts(
    walk: Walk,
    words: Words,
    damage: str = "",
    later: Mapping[str, tuple[LaterState, str]] = MappingProxyType({}),
    along: Sequence[Walk] = (),
) -> Iterator[Row]:
    """Give every fact, in the order in which they were told.

    The first row alone carries the notice of what the record is not. Of a lamp that nobody named
    at a step with a fault the answer is *no fault named*; steps without an answer when the record
    was closed come last, each with its lamps.

    Args:
        walk: one that has begun.
        words: the language of what is told in words.
        damage: a sentence about what the walk's file has lost; empty if nothing.
        later: by the step of a defect, what the last later look came to, and in which walk.
        along: the walk after each of its events, where whoever asks has folded it already.
    """
    words = words.shown_in(AS_WRITTEN)
    notice: str | None = f"{words('record-notice')} {damage}".strip()
    for row in _all_facts(walk, along or states(walk.events), words):
        if row["defect"] == "open" and (look := later.get(str(row["step"]))):
            row["later"], row["later_walk"] = look
        yield row | {"notice": notice}
        notice = None


def _all_facts(walk: Walk, along: Sequence[Walk], words: Words) -> Iterator[Row]:
    steps = {step.id: step for step in walk.steps}
    for event, then in zip(walk.events, along, strict=True):
        if isinstance(event, Repaired):
            told: Row = {"fact": "repair", "result": words.text(event.what)}
            told |= {"time_utc": event.at.utc.isoformat(timespec="seconds"), "who": event.who}
            yield _about(walk, steps[event.step], words) | told
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
            about = _about(walk, step, words) | _given(walk, event, words)
            yield about | _answer(walk, then, event, words)
            # Limits as they stood then: chambers are read on the way.
            step_then = next(each for each in then.steps if each.id == step.id)
            facts = chain(
                _items(walk, step, event, words),
                _held(then, step),
                _taken(then, step_then, words),
                _chambers(then, step, words),
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
                        yield from (about | row for row in _item(step, item, words))


def about_walk(walk: Walk) -> Row:
    """Tell whose walk it is, as every row of every table says it."""
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
    """What each fact says of its walk; the rest is None."""
    return dict.fromkeys(COLUMNS) | about_walk(walk)


def _about(walk: Walk, step: Step, words: Words) -> Row:
    """What each fact of a step says of walk and step; the rest is None."""
    return _blank(walk) | {
        "part": step.part,
        "step": step.id,
        "title": words.text(step.title),
        "source": step.source,
        "provenance": step.provenance,
        "doubt": step.doubt or None,
    }


def _given(walk: Walk, event: Answered, words: Words) -> Row:
    return {
        "time_utc": event.at.utc.isoformat(timespec="seconds"),
        "who": event.who,
        "by": words(f"record-by-{event.by}"),
        "stands": walk.answers[event.step].id == event.id,
    }


def _answer(walk: Walk, then: Walk, event: Answered, words: Words) -> Row:
    readings, result = told_at(then, event, words)
    defect = walk.defects.get(event.step)
    return {
        "fact": "answer",
        "answer": answer_text(event.answer, words).lower(),
        "defect": defect.state if defect and defect.found.id == event.id else None,
        "reason": reason_text(event.reason, words).lower() if event.reason else None,
        # What was read stands in rows of its own; what the gauges are like does not.
        "result": result or (None if then.measured.get(event.step) else readings or None),
        "note": walk.notes.get(event.step),
    }


def _items(walk: Walk, step: Step, event: Answered, words: Words) -> Iterator[Row]:
    """One row a lamp, or another thing looked at, wherever it is known what became of it."""
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
        yield from (row | each for each in _item(step, item, words))


def _item(step: Step, item: Item, words: Words) -> Iterator[Row]:
    """What names an item: a row for each lamp of a housing that the step is about."""
    for lamp in item.lamps or (None,):
        yield {
            "fact": "lamp" if step.part == "lamps" else "item",
            "item": item.id,
            "item_name": words.text(item.name),
            "lamp": lamp,
        }


def _held(then: Walk, step: Step) -> Iterator[Row]:
    """Each reading of an air hold, then what each gauge came to."""
    hold = then.holds.get(step.id)
    if hold is None:
        return
    for look in hold.readings:
        gauge = hold.gauge(next(line for line in hold.rule.gauges if line == look.gauge))
        read = f"{round(from_psi(look.psi, gauge.unit), 2):g} {gauge.unit}"
        yield {
            "fact": "reading",
            "gauge": look.gauge,
            "at_s": look.at_s,
            "read": read,
            "value_psi": look.psi,
        }
    if hold.void:
        return
    for line, result in hold.results().items():
        # Of readings one of which does not fit no rate is told: it would be that of the mistake.
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


def _taken(then: Walk, step: Step, words: Words) -> Iterator[Row]:
    """Each value that was measured, with its bounds."""
    readings, measure = then.measured.get(step.id, {}), step.measure
    if measure is None:
        return
    for value in measure.values:
        if value.id not in readings:
            continue
        read = readings[value.id]
        yield {
            "fact": "value",
            "item": value.id,
            "item_name": words.text(value.name),
            "gauge": value.gauge or None,
            "read": value_text(read),
            f"value_{measure.quantity}": in_base(read),
            "value_percent": amount(value, readings) if value.before else None,
            **_bounds(value, measure.quantity),
            "verdict": judge_value(measure, value, readings),
        }


def _bounds(value: Value, quantity: str) -> Mapping[str, Cell]:
    unit = "percent" if value.before else quantity
    return {f"at_least_{unit}": value.least, f"at_most_{unit}": value.at_most}


def _chambers(then: Walk, step: Step, words: Words) -> Iterator[Row]:
    for end in ends_of(step):
        [told] = chambers_text(then, [end], words)
        yield {"fact": "chamber", "item": end, "result": told}
