"""One vehicle: its open defects and damage first, its plan, what it is, its walks."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.garage.words import (
    brake_words,
    class_words,
    lamp_counts,
    length_words,
    mass_words,
    month_words,
    plug_words,
    wiring_lines,
    year_words,
)
from walkaround.lamps.required import lamps_for, reflectors_for
from walkaround.lamps.wiring import wire
from walkaround.plan.plan_walk import plan_walk
from walkaround.records.walk_line import WalkLine
from walkaround.ui.drawn.plan import plan_view
from walkaround.ui.kit.buttons import button, small_answer, wide_button
from walkaround.ui.kit.parts import card, notice, page_column, top_bar
from walkaround.ui.kit.text import heading, words
from walkaround.ui.kit.theme import BODY, RADIUS, SMALL
from walkaround.ui.page.guard import screen
from walkaround.ui.page.sheet import QUESTION_PX, sheet
from walkaround.ui.page.view import View
from walkaround.vehicle.model import Vehicle
from walkaround.words.measured import defect_words

WALKS_SHOWN = 5


@screen
def vehicle_screen(view: View, vehicle: Vehicle) -> ft.Control:
    """Everything about one vehicle."""
    colours, library = view.palette, view.parts.library
    deleting, set_deleting = ft.use_state(False)
    walks = view.parts.store.overview()
    lines = [line for line in walks.lines if line.vehicle == vehicle.id]
    ft.use_dialog(
        _deleting(view, vehicle, lines, lambda: set_deleting(False)) if deleting else None
    )

    async def back() -> None:
        await view.go("/vehicles")

    async def start() -> None:
        await view.go(f"/start/{vehicle.id}")

    open_ = walks.open_defects.get(vehicle.id, {})
    body: list[ft.Control] = [notice(text, colours, key="unread") for text in walks.unread]
    body += [*_defects(view, open_), *_damage(view, vehicle)]
    try:
        plan = plan_walk(vehicle, library.rules)
    except WalkaroundError as error:
        body.append(notice(str(error), colours))
    else:
        body.append(plan_view(plan, plan.steps[0], colours, view.device.column_px - 24, 150))
        body += [_facts(view, vehicle), _lamps(view, vehicle)]
    body += _walks(view, lines)
    go = button(
        "Start a walk",
        colours,
        start,
        key="start",
        icon=ft.Icons.PLAY_ARROW,
        ground=colours.accent,
        ink=colours.on_accent,
        expand=True,
        height=72,
    )
    small = _small(view, vehicle, lambda: set_deleting(True))
    return page_column(top_bar(vehicle.name, colours, back=back), body, [small, ft.Row([go])])


def _defects(view: View, found: Mapping[str, str]) -> list[ft.Control]:
    """The open defects, loud: what was found, and the walk in which each is open."""
    if not found:
        return []
    colours = view.palette
    word = "1 open defect" if len(found) == 1 else f"{len(found)} open defects"
    head = ft.Row(
        [
            ft.Icon(ft.Icons.REPORT, size=32, color=colours.on_bad),
            ft.Container(words(word, colours.on_bad, BODY + 4, bold=True), expand=True),
        ],
        spacing=8,
    )
    banner = ft.Container(
        head, bgcolor=colours.bad, border_radius=RADIUS, padding=12, key="defects"
    )
    return [banner, *(_defect(view, step, walk) for step, walk in found.items())]


def _defect(view: View, step_id: str, walk_id: str) -> ft.Control:
    colours = view.palette
    title, what = step_id.replace("_", " ").capitalize(), ""
    try:
        walk = view.parts.open_walks.walk(walk_id)
        step = walk.plan.step(step_id) if walk.plan else None
        if step is not None:
            title, what = step.title, defect_words(walk, walk.defects[step_id], view.words)
        closed = walk.phase == "finished"
    except WalkaroundError:
        closed = True

    async def show() -> None:
        await view.go(f"/{'record' if closed else 'walk'}/{walk_id}")

    rows: list[ft.Control] = [words(title, colours.ink, bold=True)]
    rows += [words(what, colours.bad, bold=True)] if what else []
    column = ft.Column(rows, spacing=2, expand=True)
    arrow = ft.Icon(ft.Icons.CHEVRON_RIGHT, size=32, color=colours.ink)
    return card(ft.Row([column, arrow]), colours, tap=show, key=f"defect_{step_id}")


def _damage(view: View, vehicle: Vehicle) -> list[ft.Control]:
    if not vehicle.damage:
        return []
    colours = view.palette
    lines = [words(text, colours.ink, bold=True) for text in vehicle.damage]
    return [_section(view, "Damage", lines)]


def _facts(view: View, vehicle: Vehicle) -> ft.Control:
    colours = view.palette
    size = f"{length_words(vehicle.length_mm)} long, {length_words(vehicle.width_mm)} wide"
    gvwr = f"GVWR {mass_words(vehicle.gvwr_kg)}" if vehicle.gvwr_kg else "GVWR not known"
    plate = f"Plate {vehicle.plate}" if vehicle.plate else ""
    vin = f"VIN {vehicle.vin}" if vehicle.vin else ""
    lines = [
        f"{vehicle.kind.capitalize()}, made {month_words(vehicle.made)}",
        size,
        gvwr,
        brake_words(vehicle),
        plate,
        vin,
        year_words(vehicle.vin),
        vehicle.notes,
    ]
    return _section(view, "Vehicle", [words(line, colours.ink) for line in lines if line])


def _lamps(view: View, vehicle: Vehicle) -> ft.Control:
    colours, library = view.palette, view.parts.library
    lamps = lamps_for(vehicle, library.checklists)
    reflectors = reflectors_for(vehicle, library.checklists)
    wiring = wire(vehicle, lamps, library.connectors)
    counts = f"{len(lamps)} lamps: {', '.join(lamp_counts(lamps))}"
    others = f"{len(reflectors)} reflectors and strips of tape"
    lines = [class_words(vehicle), counts, others, plug_words(vehicle, library.connectors)]
    return _section(
        view,
        "Lamps and wiring",
        [
            *(words(line, colours.ink) for line in lines),
            *(words(line, colours.quiet_ink, SMALL) for line in wiring_lines(wiring, lamps)),
        ],
    )


def _section(view: View, title: str, lines: Sequence[ft.Control]) -> ft.Control:
    column = ft.Column([heading(title, view.palette, BODY + 2), *lines], spacing=6)
    return card(column, view.palette)


def _walks(view: View, lines: Sequence[WalkLine]) -> list[ft.Control]:
    colours = view.palette

    async def records() -> None:
        await view.go("/records")

    if not lines:
        return [words("No walk of it yet.", colours.quiet_ink, SMALL)]
    shown = [_walk(view, line) for line in lines[:WALKS_SHOWN]]
    more = len(lines) - len(shown)
    rest = [wide_button(colours, f"{more} earlier", records, key="records")] if more else []
    return [heading("Walks", colours), *shown, *rest]


def _walk(view: View, line: WalkLine) -> ft.Control:
    colours = view.palette
    going = line.phase != "finished"

    async def show() -> None:
        await view.go(f"/{'walk' if going else 'record'}/{line.id}")

    count = len(line.open_defects)
    found = "no open defect" if not count else f"{count} open defect{'s' if count > 1 else ''}"
    state = f"{line.answered} of {line.steps} answered" if going else "closed"
    rows: list[ft.Control] = [
        words(f"{line.began.astimezone():%Y-%m-%d %H:%M}", colours.ink, bold=True),
        words(f"{state}, {found}", colours.bad if count else colours.ink, bold=bool(count)),
    ]
    return card(ft.Column(rows, spacing=2), colours, tap=show, key=f"walk_{line.id}")


def _small(view: View, vehicle: Vehicle, delete: Callable[[], None]) -> ft.Control:
    colours = view.palette

    async def edit() -> None:
        await view.go(f"/vehicle/{vehicle.id}/edit")

    async def copy() -> None:
        await view.go(f"/vehicle/new/{vehicle.id}")

    own = view.parts.own_vehicles.is_own(vehicle.id)
    zones = [small_answer("Copy", ft.Icons.COPY, colours, copy, key="copy"), _export(view, vehicle)]
    if own:
        zones = [
            small_answer("Edit", ft.Icons.EDIT, colours, edit, key="edit"),
            *zones,
            small_answer("Delete", ft.Icons.DELETE_OUTLINE, colours, delete, key="delete"),
        ]
    row = ft.Row(zones, spacing=8)
    if own:
        return row
    told = words("It came with the app: copy it, and change the copy.", colours.quiet_ink, SMALL)
    return ft.Column([told, row], spacing=4)


def _export(view: View, vehicle: Vehicle) -> ft.Control:
    zone = small_answer("Export", ft.Icons.DOWNLOAD, view.palette, lambda: None, key="export")
    assert isinstance(zone, ft.Button)
    zone.url = ft.Url(f"/vehicles/{vehicle.id}.toml", target=ft.UrlTarget.SELF)
    return zone


def _deleting(
    view: View, vehicle: Vehicle, lines: Sequence[WalkLine], close: Callable[[], None]
) -> ft.BottomSheet:
    colours, own_vehicles = view.palette, view.parts.own_vehicles

    async def delete() -> None:
        close()
        if await view.saved(lambda: own_vehicles.remove(vehicle.id)):
            await view.go("/vehicles")

    kept = f" Its {len(lines)} walks stay in the records." if lines else ""
    body = [
        words(f"{vehicle.name} will no longer be offered.{kept}", colours.ink),
        words("Its file is kept, in the folder of removed vehicles.", colours.quiet_ink, SMALL),
        button("Keep it", colours, close, key="keep", height=64),
        wide_button(colours, "Delete it", delete, key="delete_yes", bad=True, height=64),
    ]
    return sheet(view, f"Delete {vehicle.name}?", body, close, height=QUESTION_PX + 60)
