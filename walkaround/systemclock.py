"""The computer's clocks, as one `Moment`.

Linux tells its boot id and how long it slept (CLOCK_BOOTTIME runs on in sleep, CLOCK_MONOTONIC
does not). Elsewhere neither can be asked, so the distance between wall clock and monotonic clock
stands in: it jumps when the computer sleeps, when it boots and when its clock is set, and each
of these voids an air hold.
"""

from __future__ import annotations

import sys
import time
from datetime import UTC, datetime
from pathlib import Path

from walkaround.base.clock import Moment

_BOOT_ID = Path("/proc/sys/kernel/random/boot_id")


def system_clock() -> Moment:
    """Now."""
    tells = sys.platform == "linux" and _BOOT_ID.exists()
    boot = _BOOT_ID.read_text(encoding="ascii").strip() if tells else sys.platform
    # Nothing between the two: what holds this thread up there would pass for sleep.
    mono_s = time.monotonic()
    other_s = time.clock_gettime(time.CLOCK_BOOTTIME) if tells else time.time()
    asleep_s = other_s - mono_s
    return Moment(utc=datetime.now(UTC), mono_s=mono_s, boot=boot, asleep_s=round(asleep_s, 3))
