"""The step screen: where to look on this vehicle, the words, two answers, and the small ones."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import flet as ft

from walkaround.base.message import Argument, Message, message
from walkaround.drawing.plan_svg import Look
from walkaround.plan.steps import UNPLACED, Item, Step
from walkaround.ui.airhold.result import hold_body
from walkaround.ui.drawn.connector import pin_view
from walkaround.ui.drawn.plan import step_plan_view
from walkaround.ui.kit.buttons import button, icon_button
from walkaround.ui.kit.parts import caution, notice, share_bar, stretched, top_bar
from walkaround.ui.kit.surface import tapped
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BODY, QUIET, SMALL, Tone
from walkaround.ui.kit.zones import small_answer
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.step.answers import step_answers
from walkaround.ui.step.chambers import chambers_parts
from walkaround.ui.step.fitting import PLAIN, words_size
from walkaround.ui.step.gauges import gauges_parts
from walkaround.ui.step.measure import measure_parts
from walkaround.ui.step.pressing import key_line
from walkaround.ui.step.timed import wait_parts, wait_strips
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.answers import has_many_lamps
from walkaround.walk.leaving import as_left
from walkaround.walk.state import Walk
from walkaround.words.answers import given_words
from walkaround.words.prompts import Prompt, prompt

PLUG_STEPS = frozenset({"source_matches", "doubtful_pins", "cable_on"})
"""Steps at the connector: its face is shown, not the vehicle."""
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


_BANNER_PX = 52.0
"""What the open defects, or a line of a note, take."""


@screen
def step_screen(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    """The step that is asked; draw it without a key of its own.

    Bar, picture and small buttons stay while steps change. Words begin at their top again, and the
    answers are new controls, which is what drops the second tap of a double one.
    """
    walk, own = view.walk, f"{step.id}_{view.peek}"
    bar, strips = step_bar(view, taps, walk, step), wait_strips(view, walk, step)
    top = ft.Column([bar, *defect_banner(view, walk), *strips], spacing=4, key="top")
    if step.kind in _OWN_PARTS:
        middle = [_own_parts(view, taps, walk, step, key=own)]
    else:
        answers = step_answers(view, taps, walk, step, key=own)
        middle = _middle(view, walk, step, [], answers)
    return stretched([top, *middle, _small_row(view, taps, step)], expand=True)


@screen
def _own_parts(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """What is between the bar and the small buttons of a step that takes more than two answers.

    It is the step's own, since it remembers what was chosen.
    """
    more, answers = _OWN_PARTS[step.kind](view, taps, walk, step)
    return stretched(_middle(view, walk, step, more, answers), expand=True)


def _middle(
    view: View, walk: Walk, step: Step, more: Sequence[ft.Control], answers: ft.Control
) -> list[ft.Control]:
    """The picture, the words and `more` among them, and the answers."""
    said, begun = _words(view, walk, step), step.id in walk.timers or step.id in walk.measured
    silent = view.sound.trouble if view.settings.voice else ""
    told = [notice(text) for text in (view.parts.open_walks.notice(walk.id), silent) if text]
    # What is being read matters more by now than what was asked: it follows the title, and the
    # answer that was given.
    at = (2 if view.peek else 1) if begun else len(said)
    words_ = stretched([*told, *said[:at], *more, *said[at:]], expand=True, scroll=True)
    words_.key = f"words_{step.id}_{view.peek}"
    # Values and keys come before a plan on which there is nothing to find (any more).
    own, rows = step.kind in _OWN_PARTS, any(item.is_row for item in step.items)
    keys_need_room = begun or (own and (not step.items or (rows and view.device.low)))
    if step.id in walk.holds or (not view.device.wide and keys_need_room):
        return [words_, answers]
    picture = _plan(view, walk, step)
    if not view.device.wide:
        return [picture, words_, answers]
    side = ft.Container(picture, expand=1, alignment=ft.Alignment.CENTER)
    right = ft.Container(stretched([words_, answers], expand=True), expand=1)
    return [ft.Row([side, right], expand=True, spacing=24)]


def step_bar(view: View, taps: WalkTaps, walk: Walk, step: Step) -> ft.Control:
    """Where the walk stands, the way back to an earlier answer, and the menu."""
    at = walk.steps.index(step)

    back = taps.pause if at == 0 else tapped(taps.look_back, walk.steps[at - 1].id)
    share = share_bar(len(walk.answers) / len(walk.steps), view.words("step-answered"))
    assert walk.plan is not None
    place = label(
        view.words("step-of-steps", at=at + 1, steps=len(walk.steps)), size=SMALL, bold=True
    )
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


def _plan(view: View, walk: Walk, step: Step) -> ft.Control:
    if view.device.wide:
        return _picture(view, walk, step, view.device.width / 2 - 48, view.device.height - 180)
    return _picture(view, walk, step, view.device.column_px - 24, _plan_px(view, step))


def _plan_px(view: View, step: Step) -> float:
    """The height of the picture over the words."""
    # Numbered places want room; where there is only a spot to stand, the words want it more.
    placed = any(item.mark or not item.is_row for item in step.items)
    least, share = (116.0, 0.27) if placed else (92.0, 0.18)
    if step.kind in _OWN_PARTS:
        share = 0.16
    return max(least, min(0.6 * view.device.column_px, view.device.height * share))


def _picture(view: View, walk: Walk, step: Step, width: float, height: float) -> ft.Control:
    """Where to look: the connector's face at its steps, else the vehicle."""
    assert walk.plan is not None
    connector = view.parts.library.connectors.get(walk.plan.vehicle.electrical.connector)
    if step.id in PLUG_STEPS and connector is not None:
        connector = connector.as_of(walk.plan.vehicle.made)
        strong = [pin.pin for pin in connector.pins if pin.doubt and step.id == "doubtful_pins"]
        return pin_view(connector, view.palette, width, max(140.0, height), strong, view.words)
    return step_plan_view(walk, step, Look(round(width), round(height), view.dark), view.words)


