"""The words on the plan: FRONT, LEFT and RIGHT in the margin, where nothing else is drawn.

With the front up or down they stand in one line above the vehicle. With the front to the left or
right the far side is named above the vehicle and the near one below it. `frame.py` keeps the room;
where a low box has none, only FRONT stands beside the figure.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from walkaround.base.message import Message, message
from walkaround.drawing.frame import LINE_PX, MARGIN, Frame
from walkaround.drawing.svg import Point
from walkaround.drawing.vehicle_plan import PlanSide

TEXT = 16.0
"""Size of the words, px."""
_CAPITAL = 0.7
"""Mean width of a bold capital in text sizes; a wider font than Roboto has 0.7 (from memory)."""
_SIDES: tuple[PlanSide, ...] = ("left", "right")
_ARROW = 20.0
"""Room for the arrow beside FRONT, px."""


@dataclass(frozen=True, slots=True)
class Label:
    """A word around `center`; `arrow` is the middle of an arrow that points the way `pointing`.

    Attributes:
        you: it stands beside the figure and has its color.
    """

    text: str
    center: Point
    arrow: Point | None = None
    pointing: Point = (0.0, 0.0)
    you: bool = False


def word_px(text: str) -> Point:
    """Return the width and height of a word, px."""
    return len(text) * TEXT * _CAPITAL, LINE_PX


def margin_words(fitted: Frame, figure: Point, read: Callable[[Message], str]) -> Iterator[Label]:
    """Name the front and both sides of the vehicle, clear of the figure that stands at `figure`."""
    names = {side: read(message(f"picture-{side}")) for side in ("front", *_SIDES)}
    front = names["front"]
    (width, height), top = fitted.box, MARGIN / 5 + LINE_PX / 2
    low, high = MARGIN, width - MARGIN
    front_px = word_px(front)[0] + _ARROW
    if not fitted.has_words:
        at = high - front_px / 2 if figure[0] < width / 2 else low + front_px / 2
        yield _front(fitted, front, (at, height - top))
        return
    if fitted.axis("front") == 0:
        yield _front(fitted, front, (width / 2, top))
        for side in _SIDES:
            half = word_px(names[side])[0] / 2
            yield Label(names[side], (low + half if _is_low(fitted, side) else high - half, top))
        return
    at = low + front_px / 2 if _is_low(fitted, "front") else high - front_px / 2
    yield _front(fitted, front, (at, top))
    for side in _SIDES:
        half = word_px(names[side])[0] / 2
        if fitted.outward(side)[1] < 0:
            yield Label(names[side], (high - half if at < width / 2 else low + half, top))
        else:
            label_x = high - half if figure[0] < width / 2 else low + half
            yield Label(names[side], (label_x, height - top))


def _front(fitted: Frame, word: str, middle: Point) -> Label:
    """FRONT and its arrow, both around `middle`; an arrow to the right stands behind the word."""
    x, y = middle
    pointing = fitted.outward("front")
    aside = -_ARROW / 2 if pointing[0] > 0 else _ARROW / 2
    half_width = word_px(word)[0] / 2
    return Label(word, (x + aside, y), (x - aside * half_width / (_ARROW / 2), y), pointing)


def _is_low(fitted: Frame, side: PlanSide) -> bool:
    """Whether this side of the vehicle is toward the left of the picture."""
    return fitted.outward(side)[0] < 0
