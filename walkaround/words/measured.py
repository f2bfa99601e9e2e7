"""Measured values in words: what was read, against which limit, and what it comes to.

A value is told in the unit in which it was read, and its limit beside it in the same one, so that
the two can be compared: "1 3/4 in, at most 2 in: within".
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from walkaround.base.units import LengthUnit, length_limit_text, length_text, pressure_text
from walkaround.plan.steps import Measure, Step, Value
from walkaround.walk.answers import ANSWER_WORDS, seen_words
from walkaround.walk.events import Answered, Event, GaugesTold, Measured, Revisited
from walkaround.walk.measured import Judged, amount, in_base, judged, outcome
from walkaround.walk.state import Defect, Walk

JUDGED_WORDS: Mapping[Judged, str] = {
    "within": "within",
    "over": "over",
    "under": "under",
    "unbounded": "written down",
    "unmeasured": "not measured",
}

APART_IN = 0.25
"""Strokes at the two ends of an axle that differ by more than this are called out; common
practice, no source."""
APART_WORDS = "That is more than 1/4 in apart: find the cause (common practice, no source)."

_END = re.compile(r"axle_(?P<axle>\d+)_(?P<side>left|right)")
# Lengths closer than this are equal, inches.
_SAME_IN = 1e-6


def value_text(taken: Measured) -> str:
    """A value as it was read: "68 psi", "1 3/4 in", "33.4 s"."""
    return length_text(taken.value, "in") if taken.unit == "in" else f"{taken.value:g} {taken.unit}"


def bounds_text(measure: Measure, value: Value, unit: str) -> str:
    """What bounds a value, in the unit in which it is read: "at least 20 psi, at most 45 psi"."""
    most = "at most" if measure.equal_passes else "less than"
    least = "at least" if measure.equal_passes else "more than"
    bounds = ((least, value.at_least), (most, value.at_most))
    return ", ".join(
        f"{word} {_bound(bound, '%' if value.before else unit)}"
        for word, bound in bounds
        if bound is not None
    )


def _bound(bound: float, unit: str) -> str:
    match unit:
        case "psi" | "kPa" | "bar":
            return pressure_text(bound, unit)
        case "in" | "mm":
            return length_limit_text(bound, unit)
        case _:
            return f"{bound:g} {unit}"


def judged_text(measure: Measure, value: Value, taken: Mapping[str, Measured]) -> str:
    """One value and what it comes to: "68 psi, at least 60 psi: within"."""
    read = taken.get(value.id)
    if read is None:
        return JUDGED_WORDS["unmeasured"]
    told = [value_text(read)]
    drop = amount(value, taken)
    if value.before and drop is not None:
        told.append(f"drop {round(drop, 1):g} %")
    told += [text] if (text := bounds_text(measure, value, read.unit)) else []
    found = judged(measure, value, taken)
    # What is read before something is bounded by nothing, and known to be so.
    told_of = "" if found == "unbounded" and measure.known else f": {JUDGED_WORDS[found]}"
    return f"{', '.join(told)}{told_of}"


def outcome_text(measure: Measure, taken: Mapping[str, Measured]) -> str:
    """Every value of a step in one sentence; empty while none is in.

    A value that is the only one of its step needs no name.
    """
    if not taken:
        return ""
    if len(measure.values) == 1:
        return f"{judged_text(measure, measure.values[0], taken)}."
    each = (f"{value.name} {judged_text(measure, value, taken)}" for value in measure.values)
    return f"{'; '.join(each)}."


def next_value(measure: Measure, taken: Mapping[str, Measured]) -> Value | None:
    """What is to be read next: every gauge before something is done, then every one after it."""
    return next((value for value in reading_order(measure) if value.id not in taken), None)


def reading_order(measure: Measure) -> list[Value]:
    """The values in the order in which they are read."""
    return sorted(measure.values, key=lambda value: value.before != "")


def said_text(measure: Measure, taken: Mapping[str, Measured]) -> str:
    """What is said once a value is in: what it comes to, and what to do if it is outside.

    While others are still to be read, which one is next.
    """
    told = _capital(outcome_text(measure, taken))
    if outcome(measure, taken) == "outside":
        return f"{told} {measure.advice}".strip()
    missing = next_value(measure, taken)
    return f"Now {missing.name}." if missing else told


def limit_text(measure: Measure) -> str:
    """The limit that counts, or that none is known."""
    if measure.known:
        return f"Limit: {measure.limit}." if measure.limit else ""
    why = f": {measure.limit}" if measure.limit else ""
    return f"No limit is known{why}. The value is only written down."


def values_at(events: Iterable[Event], answered: Answered) -> Mapping[str, Measured]:
    """The values that a step was answered on; a recheck measures anew."""
    taken: dict[str, Measured] = {}
    for event in events:
        if event.seq >= answered.seq:
            break
        match event:
            case Revisited(step=answered.step, purpose="recheck"):
                taken = {}
            case Measured(step=answered.step):
                taken[event.value_id] = event
    return taken


def found_words(walk: Walk, defect: Defect) -> str:
    """What was found wrong: what was seen, or the values that were measured; else nothing."""
    step = next(step for step in walk.steps if step.id == defect.step)
    seen = seen_words(step, defect.found.seen)
    if step.measure is None:
        return seen
    measured = outcome_text(step.measure, values_at(walk.events, defect.found))
    return ". ".join(text for text in (seen, measured) if text)


def defect_words(walk: Walk, defect: Defect) -> str:
    """What was found, in words."""
    return found_words(walk, defect) or ANSWER_WORDS[defect.found.answer]


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

    @property
    def text(self) -> str:
        """Both strokes and the difference, in the unit of the left one."""
        unit: LengthUnit = "mm" if self.left.unit == "mm" else "in"
        told = (
            f"Axle {self.axle}: left {value_text(self.left)}, right {value_text(self.right)}, "
            f"{length_text(self.inches, unit)} apart."
        )
        return f"{told} {APART_WORDS}" if self.much else told


def strokes_apart(walk: Walk) -> tuple[Apart, ...]:
    """Every axle whose stroke was measured at both ends, in order."""
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
    """The strokes of the axle at one end of which this step is, once both are known."""
    end = _end_of(step)
    if end is None or step.measure is None or step.measure.quantity != "in":
        return None
    return next((apart for apart in strokes_apart(walk) if apart.axle == end[0]), None)


def _end_of(step: Step) -> tuple[int, str] | None:
    if len(step.items) != 1:
        return None
    end = _END.fullmatch(step.items[0].id)
    return (int(end["axle"]), end["side"]) if end else None


def gauges_text(told: GaugesTold) -> str:
    """What the gauges of a walk are like: "supply: psi, marks of 1; zero seen at 250 m"."""
    each = [
        f"{line}: {gauge.unit}, marks of {gauge.step:g}"
        f"{', tapped as the needle crosses a mark' if gauge.crossing else ''}"
        for line, gauge in told.gauges.items()
    ]
    zero = f"zero seen at {told.altitude_m:g} m" if told.at_zero else "not at zero"
    return "; ".join([*each, zero])


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
