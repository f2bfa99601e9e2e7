"""The picture of a step on its screen: the connector's face or the vehicle, and how large it is."""

from __future__ import annotations

from typing import Literal, NamedTuple

import flet as ft

from walkaround.drawing.part_drawings.line_drawing import drawn_part
from walkaround.drawing.plan_svg import PictureStyle
from walkaround.plan.steps import Step
from walkaround.ui.page.step_keys import key_line_px, talk_px
from walkaround.ui.page.view import View
from walkaround.ui.pictures.connector import pin_view
from walkaround.ui.pictures.part import part_view
from walkaround.ui.pictures.plan import step_plan_view
from walkaround.ui.practice.observations import seen_picture
from walkaround.ui.step_content.lamp_zones import lamp_at, tapped_lamps
from walkaround.ui.step_content.text_sizes import (
    AROUND_PX,
    LARGEST,
    SIZES,
    caution_px,
    line_px,
    plain_px,
    text_px,
    title_px,
)
from walkaround.ui.step_content.words import OWN_KINDS, VENTS_PX, listed_items
from walkaround.ui.step_prompt import prompt_of
from walkaround.walk.state import Walk
from walkaround.words.prompts import Prompt

PLUG_STEPS = frozenset({"source_matches", "doubtful_pins", "cable_on"})
"""Steps at the connector: its face is shown, not the vehicle."""
_BANNER_PX = 52.0
"""What the open defects, or a line of a note, take."""
_BAR_PX, _SMALL_PX, _GAPS_PX = 66.0, 60.0, 44.0
"""What bar, small buttons, gaps and margins take."""
_BAR_GROWS_PX, _SMALL_GROWS_PX = 26.0, 20.0
"""What bar and small buttons take more at twice the scale."""
_LEAST_PX = 92.0
"""A picture lower than this shows nothing."""
_LEAST_SEEN_PX = 124.0
"""The same in practice: it alone tells which lamps are lit, and lower ones have no rays or arcs."""
_LEAST_WORDS_PX = 120.0
"""Height left for words that must be scrolled under a picture."""
_BLOCKS_PX, _SIGN_PX = 30.0, 38.0
"""What blocks of words take besides their lines: of the height, and of the width."""
_SPARE_PX = 60.0
"""Height left free under words that did not fit at first."""
_SPACING_PX = 24.0
"""What lies between title, caution and words."""


class PicturePlace(NamedTuple):
    """The place and size of a step's picture: over or beside its words, or below."""

    where: Literal["over", "beside", "below"]
    width: float
    height: float


def is_placed(step: Step) -> bool:
    """Tell whether its picture shows where something is, and not only where to stand."""
    return step.id in PLUG_STEPS or any(item.mark or not item.is_row for item in step.items)


def picture_place(view: View, walk: Walk, step: Step, prompt: Prompt) -> PicturePlace | None:
    """Choose where the picture goes; None where words and keys need its room."""
    device, begun = view.device, step.id in walk.timers or step.id in walk.measured
    if step.id in walk.holds or (begun and (device.flat or not device.wide)):
        return None
    if device.flat:
        return _flat_place(view, step)
    if device.wide:
        return PicturePlace("beside", device.width / 2 - 48, device.height - 180)
    # Values and keys come before a plan on which there is nothing to find (any more).
    has_own_parts, rows = step.kind in OWN_KINDS, any(item.is_row for item in step.items)
    crowded = device.low or device.text_scale > 1
    if has_own_parts and (not step.items or (rows and crowded)):
        return None
    width, height = device.column_px - 24, _over_words_px(view, step)
    least_px = _LEAST_SEEN_PX if view.practices else _LEAST_PX
    plain = plain_px(device.text_scale)
    if not is_placed(step):
        if view.words_seen.crowded:
            return None
        # One that only shows where to stand goes before the words get smaller.
        fits = _room_px(view, walk, step, prompt, height, max(LARGEST, plain)) >= 0
        return (
            PicturePlace("over", width, height) if fits or (has_own_parts and not crowded) else None
        )
    if has_own_parts and view.words_seen.crowded:
        return PicturePlace("below", width, least_px)
    # It gives way to words as far as they need it, so that no room is left over.
    lower = min(height, _room_px(view, walk, step, prompt, 0.0, plain))
    if lower >= least_px:
        return PicturePlace("over", width, lower)
    other_px = _other_parts_px(view) + least_px
    where: Literal["over", "below"] = "over"
    if step.kind != "lamp" or device.height - other_px < _LEAST_WORDS_PX * device.text_scale:
        where = "below"
    return PicturePlace(where, width, least_px)


def _flat_place(view: View, step: Step) -> PicturePlace | None:
    """Place the picture on a low page, over the answers; one without marks is left out."""
    if not is_placed(step):
        return None
    device = view.device
    width, height = device.width / 2 - 48, device.height - _other_parts_px(view)
    least_px = _LEAST_SEEN_PX if view.practices else _LEAST_PX
    if height < least_px or step.kind in OWN_KINDS:
        return PicturePlace("below", width, max(least_px, 0.3 * device.height))
    return PicturePlace("beside", width, height)


