"""The lookup of a stroke limit in the shipped table, for callers from outside this program."""

from __future__ import annotations

from pydantic import ValidationError

from walkaround.base.errors import InputError, Problem
from walkaround.base.message import Message, message
from walkaround.base.toml_model import problems_of
from walkaround.brakes.chambers import BY_TABLE, chamber_fault
from walkaround.brakes.strokes import StrokeTable, limit_of
from walkaround.library.standard_tables import standard_tables
from walkaround.vehicle.model import Axle

_WHERE = message("argument")


def stroke_limit_in(
    actuator: str, type_: str | int, long_stroke: bool = False, rated_stroke_in: float | None = None
) -> float:
    """Return the greatest stroke that passes, inches; 49 CFR 393.47(e) and (f).

    Args:
        actuator: clamp, bolt, roto, dd3, wedge or other; for wedge the limit is the movement of
            the lining, whatever the type.
        type_: the type in the tables: 30, "30", "C"; in any case, spaces around it ignored.
        long_stroke: whether the chamber is marked as long-stroke.
        rated_stroke_in: the rated stroke marked on the chamber, inches.

    Raises:
        InputError: no limit is known for this chamber, or an argument is not valid.
    """
    table = standard_tables().strokes
    try:
        axle = Axle.model_validate(
            {
                "actuator": actuator.strip().lower(),
                "type": str(type_).strip().upper(),
                "long_stroke": long_stroke,
                "rated_stroke_in": rated_stroke_in,
            }
        )
    except ValidationError as error:
        raise InputError(problems_of(error, _WHERE)) from None
    limit = limit_of(axle, table)
    if limit is None:
        raise InputError([Problem(_WHERE, *_unknown(axle, table))])
    return limit.limit_in


def _unknown(axle: Axle, table: StrokeTable) -> tuple[str, Message, Message]:
    """Return why there is no limit: the argument, what is wrong and how to mend it."""
    if fault := chamber_fault(axle, table):
        return fault
    if axle.actuator not in BY_TABLE:
        what = message("problem-missing-and-unlisted")
        return "rated_stroke_in", what, message("problem-give-the-rated-stroke")
    types = table.types(axle.actuator)
    return "type", message("problem-is-missing"), message("problem-give-one-of", names=types)