def _words(view: View, walk: Walk, step: Step) -> list[ft.Control]:
    assert walk.plan is not None
    settings = view.settings
    anew = walk.revisiting == step.id
    told = prompt(as_left(walk, step), walk.plan.power, settings.wording, view.words, anew=anew)
    shown: list[ft.Control] = [heading(told.title)]
    small, size = view.device.low, _size(view, walk, step, told)
    if view.peek:
        # The vehicle no longer stands as the step asked: its words are no order any more.
        small, size = True, SMALL
        given = given_words(step, walk.answers.get(step.id), view.words)
        answers = step.kind not in _OWN_PARTS and step.hold is None
        shown = [
            heading(view.words("step-looking-back", step=step.title)),
            notice(
                view.words("step-given-changes", given=given) if answers else given, key="given"
            ),
            label(view.words("step-was-asked"), QUIET, SMALL, bold=True),
        ]
    if told.caution:
        shown.append(caution(told.caution, SMALL + 1 if small else BODY))
    if step.meter_first:
        shown.append(caution(view.words("prompt-meter-first", why=step.meter_first), SMALL + 1))
    if step.hold:
        # Once there is a result, it comes before the words that led to it.
        shown += hold_body(view, walk, step)
    shown.append(ft.Semantics(content=label(told.body, size=size, key="words"), live_region=True))
    shown += [label(told.pins, QUIET, SMALL + 1, key="pins")] if told.pins else []
    shown += _listed(view, step)
    if walk.notes.get(step.id):
        shown.append(notice(view.words("step-note", note=walk.notes[step.id]), key="noted"))
    return [*shown, *key_line(view, walk, step)]


def _size(view: View, walk: Walk, step: Step, told: Prompt) -> int:
    """The size of a step's words; where there is more to see than them, they stay as they are."""
    if step.kind in _OWN_PARTS or step.id in walk.holds or view.device.wide:
        return PLAIN
    taken = _plan_px(view, step) + view.device.answer_px
    taken += _BANNER_PX * (bool(walk.open_defects) + len(walk.notes.get(step.id, "")) // 40)
    return words_size(
        told.body,
        told.title,
        [text for text in (told.caution, view.words.text(step.meter_first)) if text],
        lines=bool(told.pins) + len(_listed_items(view, step)),
        width=view.device.column_px - 24,
        height=view.device.height,
        taken=taken,
    )


def _listed_items(view: View, step: Step) -> list[Item]:
    """What is listed below the words: what their picture does not tell."""
    items = [item for item in step.items if item.is_row or item.kind not in UNPLACED]
    if step.kind == "chambers":
        return [item for item in items if item.is_row]
    # Lamps at an end are drawn where they are, each as it must look; Explain names them too.
    drawn = step.kind == "lamp" and step.spot in ("front", "rear")
    if len(items) < 2 or (drawn and view.settings.wording != "long"):
        return []
    return items


def _listed(view: View, step: Step) -> Sequence[ft.Control]:
    """The items by the numbers that the plan gives them; rows without, for they share places."""
    items = _listed_items(view, step)
    if not items:
        return []
    mixed = len(set(step.expect.values())) > 1 and has_many_lamps(step)

    def line(at: int, item: Item) -> str:
        if item.is_row:
            return view.words("step-row", row=_at_both_ends(item))
        if mixed and item.id in step.expect:
            look = message(f"look-{step.expect[item.id]}")
            return view.words("step-item-look", number=at, item=item.name, look=look)
        return view.words("step-item", number=at, item=item.name)

    lines = dict.fromkeys(line(at, item) for at, item in enumerate(items, 1))
    return [ft.Column([label(each) for each in lines], spacing=2)]


def _at_both_ends(row: Item) -> Argument:
    """What is looked at, without the end of the axle at which it stands once more."""
    name = row.name
    if isinstance(name, Message) and name.id == "brake-row-at-end":
        return name.args["row"]
    return name


def _small_row(view: View, taps: WalkTaps, step: Step) -> ft.Control:
    async def wording() -> None:
        await taps.speaker.reword()
        await again()

    async def again() -> None:
        await taps.speak(whole=True)

    words, longer, icons = view.words, view.settings.wording != "long", ft.Icons
    words_icon = icons.SCHOOL if longer else icons.SHORT_TEXT
    word = words("step-explain" if longer else "step-shorter")
    small = [
        small_answer(words("step-again"), icons.VOLUME_UP, again, key="again"),
        small_answer(word, words_icon, wording, key="wording"),
        small_answer(words("step-note-button"), icons.EDIT_NOTE, view.opens("note"), key="note"),
    ]
    if view.peek:
        on = tapped(taps.look_back, "")
        small.append(small_answer(words("step-go-on"), icons.ARROW_FORWARD, on, key="forward"))
    if not step.must:
        other = view.opens("other")
        small.append(small_answer(words("step-other"), icons.MORE_HORIZ, other, key="other"))
    row = ft.Row(small, spacing=8, key="small")
    if not view.device.wide:
        return row
    return ft.Row([ft.Container(expand=1), ft.Container(row, expand=1)], spacing=24)
