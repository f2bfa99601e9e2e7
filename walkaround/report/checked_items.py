"""The blocks of the page on what was checked without a fault, and on what was not checked."""

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
"""The parts of a walk in each group of the page."""
SHARES = (0.2, 0.8)
"""The shares of the width of a row's title and its text."""


def unchecked_blocks(walk: Walk, words: Words) -> Iterator[Block]:
    """Make the table of steps that were not checked, by the reason, and of what is not covered."""
    assert walk.plan is not None
    titles_by_reason: dict[str, list[str]] = {}
    for step in walk.steps:
        answered = walk.answers.get(step.id)
        title = words.text(step.title)
        if answered is None:
            titles_by_reason.setdefault(words("report-not-reached"), []).append(title)
        elif answered.answer == "not_checked":
            why = reason_text(answered.reason or "other", words)
            titles_by_reason.setdefault(why, []).append(title)
    rows = [
        (words("report-unchecked-row", why=why, count=len(titles)), "; ".join(titles))
        for why, titles in titles_by_reason.items()
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
    """Return what is not required and not fitted: whole steps, and single lamps of others."""
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
    """Make the table of what was done, or checked without a fault, by group."""
    rows = []
    for group, parts in _GROUPS.items():
        steps = [step for step in walk.steps if step.part in parts and _is_fine(walk, step)]
        lines = list(_lamps_checked(walk, words)) if group == "lamps" else []
        lines += [
            _done_text(walk, step, words) for step in steps if not lines or not _placed_items(step)
        ]
        if lines:
            title = words(f"report-group-{group}")
            rows.append((title, "; ".join(lines)))
    if rows:
        yield Table(("", ""), SHARES, tuple(rows), strong=frozenset({0}))


def _is_fine(walk: Walk, step: Step) -> bool:
    answer = walk.answers.get(step.id)
    return answer is not None and answer.answer == "ok"


def _done_text(walk: Walk, step: Step, words: Words) -> str:
    """Return the title of a step, and how it was done if there are several ways."""
    answer = walk.answers[step.id]
    if not answer.choice:
        return words.text(step.title)
    return words("report-checked-step", step=step.title, what=given_word(step, answer, words))


def _placed_items(step: Step) -> tuple[Item, ...]:
    """Return the lamps and reflectors of a lamp step; empty for another step."""
    if step.part != "lamps":
        return ()
    return tuple(item for item in step.items if item.kind not in UNPLACED)


def _lamps_checked(walk: Walk, words: Words) -> Iterator[str]:
    """Return the checked lamps of each spot in few words; a lamp checked several times counts once.

    Lamps of a step with a fault are listed too, if the fault is not theirs. A lamp that was wrong
    at one step is not listed for being right at another.
    """
    faulty_lamps: set[str] = set()
    checked: list[tuple[str, Item]] = []
    for step in walk.steps:
        answered = walk.answers.get(step.id)
        if answered is None or answered.answer in ("not_checked", "not_fitted"):
            continue
        whole_step = answered.answer in FAULTS and not answered.seen
        for item in _placed_items(step):
            seen = answered.seen.get(item.id)
            if whole_step or (seen is not None and seen != "built_so"):
                faulty_lamps |= _lamps(item)
            else:
                checked.append((step.spot, item))
    spots: dict[str, list[Item]] = {}
    listed_lamps: set[str] = set()
    # The item with the most lamps names a housing: "tail and stop lamp", not each of both.
    for spot, item in sorted(checked, key=lambda each: -len(each[1].lamps)):
        lamps = _lamps(item)
        if not lamps & faulty_lamps and lamps - listed_lamps:
            listed_lamps |= lamps
            spots.setdefault(spot, []).append(item)
    for spot in dict.fromkeys(spot for spot, _ in checked):
        if items := spots.get(spot):
            where = message(f"picture-at-{spot.replace('_', '-')}")
            yield words("report-checked-at", where=where, what=items_text(items, words))


def _lamps(item: Item) -> set[str]:
    return set(item.lamps) or {item.id}