def _other_parts_px(view: View) -> float:
    """Return what bar, answers, small buttons and gaps take of the page's height, px."""
    grown = (_BAR_GROWS_PX + _SMALL_GROWS_PX) * (view.device.text_scale - 1)
    banner = _BANNER_PX if view.walk.open_defects else 0.0
    banner += key_line_px(view) + talk_px(view)
    return _BAR_PX + _SMALL_PX + _GAPS_PX + grown + banner + view.device.answer_px


def words_px(
    view: View, walk: Walk, step: Step, prompt: Prompt, place: PicturePlace | None
) -> float:
    """Choose the text size of a step's words over, beside or under its picture, px."""
    over = place.height if place and place.where == "over" else 0.0
    return _size_px(view, walk, step, prompt, over)


def _size_px(view: View, walk: Walk, step: Step, prompt: Prompt, picture_px: float) -> float:
    scale = view.device.text_scale
    plain = plain_px(scale)
    crowded = view.words_seen.crowded
    if crowded and step.kind in OWN_KINDS:
        return plain
    # They came out higher than computed before, and may once more.
    spare_px = _SPARE_PX if crowded and not is_placed(step) else 0.0
    sizes = (size for size in SIZES if size > plain)
    fits = (s for s in sizes if _room_px(view, walk, step, prompt, picture_px, s) >= spare_px)
    return next(fits, plain)


def _room_px(
    view: View, walk: Walk, step: Step, prompt: Prompt, picture_px: float, size: float
) -> float:
    """Compute what is left of the page with words of this size; less than nothing: scrolled."""
    device, scale = view.device, view.device.text_scale
    width, used_px = device.column_px - 24, picture_px + device.answer_px
    if device.wide:
        width = device.width / 2 - 40
        used_px = -_SMALL_PX if device.flat else float(device.answer_px)
    used_px += _BANNER_PX * (bool(walk.open_defects) + len(walk.notes.get(step.id, "")) // 40)
    if step.kind == "lamp":
        width, used_px = width - _SIGN_PX, used_px + _BLOCKS_PX * bool(prompt.switch)
    lines = bool(prompt.pins) + len(listed_items(view, step))
    cautions = [text for text in (prompt.caution, view.words.text(step.meter_first)) if text]
    used_px += _SPACING_PX + key_line_px(view) + talk_px(view) + VENTS_PX * step.vents
    room = device.height - used_px - _BAR_GROWS_PX * (scale - 1)
    room -= title_px(prompt.title, scale, width) + lines * line_px(scale)
    room -= sum(caution_px(text, scale, width, low=device.low) for text in cautions)
    room -= text_px(prompt.explained, plain_px(scale), width) if prompt.explained else 0
    asked_texts = [text for text in (prompt.switch, prompt.see) if text]
    return room - sum(text_px(text, size, width) for text in asked_texts) - AROUND_PX


def _over_words_px(view: View, step: Step) -> float:
    # Numbered places want room; where there is only a spot to stand, the words want it more.
    least, share = (116.0, 0.27) if is_placed(step) else (92.0, 0.18)
    least = max(least, _LEAST_SEEN_PX) if view.practices else least
    if step.kind in OWN_KINDS:
        share = 0.16
    return max(least, min(0.6 * view.device.column_px, view.device.height * share))


def step_picture(view: View, walk: Walk, step: Step, place: PicturePlace) -> ft.Control:
    """Show where to look: the connector's face at its steps, else the vehicle.

    A tap on a lamp says that it is wrong.
    """
    assert walk.plan is not None
    _, width, height = place
    connector = view.parts.library.connectors.get(walk.plan.vehicle.electrical.connector)
    if step.id in PLUG_STEPS and connector is not None:
        connector = connector.as_of(walk.plan.vehicle.made)
        strong = [pin.pin for pin in connector.pins if pin.doubt and step.id == "doubtful_pins"]
        return pin_view(connector, view.palette, width, max(140.0, height), strong, view.words)
    style = PictureStyle(round(width), round(height), view.dark)
    practice = view.practice
    if not is_placed(step) and (subject := drawn_part(step)):
        # Where there is nothing to find on the vehicle, the part itself is shown.
        return part_view(subject, style, view.words)
    soon, moves = _next_plan(view, walk, step), bool(view.device.motion)
    if practice:
        picture = seen_picture(view, practice, step, style)
    else:
        picture = step_plan_view(walk, step, style, soon, view.words, moves=moves)
    if step.kind != "lamp":
        return picture

    def mark_wrong(event: ft.TapEvent[ft.GestureDetector]) -> None:
        assert walk.plan is not None
        if not view.words_seen.live:
            return
        view.open("fault")
        if at := event.local_position:
            lamps = tapped_lamps(walk.plan, step, style)
            view.unfinished.keep("chosen", lamp_at(lamps, at.x, at.y))

    return ft.GestureDetector(picture, on_tap_up=mark_wrong, key="picture")


def _next_plan(view: View, walk: Walk, step: Step) -> PictureStyle | None:
    """Return how the plan of the next step will look, if it shows one."""
    at = walk.steps.index(step) + 1
    if view.peek or at == len(walk.steps):
        return None
    place = picture_place(view, walk, walk.steps[at], prompt_of(view, walk, walk.steps[at]))
    return PictureStyle(round(place.width), round(place.height), view.dark) if place else None
