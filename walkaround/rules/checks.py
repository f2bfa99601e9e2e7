"""What is wrong with a checklist beyond its shape; to add a check, name it in `CHECKS`."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from walkaround.base.checks import (
    Flaw,
    empty,
    not_filled,
    problems_found,
    standing_twice,
    too_long,
    too_many,
)
from walkaround.base.errors import Problem
from walkaround.base.message import message
from walkaround.rules.checklist import AXLE_FILLED, END_FILLED, FILLED, Checklist
from walkaround.rules.conditions import When
from walkaround.rules.lamp_rule import SPREADS, LampRule, Variant
from walkaround.rules.measure_checks import MEASURE_CHECKS

# What fills these names where it is not filled.
_ONCE_FOR_EACH = {
    name: message("problem-set-true", key="per_end" if name == "side" else "per_axle")
    for name in END_FILLED
}
# The longest short text, in characters: what is said in one breath.
SHORT_MAX = 160
# More than any file has, and few enough to plan a walk from at once.
MOST_STEPS, MOST_LAMPS, MOST_LIMITS, MOST_VARIANTS = 150, 150, 20, 50
MOST_ROWS, MOST_CHOICES = 12, 3
# The axle's number and the side, filled in where a step stands once for each.
AXLE, SIDE = "{axle}", "{side}"


def checklist_problems(checklist: Checklist, where: str) -> list[Problem]:
    """Find everything wrong with a checklist that the shape of its file cannot show."""
    too_much = problems_found([counts_are_in_reason], checklist, where)
    return too_much or problems_found(CHECKS, checklist, where)


def counts_are_in_reason(checklist: Checklist) -> Iterator[Flaw]:
    """Check that there is not too much of anything to plan a walk without a delay."""
    counts = [
        ("step", len(checklist.steps), MOST_STEPS),
        ("lamp", len(checklist.lamps), MOST_LAMPS),
        ("variant", len(checklist.variants), MOST_VARIANTS),
        *((f"step {step.id}.limit", len(step.limits), MOST_LIMITS) for step in checklist.steps),
        *((f"step {step.id}.row", len(step.rows), MOST_ROWS) for step in checklist.steps),
        *((f"step {step.id}.choice", len(step.choices), MOST_CHOICES) for step in checklist.steps),
        *((f"lamp {r.id}.variant", len(r.variants), MOST_VARIANTS) for r in checklist.lamps),
    ]
    yield from too_many(counts, message("problem-split-the-file"))


def ids_are_unique(checklist: Checklist) -> Iterator[Flaw]:
    """Check that every step and every lamp rule has an id of its own."""
    yield from standing_twice(f"step {step.id}" for step in checklist.steps)
    yield from standing_twice(f"lamp {rule.id}" for rule in checklist.lamps)


def texts_are_filled(checklist: Checklist) -> Iterator[Flaw]:
    """Check that no text that is said, shown or quoted is empty."""
    yield from empty([("title", checklist.title), ("source", checklist.source)])
    for rule in checklist.lamps:
        texts = rule.model_dump(include={"name", "what", "why", "height", "source"})
        yield from empty((f"lamp {rule.id}.{key}", text) for key, text in texts.items())
    for step in checklist.steps:
        texts = step.model_dump(include={"title", "short", "long", "source"})
        yield from empty((f"step {step.id}.{key}", text) for key, text in texts.items())
        yield from empty((f"step {step.id}.row {row.id}.name", row.name) for row in step.rows)
        yield from empty((f"step {step.id}.choice {c.id}.text", c.text) for c in step.choices)


def short_texts_are_short(checklist: Checklist) -> Iterator[Flaw]:
    """Check that a short or brisk text can be said in one breath."""
    shorts = [(f"step {step.id}.short", step.short, SHORT_MAX) for step in checklist.steps]
    shorts += [(f"step {step.id}.brisk", step.brisk, SHORT_MAX) for step in checklist.steps]
    yield from too_long(shorts, message("problem-keep-it-short"))


def placeholders_are_known(checklist: Checklist) -> Iterator[Flaw]:
    """Check that only quantities and known placeholders stand in braces."""
    for step in checklist.steps:
        placeholders = FILLED | (
            END_FILLED if step.per_end else AXLE_FILLED if step.per_axle else set()
        )
        texts = step.model_dump(include={"id", "title", "short", "long", "brisk", "caution"})
        again = {"brisk_again", "short_again", "long_again", "caution_again"}
        texts |= step.model_dump(include=again)
        texts |= {f"choice {choice.id}.text": choice.text for choice in step.choices}
        if step.measure:
            texts |= {"measure.begin": step.measure.begin, "measure.end": step.measure.end}
        keyed = [(f"step {step.id}.{key}", text) for key, text in texts.items()]
        yield from not_filled(keyed, placeholders, _ONCE_FOR_EACH)
    variants = _keyed(checklist.variants)
    for rule in checklist.lamps:
        texts = rule.model_dump(include={"name", "said", "what", "why"})
        yield from not_filled((f"lamp {rule.id}.{key}", text) for key, text in texts.items())
        variants += _keyed(rule.variants, f"lamp {rule.id}.")
    yield from not_filled((f"{key}.what", variant.what or "") for key, variant in variants)


def axle_steps_are_told_apart(checklist: Checklist) -> Iterator[Flaw]:
    """Check that the id of a step for each axle has the axle in it, for each end its side too."""
    for step in checklist.steps:
        key = f"step {step.id}"
        if (step.per_axle or step.per_end) and AXLE not in step.id:
            what, mend = message("trouble-axles-share-the-id"), message("problem-put-axle-in-id")
            yield Flaw(key, what, mend)
        if step.per_end and SIDE not in step.id:
            what, mend = message("trouble-ends-share-the-id"), message("problem-put-side-in-id")
            yield Flaw(key, what, mend)


def rows_and_choices_can_be_told(checklist: Checklist) -> Iterator[Flaw]:
    """Check that rows and choices have own ids, and that choices are several, in an act."""
    for step in checklist.steps:
        key = f"step {step.id}"
        yield from standing_twice(f"{key}.row {row.id}" for row in step.rows)
        yield from standing_twice(f"{key}.choice {choice.id}" for choice in step.choices)
        if step.choices and (step.kind != "act" or len(step.choices) < 2):
            mend = message("problem-choose-in-an-act")
            yield Flaw(f"{key}.choice", message("problem-nothing-to-choose"), mend)


def chambers_are_of_axles(checklist: Checklist) -> Iterator[Flaw]:
    """Check that chambers are read axle by axle, and each wheel end once in a step about all."""
    for step in checklist.steps:
        if step.kind == "chambers" and not step.per_axle:
            what = message("problem-is-of-one-axle")
            yield Flaw(f"step {step.id}.kind", what, message("problem-set-true", key="per_axle"))
        if step.all_ends and (step.per_axle or step.per_end):
            what = message("problem-stands-beside-per-axle")
            yield Flaw(f"step {step.id}.all_ends", what, message("problem-set-false"))


def hands_free_steps_are_plain_looks(checklist: Checklist) -> Iterator[Flaw]:
    """Check that a step that moves air, vehicle or somebody at an axle needs a tap."""
    for step in checklist.steps:
        plain = step.kind in ("look", "listen") and step.part in ("connect", "lamps")
        if step.hands_free and (not plain or step.must or step.soft or step.once):
            what = message("problem-needs-a-tap")
            yield Flaw(f"step {step.id}.hands_free", what, message("problem-set-false"))


def spoken_steps_have_what_is_said(checklist: Checklist) -> Iterator[Flaw]:
    """Check that spoken values are read off a gauge or rule, and spoken counts are a hold's.

    A time is told by none: it starts as a needle passes a mark, and the yes would come too late.
    """
    for step in checklist.steps:
        read = step.measure is not None and step.measure.quantity != "s"
        if (step.spoken == "value" and not read) or (step.spoken == "count" and step.hold is None):
            what = message("problem-stands-in-kind", kind=step.kind)
            yield Flaw(f"step {step.id}.spoken", what, message("problem-take-it-out"))


def lamp_steps_are_not_written(checklist: Checklist) -> Iterator[Flaw]:
    """Check that no lamp step is written: they follow from the vehicle's lamps."""
    what, mend = message("trouble-lamp-step-written"), message("problem-write-a-lamp-rule")
    for step in checklist.steps:
        if step.kind == "lamp":
            yield Flaw(f"step {step.id}.kind", what, mend)


