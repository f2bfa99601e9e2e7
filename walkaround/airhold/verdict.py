"""An air hold: readings of one gauge in, leak rate, its bounds and a verdict out.

**The model.** Over the minutes of a hold a leak takes pressure in a straight line, near enough: a
leak of 2 psi/min at 110 psi slows by 8 % in five minutes. Air that was just charged is warm and
loses pressure as it cools, fast at first and then no more (`cooling`). Nothing that belongs to a
hold makes pressure rise.

**The noise.** A reading is off by the eye, by the time of the look, and by rounding to a mark. All
three are known beforehand, so the error of the rate is worked out from them and not from how a few
readings scatter (`fit`, with its sources).

**The bounds** lie `Z` standard errors on either side of the least-squares rate. Of errors spread
normally, 1 in 100 is above 2.33 standard errors and 1 in 72 above 2.2. But a hold is judged anew
after each reading, up to 19 times in five minutes, and ends at the first look that decides: many
chances to be wrong, though not independent ones, since each look has all the readings of the one
before (repeated significance tests: Armitage, McPherson and Rowe, 1969, from memory). Against that
stands that a leak which all but equals its limit may be put on either side of it. So `Z` was tried
out: with 2.2, over whole holds with readings every 15 s, a leak that is 0.25 psi/min or more from
the limit is put on the wrong side at most once in 100 holds (tests/benchmarks prints the figures).

**The verdict**, the first of these that holds:

1. One reading does not fit the others (`misread`): *over* if with it and without it all else says
   so; otherwise *undecided*, since nobody but who read it knows what it was.
2. *settling*, rising: pressure rose by more than gauge and eye can be off.
3. *settling*, cooling: more was lost at first than the marks crossed since leave room for.
4. *within*: the upper bound is within the limit, and the hold lasted a minute.
5. *over*: the lower bound is above the limit, and no cooling can explain the readings.
6. *settling*, cooling: cooling explains them clearly better than a leak.
7. *undecided*: another reading, until `LONGEST_HOLD_S`.

**The plain rule result** is what a stopwatch and a card give: the drop from the first reading to
the last, per minute, against the limit; a drop equal to the limit passes (49 CFR 570.57(a)(5): "not
more than") unless a manual says "less than".
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np

from walkaround.airhold.cooling import is_cooling, leak_is_plain
from walkaround.airhold.fit import ATMOSPHERE_PSI, TIME_SD_S, Fall, fall_of
from walkaround.airhold.outliers import outliers
from walkaround.airhold.readings import (
    LEAST_GAP_S,
    Reading,
    argument_problems,
    crossing_problems,
    reading_problems,
)
from walkaround.base.errors import InputError

Verdict = Literal["within", "over", "undecided", "settling"]
RuleVerdict = Literal["within", "over"]
UndecidedReason = Literal["", "cooling", "rising", "few", "bounds", "misread"]
"""Why a hold is not decided. Settling air is cooling or rising. What is undecided has too few
readings yet, may be cooling, has the limit between its bounds, or a reading that does not fit."""
JUDGED_BY = 2
"""Goes up when the same readings may be judged otherwise than by the version before, so that a
recorded hold is not judged anew by a version that did not see it."""

Z = 2.2
"""Standard errors from the rate to each of its bounds."""
Z_EYE = 1.65
"""On coarse marks rounding is no normal error: the bounds are no closer than its worst and this
many standard errors of the eye."""
Z_MORE, FINE_SHARE = 0.75, 0.6
"""With few readings on coarse marks one mark more or less decides: `Z` grows by `Z_MORE` times
the share that rounding has in a reading's variance, as far as it is above `FINE_SHARE`. A 1 psi
gauge is below it."""
NEAR_PSI_PER_MIN = 0.25
"""Leaks closer to the limit than this cannot be told from it for sure within `LONGEST_HOLD_S`."""
RISE_SDS = 3.0
"""A reading this many standard deviations, and a step, above an earlier one has risen."""
HOLD_MORE_S = 15.0
"""Seconds to the next reading while a hold is undecided."""
LEAST_S = 55.0
"""Nothing is found within the limit sooner: a minute, less a slow hand at each end of it."""
LONGEST_HOLD_S = 300.0
"""An undecided hold is given up after this."""


@dataclass(frozen=True, slots=True)
class Assessment:
    """The result of a hold. Rates are losses: positive when pressure falls.

    Attributes:
        rate_psi_per_min: least-squares rate.
        low_psi_per_min, high_psi_per_min: its bounds, `Z` standard errors away.
        verdict: whether both bounds lie on one side of the limit, or the air is still settling.
        hold_more_s: seconds to the next reading; 0 once there is nothing to wait for.
        rule_rate_psi_per_min: drop from first to last reading, per minute.
        rule_verdict: that rate against the limit.
        reason: why it is not decided; empty once it is within or over.
        misread: the one reading that does not fit the others; None if all fit, or if it is one of
            several and the next reading will tell which.
    """

    rate_psi_per_min: float
    low_psi_per_min: float
    high_psi_per_min: float
    verdict: Verdict
    hold_more_s: float
    rule_rate_psi_per_min: float
    rule_verdict: RuleVerdict
    reason: UndecidedReason = ""
    misread: Reading | None = None


def assess(
    readings: Sequence[Reading],
    limit_psi_per_min: float,
    gauge_step_psi: float = 1.0,
    read_sd_psi: float = 0.25,
    *,
    equal_passes: bool = True,
) -> Assessment:
    """Judge one gauge's readings against a limit.

    Args:
        readings: (seconds, psi) pairs, at least two, times rising.
        limit_psi_per_min: the most that may be lost.
        gauge_step_psi: the gauge is read to the nearest such step.
        read_sd_psi: standard deviation of the eye's error.
        equal_passes: whether a drop equal to the limit passes.

    Raises:
        InputError: too few readings, times that do not rise, or numbers that cannot be.
    """
    arguments = {
        "limit_psi_per_min": limit_psi_per_min,
        "gauge_step_psi": gauge_step_psi,
        "read_sd_psi": read_sd_psi,
    }
    if problems := [*reading_problems(readings), *argument_problems(arguments)]:
        raise InputError(problems)
    fall = fall_of(readings, gauge_step_psi, read_sd_psi)
    low, high = _bounds(fall, limit_psi_per_min)
    judged = _assessment_of(fall, low, high, limit_psi_per_min, fall.held_s, equal_passes)
    outlier_indexes = outliers(fall, limit_psi_per_min)
    if not outlier_indexes:
        return judged
    number = outlier_indexes[0] if len(outlier_indexes) == 1 else None
    if number is not None and _is_over(fall, limit_psi_per_min):
        other_readings = [*readings[:number], *readings[number + 1 :]]
        if _is_over(fall_of(other_readings, gauge_step_psi, read_sd_psi), limit_psi_per_min):
            return replace(
                judged, verdict="over", reason="", hold_more_s=0.0, misread=readings[number]
            )
    # Of several, or if it is the last, the next reading tells; otherwise none will.
    tells = number in (None, len(readings) - 1)
    return replace(
        judged,
        verdict="undecided",
        reason="misread",
        hold_more_s=_more_s(fall.held_s) if tells else 0.0,
        misread=None if number is None else readings[number],
    )


def assess_crossings(
    crossings: Sequence[Reading],
    watched_s: float,
    limit_psi_per_min: float,
    mark_step_psi: float,
    read_sd_psi: float = 0.25,
    tap_sd_s: float = TIME_SD_S,
    *,
    equal_passes: bool = True,
) -> Assessment:
    """Judge a gauge that was tapped as its needle crossed marks: nothing is rounded.

    Since the needle has not crossed another mark until `watched_s`, less than one more step was
    lost: that bounds the rate from above. With a single tap it is all that is known; the rate
    and the plain rule then take the needle to be halfway to the next mark.

    Args:
        crossings: (seconds, psi) of each tap, at least one; the first may be the mark that the
            needle stood on when the hold began.
        watched_s: until when the needle was watched, on the same clock.
        limit_psi_per_min: the most that may be lost.
        mark_step_psi: how far apart the marks are.
        read_sd_psi: standard deviation of the eye's error.
        tap_sd_s: standard deviation of a tap's time, s.
        equal_passes: whether a drop equal to the limit passes.

    Raises:
        InputError: no tap, times that do not rise, marks that cannot be, or other odd numbers.
    """
    arguments = {
        "limit_psi_per_min": limit_psi_per_min,
        "mark_step_psi": mark_step_psi,
        "read_sd_psi": read_sd_psi,
        "tap_sd_s": tap_sd_s,
    }
    problems = [*argument_problems(arguments)]
    if problems := problems or [*crossing_problems(crossings, watched_s, mark_step_psi)]:
        raise InputError(problems)
    (first_s, first_psi), (last_s, last_psi) = crossings[0], crossings[-1]
    most_psi = first_psi - last_psi + mark_step_psi + Z * math.sqrt(2.0) * read_sd_psi
    most = 60.0 * most_psi / max(watched_s - first_s - tap_sd_s, tap_sd_s, LEAST_GAP_S)
    if len(crossings) > 1:
        fall = fall_of(crossings, 0.0, read_sd_psi, tap_sd_s)
        low, high = _bounds(fall, limit_psi_per_min)
        low *= _slowed_rate(fall, watched_s - last_s)
    else:
        halfway = (watched_s, max(0.0, last_psi - mark_step_psi / 2.0))
        fall = fall_of([(last_s, last_psi), halfway], 0.0, read_sd_psi, tap_sd_s)
        low, high = min(0.0, fall.rate), most
    return _assessment_of(
        fall, low, high, limit_psi_per_min, watched_s - first_s, equal_passes, most=most
    )


def _slowed_rate(fall: Fall, since_s: float) -> float:
    """Return the share of the rate left on average, as a choked leak slows down after the fit."""
    per_min = fall.rate / (float(fall.psi.mean()) + ATMOSPHERE_PSI)
    return min(1.0, max(0.0, 1.0 - per_min * since_s / 120.0))


def _bounds(fall: Fall, limit: float) -> tuple[float, float]:
    rates = fall.rate, limit, limit - NEAR_PSI_PER_MIN, limit + NEAR_PSI_PER_MIN
    coarser = Z_MORE * max(0.0, fall.rounding_share - FINE_SHARE)
    coarse = fall.worst_rounding(rates) + Z_EYE * fall.eye_error
    half = max((Z + coarser) * fall.rate_error(rates), coarse)
    return fall.rate - half, fall.rate + half


def _assessment_of(
    fall: Fall,
    low: float,
    high: float,
    limit: float,
    held_s: float,
    equal_passes: bool,
    most: float = math.inf,
) -> Assessment:
    """Assess a fall by its bounds; it cannot have lost more than `most` psi/min."""
    verdict: Verdict
    reason: UndecidedReason
    if high < 0 or _rises(fall):
        verdict, reason = "settling", "rising"
    elif low > most:
        verdict, reason = "settling", "cooling"
    elif _passes(min(high, most), limit, equal_passes) and held_s >= LEAST_S:
        verdict, reason = "within", ""
    elif low > limit and leak_is_plain(fall, limit):
        verdict, reason = "over", ""
    elif is_cooling(fall, limit):
        verdict, reason = "settling", "cooling"
    elif low > limit:
        verdict, reason = "undecided", "cooling"
    else:
        verdict, reason = "undecided", "few" if held_s < LEAST_S else "bounds"
    return Assessment(
        rate_psi_per_min=fall.rate,
        low_psi_per_min=low,
        high_psi_per_min=max(fall.rate, min(high, most)),
        verdict=verdict,
        hold_more_s=_more_s(held_s) if verdict == "undecided" else 0.0,
        rule_rate_psi_per_min=fall.plain_rate,
        rule_verdict="within" if _passes(fall.plain_rate, limit, equal_passes) else "over",
        reason=reason,
    )


def _is_over(fall: Fall, limit: float) -> bool:
    low, _ = _bounds(fall, limit)
    return low > limit and leak_is_plain(fall, limit)


def _rises(fall: Fall) -> bool:
    """Tell whether a reading is above an earlier one by more than gauge and eye can be off."""
    noise = fall.step_psi + RISE_SDS * math.sqrt(2.0) * fall.eye_sd_psi
    return bool(np.max(fall.psi - np.minimum.accumulate(fall.psi)) > noise)


def _more_s(held_s: float) -> float:
    """Return the seconds to the next reading: to half and full minute first, then every 15 s."""
    to_minute = min(30.0, 60.0 - held_s)
    return max(0.0, min(max(HOLD_MORE_S, to_minute), LONGEST_HOLD_S - held_s))


def _passes(rate: float, limit: float, equal_passes: bool) -> bool:
    """Tell whether a rate is within the limit; one that differs by rounding alone is equal."""
    return equal_passes if math.isclose(rate, limit) else rate < limit
