"""The words on the vehicle itself: FRONT, LEFT and RIGHT, written where it is empty.

Lengths are px: along the vehicle from the front end of what is shown, across it from its
centreline, the vehicle's right being positive.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from walkaround.drawing.frame import CUT_DEPTH, Frame
from walkaround.drawing.vehicle_plan import Point

TEXT = 16.0
"""Size of the words, px."""
# Mean width of a bold capital of Roboto and height of a line, in text sizes.
_CAPITAL = 0.7
_LINE = 1.25
_CLEAR, _INSET = 6.0, 10.0
"""Clear distance before and after a word, and from the side of the vehicle."""
# What a word is not written on; bodies and frames are plain within their edges.
_BUSY = frozenset({"wheel", "kingpin", "landing_gear", "fifth_wheel", "glass"})


@dataclass(frozen=True, slots=True)
class Label:
    """A word around `centre`; `arrow` is the middle of an arrow that points the way `pointing`."""

    text: str
    centre: Point
    arrow: Point | None = None
    pointing: Point = (0.0, 0.0)


class _Stretch(NamedTuple):
    """From where to where, px."""

    low: float
    high: float


class _Patch(NamedTuple):
    """A rectangle on the vehicle that is not free."""

    along: _Stretch
    across: _Stretch


def word_px(text: str) -> Point:
    """Width and height of a word."""
    return len(text) * TEXT * _CAPITAL, TEXT * _LINE


def vehicle_words(fitted: Frame, discs: Sequence[tuple[Point, float]]) -> Iterator[Label]:
    """FRONT at the front end of what is shown; LEFT and RIGHT where there is room.

    None of them lies over one of these discs, given as centre and radius.
    """
    numbers = [_round(fitted, centre, radius) for centre, radius in discs]
    busy = [*numbers, *_busy(fitted)]
    half = fitted.plan.width_mm * fitted.px_per_mm / 2
    # Beside the centreline if need be; rather written over a thin line than left out.
    tries = ((0.0, busy), (-half / 2, busy), (half / 2, busy), (0.0, numbers))
    fronts = (_front(fitted, around, off) for off, around in tries)
    front = next((found for found in fronts if found is not None), None)
    if front is not None:
        yield front[0]
        busy.append(front[1])
    yield from _left_and_right(fitted, busy, half)


def _left_and_right(fitted: Frame, busy: Sequence[_Patch], half: float) -> Iterator[Label]:
    """LEFT and RIGHT near the middle of what is shown, each along its own side."""
    middle = (fitted.window[1] - fitted.window[0]) * fitted.px_per_mm / 2
    for text, sign in (("LEFT", -1), ("RIGHT", 1)):
        along, across = _extent(fitted, text)
        # Each word needs its half of the width.
        if half < across + _INSET:
            continue
        at = sign * (half - _INSET - across / 2)
        strip = _Stretch(at - across / 2, at + across / 2)
        start = _room(fitted, busy, strip, along, near=middle - along / 2)
        if start is not None:
            yield Label(text, _point(fitted, start + along / 2, at))


def _front(fitted: Frame, busy: Sequence[_Patch], off: float) -> tuple[Label, _Patch] | None:
    """FRONT with its arrow, `off` the centreline, and the patch that it takes."""
    along, across = _extent(fitted, "FRONT")
    strip = _Stretch(off - across / 2, off + across / 2)
    start = _room(fitted, busy, strip, TEXT + along, near=0.0)
    if start is None:
        return None
    arrow = _point(fitted, start + TEXT / 2, off)
    centre = _point(fitted, start + TEXT + along / 2, off)
    label = Label("FRONT", centre, arrow, fitted.outward("front"))
    return label, _Patch(_Stretch(start, start + TEXT + along), strip)


def _extent(fitted: Frame, text: str) -> Point:
    """How much a word takes along and across the vehicle; words are level, however it lies."""
    width, height = word_px(text)
    return (width, height) if fitted.axis("left") == 0 else (height, width)


def _point(fitted: Frame, along: float, across: float) -> Point:
    scale = fitted.px_per_mm
    return fitted.point(fitted.window[0] + along / scale, across / scale)


def _room(
    fitted: Frame, busy: Sequence[_Patch], strip: _Stretch, need: float, *, near: float
) -> float | None:
    """Where a word of length `need` can start in a strip along the vehicle, nearest to `near`."""
    starts = [
        min(max(near, gap.low + _CLEAR), gap.high - _CLEAR - need)
        for gap in _gaps(fitted, [patch.along for patch in busy if _meet(patch.across, strip)])
        if gap.high - gap.low >= need + 2 * _CLEAR
    ]
    return min(starts, key=lambda start: abs(start - near), default=None)


def _meet(one: _Stretch, other: _Stretch) -> bool:
    return one.low < other.high and one.high > other.low


def _busy(fitted: Frame) -> Iterator[_Patch]:
    """What stands on the vehicle, and the edges of its plain parts."""
    scale, low = fitted.px_per_mm, fitted.window[0]
    for shape in fitted.plan.shapes:
        corners = [((x - low) * scale, y * scale) for x, y in shape.points]
        if shape.part in _BUSY:
            yield _patch(corners)
        else:
            for edge in zip(corners, [*corners[1:], corners[0]], strict=True):
                yield _patch(edge)


def _patch(corners: Sequence[Point]) -> _Patch:
    along, across = zip(*corners, strict=True)
    return _Patch(_Stretch(min(along), max(along)), _Stretch(min(across), max(across)))


def _round(fitted: Frame, centre: Point, radius: float) -> _Patch:
    """The square around a disc in the box."""
    x, y = centre[0] - fitted.origin[0], centre[1] - fitted.origin[1]
    rear, right = fitted.outward("rear"), fitted.outward("right")
    along, across = x * rear[0] + y * rear[1], x * right[0] + y * right[1]
    return _Patch(
        _Stretch(along - radius, along + radius), _Stretch(across - radius, across + radius)
    )


def _gaps(fitted: Frame, busy: Sequence[_Stretch]) -> Iterator[_Stretch]:
    """The free stretches of the body between its two ends, or ragged cuts."""
    low, high = fitted.window
    plan, scale = fitted.plan, fitted.px_per_mm
    start = CUT_DEPTH if low > plan.body_from_mm else (plan.body_from_mm - low) * scale
    end = (high - low) * scale - (CUT_DEPTH if high < plan.length_mm else 0.0)
    for stretch in sorted([*busy, _Stretch(end, end)]):
        yield _Stretch(start, min(stretch.low, end))
        start = max(start, stretch.high)
