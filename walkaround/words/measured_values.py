"""Measured values in words: what was read, against which limit, and what it comes to.

A value is told in the unit in which it was read, and its limit beside it in the same one, so that
the two can be compared: "1 3/4 in, at most 2 in: within".
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from walkaround.base.message import Quantity, message
from walkaround.base.units import LengthUnit, length_limit_text, length_text, pressure_text
from walkaround.plan.steps import WHEEL_END, Step
from walkaround.plan.values import Measure, Value
from walkaround.walk.chambers import (
    chambers_match,
    ends_of,
)
from walkaround.walk.events import Answered, Event, Measured, Revisited
from walkaround.walk.keypad import PadUnit
from walkaround.walk.measured_values import amount, in_base, judge_value, outcome
from walkaround.walk.state import Defect, Walk
from walkaround.words.air_hold import hold_figures
from walkaround.words.answers import answer_text, seen_words
from walkaround.words.chambers import chambers_text
from walkaround.words.language import Words, capital

APART_IN = 0.25
"""Strokes at the two ends of an axle that differ by more than this are called out; common
practice, no source."""

# Lengths closer than this are equal, inches.
_SAME_IN = 1e-6


def value_text(reading: Measured) -> str:
    """Write a value as it was read: "68 psi", "1 3/4 in", "33.4 s"."""
    return entered_text(reading.value, reading.unit)


def entered_text(value: float, unit: PadUnit) -> str:
    """Write the same of a value that is being entered."""
    return length_text(value, "in") if unit == "in" else f"{value:g} {unit}"


def bounds_text(
    measure: Measure, value: Value, unit: str, words: Words, *, short: bool = False
) -> str:
    """Tell what bounds a value, in the unit in which it is read: "at least 20 psi, at most 45 psi".

    `short` of one bound: "min 20 psi".
    """
    unit, equal, how = "%" if value.before else unit, measure.equal_passes, "short-" * short
    bounds = []
    if value.least is not None:
        least = _bound(value.least, unit)
        bounds.append(message(f"bound-{how}{'at-least' if equal else 'more-than'}", bound=least))
    if value.at_most is not None:
        most = _bound(value.at_most, unit)
        bounds.append(message(f"bound-{how}{'at-most' if equal else 'less-than'}", bound=most))
    return words.row(bounds)


def _bound(bound: float, unit: str) -> str:
    match unit:
        case "psi" | "kPa" | "bar":
            return pressure_text(bound, unit)
        case "in" | "mm":
            return length_limit_text(bound, unit)
        case _:
            return f"{bound:g} {unit}"


def judged_text(
    measure: Measure, value: Value, readings: Mapping[str, Measured], words: Words
) -> str:
    """Write one value and what it comes to: "68 psi, at least 60 psi: within"."""
    read = readings.get(value.id)
    if read is None:
        return words("judged-unmeasured")
    parts = [value_text(read)]
    drop = amount(value, readings)
    if value.before and drop is not None:
        parts.append(words("measured-drop", percent=f"{round(drop, 1):g}"))
    parts += [text] if (text := bounds_text(measure, value, read.unit, words)) else []
    verdict = judge_value(measure, value, readings)
    # What is read before something is bounded by nothing, and known to be so.
    if verdict == "unbounded" and measure.known:
        return words.row(parts)
    return words("measured-judged", read=words.row(parts), judged=message(f"judged-{verdict}"))


def within_text(measure: Measure, readings: Mapping[str, Measured], words: Words) -> str:
    """Say that every value is within, of a single one with its limit.

    "Within limit: 0.6 s (max 2 s)".
    """
    bounded = [
        each for each in measure.values if each.least is not None or each.at_most is not None
    ]
    if len(bounded) != 1 or bounded[0].before:
        return words("measure-within")
    read = readings[bounded[0].id]
    limit = bounds_text(measure, bounded[0], read.unit, words, short=True)
    return words("measure-within-limit", value=value_text(read), limit=limit)


def outcome_text(measure: Measure, readings: Mapping[str, Measured], words: Words) -> str:
    """Write every value of a step in one sentence; empty while none is in.

    A value that is the only one of its step needs no name.
    """
    if not readings:
        return ""
    value_texts = [judged_text(measure, value, readings, words) for value in measure.values]
    if len(value_texts) > 1:
        value_texts = [
            words("measured-of-value", name=value.name, judged=judged_as)
            for value, judged_as in zip(measure.values, value_texts, strict=True)
        ]
    return words("measured-outcome", outcome="; ".join(value_texts))


def next_value(measure: Measure, readings: Mapping[str, Measured]) -> Value | None:
    """Return the value to read next: every gauge before something is done, then every one after."""
    return next((value for value in reading_order(measure) if value.id not in readings), None)


def reading_order(measure: Measure) -> list[Value]:
    """List the values in the order in which they are read."""
    return sorted(measure.values, key=lambda value: value.before != "")


def said_text(measure: Measure, readings: Mapping[str, Measured], words: Words) -> str:
    """Tell what is said once a value is in: what it comes to, and what to do if it is outside.

    While others are still to be read, which one is next.
    """
    result = capital(outcome_text(measure, readings, words))
    if outcome(measure, readings) == "outside":
        return f"{result} {words.text(measure.advice)}".strip()
    missing = next_value(measure, readings)
    return words("measured-next", name=missing.name) if missing else result


def limit_text(measure: Measure, words: Words) -> str:
    """Write the limit that counts, or that none is known."""
    if measure.known:
        return words("measured-limit", limit=measure.limit) if measure.limit else ""
    if measure.limit:
        return words("measured-no-limit-why", why=measure.limit)
    return words("measured-no-limit")


def values_at(events: Iterable[Event], answered: Answered) -> Mapping[str, Measured]:
    """Return the values that a step was answered on; a recheck measures anew."""
    readings: dict[str, Measured] = {}
    for event in events:
        if event.seq >= answered.seq:
            break
        match event:
            case Revisited(step=answered.step, purpose="recheck"):
                readings = {}
            case Measured(step=answered.step):
                readings[event.value_id] = event
    return readings


def found_words(walk: Walk, defect: Defect, words: Words) -> str:
    """Tell what was found wrong: what was seen, or the values that were measured; else nothing."""
    step = next(step for step in walk.steps if step.id == defect.step)
    seen_text = seen_words(step, defect.found.seen, words)
    if step.kind == "chambers" and not (seen_text and chambers_match(walk, step)):
        read = "; ".join(chambers_text(walk, ends_of(step), words))
        return ". ".join(text for text in (seen_text, read) if text)
    if step.hold:
        return hold_figures(walk, defect, words)
    if step.measure is None:
        return seen_text
    measured = outcome_text(step.measure, values_at(walk.events, defect.found), words)
    return ". ".join(text for text in (seen_text, measured) if text)


def defect_words(walk: Walk, defect: Defect, words: Words) -> str:
    """Tell what was found, in words."""
    return found_words(walk, defect, words) or answer_text(defect.found.answer, words)


@dataclass(frozen=True, slots=True)
class Apart:
    """The strokes at the two ends of one axle."""

    axle: int
    left: Measured
    right: Measured

    @property
    def inches(self) -> float:
        """How far they are apart."""
        return abs(in_base(self.left) - in_base(self.right))

    @property
    def much(self) -> bool:
        """Whether that is to be called out."""
        return self.inches > APART_IN + _SAME_IN


def apart_text(apart: Apart, words: Words) -> str:
    """Write both strokes and the difference, in the unit of the left one."""
    unit: LengthUnit = "mm" if apart.left.unit == "mm" else "in"
    return words(
        "strokes-far-apart" if apart.much else "strokes-apart",
        axle=apart.axle,
        left=value_text(apart.left),
        right=value_text(apart.right),
        difference=length_text(apart.inches, unit),
        most=Quantity(value=APART_IN, unit="in"),
    )


def strokes_apart(walk: Walk) -> tuple[Apart, ...]:
    """List every axle whose stroke was measured at both ends, in order."""
    ends: dict[int, dict[str, Measured]] = {}
    for step in walk.steps:
        end, stroke = _end_of(step), walk.measured.get(step.id, {}).get("stroke")
        if end and stroke:
            ends.setdefault(end[0], {})[end[1]] = stroke
    return tuple(
        Apart(axle, sides["left"], sides["right"])
        for axle, sides in sorted(ends.items())
        if len(sides) == 2
    )


def apart_at(walk: Walk, step: Step) -> Apart | None:
    """Return the strokes of the axle at one end of which this step is, once both are known."""
    end = _end_of(step)
    if end is None or step.measure is None or step.measure.quantity != "in":
        return None
    return next((apart for apart in strokes_apart(walk) if apart.axle == end[0]), None)


def _end_of(step: Step) -> tuple[int, str] | None:
    if len({item.place for item in step.items}) != 1:
        return None
    end = WHEEL_END.fullmatch(step.items[0].place)
    return (int(end["axle"]), end["side"]) if end else None
