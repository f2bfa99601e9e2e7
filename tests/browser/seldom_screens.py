"""Screens that need more than one walk, another walker, a photo, or a fault on the screen alone.

Also the pages that are no part of the app's own: what is handed over, and a code to print.
"""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Mapping

from PIL import Image, ImageDraw

from browser.phone import Phone
from browser.seeds import SEMITRAILER, WHO, answer, plan_for, walked
from browser.serving import Served
from walkaround.bootstrap import Parts
from walkaround.records.photos import normalized_photo
from walkaround.ui.double_check.pair import second_plan
from walkaround.walk.events import Finished, Photographed, Signed

Screen = Callable[[Served, Phone], None]
TAIL = {"tail_rear": {"rear_left": "dark"}}
_PLAY = "Play a step"


def _closed(parts: Parts) -> str:
    """A closed walk with a tail lamp dark, photos of it, and the tag that was placed for it."""
    walk_id = walked(parts, SEMITRAILER, bad=TAIL)
    for color in ("firebrick", "darkslateblue"):
        drawn = io.BytesIO()
        picture = Image.new("RGB", (1200, 900), color)
        ImageDraw.Draw(picture).ellipse((400, 250, 800, 650), "white")
        picture.save(drawn, "JPEG")
        photo = parts.photos.save(walk_id, normalized_photo(drawn.getvalue(), "lamp.jpg"))
        taken = {"step": "tail_rear", "photo": photo}
        parts.open_walks.do(walk_id, WHO, (Photographed, taken))
    tag = {"what": "tag_placed", "name": "Bo", "strokes": ()}
    parts.open_walks.do(walk_id, WHO, (Signed, tag), (Finished, {}))
    return walk_id


def _both_closed(parts: Parts) -> tuple[str, str]:
    """Both walks of a double check, whose walkers saw one lamp otherwise."""
    plan = plan_for(parts, SEMITRAILER).model_copy(update={"double": True})
    first = parts.open_walks.begin(plan, WHO)
    second = parts.open_walks.begin(second_plan(parts.open_walks.walk(first)), "Bo")
    for walk_id, who, look in ((first, WHO, "dark"), (second, "Bo", "dim")):
        for step in plan.steps:
            seen = {"rear_left": look} if step.id == "tail_rear" else {}
            answer(parts, walk_id, step, seen)
        parts.open_walks.do(walk_id, who, (Finished, {}))
    return first, second


def _record(app: Served, phone: Phone) -> None:
    phone.open(app.address, f"record/{_closed(app.parts)}")


def _start(app: Served, phone: Phone) -> None:
    _closed(app.parts)
    phone.open(app.address, f"start/{SEMITRAILER}")


def _step(app: Served, phone: Phone) -> None:
    _closed(app.parts)
    phone.open(app.address, f"walk/{walked(app.parts, SEMITRAILER, 'tail_rear')}")


def _second_asked(app: Served, phone: Phone) -> None:
    walked(app.parts, SEMITRAILER, "tail_rear")
    phone.open(app.address, f"start/{SEMITRAILER}")
    phone.tap("Start the walk")
    phone.gone("Start the walk")


def _double_waits(app: Served, phone: Phone) -> None:
    plan = plan_for(app.parts, SEMITRAILER).model_copy(update={"double": True})
    app.parts.open_walks.begin(plan, "Bo")
    phone.open(app.address, f"start/{SEMITRAILER}")


def _compared(app: Served, phone: Phone) -> None:
    _, second = _both_closed(app.parts)
    phone.open(app.address, f"compared/{second}")


def _first_step(*taps: str) -> Screen:
    def show(app: Served, phone: Phone) -> None:
        phone.open(app.address)
        for name in taps:
            phone.tap(name)
            phone.gone(name)

    return show


def _practice(app: Served, phone: Phone) -> str:
    """A practice that has begun; its walk's id."""
    phone.open(app.address, f"practice/{SEMITRAILER}")
    phone.tap("One dead lamp")
    phone.stays(re.compile("^(OK|Done|Chocks)"))
    return phone.walk_id


def _practice_step(app: Served, phone: Phone) -> None:
    walk_id = _practice(app, phone)
    walks = app.parts.practice.open_walks
    while (step := walks.walk(walk_id).here) and step.kind != "lamp":
        answer(app.parts.practice, walk_id, step)
    phone.stays("Defect")


def _practice_end(app: Served, phone: Phone) -> None:
    walk_id = _practice(app, phone)
    walks = app.parts.practice.open_walks
    while step := walks.walk(walk_id).here:
        answer(app.parts.practice, walk_id, step)
    phone.stays("Once more, with another fault")


SELDOM: Mapping[str, Screen] = {
    "first step": _first_step(_PLAY),
    "first defect": _first_step(_PLAY, "Defect"),
    "open before": _start,
    "last time": _step,
    "second walk asked": _second_asked,
    "double waits": _double_waits,
    "double check": _compared,
    "record with photos": _record,
    "practice step": _practice_step,
    "practice end": _practice_end,
}
"""Screens of the app."""

PAGES: Mapping[str, str] = {
    "handed over": "files/{walk}.html",
    "code": f"codes/{SEMITRAILER}.html",
    "board page": "printed/board.html",
}
"""The address of each page that the app hands out, after a walk has been closed."""


def page_path(parts: Parts, name: str) -> str:
    """Where one of those pages is."""
    return PAGES[name].format(walk=_closed(parts))
