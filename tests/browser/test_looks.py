"""Every screen at every size, light and dark: nothing cut off, nothing faint, nothing too small.

Each screen is drawn once and then put through the sizes and colours, as a phone that is turned
or told to go dark at night. The rarer ones are looked at on an app and a page of their own, since
some of them show only where nothing was walked before.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from itertools import combinations
from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe
from support.walks import FakeClock

from browser.holding import hold_a_minute
from browser.looks import Look, contrast, even, look_at
from browser.phone import RIGHT, SIZES, Box, Phone
from browser.seeds import PUMP_TRAILER, SEMITRAILER, walked
from browser.seldom_screens import SELDOM, TAIL, Screen
from browser.serving import Served

pytestmark = [pytest.mark.browser, pytest.mark.sharp]
ONE_PAGE = pytest.mark.usefixtures("one_page")

CONTRAST = 7.0
"""WCAG 2.2, success criterion 1.4.6, enhanced contrast."""
TARGET_PX = 44.0
"""WCAG 2.2, success criterion 2.5.5, target size, in CSS pixels; gloves want more."""

LOOKS: tuple[tuple[str, Literal["light", "dark"]], ...] = (
    ("phone", "light"),
    ("small phone", "dark"),
    ("tablet", "light"),
    ("desktop", "dark"),
)
"""Every size, and both colours: every pair of them would cost minutes and find the same."""
_ON_PICTURE = re.compile(r"\d+  ")
"""How a lamp in a picture is named: by its number."""


def _at(upto: str, vehicle_id: str, *taps: str | re.Pattern[str]) -> Screen:
    """The screen of a step, with a defect open, after some taps."""

    def show(app: Served, phone: Phone) -> None:
        walk_id = walked(app.parts, vehicle_id, upto, bad=TAIL)
        phone.open(app.address, f"walk/{walk_id}")
        for name in taps:
            phone.tap(name)
            phone.gone(name)

    return show


def _home(app: Served, phone: Phone) -> None:
    walked(app.parts, SEMITRAILER, "stop_rear", bad=TAIL)
    phone.open(app.address)


def _record(app: Served, phone: Phone) -> None:
    _at("", SEMITRAILER, "Close the record")(app, phone)
    phone.stays("Table (CSV)")


def _path(path: str) -> Screen:
    def show(app: Served, phone: Phone) -> None:
        walked(app.parts, SEMITRAILER, "stop_rear", bad=TAIL)
        phone.open(app.address, path)

    return show


def _cab(app: Served, phone: Phone) -> None:
    phone.open(app.address, f"cab/{walked(app.parts, SEMITRAILER, 'stop_rear', bad=TAIL)}")


def _looked_back(app: Served, phone: Phone) -> None:
    _at("stop_rear", SEMITRAILER)(app, phone)
    phone.tap("Back")
    phone.stays("Return")


def _learnt(app: Served, phone: Phone) -> None:
    """A step on a phone that has learnt a key."""
    phone.open(app.address, "keys")
    phone.tap("OK: no key")
    phone.stays("OK: press its key now")
    phone.page.keyboard.press("PageDown")
    phone.gone("OK: press its key now")
    phone.open(app.address, f"walk/{walked(app.parts, SEMITRAILER, 'stop_rear', bad=TAIL)}")


SCREENS: Mapping[str, Screen] = {
    "home": _home,
    "start": _path(f"start/{PUMP_TRAILER}"),
    "records": _path("records"),
    "settings": _path("settings"),
    "act": _at("supply_charged", SEMITRAILER),
    "many lamps": _at("tail_rear", PUMP_TRAILER),
    "meter first": _at("blackout_marker_rear", PUMP_TRAILER),
    "defect open": _at("stop_rear", SEMITRAILER),
    "which is wrong": _at("stop_rear", SEMITRAILER, "Defect"),
    "other answers": _at("stop_rear", SEMITRAILER, "Other"),
    "menu": _at("stop_rear", SEMITRAILER, "More"),
    "open defects": _at("stop_rear", SEMITRAILER, "1 open defect"),
    "hold to start": _at("applied_hold", SEMITRAILER),
    "hold running": _at("applied_hold", SEMITRAILER, "Start the minute"),
    "chambers": _at("rods_marked_1", SEMITRAILER),
    "choices": _at("chocks_off", SEMITRAILER),
    "summary": _at("", SEMITRAILER),
    "record": _record,
}

RARER: Mapping[str, Screen] = {
    "vehicle": _path(f"vehicle/{SEMITRAILER}"),
    "keys": _path("keys"),
    "contacts": _path("contacts"),
    "sharing": _path("sharing"),
    "board": _path("board"),
    "history": _path(f"board/{SEMITRAILER}"),
    "keeping": _path("keeping"),
    "practice": _path("practice"),
    "practice levels": _path(f"practice/{SEMITRAILER}"),
    "likely causes": _at("stop_rear", SEMITRAILER, "1 open defect", "Likely causes"),
    "sign": _at("", SEMITRAILER, "Sign"),
    "sign here": _at("", SEMITRAILER, "Sign", "Out-of-service tag placed"),
    "switches only": _cab,
    "note": _at("stop_rear", SEMITRAILER, "Note"),
    "all steps": _at("stop_rear", SEMITRAILER, "More", "Steps and answers"),
    "end asked": _at("stop_rear", SEMITRAILER, "More", "End this walk here"),
    "stop asked": _at("applied_hold", SEMITRAILER, "More", "Stop for now"),
    "repaired": _at("stop_rear", SEMITRAILER, "1 open defect", "Repaired"),
    "eighths of an inch": _at("stroke_1_right", SEMITRAILER, "1 …"),
    "size of a chamber": _at("rods_marked_1", SEMITRAILER, re.compile("^Left")),
    "vehicles": _path("vehicles"),
    "new vehicle": _path("vehicle/new"),
    "form": _path(f"vehicle/new/{SEMITRAILER}"),
    "pairing": _path("pairing"),
    "air out": _at("water_drained", SEMITRAILER),
    "explained": _at("stop_rear", SEMITRAILER, "Explain"),
    "looked back": _looked_back,
    "learnt key": _learnt,
    **SELDOM,
}
"""Screens that fewer people come to, looked at in a long run."""


@ONE_PAGE
@pytest.mark.parametrize("name", SCREENS)
def test_a_screen_is_whole_and_readable_at_every_size(app: Served, phone: Phone, name: str) -> None:
    _whole_and_readable(app, phone, SCREENS[name])


@pytest.mark.soak
@pytest.mark.parametrize("name", RARER)
def test_a_rarer_screen_is_so_too(app: Served, phone: Phone, name: str) -> None:
    _whole_and_readable(app, phone, RARER[name])


def _whole_and_readable(app: Served, phone: Phone, show: Screen) -> None:
    show(app, phone)
    wrong = []
    for size, scheme in LOOKS:
        width, height = SIZES[size]
        phone.page.set_viewport_size({"width": width, "height": height})
        phone.page.emulate_media(color_scheme=scheme)
        wrong += [f"{size}, {scheme}: {what}" for what in _wrong_at_last(phone, width)]
    assert not wrong, "\n".join(wrong)
    assert not serious(phone), "\n".join(serious(phone))


FLUTTERS = frozenset({"scrollable-region-focusable"})
"""What Flutter's own tree lacks: words alone, with no button among them, scroll by touch only."""


