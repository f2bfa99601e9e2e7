"""The items of a written step: wheel ends, and what is looked at there or elsewhere, row by row."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from walkaround.base.message import Text, message
from walkaround.plan.steps import Item

Side = Literal["left", "right"]
SIDES: tuple[Side, ...] = ("left", "right")


class WheelEnd(NamedTuple):
    """One end of an axle; axles are counted from the front."""

    axle: int
    side: Side

    @property
    def mark(self) -> str:
        """Id of its mark on the plan of the vehicle."""
        return f"axle_{self.axle}_{self.side}"


def wheel_items(
    ends: Sequence[WheelEnd], rows: Mapping[str, Text], *, apart: bool = False
) -> tuple[Item, ...]:
    """Make an item for each row at each wheel end; without rows for each end, else for each row.

    Args:
        ends: the wheel ends that the step is about.
        rows: what else is looked at, by id.
        apart: the rows are not at the ends, and stand beside them.
    """
    if apart or not rows or not ends:
        at_ends = [_item(end.mark, _end_named(end)) for end in ends]
        return (*at_ends, *(_item(id_, name) for id_, name in rows.items()))
    several = len(ends) > 1
    return tuple(
        _item(f"{end.mark}_{id_}", _at(end, name) if several else name, end.mark)
        for end in ends
        for id_, name in rows.items()
    )


def _item(id_: str, name: Text, mark: str = "") -> Item:
    return Item(id=id_, name=name, kind="wheel_end", required=True, mark=mark)


def _end_named(end: WheelEnd) -> Text:
    return message("brake-wheel-end", axle=end.axle, side=message(f"side-{end.side}"))


def _at(end: WheelEnd, row: Text) -> Text:
    return message("brake-row-at-end", row=row, side=message(f"side-{end.side}"))
