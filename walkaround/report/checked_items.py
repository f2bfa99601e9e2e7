"""What of a walk was checked without a fault, group by group, and what was not, and why."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from walkaround.base.message import message
from walkaround.brakes.not_covered import not_covered
from walkaround.plan.steps import UNPLACED, Item, Step
from walkaround.report.contents import Block, Prose, Table
from walkaround.rules.checklist import Part
from walkaround.walk.state import FAULTS, Walk
from walkaround.words.answers import given_word, reason_text
from walkaround.words.lamps import items_text
from walkaround.words.language import Words

_GROUPS: Mapping[str, tuple[Part, ...]] = {
    "ready": ("secure", "connect", "charge"),
    "lamps": ("lamps",),
    "air": ("supply_hold", "applied_hold"),
    "wheels": ("marking", "axles", "release", "strokes", "clear"),
    "supply": ("reserve", "warning", "rebuild"),
    "leaving": ("finish", "seen", "leave"),
}
"""The parts of a walk, as the page puts them together."""
SHARES = (0.2, 0.8)
"""Of the width: what a row is about, and what is said of it."""


def unchecked_blocks(walk: Walk, words: Words) -> Iterator[Block]:
    """Every step without an answer that says something, by the reason; then what nobody could."""
    assert walk.plan is not None
    by_why: dict[str, list[str]] = {}
    for step in walk.steps:
        answered = walk.answers.get(step.id)
        title = words.text(step.title)
        if answered is None:
            by_why.setdefault(words("report-not-reached"), []).append(title)
        elif answered.answer == "not_checked":
            why = reason_text(answered.reason or "other", words)
            by_why.setdefault(why, []).append(title)
    rows = [
        (words("report-unchecked-row", why=why, count=len(titles)), "; ".join(titles))
        for why, titles in by_why.items()
    ]
    if not rows:
        yield Prose(words("report-unchecked-none"))
    if walk.plan.scope != "whole":
        rows.append((words("report-outside"), words(f"report-outside-{walk.plan.scope}")))
    if absent := list(_not_fitted(walk, words)):
        rows.append((words("report-not-fitted"), "; ".join(absent)))
    if walk.plan.hidden:
        hidden = "; ".join(map(words.text, walk.plan.hidden))
        rows.append((words("report-hidden"), hidden))
    if walk.plan.scope != "lamps":
        covered = " ".join(map(words.text, not_covered(walk.plan.vehicle)))
        rows.append((words("report-not-covered"), covered))
    if rows:
        yield Table(("", ""), SHARES, tuple(rows), strong=frozenset({0}))


def _not_fitted(walk: Walk, words: Words) -> Iterator[str]:
    """What nobody requires and is not there: whole steps, and single lamps of others."""
    for step in walk.steps:
        answered = walk.answers.get(step.id)
        if answered is None:
            continue
        names = {item.id: words.text(item.name) for item in step.items}
        single = [
            names.get(id_, id_) for id_, seen in answered.seen.items() if seen == "not_fitted"
        ]
        if answered.answer == "not_fitted" and not single:
            yield words.text(step.title)
        yield from single


def checked_blocks(walk: Walk, words: Words) -> Iterator[Block]:
    """Tell what was done, or looked at without a fault, group by group."""
    rows = []
    for group, parts in _GROUPS.items():
        steps = [step for step in walk.steps if step.part in parts and _is_fine(walk, step)]
        lines = list(_lamps_checked(walk, words)) if group == "lamps" else []
        lines += [_done(walk, step, words) for step in steps if not lines or not _placed(step)]
        if lines:
            title = words(f"report-group-{group}")
            rows.append((title, "; ".join(lines)))
    if rows:
        yield Table(("", ""), SHARES, tuple(rows), strong=frozenset({0}))


def _is_fine(walk: Walk, step: Step) -> bool:
    given = walk.answers.get(step.id)
    return given is not None and given.answer == "ok"


def _done(walk: Walk, step: Step, words: Words) -> str:
    """A step by its title, and the way in which it was done where there are several."""
    given = walk.answers[step.id]
    if not given.choice:
        return words.text(step.title)
    return words("report-checked-step", step=step.title, what=given_word(step, given, words))


def _placed(step: Step) -> tuple[Item, ...]:
    """List the lamps and reflectors that a step looks at."""
    if step.part != "lamps":
        return ()
    return tuple(item for item in step.items if item.kind not in UNPLACED)


def _lamps_checked(walk: Walk, words: Words) -> Iterator[str]:
    """Tell the lamps of each spot in few words; several looks at one lamp count once.

    Of a step that found a fault the lamps that nobody named are told too. A lamp that was found
    wrong at one step is not told for having been right at another.
    """
    wrong: set[str] = set()
    looked: list[tuple[str, Item]] = []
    for step in walk.steps:
        answered = walk.answers.get(step.id)
        if answered is None or answered.answer in ("not_checked", "not_fitted"):
            continue
        whole_step = answered.answer in FAULTS and not answered.seen
        for item in _placed(step):
            seen = answered.seen.get(item.id)
            if whole_step or (seen is not None and seen != "built_so"):
                wrong |= _lamps(item)
            else:
                looked.append((step.spot, item))
    spots: dict[str, list[Item]] = {}
    listed_lamps: set[str] = set()
    # What shows most of a housing names it: "tail and stop lamp" rather than each of both.
    for spot, item in sorted(looked, key=lambda each: -len(each[1].lamps)):
        lamps = _lamps(item)
        if not lamps & wrong and lamps - listed_lamps:
            listed_lamps |= lamps
            spots.setdefault(spot, []).append(item)
    for spot in dict.fromkeys(spot for spot, _ in looked):
        if items := spots.get(spot):
            where = message(f"picture-at-{spot.replace('_', '-')}")
            yield words("report-checked-at", where=where, what=items_text(items, words))


def _lamps(item: Item) -> set[str]:
    return set(item.lamps) or {item.id}
