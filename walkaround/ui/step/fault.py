"""What is wrong at a step: the lamp is tapped in its picture, then what is wrong with it.

The picture stays in sight; a lamp that was told of is tapped again to take that back. What no
picture shows is listed below it.
"""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping
from functools import partial
from typing import cast

import flet as ft

from walkaround.drawing.plan_svg import PictureStyle
from walkaround.plan.steps import UNPLACED, Item, Step
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import stretched, top_bar
from walkaround.ui.kit.sheet import chip, grid
from walkaround.ui.kit.surface import Tap, tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.keyboard import Offer
from walkaround.ui.page.step_keys import use_offers
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.pictures.plan import step_plan_alone
from walkaround.ui.step.talk import talk_zone
from walkaround.ui.step_content.lamp_zones import lamp_zones, tapped_lamps
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.answers import answer_for, faults_for
from walkaround.walk.events import By, Seen
from walkaround.words.answers import seen_text
from walkaround.words.language import capital

_SHARE, _LEAST_PX = 0.3, 184.0
"""Of the page's height for the picture, and how high it is at least: three rows of lamps to tap."""
_ONE_ACROSS = 1.3
"""At a larger scale than this kinds of fault stand one below the other."""


@screen
def fault_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Tell which of the step's items is wrong, and how: two taps for one, more for several.

    Keys go through the same, each as it is said, and last the way back.
    """
    chosen, choose = use_unfinished(view.unfinished, "chosen", "")
    seen_as, set_seen = use_unfinished(
        view.unfinished, "seen", cast(tuple[tuple[str, Seen], ...], ())
    )
    dropping, set_dropping = ft.use_state(False)
    marks: Mapping[str, Seen] = dict(seen_as)
    items = {item.id: item for item in step.items}
    only = next(iter(items.values())) if len(items) == 1 else None
    item = only or items.get(chosen)

    # Each choice brings other buttons under the thumb.
    effect(view, taps.appear_anew, [chosen, len(seen_as), dropping])

    async def back() -> None:
        if item is not None and only is None:
            choose("")
        elif marks:
            # The way back from the question leads to the marks, and not over them.
            set_dropping(not dropping)
            if pointed and (keys := view.device.keyboard.offers):
                keys.point(0)
        else:
            view.open("")

    async def close() -> None:
        view.open("")

    # Without a tap, by whatever told the last thing that was not tapped.
    async def send(reported: Mapping[str, Seen], by: By | None = "tap") -> None:
        answer = answer_for(step, reported) if reported else "defect"
        await taps.answer(step.id, answer, seen_as=reported, by=by or taps.key_taps.by)

    async def tell(what: Seen, by: By | None = "tap") -> None:
        assert item is not None
        if only is not None:
            await send({item.id: what}, by)
            return
        set_seen(tuple({**marks, item.id: what}.items()))
        choose("")

    async def look_at(item_id: str) -> None:
        if item_id in marks:
            set_seen(tuple((id_, what) for id_, what in seen_as if id_ != item_id))
        else:
            choose(item_id)

    def tap_on(item_id: str) -> Tap:
        return tapped(look_at, item_id)

    if dropping:
        keep = Offer(view.words("fault-keep", count=len(marks)), "keep_marks", back)
        drop = Offer(view.words("fault-drop", count=len(marks)), "drop_marks", close)
        offers = [keep, drop]
    elif item is not None:
        kinds = _faults_for(step, item)
        offers = [
            Offer(capital(seen_text(what, view.words)), f"seen_{what}", partial(tell, what, None))
            for what in kinds
        ]
    elif items:
        word = view.words("fault-record", count=len(marks))
        offers = [Offer(word, "record_fault", partial(send, marks, None))] if marks else []
        offers += [
            Offer(
                _item_text(view, each, marks.get(each.id)),
                f"item_{each.id}",
                partial(look_at, each.id),
            )
            for each in step.items
        ]
    else:
        offers = [Offer(view.words("answer-defect"), "defect_yes", partial(send, {}, None))]
    if not dropping:
        offers.append(Offer(view.words("go-back"), "back", back))
    pointed = use_offers(view, offers, back)

    bar = top_bar(view.words, view.words.text(step.title), back=back)
    if not items:
        return stretched(
            [bar, *_whole_step(view, taps, step), *talk_zone(view, taps, step)], expand=True
        )
    if dropping:
        zones = [
            wide_button(each.word, each.take, key=each.key, on=each.key == pointed)
            for each in offers
        ]
        question = heading(view.words("fault-drop-question", count=len(marks)))
        return stretched([bar, question, *zones], expand=True)
    look = _look(view)
    plan = view.walk.plan
    assert plan is not None
    lamps = tapped_lamps(plan, step, look)
    if item is not None:
        body = _fault_buttons(view, step, item, tell, pointed)
    else:
        other_items = [each for each in step.items if each.id not in lamps]
        lines = [
            _line(view, step, each, marks.get(each.id), tap_on(each.id), pointed)
            for each in other_items
        ]
        body = [heading(view.words("fault-which")), *lines]
    rows: list[ft.Control] = [stretched(body, expand=True, scroll=True)]
    if marks and item is None:
        word = view.words("fault-record", count=len(marks))
        record = tapped(send, marks)
        icon = ft.Icons.CHECK
        rows.append(wide_button(word, record, key="record_fault", bad=True, icon=icon, height=96))
    rows += talk_zone(view, taps, step)
    if not lamps:
        return stretched([bar, *rows], expand=True)
    zones = lamp_zones(
        lamps,
        step.items,
        lambda each: _numbered_item_text(view, step, each, marks.get(each.id)),
        tap_on,
        chosen=item.id if item else pointed.removeprefix("item_"),
        wrong=marks,
    )
    shown_plan = step_plan_alone(view.walk, step, look, view.words, moves=bool(view.device.motion))
    seen_from = [*shown_plan, *zones]
    picture = ft.Stack(seen_from, width=look.width, height=look.height)
    if not view.device.wide:
        return stretched([bar, picture, *rows], expand=True)
    right = stretched(rows, expand=True)
    halves: list[ft.Control] = [ft.Container(each, expand=1) for each in (picture, right)]
    return stretched([bar, ft.Row(halves, expand=True, spacing=24)], expand=True)


def _look(view: View) -> PictureStyle:
    """Choose the picture's size: every lamp in it wide and high enough for a thumb."""
    device = view.device
    width = device.width / 2 - 36 if device.wide else device.column_px - 24
    height = min(max(_LEAST_PX, _SHARE * device.height), 0.6 * width)
    return PictureStyle(round(width), round(height), view.dark)


