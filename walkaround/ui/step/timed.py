"""Steps on which time runs: one that waits, with its strip on other steps, and a stopwatch.

The times come from the walk itself, so that a page that drops and returns shows the true ones.
"""

from __future__ import annotations

import asyncio
import math
from collections.abc import Iterator, Sequence

import flet as ft

from walkaround.base.clock import Moment
from walkaround.plan.steps import Step
from walkaround.ui.kit.parts import notice, stretched
from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BODY, FIGURE, GAP, LINE, QUIET, SMALL, Tone
from walkaround.ui.kit.zones import answer_zone, defect_zone, ok_zone
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.ui.taps.values import passed_s
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.state import Walk
from walkaround.walk.timers import stopwatch_trouble, wait_left_s, was_off_during_wait
from walkaround.words.language import Words

MOST_STRIPS = 3
"""More would take the step's own room; each wait is asked for at its own step anyway."""
_FIGURE_SHARE, _UNDER_PX = 0.2, 26.0
"""A clock takes so much of the page's height at most; the words under it are drawn so large."""
_LONGEST_NAME = 14
"""Characters of a wait's name on its strip, beside which the time still fits."""


def wait_parts(
    view: View, taps: WalkTaps, walk: Walk, step: Step
) -> tuple[list[ft.Control], ft.Control]:
    """Tell what stands under the words of a step that waits, and what under the thumb."""
    restarted_text = view.words("wait-restarted")
    notices = (
        [notice(restarted_text)] if was_off_during_wait(walk, step, view.parts.clock()) else []
    )
    return notices, _Left(view, taps, walk, step, key=f"left_{step.id}_{view.peek}")


