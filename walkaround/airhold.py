"""An air hold: readings of one gauge in, leak rate and its bounds out.

The rate is the least-squares slope of pressure over time. Its bounds come from what the gauge
and the eye can tell: a gauge read to the nearest `gauge_step_psi` is off by a uniform error of
half a step (variance step^2 / 12), the eye by a normal error of `read_sd_psi`. With both known
beforehand the bounds are rate +- 1.96 standard errors of the slope; nothing is estimated from the
scatter of three points.

The plain rule result is what a stopwatch and a card give: the drop from the first reading to the
last, per minute, against the limit; a drop equal to the limit passes (49 CFR 570.57(a)(5): "not
more than").
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

import numpy as np

from walkaround.errors import InputError, Problem

Verdict = Literal["within", "over", "undecided"]
RuleVerdict = Literal["within", "over"]
Reading = tuple[float, float]
"""Seconds into the hold, and psi gauge."""

Z95 = 1.959964
"""Two-sided 95 % point of the normal distribution."""
HOLD_MORE_S = 15.0
"""Seconds to the next reading while a hold is undecided."""
MOST_S = 3600.0
"""No hold is watched for longer."""
MOST_PSI = 300.0
"""No gauge on a vehicle shows more."""
LEAST_GAP_S = 0.01
"""Readings closer than this are one reading: no rate can be told from them."""


@dataclass(frozen=True, slots=True)
class Assessment:
    """What a hold shows. Rates are losses: positive when pressure falls.

    Attributes:
        rate_psi_per_min: least-squares rate.
        low_psi_per_min, high_psi_per_min: its 95 % bounds.
        verdict: whether the bounds lie on one side of the limit.
        hold_more_s: seconds to the next reading; 0 once decided.
        rule_rate_psi_per_min: drop from first to last reading, per minute.
        rule_verdict: that rate against the limit; equal passes.
    """

    rate_psi_per_min: float
    low_psi_per_min: float
    high_psi_per_min: float
    verdict: Verdict
    hold_more_s: float
    rule_rate_psi_per_min: float
    rule_verdict: RuleVerdict


def assess(
    readings: Sequence[Reading],
    limit_psi_per_min: float,
    gauge_step_psi: float = 1.0,
    read_sd_psi: float = 0.25,
) -> Assessment:
    """Judge one gauge's readings against a limit.

    Args:
        readings: (seconds, psi) pairs, at least two, times rising.
        limit_psi_per_min: the most that may be lost.
        gauge_step_psi: the gauge is read to the nearest such step.
        read_sd_psi: standard deviation of the eye's error.

    Raises:
        InputError: too few readings, times that do not rise, or numbers that cannot be.
    """
    given = {
        "limit_psi_per_min": limit_psi_per_min,
        "gauge_step_psi": gauge_step_psi,
        "read_sd_psi": read_sd_psi,
    }
    problems = [*_problems(readings), *_odd_numbers(given)]
    if problems:
        raise InputError(problems)
    minutes = np.array([seconds / 60.0 for seconds, _ in readings])
    psi = np.array([value for _, value in readings])
    away = minutes - minutes.mean()
    spread = float(away @ away)
    rate = -float(away @ psi) / spread
    error = math.sqrt((gauge_step_psi**2 / 12.0 + read_sd_psi**2) / spread)
    low, high = rate - Z95 * error, rate + Z95 * error
    verdict: Verdict = "undecided"
    if high <= limit_psi_per_min:
        verdict = "within"
    elif low > limit_psi_per_min:
        verdict = "over"
    rule_rate = float((psi[0] - psi[-1]) / (minutes[-1] - minutes[0]))
    # A rate that differs from the limit by rounding only is the limit, and passes.
    rule_within = rule_rate <= limit_psi_per_min or math.isclose(rule_rate, limit_psi_per_min)
    return Assessment(
        rate_psi_per_min=rate,
        low_psi_per_min=low,
        high_psi_per_min=high,
        verdict=verdict,
        hold_more_s=HOLD_MORE_S if verdict == "undecided" else 0.0,
        rule_rate_psi_per_min=rule_rate,
        rule_verdict="within" if rule_within else "over",
    )


def _problems(readings: Sequence[Reading]) -> list[Problem]:
    if len(readings) < 2:
        return [Problem("readings", "", f"only {len(readings)} given", "take at least two")]
    problems = []
    for number, (seconds, psi) in enumerate(readings, start=1):
        if not 0 <= seconds <= MOST_S:
            mend = f"0 to {MOST_S:g} s is"
            problems.append(_bad(number, f"{seconds} s is no time in a hold", mend))
        if not 0 <= psi <= MOST_PSI:
            mend = f"0 to {MOST_PSI:g} psi is"
            problems.append(_bad(number, f"{psi} psi is no gauge pressure", mend))
    times = [seconds for seconds, _ in readings]
    for number, (earlier, later) in enumerate(pairwise(times), start=2):
        if later - earlier < LEAST_GAP_S:
            problems.append(_bad(number, "its time does not rise", "put readings in order of time"))
    return problems


def _odd_numbers(given: Mapping[str, float]) -> list[Problem]:
    return [
        Problem("argument", name, f"{value} cannot be", f"give 0 to {MOST_PSI:g}")
        for name, value in given.items()
        if not 0 <= value <= MOST_PSI
    ]


def _bad(number: int, what: str, mend: str) -> Problem:
    return Problem("readings", f"reading {number}", what, mend)
