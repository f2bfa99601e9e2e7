"""The step screen: where to look on this vehicle, the words, two answers, and the small ones."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from math import ceil

import flet as ft

from walkaround.plan.steps import Step
from walkaround.ui.kit.buttons import button, icon_button
from walkaround.ui.kit.parts import notice, share_bar, stretched, top_bar
from walkaround.ui.kit.scale import text_scale
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import BAD, SMALL, Tone
from walkaround.ui.kit.zones import answer_zone, small_answer
from walkaround.ui.page.guard import screen
from walkaround.ui.page.step_keys import key_line
from walkaround.ui.page.view import View
from walkaround.ui.practice.observations import practice_ear, practice_parts
from walkaround.ui.step.answers import step_answers
from walkaround.ui.step.chambers import chambers_parts
from walkaround.ui.step.gauges import gauges_parts
from walkaround.ui.step.measure import measure_parts
from walkaround.ui.step.talk import talk_zone
from walkaround.ui.step.timed import wait_parts, wait_strips
from walkaround.ui.step_content.picture import PicturePlace, picture_place, step_picture, words_px
from walkaround.ui.step_content.words import step_words
from walkaround.ui.step_prompt import prompt_of
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.state import Walk
from walkaround.words.prompts import Prompt

_OWN_PARTS: Mapping[
    str, Callable[[View, WalkTaps, Walk, Step], tuple[list[ft.Control], ft.Control]]
]
_OWN_PARTS = {
    "measure": measure_parts,
    "gauges": gauges_parts,
    "chambers": chambers_parts,
    "wait": wait_parts,
}
"""What kinds of step that take more than two answers put among the words and under the thumb."""


_OVERLAP_PX, _LEAST_SCROLL_PX, _SCROLL_MS = 48.0, 60.0, 200
"""Words that are scrolled on begin with the last line that was seen."""


@screen
def step_screen(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Show the step that is asked; draw it without a key of its own.

    Bar, picture and small buttons stay while steps change. Words begin at their top again, and the
    answers are new controls, which is what drops the second tap of a double one.
    """
    walk, own, device = view.walk, f"{step.id}_{view.peek}", view.device
    # Flet neither compares nor checks again what is the same object as before.
    small = ft.use_memo(
        lambda: _small_row(view, taps, step),
        [view.settings, bool(view.peek), step.must, device.width, device.height, text_scale()],
    )
    bar, strips = step_bar(view, taps, walk, step), wait_strips(view, walk, step)
    lines = [*defect_banner(view, walk), *strips, *key_line(view, walk, step)]
    top = ft.Column([bar, *lines], spacing=4, key="top")
    if step.kind in _OWN_PARTS:
        middle = [_own_parts(view, taps, walk, step, key=own)]
    else:
        answers = step_answers(view, taps, walk, step, key=own)
        middle = _middle(view, taps, walk, step, [], answers)
    if device.flat:
        return stretched([top, *middle], expand=True)
    # It stays while steps change, outside of what is a step's own.
    under = _small_buttons(view, small)
    return stretched([top, *middle, *talk_zone(view, taps, step), under], expand=True)


def _small_buttons(view: View, small: ft.Control) -> ft.Control:
    """Show the small buttons, on a wide page under the half that has the answers."""
    if not view.device.wide:
        return small
    return ft.Row([ft.Container(expand=1), ft.Container(small, expand=1)], spacing=24)


