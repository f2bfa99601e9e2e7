"""The brake chambers that the pushrod stroke tables list: which types there are to name."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from typing import NamedTuple

from walkaround.vehicle import Axle
from walkaround.written import nearest

# 49 CFR 393.47(e): these go by the pushrod tables; wedge brakes and unlisted chambers do not.
_BY_TABLE = ("clamp", "bolt", "roto", "dd3")


class Chamber(NamedTuple):
    """A row of the stroke tables: actuator as in vehicle files, type, and whether long stroke."""

    actuator: str
    type: str
    long_stroke: bool


def chambers_of(rows: Iterable[Mapping[str, str]]) -> frozenset[Chamber]:
    """The chambers of the stroke table, whose columns these rows have."""
    return frozenset(
        Chamber(row["actuator_kind"], row["type"], row["stroke_class"] == "long") for row in rows
    )


def chamber_fault(axle: Axle, chambers: Collection[Chamber]) -> tuple[str, str, str] | None:
    """Why no table lists the chambers of an axle: the key, what is wrong and how to mend it."""
    if axle.actuator not in _BY_TABLE or not axle.type:
        return None
    types = sorted({c.type for c in chambers if c.actuator == axle.actuator}, key=_by_size)
    if axle.type not in types:
        what = f"is {axle.type}, which no stroke table lists for a {axle.actuator} chamber"
        near = nearest(axle.type, types)
        return "type", what, f'{near}, or set actuator = "other" and rated_stroke_in'
    if axle.long_stroke and Chamber(axle.actuator, axle.type, True) not in chambers:
        what = f"is true, but no table lists a long-stroke {axle.actuator} chamber {axle.type}"
        return "long_stroke", what, "set it to false or correct type"
    return None


def _by_size(type_: str) -> tuple[int, str]:
    return int(type_) if type_.isdigit() else 0, type_
