"""The odometer reading: one optional field of the record."""

from __future__ import annotations

import flet as ft

from walkaround.ui.kit.text_field import text_field
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.vehicle.model import POWER_UNITS
from walkaround.walk.events import MOST_ODOMETER, OdometerRead


@screen
def odometer_field(view: View, taps: WalkTaps) -> ft.Control:
    """Take whole miles, or kilometers where this phone shows lengths in mm."""
    walk = view.walk
    assert walk.plan is not None
    unit = "mi" if view.words.units.length == "in" else "km"
    read = walk.odometer
    before = str(read.value) if read and read.unit == unit else ""

    async def typed(text: str) -> None:
        if text.isascii() and text.isdigit() and text != before:
            await taps.record_events((OdometerRead, {"value": int(text), "unit": unit}))

    kind = "vehicle" if walk.plan.vehicle.kind in POWER_UNITS else "hub"
    name, most_chars = view.words(f"odometer-{kind}", unit=unit), len(str(MOST_ODOMETER))
    return text_field(name, before, most_chars, key="odometer", leave=typed, digits=True)
