"""One vehicle: its open defects and damage first, its plan, what it is, its walks."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.base.message import message
from walkaround.drawing.plan_svg import Look
from walkaround.garage.words import class_words, facts, lamp_counts, plug_words, wiring_lines
from walkaround.lamps.required import lamps_for, reflectors_for
from walkaround.lamps.wiring import wire
from walkaround.plan.plan_walk import plan_walk
from walkaround.records.walk_line import WalkLine
from walkaround.ui.drawn.plan import plan_view
from walkaround.ui.kit.buttons import button, small_answer, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, top_bar
from walkaround.ui.kit.sheet import QUESTION_PX, sheet
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.theme import BAD, BODY, QUIET, RADIUS, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.view import View
from walkaround.vehicle.model import Vehicle
from walkaround.words.language import capital
from walkaround.words.measured import defect_words
from walkaround.words.problems import error_text

WALKS_SHOWN = 5


@screen
def vehicle_screen(view: View, vehicle: Vehicle) -> ft.Control:
    """Everything about one vehicle."""
    library = view.parts.library
    deleting, set_deleting = ft.use_state(False)
    walks = view.parts.store.overview()
    lines = [line for line in walks.lines if line.vehicle == vehicle.id]
    ft.use_dialog(
        _deleting(view, vehicle, lines, lambda: set_deleting(False)) if deleting else None
    )

    open_ = walks.open_defects.get(vehicle.id, {})
    body: list[ft.Control] = [notice(view.words.text(text), key="unread") for text in walks.unread]
    body += [*_defects(view, open_), *_damage(view, vehicle)]
    try:
        plan = plan_walk(vehicle, library.rules)
    except WalkaroundError as error:
        body.append(notice(error_text(error, view.words)))
    else:
        body.append(
            plan_view(plan, Look(round(view.device.column_px) - 24, 150, view.dark), view.words)
        )
        body += [_facts(view, vehicle), _lamps(view, vehicle)]
    body += _walks(view, lines)
    go = button(
        view.words("home-start-a-walk"),
        view.to(f"/start/{vehicle.id}"),
        key="start",
        icon=ft.Icons.PLAY_ARROW,
        tone=Tone.ACCENT,
        expand=True,
        height=72,
    )
    small = _small(view, vehicle, lambda: set_deleting(True))
    return page_column(
        top_bar(view.words, vehicle.name, back=view.to("/vehicles")), body, [small, ft.Row([go])]
    )


def _defects(view: View, found: Mapping[str, str]) -> list[ft.Control]:
    """The open defects, loud: what was found, and the walk in which each is open."""
    if not found:
        return []
    word = view.words("defects-open", count=len(found))
    head = ft.Row(
        [
            ft.Icon(ft.Icons.REPORT, size=32, color=Tone.BAD.ink),
            ft.Container(label(word, Tone.BAD.ink, BODY + 4, bold=True), expand=True),
        ],
        spacing=8,
    )
    banner = ft.Container(head, bgcolor=BAD, border_radius=RADIUS, padding=12, key="defects")
    return [banner, *(_defect(view, step, walk) for step, walk in found.items())]


def _defect(view: View, step_id: str, walk_id: str) -> ft.Control:
    title, what = capital(step_id.replace("_", " ")), ""
    try:
        walk = view.parts.open_walks.walk(walk_id)
        step = walk.plan.step(step_id) if walk.plan else None
        if step is not None:
            title, what = (
                view.words.text(step.title),
                defect_words(walk, walk.defects[step_id], view.words),
            )
        closed = walk.phase == "finished"
    except WalkaroundError:
        closed = True

    rows: list[ft.Control] = [label(title, bold=True)]
    rows += [label(what, BAD, bold=True)] if what else []
    column = ft.Column(rows, spacing=2, expand=True)
    arrow = ft.Icon(ft.Icons.CHEVRON_RIGHT, size=32, color=ft.Colors.ON_SURFACE)
    return card(
        ft.Row([column, arrow]),
        tap=view.to(f"/{'record' if closed else 'walk'}/{walk_id}"),
        key=f"defect_{step_id}",
    )


def _damage(view: View, vehicle: Vehicle) -> list[ft.Control]:
    if not vehicle.damage:
        return []
    lines = [label(text, bold=True) for text in vehicle.damage]
    return [_section(view.words("field-damage"), lines)]


def _facts(view: View, vehicle: Vehicle) -> ft.Control:
    lines = [view.words.text(fact) for fact in facts(vehicle)]
    return _section(view.words("field-part-vehicle"), [label(line) for line in lines])


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
    circuits = wiring_lines(wiring, lamps)
    return _section(
        view.words("vehicle-lamps-and-wiring"),
        [
            *(label(view.words.text(line)) for line in lines),
            *(label(view.words.text(line), QUIET, SMALL) for line in circuits),
        ],
    )


def _section(title: str, lines: Sequence[ft.Control]) -> ft.Control:
    column = ft.Column([heading(title, BODY + 2), *lines], spacing=6)
    return card(column)


def _walks(view: View, lines: Sequence[WalkLine]) -> list[ft.Control]:
    if not lines:
        return [label(view.words("vehicle-no-walk"), QUIET, SMALL)]
    shown = [_walk(view, line) for line in lines[:WALKS_SHOWN]]
    more = len(lines) - len(shown)
    if more:
        word = view.words("vehicle-earlier-walks", count=more)
        shown.append(wide_button(word, view.to("/records"), key="records"))
    return [heading(view.words("vehicle-walks")), *shown]


def _walk(view: View, line: WalkLine) -> ft.Control:
    going = line.phase != "finished"

    count = len(line.open_defects)
    state = view.words("walk-closed-with", count=count)
    if going:
        state = view.words("walk-going-with", answered=line.answered, steps=line.steps, count=count)
    rows: list[ft.Control] = [
        label(f"{line.began.astimezone():%Y-%m-%d %H:%M}", bold=True),
        label(state, BAD if count else None, bold=bool(count)),
    ]
    return card(
        ft.Column(rows, spacing=2),
        tap=view.to(f"/{'walk' if going else 'record'}/{line.id}"),
        key=f"walk_{line.id}",
    )


def _small(view: View, vehicle: Vehicle, delete: Callable[[], None]) -> ft.Control:
    own = view.parts.own_vehicles.is_own(vehicle.id)
    address, download = f"/vehicle/new/{vehicle.id}", f"/vehicles/{vehicle.id}.toml"
    zones = [
        small_answer(view.words("vehicle-copy"), ft.Icons.COPY, view.to(address), key="copy"),
        small_answer(view.words("vehicle-export"), ft.Icons.DOWNLOAD, key="export", url=download),
    ]
    if own:
        edit = view.to(f"/vehicle/{vehicle.id}/edit")
        zones = [
            small_answer(view.words("vehicle-edit"), ft.Icons.EDIT, edit, key="edit"),
            *zones,
            small_answer(
                view.words("vehicle-delete"), ft.Icons.DELETE_OUTLINE, delete, key="delete"
            ),
        ]
    row = ft.Row(zones, spacing=8)
    if own:
        return row
    told = label(view.words("vehicle-is-shipped"), QUIET, SMALL)
    return ft.Column([told, row], spacing=4)


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
    return sheet(
        view.words,
        view.words("vehicle-delete-question", name=vehicle.name),
        body,
        close,
        page_px=view.device.height,
        height=QUESTION_PX + 60,
    )
