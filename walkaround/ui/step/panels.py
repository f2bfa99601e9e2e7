"""What opens over a step: what is wrong with which lamp, other answers, a note."""

from __future__ import annotations

from collections.abc import Callable, Coroutine, Mapping
from dataclasses import dataclass
from typing import Any, cast, get_args

import flet as ft

from walkaround.plan.steps import Item, Look, Step
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import page_column, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, LINE, QUIET, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.unfinished import use_kept
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.answers import faults_for
from walkaround.walk.events import MOST_NOTE_CHARS, Reason, Seen
from walkaround.words.answers import reason_text, seen_text
from walkaround.words.language import capital


@screen
def fault_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """Which of the step's items is wrong, and how: two taps for one, more for several."""
    chosen, choose = use_kept(view.unfinished, "chosen", "")
    seen, set_seen = use_kept(view.unfinished, "seen", cast(tuple[tuple[str, Seen], ...], ()))
    known: Mapping[str, Seen] = dict(seen)
    items = {item.id: item for item in step.items}
    only = next(iter(items.values())) if len(items) == 1 else None
    item = only or items.get(chosen)

    async def fresh() -> None:
        taps.appear()

    # Each choice brings other buttons under the thumb.
    effect(view, fresh, [chosen, len(seen)])

    async def back() -> None:
        if item is not None and only is None:
            choose("")
        else:
            view.open("")

    async def tell(what: Seen) -> None:
        assert item is not None
        if only is not None:
            await taps.fault(step, {item.id: what})
            return
        set_seen(tuple({**known, item.id: what}.items()))
        choose("")

    bar = top_bar(view.words, view.words.text(step.title), back=back)
    if not items:
        return page_column(bar, _plain_fault(view, taps, step))
    if item is not None:
        look = step.expect.get(item.id, "steady")
        return page_column(bar, _what(view, item, look, tell))
    return page_column(bar, _which(view, step, known, choose), _send(view, taps, step, known))


def _plain_fault(view: View, taps: WalkTaps, step: Step) -> list[ft.Control]:
    return [
        heading(view.words("fault-record-here")),
        label(view.words("fault-stays-open")),
        wide_button(
            view.words("answer-defect"),
            taps.answers(step.id, "defect"),
            key="defect_yes",
            icon=ft.Icons.REPORT,
            bad=True,
        ),
        wide_button(
            view.words("fault-note-first"),
            view.opens("note"),
            key="note_first",
            icon=ft.Icons.EDIT_NOTE,
        ),
    ]


def _which(
    view: View, step: Step, known: Mapping[str, Seen], choose: Callable[[str], None]
) -> list[ft.Control]:
    def line(at: int, item: Item) -> ft.Control:
        what = known.get(item.id)
        name = view.words.text(item.name)
        if item.kind != "others":
            name = view.words("step-item", number=at, item=name)
        seen = seen_text(what, view.words) if what else ""
        word = view.words("fault-item", item=name, seen=seen) if what else name
        return wide_button(
            word,
            lambda: choose(item.id),
            key=f"item_{item.id}",
            icon=ft.Icons.REPORT if what else ft.Icons.CHEVRON_RIGHT,
            bad=what is not None,
        )

    lines = [line(at, item) for at, item in enumerate(step.items, 1)]
    return [heading(view.words("fault-which")), *lines]


def _what(
    view: View, item: Item, look: Look, tell: Callable[[Seen], Coroutine[Any, Any, None]]
) -> list[ft.Control]:
    def choice(what: Seen) -> ft.Control:
        async def told() -> None:
            await tell(what)

        return wide_button(capital(seen_text(what, view.words)), told, key=f"seen_{what}")

    name = str(item.name)
    name = name[:1].upper() + name[1:]
    choices = [choice(what) for what in faults_for(item, look)]
    return [heading(name), label(view.words("fault-what")), *choices]


def _send(view: View, taps: WalkTaps, step: Step, known: Mapping[str, Seen]) -> list[ft.Control]:
    if not known:
        return []

    async def send() -> None:
        await taps.fault(step, known)

    word = view.words("fault-record", count=len(known))
    return [wide_button(word, send, key="record_fault", bad=True, icon=ft.Icons.CHECK, height=96)]


@screen
def other_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """The rarer answers: not checked and why, not fitted where nobody requires it."""

    def reason(code: Reason) -> ft.Control:

        return wide_button(
            reason_text(code, view.words),
            taps.answers(step.id, "not_checked", reason=code),
            key=f"reason_{code}",
        )

    body: list[ft.Control] = [heading(view.words("other-because"))]
    body += [reason(code) for code in get_args(Reason)]
    optional = step.kind in ("lamp", "look", "listen") and not any(i.required for i in step.items)
    if optional:
        body += [
            heading(view.words("other-not-on-vehicle")),
            wide_button(
                view.words("answer-not-fitted"),
                taps.answers(step.id, "not_fitted"),
                key="not_fitted",
                icon=ft.Icons.BLOCK,
            ),
        ]
    elif step.kind == "lamp":
        body.append(label(view.words("other-required"), QUIET, SMALL))
    return page_column(top_bar(view.words, view.words.text(step.title), back=view.opens("")), body)


MOST_TYPED_CHARS = 8 * MOST_NOTE_CHARS
"""What looks like one character on a page may be eight."""


@dataclass
class _Draft:
    """What has been typed so far."""

    text: str


@screen
def note_panel(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """A short note on this step."""
    before = view.walk.notes.get(step.id, "")
    # Not a state: a field drawn anew at each keystroke loses those typed meanwhile.
    kept = view.unfinished
    draft = ft.use_memo(lambda: _Draft(kept.values.get("note", before)), dependencies=[])

    async def save() -> None:
        await taps.note(step.id, draft.text)

    def typed(e: ft.Event[ft.TextField]) -> None:
        # The page takes no more characters; what is sent by something else may be of any length.
        draft.text = kept.keep("note", (e.control.value or "")[:MOST_TYPED_CHARS])

    # Kept when the panel is drawn anew, or what was typed would be gone when it cannot be saved.
    field = ft.use_memo(
        lambda: ft.TextField(
            label=view.words("note-title"),
            value=draft.text,
            multiline=True,
            min_lines=4,
            max_lines=8,
            max_length=MOST_NOTE_CHARS,
            autofocus=True,
            on_change=typed,
            text_size=BODY,
            border=ft.OutlineInputBorder(side=ft.BorderSide(1, LINE)),
            key="note_text",
        ),
        dependencies=[],
    )
    return page_column(
        top_bar(view.words, view.words.text(step.title), back=view.opens("")),
        [heading(view.words("note-title")), field],
        [
            wide_button(
                view.words("note-save"), save, key="save_note", icon=ft.Icons.SAVE, height=96
            )
        ],
    )
