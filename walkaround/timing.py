"""How long the screens wait for people, phones and clocks, in one record, so that tests can hurry.

What a published rule measures (a hold, a wait) is no such time: it stands in its checklist.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Timing:
    """Times of the screens, in seconds.

    Attributes:
        dead_s: a tap or key that comes sooner after a step appeared was meant for the step before:
            the second half of a double tap, a bouncing pedal.
        twice_s: a stopwatch stopped sooner after its start was tapped twice by mistake.
        hold_beat_s: how often a running air hold is looked at: often enough for the eye, and for a
            spoken mark.
        stopwatch_beat_s: how often a running stopwatch is drawn.
        wait_beat_s: how often the time left of a wait is looked at.
        cue_late_s: a spoken mark of an air hold that would come later than this is left out.
        save_again_s: how long after the end of an air hold could not be saved that is tried again.
        unbegun_s: how soon to ask again after a prompt that is about to be spoken.
        brisk_live_s: how soon one tap may answer for many lamps, for those who know the walk.
        ahead_s: how soon after a prompt began the next ones are rendered: once it is on the screen.
        device_s: how long a phone may take to answer what is asked of it.
        recall_s: how long it may take to tell its settings, just after it has loaded the page.
        now_s: tells the seconds that `dead_s` goes by, never set back.
    """

    dead_s: float = 0.4
    twice_s: float = 0.4
    hold_beat_s: float = 0.2
    stopwatch_beat_s: float = 0.1
    wait_beat_s: float = 0.5
    cue_late_s: float = 1.5
    save_again_s: float = 5.0
    unbegun_s: float = 0.2
    brisk_live_s: float = 1.0
    ahead_s: float = 0.3
    device_s: float = 2.0
    recall_s: float = 10.0
    now_s: Callable[[], float] = time.monotonic
