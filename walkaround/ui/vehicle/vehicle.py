"""One vehicle: its open defects and damage first, its plan, what it is, its walks."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence
from functools import partial

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.base.message import message
from walkaround.bootstrap import today
from walkaround.drawing.plan_svg import PictureStyle
from walkaround.lamps.required_lamps import lamps_for, reflectors_for
from walkaround.lamps.wiring import wire
from walkaround.plan.plan_walk import plan_walk, powers_for
from walkaround.records.walk_line import WalkLine
from walkaround.ui.kit.buttons import button, new_page, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, top_bar
from walkaround.ui.kit.scale import fitting_size
from walkaround.ui.kit.sheet import QUESTION_PX, sheet
from walkaround.ui.kit.surface import Tap
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, BODY, QUIET, RADIUS, SMALL, Tone
from walkaround.ui.kit.zones import small_answer
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.ui.pictures.plan import plan_view
from walkaround.ui.vehicle.list import tag_card
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.messages import (
    class_words,
    facts,
    lamp_counts,
    plug_words,
    wiring_lines,
)
from walkaround.words.language import capital
from walkaround.words.measured_values import defect_words
from walkaround.words.problems import error_text
from walkaround.words.prompts import power_name

WALKS_SHOWN = 5
_LOUD_PX = 36.0
"""How many defects are open is drawn no larger: it takes one line of a narrow phone."""


@screen
def vehicle_screen(view: View, vehicle: Vehicle) -> ft.Control:
    """Show everything about one vehicle."""
    library = view.parts.library
    deleting, set_deleting = ft.use_state(False)
    walks = view.parts.store.overview()
    lines = [line for line in walks.lines if line.vehicle == vehicle.id]
    keep = partial(set_deleting, False)
    ft.use_dialog(_deleting(view, vehicle, lines, keep) if deleting else None)
    body: list[ft.Control] = [notice(view.words.text(text), key="unread") for text in walks.unread]
    body += tag_card(view, vehicle.id)
    body += _defects(view, walks.open_defects.get(vehicle.id, {}))
    if vehicle.damage:
        damage = [label(text, bold=True) for text in vehicle.damage]
        body.append(_section(view.words("field-damage"), damage))
    try:
        plan = plan_walk(vehicle, library.rules, day=today(view.parts.clock))
    except WalkaroundError as error:
        body.append(notice(error_text(error, view.words)))
    else:
        look = PictureStyle(round(view.device.column_px) - 24, 150, view.dark)
        fact_labels = [label(view.words.text(fact)) for fact in facts(vehicle)]
        body.append(plan_view(plan, look, view.words))
        if not view.parts.own_vehicles.is_own(vehicle.id):
            body.append(label(view.words("vehicle-is-shipped"), QUIET, SMALL))
        body.append(_section(view.words("field-part-vehicle"), fact_labels))
        body.append(_lamps(view, vehicle))
        body.append(_cards(view, vehicle))
    body += _walks(view, lines, walks.blind)
    word, icon = view.words("home-start-a-walk"), ft.Icons.PLAY_ARROW
    start = view.to(f"/start/{vehicle.id}")
    go = button(word, start, key="start", icon=icon, tone=Tone.ACCENT, expand=True, height=72)
    bar = top_bar(view.words, vehicle.name, back=view.to("/vehicles"))
    small = _small_buttons(view, vehicle, partial(set_deleting, True))
    if view.device.low:
        # What is wrong with it comes before what may be done with its file.
        return page_column(bar, [*body, *small], [ft.Row([go])])
    return page_column(bar, body, [*small, ft.Row([go])])


def _defects(view: View, walk_of: Mapping[str, str]) -> list[ft.Control]:
    """Show the open defects first: what was found, and the walk in which each is open."""
    if not walk_of:
        return []
    word = view.words("defects-open", count=len(walk_of))
    icon = ft.Icon(ft.Icons.REPORT, size=32, color=Tone.BAD.ink)
    size = fitting_size(BODY + 4, _LOUD_PX)
    loud = ft.Container(label(word, Tone.BAD.ink, size, bold=True), expand=True)
    head = ft.Row([icon, loud], spacing=8)
    banner = ft.Container(head, bgcolor=BAD, border_radius=RADIUS, padding=12, key="defects")
    return [banner, *(_defect(view, step, walk) for step, walk in walk_of.items())]


def _defect(view: View, step_id: str, walk_id: str) -> ft.Control:
    title, found_text = capital(step_id.replace("_", " ")), ""
    try:
        walk = view.parts.open_walks.walk(walk_id)
        step = walk.plan.step(step_id) if walk.plan else None
        if step is not None:
            title = view.words.text(step.title)
            found_text = defect_words(walk, walk.defects[step_id], view.words)
        closed = walk.phase == "finished"
    except WalkaroundError:
        closed = True
    rows: list[ft.Control] = [label(title, bold=True)]
    rows += [label(found_text, BAD, bold=True)] if found_text else []
    column = ft.Column(rows, spacing=2, expand=True)
    arrow = ft.Icon(ft.Icons.CHEVRON_RIGHT, size=32, color=ft.Colors.ON_SURFACE)
    tap = view.to(f"/{'record' if closed else 'walk'}/{walk_id}")
    return card(ft.Row([column, arrow]), tap=tap, key=f"defect_{step_id}")


def _lamps(view: View, vehicle: Vehicle) -> ft.Control:
    library = view.parts.library
    lamps = lamps_for(vehicle, library.checklists)
    reflectors = reflectors_for(vehicle, library.checklists)
    wiring = wire(vehicle, lamps, library.connectors)
    lines = [
        class_words(vehicle),
        message("vehicle-lamps", count=len(lamps), counts=lamp_counts(lamps)),
        message("vehicle-reflectors", count=len(reflectors)),
        plug_words(vehicle, library.connectors),
    ]
    labels = [label(view.words.text(line)) for line in lines]
    circuits = map(view.words.text, wiring_lines(wiring, lamps))
    labels += [label(line, QUIET, SMALL) for line in circuits]
    return _section(view.words("vehicle-lamps-and-wiring"), labels)


def _cards(view: View, vehicle: Vehicle) -> ft.Control:
    """Offer the whole walk to print, for each source of power that one person has alone."""
    words, icon = view.words, ft.Icons.PRINT
    buttons = []
    for id_, source in powers_for(vehicle, view.parts.library.power_sources).items():
        if id_ != "helper":
            url = f"/cards/{vehicle.id}.pdf?language={words.language}&power={id_}"
            word = words("card-button", switched=power_name(id_, source.title, words))
            buttons.append(
                ft.Row([button(word, key=f"card_{id_}", icon=icon, url=url, expand=True)])
            )
    return _section(words("card-heading"), buttons)


def _section(title: str, lines: Sequence[ft.Control]) -> ft.Control:
    return card(ft.Column([heading(title, BODY + 2), *lines], spacing=6))


def _walks(view: View, lines: Sequence[WalkLine], blind: Collection[str]) -> list[ft.Control]:
    if not lines:
        return [label(view.words("vehicle-no-walk"), QUIET, SMALL)]
    rows = [_walk(view, line, blind=line.id in blind) for line in lines[:WALKS_SHOWN]]
    more = len(lines) - len(rows)
    if more:
        word = view.words("vehicle-earlier-walks", count=more)
        rows.append(wide_button(word, view.to("/records"), key="records"))
    word, history = view.words("history-title"), view.to(f"/board/{lines[0].vehicle}")
    rows.append(wide_button(word, history, key="history", icon=ft.Icons.SHOW_CHART))
    return [heading(view.words("vehicle-walks")), *rows]


def _walk(view: View, line: WalkLine, *, blind: bool) -> ft.Control:
    going, count = line.phase != "finished", len(line.open_defects)
    state = view.words("walk-closed-with", count=count)
    if going:
        state = view.words("walk-going-with", answered=line.answered, steps=line.steps, count=count)
    if blind:
        # What it found is not counted yet, and no defect is not to be read here.
        state = view.words("double-under-way")
    rows: list[ft.Control] = [
        label(f"{line.began.astimezone():%Y-%m-%d %H:%M}", bold=True),
        label(state, BAD if count else None, bold=bool(count)),
    ]
    tap = view.to(f"/{'walk' if going else 'record'}/{line.id}")
    return card(ft.Column(rows, spacing=2), tap=tap, key=f"walk_{line.id}")


def _small_buttons(view: View, vehicle: Vehicle, delete: Tap) -> list[ft.Control]:
    """Offer what else can be done with it; one that came with the app stays as it is."""
    words, icons, id_ = view.words, ft.Icons, vehicle.id
    new, download = view.to(f"/vehicle/new/{id_}"), f"/vehicles/{id_}.toml"
    own = view.parts.own_vehicles.is_own(id_)
    keys = ["copy", "export", "code"]
    keys = ["edit", *keys, "delete"] if own else keys
    small = partial(small_answer, beside=[words(f"vehicle-{key}") for key in keys])
    copy = small(words("vehicle-copy"), icons.COPY, new, key="copy")
    export = small(words("vehicle-export"), icons.DOWNLOAD, key="export", url=download)
    printed = new_page(f"/codes/{id_}.html?language={words.language}")
    code = small(words("vehicle-code"), icons.QR_CODE_2, key="code", url=printed)
    if not own:
        return [ft.Row([copy, export, code], spacing=8)]
    form = view.to(f"/vehicle/{id_}/edit")
    edit = small(words("vehicle-edit"), icons.EDIT, form, key="edit")
    drop = small(words("vehicle-delete"), icons.DELETE_OUTLINE, delete, key="delete")
    return [ft.Row([edit, copy, export, code, drop], spacing=8)]


def _deleting(
    view: View, vehicle: Vehicle, lines: Sequence[WalkLine], close: Callable[[], None]
) -> ft.BottomSheet:
    own_vehicles = view.parts.own_vehicles

    async def delete() -> None:
        close()
        if await view.saved(lambda: own_vehicles.remove(vehicle.id)):
            await view.go("/vehicles")

    body = [
        label(view.words("vehicle-delete-means", name=vehicle.name, walks=len(lines))),
        label(view.words("vehicle-file-is-kept"), QUIET, SMALL),
        button(view.words("vehicle-keep-it"), close, key="keep", height=64),
        wide_button(view.words("vehicle-delete-it"), delete, key="delete_yes", bad=True, height=64),
    ]
    title, page_px = view.words("vehicle-delete-question", name=vehicle.name), view.device.height
    return sheet(view.words, title, body, close, page_px=page_px, height=QUESTION_PX + 60)
