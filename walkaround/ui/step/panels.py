"""What opens over a step: what is wrong with which lamp, other answers."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial
from typing import cast, get_args

import flet as ft

from walkaround.plan.steps import UNPLACED, Item, Step
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import page_column, top_bar
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import QUIET, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.keyboard import Offer
from walkaround.ui.page.pressing import use_offers
from walkaround.ui.page.unfinished import use_kept
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.answers import answer_for, faults_for
from walkaround.walk.events import By, Reason, Seen
from walkaround.words.answers import reason_text, seen_text
from walkaround.words.language import capital
from walkaround.words.measured import defect_words


@screen
def fault_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Which of the step's items is wrong, and how: two taps for one, more for several.

    Keys go through the same, each as it is said, and last the way back.
    """
    chosen, choose = use_kept(view.unfinished, "chosen", "")
    seen, set_seen = use_kept(view.unfinished, "seen", cast(tuple[tuple[str, Seen], ...], ()))
    known: Mapping[str, Seen] = dict(seen)
    items = {item.id: item for item in step.items}
    only = next(iter(items.values())) if len(items) == 1 else None
    item = only or items.get(chosen)

    # Each choice brings other buttons under the thumb.
    effect(view, taps.fresh, [chosen, len(seen)])

    async def back() -> None:
        if item is not None and only is None:
            choose("")
        else:
            view.open("")

    async def tell(what: Seen, by: By = "tap") -> None:
        assert item is not None
        if only is not None:
            await send({item.id: what}, by)
            return
        set_seen(tuple({**known, item.id: what}.items()))
        choose("")

    async def look_at(item_id: str) -> None:
        choose(item_id)

    async def send(seen: Mapping[str, Seen], by: By = "tap") -> None:
        answer = answer_for(step, seen) if seen else "defect"
        await taps.answer(step.id, answer, seen=seen, by=by)

    def named(item: Item) -> str:
        name = view.words.text(item.name)
        if what := known.get(item.id):
            return view.words("fault-item", item=name, seen=seen_text(what, view.words))
        return name

    choices = faults_for(item, step.expect.get(item.id, "steady")) if item else ()
    to_record = view.words("fault-record", count=len(known))
    if item is not None:
        offers = [
            Offer(capital(seen_text(what, view.words)), f"seen_{what}", partial(tell, what, "key"))
            for what in choices
        ]
    elif items:
        offers = [Offer(to_record, "record_fault", partial(send, known, "key"))] if known else []
        offers += [
            Offer(named(each), f"item_{each.id}", partial(look_at, each.id)) for each in step.items
        ]
    else:
        word = view.words("answer-defect")
        offers = [Offer(word, "defect_yes", partial(send, {}, "key"))]
    offers.append(Offer(view.words("go-back"), "back", back))
    pointed = use_offers(view, offers, back, soft=step.soft)

    def choice(what: Seen) -> ft.Control:
        key, word = f"seen_{what}", capital(seen_text(what, view.words))
        return wide_button(word, tapped(tell, what), key=key, on=key == pointed)

    def line(at: int, item: Item) -> ft.Control:
        key, word, bad = f"item_{item.id}", named(item), item.id in known
        if item.kind not in UNPLACED and not item.is_row:
            word = view.words("step-item", number=at, item=word)
        icon, look = ft.Icons.REPORT if bad else ft.Icons.CHEVRON_RIGHT, tapped(look_at, item.id)
        return wide_button(word, look, key=key, icon=icon, bad=bad, on=key == pointed)

    bar = top_bar(view.words, view.words.text(step.title), back=back)
    if not items:
        defect, report = tapped(send, {}), ft.Icons.REPORT
        note, pen = view.opens("note"), ft.Icons.EDIT_NOTE
        body = [
            heading(view.words("fault-record-here")),
            label(view.words("fault-stays-open")),
            wide_button(
                view.words("answer-defect"),
                defect,
                key="defect_yes",
                icon=report,
                bad=True,
                on=pointed == "defect_yes",
            ),
            wide_button(view.words("fault-note-first"), note, key="note_first", icon=pen),
        ]
        return page_column(bar, body)
    if item is not None:
        head = heading(capital(view.words.text(item.name)))
        asked = label(view.words("fault-what"))
        return page_column(bar, [head, asked, *(choice(what) for what in choices)])
    lines = [line(at, each) for at, each in enumerate(step.items, 1)]
    body = [heading(view.words("fault-which")), *lines]
    if not known:
        return page_column(bar, body)
    record = wide_button(
        to_record,
        tapped(send, known),
        key="record_fault",
        bad=True,
        icon=ft.Icons.CHECK,
        on=pointed == "record_fault",
        height=96,
    )
    return page_column(bar, body, [record])


@screen
def withdraw_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Asked before another answer takes an open defect back."""
    words, found = view.words, view.walk.defects[step.id]
    body = [
        heading(words("withdraw-question")),
        label(capital(defect_words(view.walk, found, words)), bold=True),
        label(words("withdraw-means")),
    ]
    keep = wide_button(words("withdraw-keep"), view.opens(""), key="keep", icon=ft.Icons.REPORT)
    if taps.take_back:
        word = words("withdraw-yes")
        body.append(wide_button(word, taps.take_back, key="withdraw", icon=ft.Icons.UNDO))
    bar = top_bar(words, words.text(step.title), back=view.opens(""))
    return page_column(bar, body, [keep])


@screen
def other_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """The rarer answers: not checked and why, not fitted where nobody requires it."""

    def reason(code: Reason) -> ft.Control:
        tap = taps.answers(step.id, "not_checked", reason=code)
        return wide_button(reason_text(code, view.words), tap, key=f"reason_{code}")

    body = [heading(view.words("other-because")), *map(reason, get_args(Reason))]
    optional = step.kind in ("lamp", "look", "listen") and not any(i.required for i in step.items)
    if optional:
        word, absent = view.words("answer-not-fitted"), taps.answers(step.id, "not_fitted")
        body.append(heading(view.words("other-not-on-vehicle")))
        body.append(wide_button(word, absent, key="not_fitted", icon=ft.Icons.BLOCK))
    elif step.kind == "lamp":
        body.append(label(view.words("other-required"), QUIET, SMALL))
    return page_column(top_bar(view.words, view.words.text(step.title), back=view.opens("")), body)
