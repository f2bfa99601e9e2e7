"""An air hold on the phone, on a clock that the test moves."""

from __future__ import annotations

from collections.abc import Sequence

from walks import FakeClock

from browser.phone import Phone
from walkaround.checklist import HoldRule

HALF_S = 30.0


def read(phone: Phone, psi: int) -> None:
    """Enter a gauge's reading and wait until it is in."""
    phone.tap(str(psi))
    phone.gone(str(psi))


def hold_a_minute(
    phone: Phone, clock: FakeClock, rule: HoldRule, lost: Sequence[int] = (0, 0, 1)
) -> None:
    """Start the minute and read every gauge at 0, 30 and 60 s; `lost` is psi lost at each."""
    phone.tap("Start the minute")
    for at, psi_lost in enumerate(lost):
        if at:
            clock.wait(HALF_S)
        for psi in rule.set_psi.values():
            read(phone, round(psi) - psi_lost)
