"""The page: which screen stands on it, and what the browser tells of itself."""

from __future__ import annotations

import logging
from collections.abc import Awaitable, Callable

import flet as ft

from walkaround.base.errors import WalkaroundError
from walkaround.bootstrap import Parts
from walkaround.disk import locations
from walkaround.disk.delayed_write import DelayedFile
from walkaround.library.inbox import Inbox
from walkaround.ui.airhold.result import air_panel
from walkaround.ui.airhold.running_hold import running_screen
from walkaround.ui.board.board import board_screens
from walkaround.ui.contacts.screens import contact_screens
from walkaround.ui.double_check.comparison import comparison_screen
from walkaround.ui.home.home import home_screen
from walkaround.ui.home.keys import keys_screen
from walkaround.ui.home.records import records_screen
from walkaround.ui.home.settings import pairing_screen, settings_screen
from walkaround.ui.home.sharing import sharing_screen
from walkaround.ui.kit.parts import caution, notice, page_column, stretched, top_bar
from walkaround.ui.kit.theme import SMALL
from walkaround.ui.note.note import note_panel
from walkaround.ui.page.device import text_measure
from walkaround.ui.page.flet_pages import SESSION_BEFORE, tell_failures
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.title import offline_texts, page_title
from walkaround.ui.page.unfinished import UnfinishedPages
from walkaround.ui.page.view import Beat, View
from walkaround.ui.practice.end import practice_end
from walkaround.ui.practice.start import practice_start
from walkaround.ui.practice.strip import practice_strip
from walkaround.ui.step.fault import fault_panel
from walkaround.ui.step.panels import other_panel, withdraw_panel
from walkaround.ui.step.step import step_screen
from walkaround.ui.step_content.large_picture import large_panel
from walkaround.ui.taps.causes import MORE_LOOK
from walkaround.ui.taps.repeat import repeat
from walkaround.ui.taps.walk import WalkTaps
from walkaround.ui.vehicle.form import form_screen
from walkaround.ui.vehicle.list import templates_screen
from walkaround.ui.vehicle.search import vehicles_screen
from walkaround.ui.vehicle.vehicle import vehicle_screen
from walkaround.ui.walk.cab import cab_screen
from walkaround.ui.walk.causes import causes_panel, more_look_panel
from walkaround.ui.walk.leaks import leaks_panel
from walkaround.ui.walk.menu import (
    defects_panel,
    end_panel,
    keys_panel,
    leave_panel,
    menu_panel,
    paused_screen,
    steps_panel,
)
from walkaround.ui.walk.record import record_screen
from walkaround.ui.walk.repair_panel import REPAIRED, repaired_panel
from walkaround.ui.walk.sign import SIGN, sign_panel
from walkaround.ui.walk.start import start_screen
from walkaround.ui.walk.summary import summary_screen
from walkaround.vehicle_editor.new_vehicle import copy_of
from walkaround.words.problems import error_text

log = logging.getLogger(__name__)

_PANELS = {
    "menu": menu_panel,
    "leave": leave_panel,
    "end": end_panel,
    "defects": defects_panel,
    "causes": causes_panel,
    MORE_LOOK: more_look_panel,
    "leaks": leaks_panel,
    "steps": steps_panel,
    "keys": keys_panel,
}
"""What opens over a walk."""
_STEP_PANELS = {
    "fault": fault_panel,
    "withdraw": withdraw_panel,
    "other": other_panel,
    "note": note_panel,
    "air": air_panel,
    "large": large_panel,
}
"""What opens over one of its steps."""