def serious(phone: Phone) -> list[str]:
    """What axe-core, the checker of WCAG that its package ships, finds serious or worse."""
    found = Axe().run(phone.page).response["violations"]
    return [
        f"{each['id']}: {each['help']}: {[node['html'][:150] for node in each['nodes'][:3]]}"
        for each in found
        if each["impact"] in ("serious", "critical") and each["id"] not in FLUTTERS
    ]


def _wrong_at_last(phone: Phone, width: int) -> list[str]:
    """What is wrong with the screen; a look may come too soon, before it is painted."""
    for _ in range(20):
        wrong = _wrong(look_at(phone), width)
        if not wrong:
            return []
    return wrong


def _wrong(look: Look, width: int) -> list[str]:
    found = [
        *([] if look.pieces else ["shows nothing to read"]),
        *(f"reaches the {side} edge" for side in ("left", "right") if not _margin(look, side)),
        *(f"'{p.words}' is off the screen" for p in look.pieces if not _across(p.box, width)),
    ]
    for piece in look.pieces:
        inset = 6 if piece.button else 1
        inside = look.crop(piece.box, inset)
        if not inside.size:
            found.append(f"'{piece.words}' was not painted when it was looked at")
            continue
        ratio = contrast(inside)
        if ratio < CONTRAST:
            found.append(f"'{piece.words}' has a contrast of {ratio:.1f}")
    buttons = [piece for piece in look.pieces if piece.button]
    for piece in buttons:
        # What is tapped over a picture has the picture in it.
        if not _ON_PICTURE.match(piece.words) and not _clear_rim(look, piece.box):
            found.append(f"'{piece.words}' fills its button to the rim")
        if min(piece.box.width, piece.box.height) < TARGET_PX:
            found.append(f"'{piece.words}' is small: {piece.box}")
    for one, other in combinations(buttons, 2):
        if _overlap(one.box, other.box):
            found.append(f"'{one.words}' and '{other.words}' overlap")
    return found


