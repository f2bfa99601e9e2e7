"""A reading that was entered wrong: asked about before it counts, mended while the hold runs.

Mending changes what was read, never when it was looked at, so a hold is as long with it as without.
"""

from __future__ import annotations

import math
from dataclasses import replace

from walkaround.airhold.hold import Hold, HoldReading
from walkaround.base.message import Message, message
from walkaround.rules.limits import Line

MOST_FALL_MARKS, MOST_RISE_MARKS = 5, 1
"""A reading further from the last one of its gauge than this is asked about before it counts."""


def meant_psi(hold: Hold, line: Line, psi: float) -> float | None:
    """Guess what a reading that jumps may have been meant to be; None if it does not jump.

    A wrong figure among the tens is the commonest slip of somebody who reads a dial in a hurry, so
    it is the highest pressure that ends in the same figure and is not above the last one.
    """
    step_psi, last_psi = hold.gauge(line).step_psi, hold.last_psi(line)
    marks, ten = (psi - last_psi) / step_psi, 10.0 * step_psi
    if -MOST_FALL_MARKS - 0.5 <= marks <= MOST_RISE_MARKS + 0.5:
        return None
    candidate_psi = psi + math.floor((last_psi - psi) / ten + 1e-6) * ten
    return last_psi if math.isclose(candidate_psi, psi) or candidate_psi < 0 else candidate_psi


def with_correction(hold: Hold, gauge: str, at_s: float, psi: float | None) -> Hold:
    """Give the hold in which one reading shows another pressure.

    Args:
        hold: the hold, which runs.
        gauge: of which gauge.
        at_s: when it was looked at, seconds into the hold.
        psi: what it showed; None for a mark that its needle had not crossed yet.
    """

    def corrected(look: HoldReading) -> list[HoldReading]:
        if (look.gauge, look.at_s) != (gauge, at_s):
            return [look]
        return [] if psi is None else [replace(look, psi=psi, before=(*look.before, look.psi))]

    return replace(hold, readings=tuple(each for look in hold.readings for each in corrected(look)))


def is_crossing_tap(hold: Hold, gauge: str, at_s: float) -> bool:
    """Tell whether this reading is a tap that may be taken back, not one with a figure to change.

    That is the last tap of a gauge whose needle crosses marks. Its first one begins the minute: it
    stays, and can be of another mark as long as it is the only one.
    """
    times = [look.at_s for look in hold.readings if look.gauge == gauge]
    return _crosses(hold, gauge) and len(times) > 1 and at_s == times[-1]


def correction_refusal(hold: Hold, gauge: str, at_s: float, psi: float | None) -> Message | None:
    """Say why a reading cannot be mended so; None if it can."""
    times = [look.at_s for look in hold.readings if look.gauge == gauge]
    if at_s not in times:
        return message("refused-no-such-reading", gauge=gauge, seconds=f"{at_s:g}")
    one_figure = not _crosses(hold, gauge) or len(times) == 1
    if is_crossing_tap(hold, gauge, at_s) if psi is None else one_figure:
        return None
    return message("refused-mending", gauge=gauge)


def _crosses(hold: Hold, gauge: str) -> bool:
    return any(hold.gauge(line).crossing for line in hold.rule.gauges if line == gauge)
