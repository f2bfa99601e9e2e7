"""Brake chambers by name, and what is wrong with how a vehicle's file names them."""

from __future__ import annotations

from walkaround.base.message import Message, message
from walkaround.base.toml_model import nearest
from walkaround.brakes.strokes import RATED_IN, StrokeTable
from walkaround.vehicle.model import Axle

# 49 CFR 393.47(e): these go by the pushrod tables; wedge brakes and unlisted chambers do not.
BY_TABLE = ("clamp", "bolt", "roto", "dd3")


def chamber_named(axle: Axle) -> Message:
    """Name an axle's chambers: "long-stroke clamp chamber type 30", "rotochamber type 36"."""
    name = message(f"brake-chamber-{axle.actuator}")
    if axle.type:
        name = message("brake-chamber-of-type", chamber=name, type=axle.type)
    return message("brake-chamber-long-stroke", chamber=name) if axle.long_stroke else name


def chamber_fault(axle: Axle, table: StrokeTable) -> tuple[str, Message, Message] | None:
    """Say why an axle's chambers have no limit: the key, what is wrong, how to mend it.

    An axle whose chambers nobody named has no fault; its limit is not known.
    """
    least, most = RATED_IN
    if axle.rated_stroke_in is not None and not least <= axle.rated_stroke_in <= most:
        what = message("problem-no-stroke", value=f"{axle.rated_stroke_in:g}")
        mend = message("problem-write-from-to", least=f"{least:g}", most=f"{most:g}")
        return "rated_stroke_in", what, mend
    if axle.actuator not in BY_TABLE or not axle.type:
        return None
    types = table.types(axle.actuator)
    if axle.type not in types:
        what = message("problem-unlisted-type", type=axle.type, actuator=axle.actuator)
        return "type", what, message("problem-type-or-other", near=nearest(axle.type, types))
    if axle.long_stroke and axle.type not in table.types(axle.actuator, long_stroke=True):
        what = message("problem-unlisted-long-stroke", type=axle.type, actuator=axle.actuator)
        return "long_stroke", what, message("problem-false-or-correct-type")
    return None
