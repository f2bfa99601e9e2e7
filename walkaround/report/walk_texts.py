"""Texts about a walk as a whole, and about the results of its air holds."""

from __future__ import annotations

from collections import Counter

from walkaround.airhold.hold import Hold
from walkaround.base.clock import Moment
from walkaround.base.message import message
from walkaround.brakes.not_covered import not_covered
from walkaround.comparison.later_walks import Later, left_open
from walkaround.vehicle.model import POWER_UNITS
from walkaround.walk.events import OdometerRead
from walkaround.walk.state import Walk
from walkaround.words.air_hold import (
    hold_ending,
    hold_result,
    limit_words,
    plain_rule,
    span_words,
)
from walkaround.words.clocks import clock_notes
from walkaround.words.language import Words
from walkaround.words.leak import corrected_text, figures_text, remembered_text


def about_words(walk: Walk, words: Words) -> list[str]:
    """Return sentences on the walk's air, its conditions, its clocks, and what is not covered."""
    assert walk.plan is not None
    covered = not_covered(walk.plan.vehicle) if walk.plan.scope != "lamps" else ()
    return [*went_by_words(walk, words), *map(words.text, covered)]


def went_by_words(walk: Walk, words: Words) -> list[str]:
    """Return sentences on the walk's air, on its conditions, and on changes of the clocks."""
    plan = walk.plan
    assert plan is not None
    sentences: list[str] = []
    if any(step.air for step in plan.steps):
        if plan.vehicle.kind not in POWER_UNITS:
            sentences.append(words(f"record-air-{plan.air}"))
        if plan.towed:
            sentences.append(words("record-towed", count=plan.towed))
    if remembered := remembered_text(plan, words):
        sentences.append(remembered)
    if plan.shop:
        sentences.append(figures_text(plan.shop, words))
    return [*sentences, *clock_notes(walk.events, words)]


def time_text(moment: Moment, words: Words) -> str:
    """Return a time with its time zone, since others may read it in another one."""
    local = moment.local()
    offset = local.strftime("%z")
    zone = "zero" if offset in ("", "+0000") else "other"
    time = f"{local:%Y-%m-%d %H:%M}"
    return words("report-time", time=time, zone=zone, offset=f"{offset[:3]}:{offset[3:5]}")


def odometer_text(reading: OdometerRead) -> str:
    """Return what an odometer showed, in the unit in which it was read."""
    return f"{reading.value} {reading.unit}"


def headline_text(walk: Walk, later: Later, words: Words) -> str:
    """Say in one line what a walk found, and how much of it later walks found OK."""
    count = len(walk.open_defects)
    still_open = left_open(walk, later)
    if still_open == count:
        return words("summary-headline", count=count)
    ended = "early" if walk.ended_early else "whole"
    return words("summary-headline-since", ended=ended, count=count, left=still_open)


def later_words(later: Later, step: str, words: Words) -> list[str]:
    """Return what later walks found at a step that was left open, one sentence for each."""
    return [
        words(
            f"report-later-{look.state}",
            who=look.who,
            time=time_text(look.at, words),
            walk=look.walk,
        )
        for look in later.get(step, ())
    ]


def ways_text(walk: Walk, words: Words) -> str:
    """Say how many answers were given in which way; empty if all were tapped."""
    ways = Counter(answer.by for answer in walk.answers.values())
    if not ways.keys() - {"tap"}:
        return ""
    counts = tuple(message(f"report-by-{by}", count=ways[by]) for by in sorted(ways))
    return words("report-answered", ways=counts)


def result_text(walk: Walk, hold: Hold, words: Words) -> str:
    """Return the result of a hold: each gauge's verdict, bounds and plain rule result; its end.

    The effect of the air's temperature, if it was given, comes last.
    """
    if hold.void:
        return words("record-void", why=hold.void)
    sentences: list[str] = []
    for line, assessment in hold.results().items():
        sentences.append(hold_result(line, assessment, hold, words))
        if assessment.reason != "misread":
            sentences.append(words("record-bounds", span=span_words(assessment, words)))
        if assessment.verdict != "undecided" or hold.ended == "settling":
            sentences.append(plain_rule(assessment, hold.rule.limit_psi_per_min, words))
    if sentences:
        sentences += [hold_ending(hold, words), limit_words(hold.rule, words)]
    if hold.air_c:
        sentences.append(corrected_text(hold, hold.air_c, words, walk.altitude_m))
    return " ".join(filter(None, sentences))
