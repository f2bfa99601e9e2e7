"""What is wrong with a checklist beyond its shape, as a list of pure checks.

Each check is a function (checklist, where) -> problems; to add one, write it and name it in
`CHECKS`.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator

from walkaround.base.errors import Problem
from walkaround.rules.checklist import (
    AXLE_FILLED,
    END_FILLED,
    FILLED,
    SPREADS,
    Checklist,
    LampRule,
    StepRule,
    Variant,
)
from walkaround.rules.conditions import When
from walkaround.rules.measure_checks import MEASURE_CHECKS

# The longest short text, in characters: what is said in one breath.
SHORT_MAX = 160
# More than any file has, and few enough to plan a walk from at once.
MOST_STEPS, MOST_LAMPS, MOST_LIMITS, MOST_VARIANTS = 150, 150, 20, 50
# The axle's number and the side, filled in where a step stands once for each.
AXLE, SIDE = "{axle}", "{side}"


def checklist_problems(checklist: Checklist, where: str) -> list[Problem]:
    """Everything wrong with a checklist that the shape of its file cannot show."""
    too_much = counts_are_in_reason(checklist, where)
    return too_much or [problem for check in CHECKS for problem in check(checklist, where)]


def counts_are_in_reason(checklist: Checklist, where: str) -> list[Problem]:
    """There are not so many of anything that a walk cannot be planned at once."""
    counted = [
        ("step", len(checklist.steps), MOST_STEPS),
        ("lamp", len(checklist.lamps), MOST_LAMPS),
        ("variant", len(checklist.variants), MOST_VARIANTS),
        *((f"step {step.id}.limit", len(step.limits), MOST_LIMITS) for step in checklist.steps),
        *((f"lamp {r.id}.variant", len(r.variants), MOST_VARIANTS) for r in checklist.lamps),
    ]
    return [
        Problem(where, key, f"stands {count} times, {most} at most", "split the file")
        for key, count, most in counted
        if count > most
    ]


def _texts(step: StepRule) -> dict[str, str]:
    return {
        "title": step.title,
        "short": step.short,
        "long": step.long,
        "caution": step.caution,
    }


def _twice(ids: Iterable[str], where: str, noun: str) -> list[Problem]:
    return [
        Problem(where, f"{noun} {id_}", f"{count} {noun}s have this id", "give each its own id")
        for id_, count in Counter(ids).items()
        if count > 1
    ]


def ids_are_unique(checklist: Checklist, where: str) -> list[Problem]:
    """Every step and every lamp rule has an id of its own."""
    return _twice((s.id for s in checklist.steps), where, "step") + _twice(
        (r.id for r in checklist.lamps), where, "lamp"
    )


def texts_are_filled(checklist: Checklist, where: str) -> list[Problem]:
    """No text that is said, shown or quoted is empty."""
    told: list[tuple[str, dict[str, str]]] = [
        ("", {"title": checklist.title, "source": checklist.source})
    ]
    for rule in checklist.lamps:
        keys = {"name", "what", "why", "height", "source"}
        told.append((f"lamp {rule.id}.", rule.model_dump(include=keys)))
    for step in checklist.steps:
        keys = {"title", "short", "long", "source"}
        told.append((f"step {step.id}.", step.model_dump(include=keys)))
    return [
        Problem(where, f"{owner}{key}", "is empty", "write the text")
        for owner, texts in told
        for key, text in texts.items()
        if not text.strip()
    ]


def short_texts_are_short(checklist: Checklist, where: str) -> list[Problem]:
    """A short text is said in one breath."""
    return [
        Problem(
            where,
            f"step {step.id}.short",
            f"has {len(step.short)} characters, {SHORT_MAX} at most",
            "keep it to what the hands do, the rest belongs in long",
        )
        for step in checklist.steps
        if len(step.short) > SHORT_MAX
    ]


def placeholders_are_known(checklist: Checklist, where: str) -> list[Problem]:
    """Only known placeholders stand in texts; those of an axle only in a step for each axle."""
    found = []
    for step in checklist.steps:
        filled = FILLED | (END_FILLED if step.per_end else AXLE_FILLED if step.per_axle else set())
        for key, text in {"id": step.id, **_texts(step)}.items():
            for odd in sorted(set(re.findall(r"\{[^}]*\}?|\}", text)) - filled):
                known = ", ".join(sorted(filled))
                once = "per_end" if odd == SIDE else "per_axle"
                mend = f"set {once} = true" if odd in END_FILLED else f"use one of {known}"
                what = f"nothing fills the placeholder {odd}"
                found.append(Problem(where, f"step {step.id}.{key}", what, mend))
    return found


def axle_steps_are_told_apart(checklist: Checklist, where: str) -> list[Problem]:
    """A step for each axle carries the axle's number in its id, one for each end its side too."""
    found = []
    for step in checklist.steps:
        if (step.per_axle or step.per_end) and AXLE not in step.id:
            what = "all axles would share this id"
            found.append(Problem(where, f"step {step.id}", what, f"put {AXLE} in the id"))
        if step.per_end and SIDE not in step.id:
            what = "both ends of an axle would share this id"
            found.append(Problem(where, f"step {step.id}", what, f"put {SIDE} in the id"))
    return found


