"""What was found wrong in a walk, step by step, each lamp or place with a number of its own.

And what is likely the cause of what is still open, with what was tried to find out.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from walkaround.compared.later_walks import NOTHING_LATER, Later, is_cured
from walkaround.diagnosis.findings import Findings, Likely, percent_likely
from walkaround.plan.steps import UNPLACED, Step
from walkaround.report.about import later_words, result_text
from walkaround.report.checked_items import SHARES
from walkaround.report.contents import Block, Table
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
    """One thing that was found wrong.

    Attributes:
        number: from 1, in the order of the walk.
        mark: id of its mark on the plan; empty where it has none.
        what: what was seen of which item; the bare answer where nothing was told.
    """

    number: int
    mark: str
    what: str


@dataclass(frozen=True, slots=True)
class Finding:
    """A step at which something was found wrong.

    Attributes:
        faults: what was wrong, one for each lamp or place.
        figures: what was read, against which limit; empty where nothing was measured.
        found: the answer that found it.
        state: open; rechecked and OK; or withdrawn, said by mistake.
        closed: the answer that rechecked it or took it back; None while it is open.
        later: what walks since say of it, a sentence each, if it was left open.
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
    """List what is wrong, what was and is cured, and what was said and taken back."""
    findings: list[Finding] = []
    number = 1
    for step in walk.steps:
        defect = walk.defects.get(step.id)
        if defect is None:
            continue
        seen = enumerate(_seen(walk, step, defect, words), start=number)
        faults = tuple(ReportedDefect(at, mark, what) for at, (mark, what) in seen)
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
    """Each faulty item of a step, with its mark; the step as a whole where none was told."""
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
    """What was read when it was found, not what a recheck read since."""
    if step.measure:
        return outcome_text(step.measure, values_at(walk.events, defect.found), words)
    if step.kind not in ("hold", "chambers"):
        return ""
    then = fold(event for event in walk.events if event.seq <= defect.found.seq)
    if step.kind == "chambers":
        return "; ".join(chambers_text(then, ends_of(step), words))
    hold = then.holds.get(step.id)
    if hold is None:
        return ""
    # The page tells of the last hold in full; of one that was repeated this is all it tells.
    last = hold == walk.holds.get(step.id) and not hold.void
    return hold_results(hold, words) if last else result_text(then, hold, words)


def likely_blocks(likely: Likely, words: Words) -> Iterator[Block]:
    """Make a row for the lamps, and one for the air, and what was tried to find out."""
    rows = [
        (words(f"report-likely-{where}"), "\n".join(likely_lines(causes, words)))
        for where, causes in (("lamps", likely.lamps), ("air", likely.air))
        if causes
    ]
    if rows:
        yield Table(("", ""), SHARES, tuple(rows), strong=frozenset({0}))


def likely_lines(causes: Findings, words: Words) -> Iterator[str]:
    """List each likely cause, the likeliest first, then what was tried and what came out of it."""
    for cause, part in causes.likely:
        alike = cause.same_look_names[:_MOST_ALIKE]
        id_ = "report-likely-cause-alike" if alike else "report-likely-cause"
        yield capital(words(id_, cause=cause.name, percent=percent_likely(part), alike=alike))
    if not causes.likely:
        yield words("causes-unexplained")
    for tried in causes.tried:
        yield words("report-tried", what=tried.say, found=tried.outcome)
