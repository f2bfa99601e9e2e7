"""The step at which rods are marked and the chambers of an axle are read: size, stroke, limit.

Both ends stand as the vehicle's file has them until somebody reads another one off; one tap says
that they are so and that the rods are marked.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

import flet as ft

from walkaround.base.message import Quantity, message
from walkaround.plan.steps import Chambers, Step
from walkaround.ui.kit.buttons import icon_button, wide_button
from walkaround.ui.kit.parts import caution, notice, stretched
from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.surface import Tap, surface, tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BODY, GAP, QUIET, SMALL
from walkaround.ui.kit.zones import choice_zone, defect_zone, ok_zone
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.chambers import (
    actuator_at,
    chamber_sizes,
    chambers_match,
    comes_long,
    ends_of,
    in_doubt,
    rated_strokes_in,
    stroke_taken,
)
from walkaround.walk.state import Walk
from walkaround.words.chambers import chamber_tile

_ACROSS, _FLAT_ACROSS = 4, 6
"""Sizes side by side, each wider than a gloved finger; on a page too low for as many rows."""
_TILE, _ZONE = 64, 72
_CHAMBER_PX, _LIMIT_PX = 22.0, 20.0
"""A chamber and its limit are drawn no larger: each has a line."""


class _Half(NamedTuple):
    """What is chosen so far: the wheel end, the size on its chamber, whether it is a long one."""

    end: str = ""
    type: str = ""
    long: bool = False


class _Answer(NamedTuple):
    """What can be answered: its word, what a tap on it does, its key."""

    word: str
    tap: Tap
    key: str


def chambers_parts(
    view: View, taps: WalkTaps, walk: Walk, step: Step
) -> tuple[list[ft.Control], ft.Control]:
    """Tell what stands under the words of a chambers' step, and what under the thumb.

    It remembers what is half chosen, so the step's screen calls it at each drawing.
    """
    half, set_half = use_unfinished(view.unfinished, "chamber", _Half())

    def choose(now: _Half) -> None:
        taps.appear()
        set_half(now)

    if half.end and not view.peek:
        return [], _entry(view, taps, walk, step, half, choose)
    late = stroke_taken(walk, step)
    # In sight at all times: what is said by one tap to be so.
    tiles = [
        _tile(view, taps, walk, end, choose, live=not (late or view.peek)) for end in ends_of(step)
    ]
    if view.peek:
        return [], stretched([*tiles, _read_again(view, taps, step, late)], 8, tight=True)
    if not chambers_match(walk, step):
        doubted = any(in_doubt(walk, end) for end in ends_of(step))
        why = view.words("chambers-in-doubt" if doubted else "chambers-unlike")
        tiles.append(caution(why, fitting_size(SMALL, _LIMIT_PX), key="unlike"))
    return [], stretched([*tiles, _answers(view, taps, walk, step)], 8, tight=True)


def _tile(
    view: View, taps: WalkTaps, walk: Walk, end: str, choose: Callable[[_Half], None], *, live: bool
) -> ft.Control:
    """Show the chamber at one end and its limit; a tap reads it anew."""
    (chamber, limit), low = chamber_tile(walk, end, view.words), view.device.low
    large = fitting_size(BODY - 2 if low else BODY, _CHAMBER_PX)
    text = ft.Column(
        [
            label(chamber, size=large, bold=True, max_lines=1),
            label(limit, size=fitting_size(SMALL, _LIMIT_PX), max_lines=1),
        ],
        spacing=0,
        tight=True,
        expand=True,
        alignment=ft.MainAxisAlignment.CENTER,
    )

    def edit() -> None:
        if live and not taps.too_soon():
            choose(_Half(end))

    face = ft.Row(
        [text, *([ft.Icon(ft.Icons.EDIT, size=24)] if live and not low else [])], spacing=8
    )
    return ft.Row([surface(face, edit, key=end, height=_TILE, padding=(14, 2))])


def _answers(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """Offer OK and a defect; where the ends do not match, nothing but a defect."""
    height = view.device.answer_px
    wrong = defect_zone(view.words, view.opens("fault"), height=height)
    if not chambers_match(walk, step):
        return ft.Row([wrong])
    return ft.Row(
        [
            wrong,
            ok_zone(
                view.words,
                taps.answers(step.id, "ok"),
                word=view.words("chambers-marked"),
                height=height,
                autofocus=True,
            ),
        ],
        spacing=GAP,
    )


def _read_again(view: View, taps: WalkTaps, step: Step, late: bool) -> ft.Control:
    """Offer to read chambers again, until a stroke was held against their limit."""
    if late:
        return notice(view.words("measure-too-late"))
    word = view.words("chambers-read-again")
    again_tap = tapped(taps.revisit, step.id, "change")
    return wide_button(word, again_tap, key="reopen", icon=ft.Icons.REPLAY)


def _entry(
    view: View,
    taps: WalkTaps,
    walk: Walk,
    step: Step,
    half: _Half,
    choose: Callable[[_Half], None],
) -> ft.Control:
    """Ask the next question about the chamber at one end: its size, its class, its stroke."""
    plan, words = walk.plan, view.words
    assert plan is not None
    before = walk.chambers.get(half.end)

    async def go_on(now: _Half) -> None:
        if not taps.too_soon():
            choose(now)

    async def tell(chamber: Chambers, sure: bool) -> None:
        chamber_tap = taps.value_taps.record_chamber(
            step, chamber, half.end, sure=sure, before=before
        )
        if await chamber_tap:
            choose(_Half())

    def telling(word: str, key: str, *, sure: bool = True, **chamber: Any) -> _Answer:
        new_chamber = Chambers.model_validate({"actuator": kind, "type": half.type, **chamber})
        return _Answer(word, tapped(tell, new_chamber, sure), key)

    kind, side = actuator_at(plan, half.end), message(f"side-{half.end.rpartition('_')[2]}")
    rated = rated_strokes_in(plan, kind, half.type)
    rows, answers = list[ft.Control](), list[_Answer]()
    if not half.type:
        back, title = _Half(), words("chambers-which-size", side=side)
        listed_sizes = [
            _Answer(size, tapped(go_on, half._replace(type=size)), f"size_{size}")
            if comes_long(plan, kind, size)
            else telling(size, f"size_{size}", type=size)
            for size in chamber_sizes(plan, kind)
        ]
        other_sizes = [
            telling(words("chambers-unread"), "unread", sure=False),
            telling(words("chambers-other-kind"), "other_kind", actuator="other"),
        ]
        across_sizes = _FLAT_ACROSS if view.device.flat else _ACROSS
        for some, across in ((listed_sizes, across_sizes), (other_sizes, 2)):
            rows.append(grid([chip(words, word, tap, key=key) for word, tap, key in some], across))
    elif not half.long:
        back, title = half._replace(type=""), words("chambers-long", side=side, type=half.type)
        rows.append(label(words("chambers-long-tell"), QUIET, fitting_size(SMALL, _LIMIT_PX)))
        yes = telling(words("chambers-yes"), "long_yes", long_stroke=True)
        if rated:
            yes = yes._replace(tap=tapped(go_on, half._replace(long=True)))
        answers = [
            yes,
            telling(words("chambers-no"), "long_no"),
            telling(words("chambers-cannot-tell"), "long_doubt", sure=False),
        ]
    else:
        back, title = half._replace(long=False), words("chambers-rated", side=side, type=half.type)
        answers = [
            telling(
                words.quantity(Quantity(value=stroke, unit="in")),
                f"rated_{stroke:g}",
                long_stroke=True,
                rated_stroke_in=stroke,
            )
            for stroke in rated
        ]
        answers.append(telling(words("chambers-none-marked"), "rated_none", long_stroke=True))
    zones = [choice_zone(word, tap, key=key, height=_ZONE) for word, tap, key in answers]
    to_back = tapped(go_on, back)
    arrow = icon_button(ft.Icons.ARROW_BACK, words("keypad-other-keys"), to_back, key="coarse")
    top = ft.Row(
        [
            arrow,
            ft.Container(
                label(title, size=fitting_size(BODY, _CHAMBER_PX), bold=True), expand=True
            ),
        ],
        spacing=4,
    )
    rows += [ft.Row(list(zones), spacing=8)] if zones else []
    return stretched([top, *rows], 8, tight=True)
