"""The words of a step on its screen: what must be read before an answer, and what stands below it.

What is to be switched and what is to be seen stand in blocks of their own, in the words that are
spoken, always in this order.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import flet as ft

from walkaround.base.message import Argument, Message, message
from walkaround.drawing.part_drawings.line_drawing import drawn_part
from walkaround.drawing.plan_svg import PictureStyle
from walkaround.plan.steps import UNPLACED, Item, Step
from walkaround.ui.airhold.result import hold_body
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import caution, notice, stretched
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, LINE, QUIET, RADIUS, SMALL
from walkaround.ui.page.view import View
from walkaround.ui.pictures.part import part_view
from walkaround.ui.pictures.plan import flashes
from walkaround.ui.step_content.text_sizes import plain_px
from walkaround.walk.answers import has_many_lamps
from walkaround.walk.state import Walk
from walkaround.words.answers import given_words
from walkaround.words.prompts import Prompt

_SIGN_PX = 26
VENTS_PX = 56.0
"""Height of the word where air blows out."""
_PART_SHARE = 140 / 240
"""Height of a line drawing in its widths."""
OWN_KINDS = frozenset({"measure", "gauges", "chambers", "wait"})
"""Kinds of step that take more than two answers."""
_NO_ANSWER_YET = frozenset({"measure", "gauges", "wait", "hold"})
"""Kinds of step that begin with no answer that could take the focus."""


class StepWords(NamedTuple):
    """The controls among the words of a step: `must` is read before an answer, `rest` may be."""

    must: list[ft.Control]
    rest: list[ft.Control]


def step_words(view: View, walk: Walk, step: Step, prompt: Prompt, size_px: float) -> StepWords:
    """Show the words of a step; what it asks is drawn `size_px` large."""
    must, rest = list[ft.Control](), list[ft.Control]()
    small = view.device.low
    if view.peek:
        # The vehicle no longer stands as the step asked: its words are no order any more.
        small, size_px = True, SMALL * view.device.text_scale
        answer_given = given_words(step, walk.answers.get(step.id), view.words)
        if step.kind not in OWN_KINDS and step.hold is None:
            answer_given = view.words("step-given-changes", given=answer_given)
        must.append(heading(view.words("step-looking-back", step=step.title)))
        must.append(notice(answer_given, key="given"))
        must.append(label(view.words("step-was-asked"), QUIET, SMALL, bold=True))
    else:
        # Where no answer takes the focus, since none is there yet or all are equal, the title does.
        no_answer = step.kind in _NO_ANSWER_YET or has_many_lamps(step) or bool(step.choices)
        must.append(heading(prompt.title, focused=no_answer))
        if step.vents:
            must.append(_vents_word(view))
    if prompt.caution:
        must.append(caution(prompt.caution, SMALL + 1 if small else BODY))
    if step.meter_first:
        must.append(caution(view.words("prompt-meter-first", why=step.meter_first), SMALL + 1))
    if step.hold:
        # Once there is a result, it comes before the words that led to it.
        must += hold_body(view, walk, step)
    must.append(_question_rows(view, step, prompt, size_px))
    if prompt.explained:
        plain = SMALL if view.peek else plain_px(view.device.text_scale) / view.device.text_scale
        rest.append(label(prompt.explained, size=plain, key="explained"))
    subject = drawn_part(step)
    if subject and view.settings.wording == "long" and not view.peek:
        wide = view.device.width / 2 - 40 if view.device.wide else view.device.column_px - 24
        look = PictureStyle(round(wide), round(_PART_SHARE * wide), view.dark)
        rest.append(part_view(subject, look, view.words))
    if view.settings.wording == "long" and not view.peek:
        word, icon = view.words("step-show-large"), ft.Icons.ZOOM_IN
        rest.append(wide_button(word, view.opens("large"), key="large", icon=icon))
    if view.device.motion is False and flashes(step) and not view.peek:
        rest.append(label(view.words("step-arcs-flash"), key="arcs_flash"))
    rest += [label(prompt.pins, QUIET, SMALL + 1, key="pins")] if prompt.pins else []
    rest += _item_rows(view, step)
    if walk.notes.get(step.id):
        rest.append(notice(view.words("step-note", note=walk.notes[step.id]), key="noted"))
    return StepWords(must, rest)


def _vents_word(view: View) -> ft.Control:
    """Show one large word for when nothing that is said would be understood."""
    size = VENTS_PX / 1.4 / view.device.text_scale
    word = label(view.words("step-vents"), size=size, bold=True, max_lines=1, key="vents")
    return ft.Row([ft.Icon(ft.Icons.AIR, size=VENTS_PX / 1.4), word], spacing=10)


def _question_rows(view: View, step: Step, prompt: Prompt, size_px: float) -> ft.Control:
    """Show what to switch, if anything, and what to do or see, each block with its sign."""
    size = size_px / view.device.text_scale
    see = label(prompt.see, size=size, key="words")
    if step.kind != "lamp":
        return ft.Semantics(content=see, live_region=True)
    blocks = [_block(see, ft.Icons.VISIBILITY, framed=False)]
    if prompt.switch:
        switch = label(prompt.switch, size=size, key="switch")
        blocks.insert(0, _block(switch, ft.Icons.TOGGLE_ON, framed=True))
    return ft.Semantics(content=stretched(blocks, 8, tight=True), live_region=True)


def _block(words: ft.Text, sign: ft.IconData, *, framed: bool) -> ft.Control:
    words.expand = True
    row = ft.Row([ft.Icon(sign, size=_SIGN_PX), words], spacing=10)
    row.vertical_alignment = ft.CrossAxisAlignment.START
    if not framed:
        return row
    border = ft.Border.all(1, LINE)
    return ft.Container(row, border=border, border_radius=RADIUS, padding=8)


def listed_items(view: View, step: Step) -> list[Item]:
    """Tell what is listed below the words: what their picture does not tell."""
    items = [item for item in step.items if item.is_row or item.kind not in UNPLACED]
    if step.kind == "chambers":
        return [item for item in items if item.is_row]
    # Lamps at an end are drawn where they are, each as it must look; Explain names them too.
    is_drawn = step.kind == "lamp" and step.spot in ("front", "rear")
    if len(items) < 2 or (is_drawn and view.settings.wording != "long"):
        return []
    return items


def _item_rows(view: View, step: Step) -> Sequence[ft.Control]:
    """Show items by the plan's numbers; rows without, for they share places."""
    items = listed_items(view, step)
    if not items:
        return []
    mixed = len(set(step.expect.values())) > 1 and has_many_lamps(step)

    def line(at: int, item: Item) -> str:
        if item.is_row:
            return view.words("step-row", row=_name_without_end(item))
        if mixed and item.id in step.expect:
            look = message(f"look-{step.expect[item.id]}")
            return view.words("step-item-look", number=at, item=item.name, look=look)
        return view.words("step-item", number=at, item=item.name)

    lines = dict.fromkeys(line(at, item) for at, item in enumerate(items, 1))
    return [ft.Column([label(each) for each in lines], spacing=2)]


def _name_without_end(row: Item) -> Argument:
    """Name what is looked at, without the end of the axle, which is named already."""
    name = row.name
    if isinstance(name, Message) and name.id == "brake-row-at-end":
        return name.args["row"]
    return name