@screen
def _Left(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """Show the time left in large; OK once it has run."""
    redrawn_each(view, view.parts.timing.wait_beat_s)
    height = view.device.answer_px
    left_s = wait_left_s(walk, step, view.parts.clock())

    # "Not now" turns into OK by itself.
    effect(view, taps.appear_anew, [left_s > 0])
    _ringing(view, step, up=left_s <= 0)
    if left_s > 0:
        word, other, icon = view.words("wait-not-now"), view.opens("other"), ft.Icons.MORE_HORIZ
        tone = Tone.PLAIN
        right = answer_zone(word, icon, other, key="not_now", tone=tone, height=height, across=2)
    elif (read_on := view.words_seen.read_on) and not view.words_seen.live:
        word, icon = view.words("step-read-on"), ft.Icons.ARROW_DOWNWARD
        right = answer_zone(word, icon, read_on, key="read_on", height=height, across=2)
    else:
        right = ok_zone(view.words, taps.answers(step.id, "ok"), height=height, autofocus=True)
    figure = label(clock_text(left_s), size=_figure_size(view), bold=True, key="left")
    under_text = view.words("wait-left" if left_s > 0 else "wait-up")
    under = label(under_text, QUIET, fitting_size(BODY, _UNDER_PX))
    middle = ft.CrossAxisAlignment.CENTER
    minutes, seconds = divmod(math.ceil(max(0.0, left_s)), 60)
    time_text = view.words("wait-left-said", minutes=minutes, seconds=seconds)
    clock = ft.Semantics(
        content=ft.Column([figure, under], spacing=0, horizontal_alignment=middle),
        label=time_text if left_s > 0 else view.words("wait-up"),
        exclude_semantics=True,
    )
    wrong = defect_zone(view.words, view.opens("fault"), height=height)
    return stretched([clock, ft.Row([wrong, right], spacing=GAP)], tight=True)


def _figure_size(view: View) -> float:
    """Choose the size of a clock's figure: large, and no larger where all text is."""
    return fitting_size(2 * FIGURE, min(2 * FIGURE, _FIGURE_SHARE * view.device.height))


def wait_strips(view: View, walk: Walk, step_shown: Step) -> Sequence[ft.Control]:
    """Show a thin strip for each wait that runs, the soonest of many; none on its own step."""
    now = view.parts.clock()
    waits = sorted(running_waits(walk, step_shown), key=lambda step: wait_left_s(walk, step, now))
    return [
        _Strip(view, walk, step, step_shown, key=f"strip_{step.id}") for step in waits[:MOST_STRIPS]
    ]


def running_waits(walk: Walk, step_shown: Step) -> Iterator[Step]:
    """List the waits that were begun and are not answered yet."""
    for step in walk.steps:
        if step.wait is None or step.id in walk.answers or step.id == step_shown.id:
            continue
        begun = walk.answers.get(step.wait.after)
        if begun is not None and begun.answer == "ok":
            yield step


@screen
def _Strip(view: View, walk: Walk, step: Step, step_shown: Step) -> ft.Control:
    redrawn_each(view, view.parts.timing.wait_beat_s)
    left_s = wait_left_s(walk, step, view.parts.clock())
    _ringing(view, step_shown, up=left_s <= 0)
    text = strip_text(step, left_s, view.words)
    words = label(text, Tone.PLAIN.ink, SMALL, bold=True, max_lines=1, key="strip")
    words.expand = True
    return ft.Container(
        ft.Row([ft.Icon(ft.Icons.TIMER, size=20, color=Tone.PLAIN.ink), words], spacing=8),
        bgcolor=Tone.PLAIN.ground,
        border=ft.Border.all(1, LINE),
        border_radius=8,
        padding=ft.Padding.symmetric(horizontal=10, vertical=3),
    )


def _ringing(view: View, step_shown: Step, *, up: bool) -> None:
    """Let it be heard once that a time is up which was seen to run; not while one listens.

    Where air blows out it is felt instead.
    """
    ran, _ = ft.use_state(not up)

    async def ring() -> None:
        if not (up and ran) or step_shown.quiet or view.somebody_in():
            return
        if step_shown.vents:
            await view.device.vibrate()
        else:
            await view.sound.cue("time")

    effect(view, ring, [up])


def redrawn_each(view: View, every_s: float) -> None:
    """Draw the component that calls this again every so often, as long as it is on screen."""
    _, set_beat = ft.use_state(0)

    async def beat() -> None:
        beats = 0
        while True:
            await asyncio.sleep(every_s)
            beats += 1
            set_beat(beats)

    effect(view, beat)


def strip_text(step: Step, left_s: float, words: Words) -> str:
    """Write a strip's text, "Breakaway: 12 min left"; long names are cut so the time is seen."""
    name = words.text(step.title).partition(":")[0]
    name = name if len(name) <= _LONGEST_NAME else f"{name[: _LONGEST_NAME - 1]}…"
    if left_s <= 0:
        return words("wait-strip-up", name=name)
    if left_s > 60:
        return words("wait-strip-minutes", name=name, minutes=math.ceil(left_s / 60))
    return words("wait-strip-seconds", name=name, seconds=math.ceil(left_s))


def clock_text(left_s: float) -> str:
    """Write minutes and seconds as on a clock that runs down: "12:05"."""
    minutes, seconds = divmod(math.ceil(max(0.0, left_s)), 60)
    return f"{minutes}:{seconds:02d}"


def start_zone(view: View, taps: WalkTaps, step: Step, running: Moment | None = None) -> ft.Control:
    """Start the time, in place of one that is lost; or tell that there was nothing to time."""
    assert step.measure is not None

    word = view.words.text(step.measure.begin) or view.words("time-start")
    start = tapped(taps.value_taps.start_stopwatch, step, running)
    zone = answer_zone(word, ft.Icons.TIMER, start, key="start_time", across=2)
    return ft.Row([defect_zone(view.words, view.opens("fault")), zone], spacing=GAP)


def stop_zone(view: View, taps: WalkTaps, step: Step, began: Moment) -> ft.Control:
    """Stop the time; once the computer slept or restarted it can only be started anew."""
    assert step.measure is not None
    if trouble := stopwatch_trouble(began, view.parts.clock()):
        lost = notice(view.words.text(trouble))
        return stretched([lost, start_zone(view, taps, step, began)], tight=True)

    word = view.words.text(step.measure.end) or view.words("time-stop")
    stop = tapped(taps.value_taps.stop_stopwatch, step, began)
    return ft.Row([answer_zone(word, ft.Icons.STOP_CIRCLE, stop, key="stop_time")])


@screen
def running_time(view: View, began: Moment) -> ft.Control:
    """Show the seconds as they run; the clock is asked at each beat, nothing counts."""
    redrawn_each(view, view.parts.timing.stopwatch_beat_s)
    now = view.parts.clock()
    if stopwatch_trouble(began, now):
        text = view.words("time-lost")
    else:
        text = view.words("time-seconds", seconds=f"{passed_s(began, now):.0f}")
    figure = label(text, size=_figure_size(view), bold=True, key="seconds")
    return ft.Row([figure], alignment=ft.MainAxisAlignment.CENTER)