def lamp_steps_are_not_written(checklist: Checklist, where: str) -> list[Problem]:
    """Lamp steps follow from the vehicle's lamps."""
    mend = "write a [[lamp]] rule, the steps follow from it"
    return [
        Problem(where, f"step {step.id}.kind", "lamp steps are not written in files", mend)
        for step in checklist.steps
        if step.kind == "lamp"
    ]


def lamps_can_be_placed(checklist: Checklist, where: str) -> list[Problem]:
    """The quantity is what the spread places, and a side has no middle to spread from."""
    found = []
    for rule in checklist.lamps:
        for key, row in _readings(rule, checklist):
            if row.quantity != SPREADS[row.spread]:
                what = f"is {row.quantity}, but spread {row.spread} places {SPREADS[row.spread]}"
                mend = "make quantity and spread agree"
                found.append(Problem(where, f"{key}.quantity", what, mend))
            if row.end == "side" and row.spread in ("centre", "three"):
                what = f"is {row.spread}, which the sides do not have"
                mend = "use pair, left or right"
                found.append(Problem(where, f"{key}.spread", what, mend))
            if row.end != "side" and row.gap_mm is not None:
                what = f"stands in a row for the {row.end}"
                mend = 'take it out or set end = "side"'
                found.append(Problem(where, f"{key}.gap_mm", what, mend))
    return list(dict.fromkeys(found))


def _readings(rule: LampRule, checklist: Checklist) -> Iterator[tuple[str, LampRule]]:
    """A row as it stands, and as each of its variants and those of the file have it."""
    yield f"lamp {rule.id}", rule
    for key, variant in (*_keyed(rule.variants, f"lamp {rule.id}."), *_keyed(checklist.variants)):
        moves = variant.changes().keys() & {"quantity", "spread", "end"}
        if moves and variant.quantity != 0:
            yield key, rule.varied(variant)


def _keyed(variants: Iterable[Variant], owner: str = "") -> list[tuple[str, Variant]]:
    return [(f"{owner}variant {number}", v) for number, v in enumerate(variants, start=1)]


def variants_say_something(checklist: Checklist, where: str) -> list[Problem]:
    """No variant holds for every vehicle, and each has a source."""
    keyed = _keyed(checklist.variants)
    for rule in checklist.lamps:
        keyed += _keyed(rule.variants, f"lamp {rule.id}.")
    found = []
    for key, variant in keyed:
        if all(getattr(variant, name) == f.default for name, f in When.model_fields.items()):
            mend = "say for which, or write it into the row"
            found.append(Problem(where, key, "holds for every vehicle", mend))
        if not variant.source.strip():
            found.append(Problem(where, f"{key}.source", "is empty", "write the text"))
    return found


CHECKS: list[Callable[[Checklist, str], list[Problem]]] = [
    ids_are_unique,
    texts_are_filled,
    short_texts_are_short,
    placeholders_are_known,
    axle_steps_are_told_apart,
    *MEASURE_CHECKS,
    lamp_steps_are_not_written,
    lamps_can_be_placed,
    variants_say_something,
]
