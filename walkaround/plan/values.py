"""The values that a step takes, and the limit that they are held against."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict

from walkaround.base.message import Text
from walkaround.rules.limits import Line, MeasureUnit


class Value(BaseModel):
    """One value that a step takes, in the unit of its quantity.

    Attributes:
        gauge: the gauge it is read off; empty for a time or a length.
        at_least, at_most: the bounds that count; None where nothing bounds it.
        or_half_of, half: the step of which half the pressure counts where it is lower than
            `at_least`, and that half in psi, once it was measured.
        before: id of the value from which this one's drop is counted; the bounds are then percent.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: str
    name: Text
    gauge: Line | Literal[""] = ""
    at_least: float | None = None
    at_most: float | None = None
    or_half_of: str = ""
    half: float | None = None
    before: str = ""

    @property
    def least(self) -> float | None:
        """The lower bound, as far as is known by now."""
        if self.at_least is None or self.half is None:
            return self.at_least
        return min(self.at_least, self.half)


class Measure(BaseModel):
    """The values of one step and the limit they are held against.

    Attributes:
        known: some limit counts; without one the values are only written down.
        limit: the limit in words, with its source; `also` what else is published, a clause each.
        advice: what to do when a value lies outside.
        begin, end: what is tapped at the start and at the end of a time.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    quantity: MeasureUnit
    values: tuple[Value, ...]
    start: float = 0.0
    known: bool = True
    equal_passes: bool = True
    limit: Text = ""
    also: tuple[Text, ...] = ()
    advice: Text = ""
    begin: Text = ""
    end: Text = ""