def _whole_step(view: View, taps: WalkTaps, step: Step) -> list[ft.Control]:
    """Ask for the defect of a step that looks at nothing in particular."""
    defect, report = taps.answers(step.id, "defect"), ft.Icons.REPORT
    note, pen = view.opens("note"), ft.Icons.EDIT_NOTE
    body = [
        heading(view.words("fault-record-here")),
        label(view.words("fault-stays-open")),
        wide_button(view.words("answer-defect"), defect, key="defect_yes", icon=report, bad=True),
        wide_button(view.words("fault-note-first"), note, key="note_first", icon=pen),
    ]
    return [stretched(body, expand=True, scroll=True)]


def _fault_buttons(
    view: View, step: Step, item: Item, tell: Callable[[Seen], Awaitable[None]], pointed: str
) -> list[ft.Control]:
    """Show what can be wrong with this item, two side by side."""
    across = 1 if view.device.text_scale > _ONE_ACROSS else 2
    chips = [
        chip(
            view.words,
            capital(seen_text(what, view.words)),
            tapped(tell, what),
            key=f"seen_{what}",
            on=f"seen_{what}" == pointed,
        )
        for what in _faults_for(step, item)
    ]
    name = capital(view.words.text(item.name))
    return [heading(name), label(view.words("fault-what")), grid(chips, across)]


def _faults_for(step: Step, item: Item) -> tuple[Seen, ...]:
    signal = "flashing" in step.expect.values()
    return faults_for(item, step.expect.get(item.id, "steady"), signal=signal)


def _line(
    view: View, step: Step, item: Item, what: Seen | None, tap: Tap, pointed: str
) -> ft.Control:
    return wide_button(
        capital(_numbered_item_text(view, step, item, what)),
        tap,
        key=f"item_{item.id}",
        icon=ft.Icons.REPORT if what else ft.Icons.CHEVRON_RIGHT,
        bad=what is not None,
        on=f"item_{item.id}" == pointed,
    )


def _item_text(view: View, item: Item, what: Seen | None) -> str:
    """Name an item, and what was recorded of it."""
    if what is None:
        return view.words.text(item.name)
    return view.words("fault-item", item=item.name, seen=seen_text(what, view.words))


def _numbered_item_text(view: View, step: Step, item: Item, what: Seen | None) -> str:
    """Name an item with its number in the picture, and what was recorded of it."""
    name = view.words.text(item.name)
    if item.kind not in UNPLACED and not item.is_row:
        name = view.words("step-item", number=step.items.index(item) + 1, item=name)
    seen = seen_text(what, view.words) if what else ""
    return view.words("fault-item", item=name, seen=seen) if what else name