def _margin(look: Look, side: str) -> bool:
    return even(look.pixels[:, :3] if side == "left" else look.pixels[:, -3:])


def _across(box: Box, width: int) -> bool:
    return box.x >= -0.5 and box.x + box.width <= width + 0.5


def _clear_rim(look: Look, box: Box) -> bool:
    """Words that do not fit are cut off where their button ends: ink at its very rim."""
    inner = look.crop(box, 3)
    height, width = inner.shape[:2]
    middle_y, middle_x = slice(height // 5, -height // 5), slice(width // 5, -width // 5)
    rims = (inner[middle_y, :2], inner[middle_y, -2:], inner[:2, middle_x], inner[-2:, middle_x])
    return all(even(rim) for rim in rims)


def _overlap(one: Box, other: Box) -> bool:
    across = min(one.x + one.width, other.x + other.width) - max(one.x, other.x)
    down = min(one.y + one.height, other.y + other.height) - max(one.y, other.y)
    return across > 1 and down > 1


@ONE_PAGE
@pytest.mark.parametrize("size", ["phone", "small phone"])
@pytest.mark.parametrize(
    ("vehicle_id", "upto"), [(SEMITRAILER, "abs_left_side"), (PUMP_TRAILER, "blackout_marker_rear")]
)
def test_long_words_never_push_the_answers_off_the_screen(
    app: Served, phone: Phone, size: str, vehicle_id: str, upto: str
) -> None:
    """Long prompts, a caution and an open defect: the most that stands on a step."""
    width, height = SIZES[size]
    phone.page.set_viewport_size({"width": width, "height": height})
    _at(upto, vehicle_id)(app, phone)
    phone.tap("Explain")
    phone.stays("Shorter")
    # Where the words do not fit, the answers come when they were read.
    phone.stays(re.compile(f"^(Read on|{RIGHT.pattern})$"))
    names = ("Read on",) if phone.button("Read on").count() else ("Defect", RIGHT)
    for name in names:
        assert phone.box(name).inside(width, height)
    # The phone remembers what was chosen.
    phone.tap("Shorter")
    phone.stays("Explain")


@ONE_PAGE
def test_the_result_of_a_hold_is_whole_and_readable(
    app: Served, phone: Phone, clock: FakeClock
) -> None:
    walk_id = walked(app.parts, SEMITRAILER, "applied_hold")
    phone.open(app.address, f"walk/{walk_id}")
    step = app.parts.open_walks.walk(walk_id).here
    assert step is not None
    assert step.hold is not None
    hold_a_minute(phone, clock, step.hold, lost=(0, 2, 4))
    phone.answer("Stop and use the one-minute drop")
    phone.stays("Defect")
    for width, height in SIZES.values():
        phone.page.set_viewport_size({"width": width, "height": height})
        assert not _wrong_at_last(phone, width)