def page_main(parts: Parts, inbox: Inbox) -> Callable[[ft.Page], Awaitable[None]]:
    """Make what Flet calls for each page that opens; `inbox` gets the files that pages upload."""
    half_typed = DelayedFile(locations.half_typed(parts.data))
    unfinished_pages = UnfinishedPages(lambda: parts.clock().mono_s, half_typed)

    async def main(page: ft.Page) -> None:
        page.title = parts.words("app-name")
        page.padding = 0
        view = View(
            page, parts, inbox, unfinished_pages.begin(page.session.id, SESSION_BEFORE.get())
        )
        taps = WalkTaps(view)
        _listen(page, view, taps)
        view.begin()
        page.render(App, view, taps, view.beat)
        await view.take_up_walk()

    return main


def _listen(page: ft.Page, view: View, taps: WalkTaps) -> None:
    def failed(message: str) -> None:
        log.error("a tap, a key or an event failed: %s", message)
        view.say_failure()

    async def route_changed(event: ft.RouteChangeEvent) -> None:
        if event.route != view.route:
            view.arrive(event.route)
            await view.take_up_walk()

    async def key_pressed(event: ft.KeyboardEvent) -> None:
        await taps.key_taps.pressed(event.key)

    def resized(event: ft.PageResizeEvent) -> None:
        view.device.resize(event.width, event.height)
        view.redraw()

    def brightness(_: ft.PlatformBrightnessChangeEvent) -> None:
        view.device.darken(page.platform_brightness == ft.Brightness.DARK)
        view.redraw()

    tell_failures(page, failed)
    page.on_keyboard_event = key_pressed
    page.on_route_change = route_changed
    page.on_resize = resized
    page.on_platform_brightness_change = brightness
    page.on_close = lambda _: view.page_gone()


@screen
def App(view: View, taps: WalkTaps, _: Beat) -> ft.Control:
    """Show the whole page in the colors chosen; drawn again at each beat."""
    effect(view, view.read_phone_settings)
    title = page_title(view)

    async def name_page() -> None:
        view.device.name_page(title)
        await view.device.keep_unlinked(offline_texts(view.words))

    effect(view, name_page, [title, view.words.language])
    effect(view, taps.key_taps.know)
    effect(view, taps.spoken_taps.microphone.follow, [taps.spoken_taps.microphone.wanted])

    async def repeating() -> None:
        await repeat(view, taps)

    effect(
        view, repeating, [view.route, view.step, view.since, view.peek, view.panel, view.settings]
    )
    wide_step = view.device.wide and "/walk/" in view.route and view.panel in ("", "fault")
    wide_step = wide_step or (view.device.flat and view.panel == SIGN)
    page = ft.Container(
        ft.SafeArea(
            ft.Row(
                [
                    ft.Container(
                        # Always two, so that a sentence that comes or goes moves no screen's state.
                        stretched(
                            [_notices(view), ft.Container(_screen(view, taps), expand=True)], 0
                        ),
                        width=None if wide_step else view.device.column_px,
                        expand=wide_step,
                        padding=ft.Padding.symmetric(horizontal=12, vertical=8),
                    )
                ],
                alignment=ft.MainAxisAlignment.CENTER,
                vertical_alignment=ft.CrossAxisAlignment.STRETCH,
                expand=True,
            ),
            expand=True,
        ),
        bgcolor=ft.Colors.SURFACE,
        expand=True,
    )

    # The page's own event of this is lost when it comes while the page begins.
    def resized(event: ft.LayoutSizeChangeEvent[ft.LayoutControl]) -> None:
        if (event.width, event.height) != (view.device.width, view.device.height):
            view.device.resize(event.width, event.height)
            view.redraw()

    both = [page, text_measure(view.device, view.redraw)]
    return ft.Stack(both, fit=ft.StackFit.EXPAND, expand=True, on_size_change=resized)


def _notices(view: View) -> ft.Control:
    """Show what must be seen on every screen: what was not saved, and what was refused."""
    rows = practice_strip(view)
    rows += [caution(view.unsaved, SMALL, key="unsaved")] if view.unsaved else []
    rows += [notice(view.message, key="message")] if view.message else []
    return ft.Semantics(
        content=stretched(
            [ft.Container(each, padding=ft.Padding.only(bottom=8)) for each in rows], 0, tight=True
        ),
        live_region=True,
    )


