"""Signing with a finger, on the screens of a record."""

from __future__ import annotations

from pathlib import Path
from typing import get_args

import flet as ft
import pytest
from support.app import app
from support.flet_harness import Screen
from support.shop import PUMP, fill

from walkaround.base.signing import MOST_STROKES, SignedFor
from walkaround.bootstrap import language_words
from walkaround.walk.events import Signed

TAGGED = "20261120_081502_4f3a9c"


async def drag(screen: Screen, *places: tuple[float, float]) -> None:
    """Move a finger over the field, from the first place to the last, in px."""
    (field,) = [c for c in screen.controls(ft.GestureDetector) if c.key == "sign_field"]
    for number, (x, y) in enumerate(places):
        data = {"l": {"x": x, "y": y}, "g": {"x": x, "y": y}, "k": "touch"}
        await screen.fire(field, "pan_update" if number else "pan_down", data)


async def test_a_signature_is_drawn_kept_with_its_name_and_shown(tmp_path: Path) -> None:
    fill(tmp_path)
    async with app(tmp_path) as depot, depot.page(f"/record/{TAGGED}") as screen:
        assert "Bohdan Shevchuk" in screen.text
        assert screen.has("tagged")
        await screen.click("sign")
        await screen.click("sign_brakes")
        assert screen.find("keep_signature").on_click is None
        await screen.fill("sign_name", "Oksana Lysenko")
        wide = 412 - 24
        await drag(screen, (0, 0), (wide / 2, 0.2 * wide), (2 * wide, wide))
        await screen.click("keep_signature")
        await screen.until(lambda: screen.has("signatures"))
        assert "Oksana Lysenko" in screen.text
        last = depot.parts.open_walks.walk(TAGGED).events[-1]
        assert isinstance(last, Signed)
        assert (last.what, last.name) == ("brakes", "Oksana Lysenko")
        assert last.strokes == (((0, 0), (500, 200), (1000, 400)),)


async def test_no_finger_can_draw_more_than_is_kept(tmp_path: Path) -> None:
    fill(tmp_path)
    async with app(tmp_path) as depot, depot.page(f"/record/{TAGGED}") as screen:
        await screen.click("sign")
        await screen.click("sign_walked")
        await screen.fill("sign_name", "Ana")
        for n in range(MOST_STROKES + 1):
            await drag(screen, (n, n))
        await screen.click("keep_signature")
        await screen.until(lambda: screen.has("signatures"))
        walk = depot.parts.open_walks.walk(TAGGED)
        assert len(walk.signed[-1].strokes) == MOST_STROKES


async def test_a_tag_hangs_until_it_is_lifted(tmp_path: Path) -> None:
    fill(tmp_path)
    async with app(tmp_path) as depot, depot.page(f"/record/{TAGGED}") as screen:
        await screen.click("sign")
        await screen.click("sign_tag_lifted")
        await screen.fill("sign_name", "Bohdan Shevchuk")
        await screen.click("keep_signature")
        await screen.until(lambda: screen.has("signatures"))
        assert not screen.has("tagged")
        line = next(x for x in depot.parts.store.overview().lines if x.vehicle == PUMP)
        assert line.tag == "lifted"


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("what", get_args(SignedFor))
def test_what_is_signed_for_fits_two_lines_of_a_button(what: str, language: str) -> None:
    words = language_words(language)
    assert len(words(f"sign-for-{what.replace('_', '-')}")) <= 40
