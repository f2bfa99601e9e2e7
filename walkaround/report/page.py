"""The contents of the page of a walk, and their order.

What is wrong comes first, then what was not checked and why, then what was checked, in groups. It
never says that a vehicle is safe, and nothing makes it look like the report of a periodic
inspection: see tests/standards/test_report_396.py.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from walkaround.base.message import message
from walkaround.base.units import AS_WRITTEN
from walkaround.comparison.later_walks import NOTHING_LATER, Later
from walkaround.diagnosis.findings import NOTHING_LIKELY, Likely
from walkaround.drawing.paper.vehicle import PlaceLabel, findings_svg
from walkaround.report.checked_items import SHARES, checked_blocks, unchecked_blocks
from walkaround.report.contents import (
    NO_PHOTOS,
    Block,
    Contents,
    Photo,
    Prose,
    ReportPicture,
    Section,
    Table,
)
from walkaround.report.findings import Finding, findings_of, likely_blocks
from walkaround.report.measurements import hold_blocks, limits, other_values, stroke_blocks
from walkaround.report.signatures.signature_lines import signed_lines
from walkaround.report.walk_texts import (
    headline_text,
    odometer_text,
    time_text,
    ways_text,
    went_by_words,
)
from walkaround.vehicle.model import kind_words
from walkaround.walk.events import Finished
from walkaround.walk.state import Walk, answer_counts
from walkaround.words.language import Words
from walkaround.words.leak import gauges_text


class WalkContext(NamedTuple):
    """What a page tells of a walk that its events do not.

    Attributes:
        damage: a sentence about what the walk's file has lost; empty if nothing.
        photos: the available photos of the walk, by their digests.
        likely: the likely causes of open defects.
        later: what later walks found of open defects.
        shop: the shop in which it was walked; empty if it is not known.
    """

    damage: str = ""
    photos: Mapping[str, bytes] = NO_PHOTOS
    likely: Likely = NOTHING_LIKELY
    later: Later = NOTHING_LATER
    shop: str = ""


NO_CONTEXT = WalkContext()


def contents_of(walk: Walk, words: Words, context: WalkContext = NO_CONTEXT) -> Contents:
    """Make the contents of the page of a walk that has begun.

    Args:
        walk: the walk; the page says so if it is still under way.
        words: the language; quantities are in the units of the rules.
        context: what is known of it besides.
    """
    assert walk.plan is not None
    words, vehicle = words.shown_in(AS_WRITTEN), walk.plan.vehicle
    findings = findings_of(walk, words, context.later)
    sections = [
        (words("report-wrong"), [*_wrong(walk, findings, words)]),
        (words("causes-title"), [*likely_blocks(context.likely, words)]),
        (words("report-photos"), [*_photos(walk, findings, context.photos, words)]),
        (words("report-unchecked"), [*unchecked_blocks(walk, words)]),
        (words("report-checked"), [*checked_blocks(walk, words)]),
        (words("report-holds"), [*hold_blocks(walk, words)]),
        (words("report-strokes"), [*stroke_blocks(walk, words)]),
        (words("report-measured"), [*other_values(walk, words)]),
        (words("report-sources"), [*_sources(walk, findings, words)]),
        (words("report-notes"), [*_notes(walk, findings, words)]),
        (words("report-by-hand"), [*signed_lines(walk, words)]),
        (words("report-about-walk"), [*_about(walk, words, context.damage)]),
    ]
    return Contents(
        language=words.language,
        paper="letter" if vehicle.rules == "us" else "a4",
        title=vehicle.name,
        about=words("report-about"),
        stamp=_stamp(walk, words),
        facts=tuple(_head(walk, words, context.shop)),
        headline=headline_text(walk, context.later, words),
        sections=tuple(Section(title, tuple(blocks)) for title, blocks in sections if blocks),
        foot=words("report-foot", vehicle=vehicle.name, walk=walk.id),
        page=words("report-page"),
    )


def _stamp(walk: Walk, words: Words) -> str:
    assert walk.plan is not None
    if walk.phase != "finished":
        return words("report-stamp-going")
    partial, early = walk.plan.scope != "whole", walk.ended_early
    if partial and early:
        return words("report-stamp-both")
    if early:
        return words("report-stamp-ended-early")
    return words("report-stamp-partial") if partial else ""


def _head(walk: Walk, words: Words, shop: str) -> Iterator[tuple[str, str]]:
    """Return the facts at the top: vehicle, people, place and times; missing ones are named."""
    plan = walk.plan
    assert plan is not None
    vehicle, not_given = plan.vehicle, words("report-not-given")
    last = max(walk.answers.values(), key=lambda answer: answer.seq, default=None)
    end = next((event for event in walk.events if isinstance(event, Finished)), None)
    who = dict.fromkeys(event.who for event in walk.events)
    yield words("report-vehicle"), vehicle.id
    yield words("report-kind"), words.text(kind_words(vehicle.kind))
    yield words("report-plate"), vehicle.plate or not_given
    yield words("report-vin"), vehicle.vin or not_given
    if walk.odometer:
        yield words("report-odometer"), odometer_text(walk.odometer)
    yield words("report-scope"), words(f"report-scope-{plan.scope}")
    if plan.recheck_of:
        yield words("report-recheck-of"), plan.recheck_of
    yield words("report-who"), words.row(who)
    yield words("report-begun"), time_text(walk.events[0].at, words)
    if last:
        yield words("report-last-answer"), time_text(last.at, words)
    if end:
        yield words("report-closed"), time_text(end.at, words)
    yield words("report-walk"), walk.id
    # A walk has no place: if the shop is not known either, the line is left to fill in by hand.
    yield words("report-where"), shop


def _wrong(walk: Walk, findings: tuple[Finding, ...], words: Words) -> Iterator[Block]:
    if not findings:
        yield Prose(words("report-wrong-none"))
        return
    assert walk.plan is not None
    labels, listed, others = _labels(findings)
    if labels:
        picture = words("report-plan", count=len(listed), findings=words.row(listed))
        yield ReportPicture(findings_svg(walk.plan, labels, picture, words.text))
        key = [words("report-plan-key")]
        key += [words("report-not-on-plan", numbers=words.row(others))] if others else []
        yield Prose(" ".join(key), "quiet")
    head = tuple(words(f"report-{column}") for column in ("no", "what", "done", "state"))
    rows = tuple(_finding_row(walk, finding, words) for finding in findings)
    yield Table(head, (0.07, 0.47, 0.27, 0.19), rows, strong=frozenset({0, 3}))


def _labels(findings: Iterable[Finding]) -> tuple[list[PlaceLabel], list[str], list[str]]:
    """Return the labels on the plan, their texts for screen readers, and unlabeled numbers."""
    at_mark: dict[str, list[str]] = {}
    still_open: set[str] = set()
    listed, others = [], []
    for finding in findings:
        for fault in finding.faults:
            if not fault.mark or finding.state == "withdrawn":
                others.append(str(fault.number))
                continue
            at_mark.setdefault(fault.mark, []).append(str(fault.number))
            listed.append(f"{fault.number} {fault.what}")
            if finding.state == "open" and not finding.is_cured:
                still_open.add(fault.mark)
    labels = [
        PlaceLabel(mark, (", ".join(numbers),), loud=mark in still_open)
        for mark, numbers in at_mark.items()
    ]
    return labels, listed, others


def _finding_row(walk: Walk, finding: Finding, words: Words) -> tuple[str, ...]:
    found_by, closed, faults = finding.found, finding.closed, finding.faults
    texts = [fault.what if len(faults) == 1 else f"{fault.number} {fault.what}" for fault in faults]
    what = [
        words("report-found", step=finding.step.title, what="; ".join(texts)),
        finding.figures,
        words("report-found-by", who=found_by.who, time=time_text(found_by.at, words)),
    ]
    note = walk.notes.get(finding.step.id, "")
    done_lines = [words("report-note", note=note)] if note else []
    repair = walk.repairs.get(finding.step.id)
    if repair:
        at = time_text(repair.at, words)
        done_lines.append(words("report-repair-done", what=repair.what, who=repair.who, time=at))
    if closed is None:
        state = words("report-open-cured" if finding.is_cured else "report-open")
        done_lines += finding.later
        done_lines += [] if repair or finding.is_cured else [words("report-repair-to-write")]
    else:
        at = time_text(closed.at, words)
        state = words(f"report-{finding.state}", who=closed.who, time=at)
    return finding.numbers, "\n".join(filter(None, what)), "\n".join(done_lines), state


def _photos(
    walk: Walk, findings: Iterable[Finding], photos: Mapping[str, bytes], words: Words
) -> Iterator[Block]:
    """Return every photo, those of findings first, and say how many are missing."""
    numbers = {finding.step.id: finding.numbers for finding in findings}
    steps = [step for step in walk.steps if step.id in walk.photos]
    steps.sort(key=lambda step: step.id not in numbers)
    share, lost_count = 1 / (3 if len(walk.photos_taken) <= 3 else 4), 0
    for step in steps:
        caption = words.text(step.title)
        if step.id in numbers:
            caption = words("report-photo-of", numbers=numbers[step.id], step=step.title)
        for photo in walk.photos[step.id]:
            if photo in photos:
                yield Photo(photos[photo], caption, share)
            lost_count += photo not in photos
    if lost_count:
        yield Prose(words("report-photos-lost", count=lost_count))


def _sources(walk: Walk, findings: Iterable[Finding], words: Words) -> Iterator[Block]:
    """Make the table of the rule behind each finding, then of each limit that was applied."""
    numbers: dict[str, list[str]] = {}
    for finding in findings:
        step, source = finding.step, finding.step.source
        if step.provenance not in ("read", source):
            memory = step.provenance == "memory"
            source = words("source-from-memory" if memory else "source-none", source=source)
        if step.doubt:
            source = words("report-source-in-doubt", source=source, doubt=step.doubt)
        numbers.setdefault(source, []).append(finding.numbers)
    rows = [
        (words("report-rule-of", numbers=words.row(finding_numbers)), source)
        for source, finding_numbers in numbers.items()
    ]
    rows += limits(walk, words)
    if rows:
        yield Table(("", ""), SHARES, tuple(rows), strong=frozenset({0}))


def _notes(walk: Walk, findings: Iterable[Finding], words: Words) -> Iterator[Block]:
    """Make the table of notes at steps without a finding, and of the vehicle's own notes."""
    assert walk.plan is not None
    vehicle, beside = walk.plan.vehicle, {finding.step.id for finding in findings}
    rows = [
        (words.text(step.title), walk.notes[step.id])
        for step in walk.steps
        if walk.notes.get(step.id) and step.id not in beside
    ]
    if vehicle.notes:
        rows.append((words("report-vehicle-note"), vehicle.notes))
    if vehicle.damage:
        rows.append((words("report-known-damage"), "\n".join(vehicle.damage)))
    if rows:
        yield Table(("", ""), SHARES, tuple(rows), strong=frozenset({0}))


def _about(walk: Walk, words: Words, damage: str) -> Iterator[Block]:
    tally = answer_counts(walk)
    answers = tuple(
        message(f"summary-count-{answer.replace('_', '-')}", count=tally[answer])
        for answer in ("ok", "defect", "missing", "not_fitted", "not_checked")
        if tally[answer]
    )
    lines = [words("report-counts", count=tally["steps"], answers=answers)]
    if walk.phase != "finished":
        lines.insert(0, words("report-going"))
    elif walk.ended_early:
        lines.insert(0, words("report-ended-early"))
    if walk.told_gauges:
        lines.append(words("report-gauges", gauges=gauges_text(walk.told_gauges, words)))
    lines += [ways] if (ways := ways_text(walk, words)) else []
    lines += went_by_words(walk, words)
    lines += [damage] if damage else []
    lines.append(words("record-notice"))
    yield Prose(" ".join(lines), "quiet")
