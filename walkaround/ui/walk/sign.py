"""Signing with a finger: for what, by whom, and the field to draw in."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import flet as ft
import flet.canvas as canvas

from walkaround.base.signing import HIGH, MOST_STROKES, WIDE, SignedFor, thin_points, within_field
from walkaround.drawing.paper.signature import signature_svg
from walkaround.ui.kit.buttons import button, wide_button
from walkaround.ui.kit.parts import card, caution, page_column, page_halves, stretched, top_bar
from walkaround.ui.kit.text import heading, label
from walkaround.ui.kit.text_field import text_field
from walkaround.ui.kit.theme import CARD, LINE, QUIET, RADIUS, SMALL, Tone
from walkaround.ui.page.guard import screen
from walkaround.ui.page.unfinished import use_unfinished
from walkaround.ui.page.view import View
from walkaround.ui.taps.walk import WalkTaps
from walkaround.walk.events import Signed
from walkaround.walk.state import Walk, to_sign

SIGN = "sign"
"""The name of the panel."""
_EVERY_MS = 25
"""How often the place of a moving finger is sent."""
_WIDEST_PX = 600.0
_PEN_PX = 3
_LINE_SHARE, _MARGIN_PX = 0.75, 16.0
"""Where in the field the line to sign on is: down its height, and in from both sides."""
Drawn = tuple[tuple[tuple[int, int], ...], ...]


def tag_caution(view: View, walk: Walk) -> Sequence[ft.Control]:
    """Warn of the out-of-service tag that was placed in this walk and not lifted."""
    if walk.tag != "placed":
        return []
    last = next(event for event in reversed(walk.signed) if event.what == "tag_placed")
    tagged = view.words("sign-tagged", name=last.name, time=f"{last.at.local():%Y-%m-%d %H:%M}")
    return [caution(tagged, key="tagged")]


def signatures_card(view: View, walk: Walk) -> ft.Control:
    """Show who signed for what, with the way to sign."""
    words = view.words
    rows: list[ft.Control] = [label(words("sign-heading"), bold=True)]
    for event in walk.signed:
        rows.append(label(f"{words(_signed_for_text(event.what))}:", size=SMALL))
        rows.append(label(f"{event.name}, {event.at.local():%Y-%m-%d %H:%M}", bold=True))
        if event.strokes:
            description = words("sign-signature-of", name=event.name)
            svg = signature_svg(event.strokes, description, view.palette.ink)
            rows.append(ft.Image(src=svg, height=56, semantics_label=description))
    if not walk.signed:
        rows.append(label(words("sign-nobody"), QUIET, SMALL))
    word, icon = words("sign-title"), ft.Icons.DRAW
    rows.append(button(word, view.opens(SIGN), key="sign", icon=icon))
    return card(ft.Column(rows, spacing=6), key="signatures")


@screen
def sign_panel(view: View, taps: WalkTaps) -> ft.Control:
    """Ask first what is signed for, then who signs and how."""
    signed_for, choose = use_unfinished(view.unfinished, "sign_what", "")
    walk, words = view.walk, view.words
    if signed_for in to_sign(walk):
        return _field(view, taps, signed_for, partial(choose, ""), key=f"sign_{signed_for}")
    body: list[ft.Control] = [heading(words("sign-what"))]
    body += [
        wide_button(
            words(f"sign-for-{_signed_for_id(each)}"), partial(choose, each), key=f"sign_{each}"
        )
        for each in to_sign(walk)
    ]
    return page_column(top_bar(words, words("sign-title"), back=view.opens("")), body)


def _signed_for_text(signed_for: SignedFor) -> str:
    return f"sign-{_signed_for_id(signed_for)}"


def _signed_for_id(signed_for: SignedFor) -> str:
    return signed_for.replace("_", "-")


@screen
def _field(view: View, taps: WalkTaps, signed_for: SignedFor, back: partial[None]) -> ft.Control:
    words, unfinished = view.words, view.unfinished
    # Brakes and tags are mostly somebody else's.
    name, change = use_unfinished(
        unfinished, "sign_name", view.settings.who if signed_for == "walked" else ""
    )
    first: Drawn = ()
    strokes, draw = use_unfinished(unfinished, "sign_strokes", first)
    column_px = view.device.width / 2 - 12 if view.device.flat else view.device.column_px
    wide = min(column_px - 24, _WIDEST_PX)
    unit = wide / WIDE

    def at(place: ft.Offset) -> tuple[int, int]:
        return within_field(place.x / unit, place.y / unit)

    def touched(e: ft.DragDownEvent[ft.GestureDetector]) -> None:
        draw(lambda now: (*now, (at(e.local_position),)) if len(now) < MOST_STROKES else now)

    def moved(e: ft.DragUpdateEvent[ft.GestureDetector]) -> None:
        draw(lambda now: (*now[:-1], thin_points((*now[-1], at(e.local_position)))) if now else now)

    async def keep() -> None:
        body = {"what": signed_for, "name": name.strip(), "strokes": strokes}
        if await taps.record_events((Signed, body)):
            view.open("")

    typed = ft.use_memo(
        lambda: text_field(words("sign-name"), name, 80, key="sign_name", change=change),
        [],
    )
    body: list[ft.Control] = [label(words(_signed_for_text(signed_for)), bold=True), typed]
    if len(strokes) >= MOST_STROKES:
        body.append(caution(words("sign-full"), SMALL))
    pen = ft.Paint(
        color=ft.Colors.ON_SURFACE,
        stroke_width=_PEN_PX,
        style=ft.PaintingStyle.STROKE,
        stroke_cap=ft.StrokeCap.ROUND,
        stroke_join=ft.StrokeJoin.ROUND,
    )
    base = round(unit * _LINE_SHARE * HIGH)
    rule = ft.Paint(color=ft.Colors.ON_SURFACE, stroke_width=2)
    lines: list[canvas.Shape] = [
        # The line to sign on, as on paper; it is no part of the signature.
        canvas.Line(_MARGIN_PX, base, wide - _MARGIN_PX, base, paint=rule),
    ]
    lines += [
        canvas.Path(
            [
                canvas.Path.MoveTo(unit * stroke[0][0], unit * stroke[0][1]),
                *(canvas.Path.LineTo(unit * x, unit * y) for x, y in (stroke[1:] or stroke)),
            ],
            paint=pen,
        )
        for stroke in strokes
    ]
    paper = ft.GestureDetector(
        content=ft.Container(
            canvas.Canvas(lines, width=wide, height=unit * HIGH),
            bgcolor=CARD,
            border=ft.Border.all(2, LINE),
            border_radius=RADIUS,
            clip_behavior=ft.ClipBehavior.HARD_EDGE,
        ),
        drag_interval=_EVERY_MS,
        on_pan_down=touched,
        on_pan_update=moved,
        width=wide,
        height=unit * HIGH,
        key="sign_field",
    )
    how = label(words("sign-draw" if name.strip() else "sign-name-first"), QUIET, SMALL)
    field = ft.Semantics(content=paper, label=words("sign-field"), container=True)
    # On a low page the name and the way to keep it need the room.
    field_controls = [field] if view.device.low else [how, field]
    body += [how] if view.device.low else []
    word = words("sign-keep" if strokes else "sign-keep-name")
    ways = [
        button(
            words("sign-again"),
            partial(draw, ()),
            key="sign_again",
            expand=True,
            height=64,
            across=2,
        ),
        button(
            word,
            keep if name.strip() else None,
            key="keep_signature",
            tone=Tone.ACCENT if name.strip() else Tone.PLAIN,
            expand=True,
            height=64,
            across=2,
        ),
    ]
    bar = top_bar(words, words("sign-title"), back=back)
    under = [*field_controls, ft.Row(ways, spacing=8)]
    if view.device.flat:
        return page_halves(bar, body, stretched(under, tight=True))
    return page_column(bar, body, under)