def _screen(view: View, taps: WalkTaps) -> ft.Control:
    head, _, rest = view.route.strip("/").partition("/")
    match head:
        case "start":
            if vehicle := view.parts.own_vehicles.vehicle(rest):
                return start_screen(view, taps, vehicle, key=view.route)
        case "walk" | "record" | "cab":
            return _walk(view, taps, head)
        case "practice" if view.walk_id:
            return _walk(view, taps, "walk")
        case "practice":
            return practice_start(view, taps, rest, key=view.route)
        case "vehicles":
            return vehicles_screen(view, key="vehicles")
        case "vehicle":
            return _vehicle(view, rest)
        case "contacts":
            return contact_screens(view, rest)
        case "board" | "keeping":
            return board_screens(view, head, rest)
        case "records":
            return records_screen(view, key="records")
        case "sharing":
            return sharing_screen(view, key="sharing")
        case "compared":
            return comparison_screen(view, rest, key=view.route)
        case "pairing":
            return pairing_screen(view, key="pairing")
        case "settings":
            return settings_screen(view, key="settings")
        case "keys":
            return keys_screen(view, view.to("/settings"), key="keys")
    return home_screen(view, key="home")


def _vehicle(view: View, rest: str) -> ft.Control:
    """Draw `new`, `new/ID` for a copy, `ID`, `ID/edit`; the list of vehicles for any other."""
    own_vehicles, key = view.parts.own_vehicles, view.route
    if rest == "new":
        return templates_screen(view, key=key)
    head, _, tail = rest.partition("/")
    vehicle = own_vehicles.vehicle(tail if head == "new" else head)
    if vehicle is None:
        return vehicles_screen(view, key="vehicles")
    if head == "new":
        names = [each.name for each in own_vehicles.library.vehicles]
        return form_screen(view, copy_of(vehicle, names), "", "/vehicle/new", key=key)
    if tail == "edit" and own_vehicles.is_own(head):
        return form_screen(view, vehicle, head, f"/vehicle/{head}", key=key)
    return vehicle_screen(view, vehicle, key=key)


def _walk(view: View, taps: WalkTaps, head: str) -> ft.Control:
    try:
        walk = view.walk
    except WalkaroundError as error:
        bar = top_bar(view.words, view.words("walk-cannot-be-opened"), back=view.to("/"))
        return page_column(bar, [notice(error_text(error, view.words))])
    if head == "cab":
        return cab_screen(view, key=view.route)
    if view.practices and (walk.here is None or walk.phase == "finished") and not view.peek:
        return practice_end(view, taps, key=view.route)
    step_id = view.panel.removeprefix(REPAIRED)
    if step_id != view.panel and walk.is_open(step_id):
        return repaired_panel(view, taps, walk.defects[step_id], key=view.panel)
    if view.panel == SIGN:
        return sign_panel(view, taps, key=SIGN)
    if head == "record" or walk.phase == "finished":
        if view.panel == "steps":
            return steps_panel(view, taps, key="steps")
        return record_screen(view, taps, key=view.route)
    if view.panel in _PANELS:
        return _PANELS[view.panel](view, taps, key=view.panel)
    if walk.phase == "paused":
        return paused_screen(view, taps, key="paused")
    step = taps.shown_step()
    if view.panel == "note":
        # It is about the step that it was begun at; another page may have moved on meanwhile.
        step = walk.plan.step(view.step) if walk.plan else None
    if step is None:
        return summary_screen(view, taps, key="summary")
    if view.panel in _STEP_PANELS:
        return _STEP_PANELS[view.panel](view, taps, step, key=f"{view.panel}_{step.id}")
    hold = walk.holds.get(step.id)
    if hold is not None and hold.running:
        return running_screen(view, taps, step, key=f"running_{hold.began.mono_s}")
    return step_screen(view, taps, step, key="step")