def lamps_can_be_placed(checklist: Checklist) -> Iterable[Flaw]:
    """Check that the quantity is what the spread places; a side has no middle to spread from."""
    return dict.fromkeys(
        flaw
        for rule in checklist.lamps
        for key, row in _readings(rule, checklist)
        for flaw in _misplaced(key, row)
    )


def _misplaced(key: str, row: LampRule) -> Iterator[Flaw]:
    if row.quantity != SPREADS[row.spread]:
        what = message(
            "problem-spread-places-others",
            quantity=row.quantity,
            spread=row.spread,
            places=SPREADS[row.spread],
        )
        yield Flaw(f"{key}.quantity", what, message("problem-make-them-agree"))
    if row.end == "side" and row.spread in ("centre", "three"):
        what = message("problem-spread-not-of-sides", spread=row.spread)
        yield Flaw(f"{key}.spread", what, message("problem-use-pair-left-right"))
    if row.end != "side" and row.gap_mm is not None:
        what = message("problem-stands-in-a-row-for-end", end=row.end)
        yield Flaw(f"{key}.gap_mm", what, message("problem-take-it-out-or-set-side"))


def _readings(rule: LampRule, checklist: Checklist) -> Iterator[tuple[str, LampRule]]:
    """Yield a row as it stands, and as each of its variants and those of the file have it."""
    yield f"lamp {rule.id}", rule
    for key, variant in (*_keyed(rule.variants, f"lamp {rule.id}."), *_keyed(checklist.variants)):
        moves = variant.changes().keys() & {"quantity", "spread", "end"}
        if moves and variant.quantity != 0:
            yield key, rule.varied(variant)


def _keyed(variants: Iterable[Variant], owner: str = "") -> list[tuple[str, Variant]]:
    return [(f"{owner}variant {number}", v) for number, v in enumerate(variants, start=1)]


def variants_say_something(checklist: Checklist) -> Iterator[Flaw]:
    """Check that no variant holds for every vehicle, and that each has a source."""
    keyed = _keyed(checklist.variants)
    for rule in checklist.lamps:
        keyed += _keyed(rule.variants, f"lamp {rule.id}.")
    for key, variant in keyed:
        if all(getattr(variant, name) == f.default for name, f in When.model_fields.items()):
            mend = message("problem-say-for-which")
            yield Flaw(key, message("problem-holds-for-every-vehicle"), mend)
        yield from empty([(f"{key}.source", variant.source)])


CHECKS: list[Callable[[Checklist], Iterable[Flaw]]] = [
    ids_are_unique,
    texts_are_filled,
    short_texts_are_short,
    placeholders_are_known,
    axle_steps_are_told_apart,
    rows_and_choices_can_be_told,
    chambers_are_of_axles,
    *MEASURE_CHECKS,
    hands_free_steps_are_plain_looks,
    spoken_steps_have_what_is_said,
    lamp_steps_are_not_written,
    lamps_can_be_placed,
    variants_say_something,
]