@screen
def _own_parts(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """Show what a step that takes more than two answers has above its small buttons.

    It is the step's own, since it remembers what was chosen.
    """
    more, answers = _OWN_PARTS[step.kind](view, taps, walk, step)
    return stretched(_middle(view, taps, walk, step, more, answers), expand=True)


def _middle(
    view: View,
    taps: WalkTaps,
    walk: Walk,
    step: Step,
    more: Sequence[ft.Control],
    answers: ft.Control,
) -> list[ft.Control]:
    """Show the picture, the words with `more` among them, and the answers."""
    device, prompt = view.device, prompt_of(view, walk, step)
    sight = (device.width, device.height, device.text_scale)
    view.words_seen.begin(f"{step.id}_{view.peek}", sight, has_keys=step.kind in _OWN_PARTS)
    place = picture_place(view, walk, step, prompt)
    words_, scroll_on = _words(view, taps, walk, step, prompt, place, more)
    # A wait's words have been read when it began, and it takes no answer before it is over.
    if not (view.words_seen.live or step.kind == "wait"):
        word, icon, height = view.words("step-read-on"), ft.Icons.ARROW_DOWNWARD, device.answer_px
        zone = answer_zone(word, icon, scroll_on, key=f"read_on_{step.id}", height=height)
        answers = ft.Row([zone])
    apart = place is not None and place.where != "below"
    picture = [step_picture(view, walk, step, place)] if place and apart else []
    if not device.wide:
        return [*picture, words_, answers]
    half = partial(ft.Container, expand=1)
    if device.flat:
        # Too low for words above the answers: they get one half of the page.
        small = [*talk_zone(view, taps, step), _small_row(view, taps, step)]
        right = [*picture, answers]
        if step.kind in _OWN_PARTS and device.text_scale > 1:
            # Below keys there is no room for them.
            words_ = stretched([words_, *small], expand=True)
        else:
            right += small
        under = stretched(right, tight=True)
        halves = [half(words_), half(under, alignment=ft.Alignment.BOTTOM_CENTER)]
    else:
        side = half(picture[0] if picture else None, alignment=ft.Alignment.CENTER)
        halves = [side, half(stretched([words_, answers], expand=True))]
    return [ft.Row(list(halves), expand=True, spacing=24)]


def _words(
    view: View,
    taps: WalkTaps,
    walk: Walk,
    step: Step,
    prompt: Prompt,
    place: PicturePlace | None,
    more: Sequence[ft.Control],
) -> tuple[ft.Control, Tap]:
    """What scrolls, and how to scroll it on by a page; what must be read first stands first."""
    reading, own = view.words_seen, view.words_seen.words_id

    def changed(what_is_live: bool) -> None:
        if what_is_live:
            taps.appear()
            view.redraw()

    must, rest = step_words(view, walk, step, prompt, words_px(view, walk, step, prompt, place))
    if not view.peek:
        must[1:1] = last_time(taps, walk, step)
    if place and place.where == "below":
        picture = step_picture(view, walk, step, place)
        # In practice there is no vehicle to look at but the one in the picture.
        must, rest = ([*must, picture], rest) if view.practices else (must, [picture, *rest])
    silent = view.sound.trouble if view.settings.voice else ""
    notices = [notice(text) for text in (view.parts.open_walks.notice(walk.id), silent) if text]
    notices += practice_parts(view, step)
    more = [*practice_ear(view, step), *more]
    begun = step.id in walk.timers or step.id in walk.measured
    if begun:
        # What is being read matters more by now than what was asked: it follows the title, and
        # the answer that was given.
        at = 2 if view.peek else 1
        rows = [*notices, *must[:at], *more, *must[at:], *rest]
    elif view.peek or step.id in walk.holds:
        rows = [*notices, *must, *more, *rest]
    else:
        first = stretched([*notices, *must], tight=True)
        first.key = f"must_{own}"
        first.on_size_change = lambda event: changed(reading.came_out(own, event.height))
        rows = [first, *more, *rest]
    words_ = stretched(rows, expand=True, scroll=True)
    words_.key = f"words_{own}"

    async def scroll_on() -> None:
        if reading.at_end:
            changed(reading.finish())
        else:
            page_px = max(_LEAST_SCROLL_PX, reading.window_px - _OVERLAP_PX)
            await words_.scroll_to(delta=page_px, duration=_SCROLL_MS)

    def scrolled(event: ft.OnScrollEvent) -> None:
        changed(reading.scrolled(own, event.pixels + event.viewport_dimension))

    reading.read_on = scroll_on
    words_.on_scroll = scrolled
    words_.on_size_change = lambda event: changed(reading.opened(own, event.height))
    return words_, scroll_on


def step_bar(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """Tell where the walk stands, the way back to an earlier answer, and the menu."""
    at = walk.steps.index(step)

    back = tapped(taps.look_back, walk.steps[at - 1].id) if at else tapped(taps.pause)
    share = share_bar(len(walk.answers) / len(walk.steps), view.words("step-answered"))
    assert walk.plan is not None
    counts = {"at": at + 1, "steps": len(walk.steps)}
    place = label(view.words("step-of-steps", **counts), size=SMALL, bold=True)
    place.semantics_label = view.words("step-of-steps-said", **counts)
    more = icon_button(ft.Icons.MENU, view.words("step-more"), view.opens("menu"), key="menu")
    below = ft.Row([ft.Container(share, expand=True), place], spacing=10)
    return top_bar(view.words, walk.plan.vehicle.name, back=back, below=below, actions=[more])


def defect_banner(view: View, walk: Walk) -> Sequence[ft.Control]:
    """Open defects, loud until they are rechecked."""
    count = len(walk.open_defects)
    if not count:
        return []
    word, tap, icon = (
        view.words("open-defects", count=count),
        view.opens("defects"),
        ft.Icons.REPORT,
    )
    banner = button(word, tap, key="defects", icon=icon, tone=Tone.BAD, expand=True, height=48)
    return [ft.Row([banner])]


def last_time(taps: WalkTaps, walk: Walk, step: Step) -> Sequence[ft.Control]:
    """Tell what an earlier walk found here and nobody has cured since."""
    return [label(each, BAD, SMALL, bold=True) for each in taps.last_time.lines_at(walk, step.id)]


def _small_row(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    async def wording() -> None:
        await taps.speaker.reword()
        await again()

    async def again() -> None:
        await taps.speak(whole=True)

    words, longer, icons = view.words, view.settings.wording != "long", ft.Icons
    words_icon = icons.SCHOOL if longer else icons.SHORT_TEXT
    word = words("step-explain" if longer else "step-shorter")
    small: list[tuple[str, ft.IconData, Tap, str]] = [
        (words("step-again"), icons.VOLUME_UP, again, "again"),
        (word, words_icon, wording, "wording"),
        (words("step-note-button"), icons.EDIT_NOTE, view.opens("note"), "note"),
    ]
    if view.peek:
        on = tapped(taps.look_back, "")
        small.append((words("step-go-on"), icons.ARROW_FORWARD, on, "forward"))
    if not step.must:
        small.append((words("step-other"), icons.MORE_HORIZ, view.opens("other"), "other"))
    # On a page that lies on its side the row has three quarters of a column.
    across = ceil(len(small) * 4 / 3) if view.device.wide else len(small)
    beside = [word for word, _, _, _ in small]
    buttons = [
        small_answer(word, icon, tap, key=key, beside=beside, across=across)
        for word, icon, tap, key in small
    ]
    return ft.Row(list(buttons), spacing=8, key="small")
