"""The findings of a walk: what was wrong, step by step, each fault with a number of its own.

Also the blocks of the page on likely causes, and on what was tried to find them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from walkaround.comparison.later_walks import NOTHING_LATER, Later, is_cured
from walkaround.diagnosis.findings import Findings, Likely, percent_likely
from walkaround.plan.steps import UNPLACED, Step
from walkaround.report.checked_items import SHARES
from walkaround.report.contents import Block, Table
from walkaround.report.walk_texts import later_words, result_text
from walkaround.walk.advance import fold
from walkaround.walk.chambers import ends_of
from walkaround.walk.events import NO_FAULT, Answered
from walkaround.walk.state import Defect, DefectState, Walk
from walkaround.words.air_hold import hold_results
from walkaround.words.answers import answer_text, seen_text
from walkaround.words.chambers import chambers_text
from walkaround.words.language import Words, capital
from walkaround.words.measured_values import outcome_text, values_at

_MOST_ALIKE = 3


@dataclass(frozen=True, slots=True)
class ReportedDefect:
    """One fault.

    Attributes:
        number: its number from 1, in the order of the walk.
        mark: the id of its mark on the plan; empty if it has none.
        what: the item and what was seen; only the answer if no item was named.
    """

    number: int
    mark: str
    what: str


@dataclass(frozen=True, slots=True)
class Finding:
    """A step at which something was found wrong.

    Attributes:
        step: the step.
        faults: the faults, one for each lamp or place.
        figures: what was measured, with its limit; empty if nothing was.
        found: the answer that found it.
        state: open; rechecked and OK; or withdrawn, said by mistake.
        closed: the answer that rechecked or withdrew it; None while it is open.
        later: what later walks found of it, one sentence for each, if it was left open.
        is_cured: whether the last of them found it OK.
    """

    step: Step
    faults: tuple[ReportedDefect, ...]
    figures: str
    found: Answered
    state: DefectState
    closed: Answered | None
    later: tuple[str, ...] = ()
    is_cured: bool = False

    @property
    def numbers(self) -> str:
        """The numbers of its faults: "3", "3-5"."""
        first, last = self.faults[0].number, self.faults[-1].number
        return f"{first}" if first == last else f"{first}-{last}"


def findings_of(walk: Walk, words: Words, later: Later = NOTHING_LATER) -> tuple[Finding, ...]:
    """List the findings of a walk: open, rechecked and withdrawn ones."""
    findings: list[Finding] = []
    number = 1
    for step in walk.steps:
        defect = walk.defects.get(step.id)
        if defect is None:
            continue
        texts = enumerate(_seen(walk, step, defect, words), start=number)
        faults = tuple(ReportedDefect(at, mark, what) for at, (mark, what) in texts)
        number += len(faults)
        figures = _figures(walk, step, defect, words)
        findings.append(
            Finding(
                step=step,
                faults=faults,
                figures=figures,
                found=defect.found,
                state=defect.state,
                closed=defect.closed,
                later=tuple(later_words(later, step.id, words)) if defect.closed is None else (),
                is_cured=is_cured(later, step.id),
            )
        )
    return tuple(findings)


def _seen(walk: Walk, step: Step, defect: Defect, words: Words) -> Iterator[tuple[str, str]]:
    """Return the mark and the text of each faulty item; of the whole step if none was named."""
    marks = {mark.id for mark in walk.plan.marks} if walk.plan else set()
    items = {item.id: item for item in step.items}
    wrong = {id_: what for id_, what in defect.found.seen.items() if what not in NO_FAULT}
    for id_, what in wrong.items():
        item = items.get(id_)
        place = item.place if item and item.kind not in UNPLACED else ""
        name = item.name if item else id_
        line = words("seen-of-item", item=name, seen=seen_text(what, words))
        yield place if place in marks else "", line
    if not wrong:
        places = {item.place for item in step.items if item.kind not in UNPLACED} & marks
        mark = next(iter(places)) if len(places) == 1 else ""
        yield mark, answer_text(defect.found.answer, words)


def _figures(walk: Walk, step: Step, defect: Defect, words: Words) -> str:
    """Return what was measured when the defect was found, not at a recheck."""
    if step.measure:
        return outcome_text(step.measure, values_at(walk.events, defect.found), words)
    if step.kind not in ("hold", "chambers"):
        return ""
    walk_then = fold(event for event in walk.events if event.seq <= defect.found.seq)
    if step.kind == "chambers":
        return "; ".join(chambers_text(walk_then, ends_of(step), words))
    hold = walk_then.holds.get(step.id)
    if hold is None:
        return ""
    # The page has the last hold in full; a hold that was repeated is only reported here.
    is_last = hold == walk.holds.get(step.id) and not hold.void
    return hold_results(hold, words) if is_last else result_text(walk_then, hold, words)


def likely_blocks(likely: Likely, words: Words) -> Iterator[Block]:
    """Make the table of likely causes: a row for the lamps, and one for the air."""
    rows = [
        (words(f"report-likely-{where}"), "\n".join(likely_lines(causes, words)))
        for where, causes in (("lamps", likely.lamps), ("air", likely.air))
        if causes
    ]
    if rows:
        yield Table(("", ""), SHARES, tuple(rows), strong=frozenset({0}))


def likely_lines(causes: Findings, words: Words) -> Iterator[str]:
    """List the likely causes, the likeliest first, then each trial and its result."""
    for cause, part in causes.likely:
        alike = cause.same_look_names[:_MOST_ALIKE]
        id_ = "report-likely-cause-alike" if alike else "report-likely-cause"
        yield capital(words(id_, cause=cause.name, percent=percent_likely(part), alike=alike))
    if not causes.likely:
        yield words("causes-unexplained")
    for tried in causes.tried:
        yield words("report-tried", what=tried.say, found=tried.outcome)
