"""What is seen, heard and read at a step of a walk in practice."""

from __future__ import annotations

import asyncio
from collections.abc import Iterator

import flet as ft

from walkaround.airhold.hold import Hold
from walkaround.base.message import Message, Quantity, message
from walkaround.brakes.chambers import chamber_named
from walkaround.drawing.part_drawings.near_dial import near_dial, needle_words
from walkaround.drawing.plan_svg import PictureStyle, plan_svg
from walkaround.drawing.vehicle_plan import plan_words
from walkaround.plan.steps import Step
from walkaround.practice.air import can_hear_air
from walkaround.practice.vehicle import PracticeVehicle
from walkaround.ui.kit.buttons import wide_button
from walkaround.ui.kit.parts import notice, stretched
from walkaround.ui.kit.text import label
from walkaround.ui.kit.theme import GAP, SMALL
from walkaround.ui.page.guard import effect, screen
from walkaround.ui.page.view import View
from walkaround.vehicle.model import Axle
from walkaround.walk.chambers import ends_of
from walkaround.words.air_hold import gauge_name
from walkaround.words.language import capital

_FLASH_S = 0.5
"""How long a turn signal is lit, and how long dark: 60 flashes a minute (49 CFR 393.25 by SAE J590,
from memory, 60 to 120), the slowest there is, for eyes that flicker hurts."""


def seen_picture(
    view: View, vehicle: PracticeVehicle, step: Step, look: PictureStyle
) -> ft.Control:
    """Draw the vehicle as it is seen from where one stands at a step; lamps that flash do."""
    shown_as = vehicle.lamp_looks(step)
    lit = step.model_copy(update={"expect": shown_as})
    off = {"flashing": "dark", "dim_flashing": "dark"}
    unlit = step.model_copy(update={"expect": {id_: off.get(k, k) for id_, k in shown_as.items()}})
    words = view.words
    plan_text = words.text(plan_words(vehicle.plan, step))
    looks = [
        words("practice-lamp", number=n, item=item.name, look=shown_as[item.id].replace("_", "-"))
        for n, item in enumerate(step.items, start=1)
        if item.id in shown_as
    ]
    pictures = [plan_svg(vehicle.plan, each, look, words.text) for each in (lit, unlit)]
    description = words.row([plan_text, *looks]) if looks else plan_text
    return _Flashing(view, pictures, look, description, key=f"seen_{step.id}_{look.name}")


@screen
def _Flashing(view: View, pictures: list[str], look: PictureStyle, spoken_label: str) -> ft.Control:
    """Show two pictures in turn, where anything flashes."""
    lit, set_lit = ft.use_state(True)

    async def flash() -> None:
        on = True
        # Whose phone asks for less motion sees the arcs of what flashes, and no change.
        while pictures[0] != pictures[1] and view.device.motion is not False:
            await asyncio.sleep(_FLASH_S)
            on = not on
            set_lit(on)

    effect(view, flash)
    images = [
        ft.Image(
            src=each,
            width=look.width,
            height=look.height,
            opacity=float((n == 0) == lit),
            exclude_from_semantics=True,
        )
        for n, each in enumerate(pictures)
    ]
    stack = ft.Stack(list(images), width=look.width, height=look.height)
    return ft.Semantics(content=stack, label=spoken_label, image=True)


def dials(
    view: View, vehicle: PracticeVehicle, step: Step, hold: Hold, height: float
) -> ft.Control:
    """Draw each gauge of a hold that runs, its needle where it is by now."""
    lines, at_s = hold.rule.gauges, hold.elapsed_s(view.parts.clock())
    room_px = (view.device.width if view.device.wide else view.device.column_px) - 24
    width = (room_px - (len(lines) - 1) * GAP) / len(lines)
    dial_views = []
    for line in lines:
        psi = vehicle.psi(step, line, at_s)
        picture = near_dial(psi, view.palette, width, height, view.words.text)
        name, needle = view.words.text(gauge_name(line)), view.words.text(needle_words(psi))
        description = view.words.row([name, needle])
        image = ft.Image(src=picture, width=width, height=height, semantics_label=description)
        rows: list[ft.Control] = [label(capital(name), size=SMALL, bold=True), image]
        dial_views.append(ft.Column(rows, spacing=2, tight=True, width=width))
    return ft.Row(list(dial_views), spacing=GAP)


def practice_parts(view: View, step: Step) -> list[ft.Control]:
    """Tell what a step would show beside the picture: readings, or that all is well."""
    vehicle = view.practice
    if vehicle is None or view.peek:
        return []
    if lines := [view.words.text(text) for text in _readings(vehicle, step)]:
        return [notice("\n".join(lines), key="shown")]
    if can_hear_air(step) or step.kind in ("lamp", "hold", "wait"):
        return []
    return [notice(view.words("practice-as-done"), key="shown")]


def practice_ear(view: View, step: Step) -> list[ft.Control]:
    """Offer to listen, at a step near a place where air might leak."""
    vehicle = view.practice
    if vehicle is None or view.peek or not can_hear_air(step):
        return []
    return [_Ear(view, vehicle, step, key=f"ear_{step.id}")]


def _readings(vehicle: PracticeVehicle, step: Step) -> Iterator[Message]:
    for end in ends_of(step):
        axle = Axle.model_validate(vehicle.chamber(end).model_dump(exclude={"limit_in", "source"}))
        side = message(f"side-{end.rpartition('_')[2]}")
        yield message("practice-chamber", side=side, chamber=chamber_named(axle))
    for value in step.values:
        assert step.measure
        reading = vehicle.reading(step, value)
        match step.measure.quantity:
            case "s":
                yield message("practice-seconds", seconds=round(reading))
            case "in":
                yield message("practice-rule", stroke=Quantity(value=reading, unit="in"))
            case _:
                gauge_reading = Quantity(value=round(reading), unit="psi")
                yield message("practice-gauge", value=value.name, reading=gauge_reading)


@screen
def _Ear(view: View, vehicle: PracticeVehicle, step: Step) -> ft.Control:
    """Make a tap that listens: what is heard, as a sound and in words."""
    heard_id, set_heard = ft.use_state("")

    async def listen() -> None:
        heard_place = vehicle.hiss(step)
        set_heard("practice-hiss-here" if heard_place else "practice-quiet")
        if heard_place:
            await view.sound.hiss()

    word, icon = view.words("practice-listen"), ft.Icons.HEARING
    rows: list[ft.Control] = [wide_button(word, listen, key="practice_listen", icon=icon)]
    if heard_id:
        rows.append(notice(view.words(heard_id), key="heard"))
    return stretched(rows, 8, tight=True)
