"""Chambers read off in gloves, on a page that is loaded again halfway, and how a walk was left."""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Browser

from browser.phone import SIZES, Box, Phone, in_hand
from browser.seeds import SEMITRAILER, walked
from browser.serving import Served
from walkaround.walk.state import Walk

pytestmark = pytest.mark.browser

MARKING, LEAVING = "rods_marked_1", "chocks_off"
GLOVE_PX = 56.0
"""The least height and width of what a gloved finger hits here."""


@contextmanager
def at(chromium: Browser, app: Served, step_id: str, size: str) -> Iterator[Phone]:
    """A phone of this size at a step of a walk that is OK so far."""
    walk_id = walked(app.parts, SEMITRAILER, step_id)
    with in_hand(chromium, size) as phone:
        phone.open(app.address, f"walk/{walk_id}")
        yield phone


def walk_of(app: Served, phone: Phone) -> Walk:
    return app.parts.open_walks.walk(phone.walk_id)


def tile(side: str) -> re.Pattern[str]:
    return re.compile(f"^{side}: ")


@pytest.mark.parametrize("size", ["phone", "small phone"])
def test_an_unlike_chamber_is_told_by_four_taps_and_can_only_be_a_defect(
    chromium: Browser, app: Served, size: str
) -> None:
    """49 CFR 393.47(e): a clamp chamber type 24 with a rated stroke of 3 in may have 2 1/2 in."""
    with at(chromium, app, MARKING, size) as phone:
        phone.read_on(tile("Left"))
        boxes: list[Box] = [phone.box(tile(side)) for side in ("Left", "Right")]
        boxes.append(phone.box("Both OK"))
        phone.tap(tile("Left"))
        boxes += [phone.box(name) for name in ("6", "24", "36", "Can't read it", "Other kind")]
        phone.tap("24")
        boxes += [phone.box(name) for name in ("Yes", "No", "Can't tell")]
        phone.reload()
        phone.read_on("Yes")
        phone.tap("Yes")
        phone.tap("3 in")
        phone.stays(re.compile("^Left: clamp 24, long stroke 3 in"))
        phone.sees(re.compile("The ends do not match"))
        phone.gone("Both OK")
        for box in boxes:
            assert min(box.height, box.width) >= GLOVE_PX
            assert box.inside(*SIZES[size])
        phone.answer("Defect")
        phone.tap("Chamber, left")
        phone.tap("Not the same as the other end")
        phone.answer("Record it")
        phone.headed("Axle 2: rods marked, chambers read")
        walk = walk_of(app, phone)
    told = walk.chambers["axle_1_left"]
    assert (told.type, told.long_stroke, told.rated_stroke_in) == ("24", True, 3.0)
    assert walk.answers[MARKING].answer == "defect"


def test_how_the_vehicle_is_left_is_one_of_two_answers_of_one_size(
    chromium: Browser, app: Served
) -> None:
    with at(chromium, app, LEAVING, "phone") as phone:
        away, stay = phone.box("Chocks away"), phone.box("Chocks left in, tagged")
        assert (away.width, away.height) == (stay.width, stay.height)
        phone.answer("Chocks left in, tagged")
        phone.stays("Close the record")
        assert walk_of(app, phone).answers[LEAVING].choice == "chocks_stay"
