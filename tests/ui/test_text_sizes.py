"""The words of a step fill their room, and no more than it."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from importlib.resources import files
from pathlib import Path

import flet as ft
import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st
from support.app import App
from support.english import ENGLISH

from walkaround.disk.locations import shipped
from walkaround.library.load import load_library
from walkaround.plan.plan_walk import plan_walk
from walkaround.ui.kit.theme import SMALL
from walkaround.ui.step_content.text_sizes import PLAIN, plain_px, text_px, title_px
from walkaround.words.prompts import prompt

SEMITRAILER = "sandbag_semitrailer_7"
MANY = 100
texts = st.text(alphabet="abc de", max_size=400)


@given(texts, texts, st.floats(16, 64), st.floats(150, 600))
def test_more_words_are_never_reckoned_to_take_less(
    words: str, more: str, size: float, width: float
) -> None:
    assert text_px(words + more, size, width) >= text_px(words, size, width)
    assert text_px(words, size + 1, width) >= text_px(words, size, width)


@pytest.fixture(scope="module")
def widths() -> Mapping[str, float]:
    """Of each letter of the font that Chromium draws the page in: its own table."""
    path = Path(str(files("flet_web"))) / "web" / "assets" / "fonts" / "roboto.woff2"
    with TTFont(path) as font:
        em, of_glyph = font["head"].unitsPerEm, font["hmtx"]
        return {chr(code): of_glyph[name][0] / em for code, name in font.getBestCmap().items()}


@pytest.mark.parametrize(("size", "width"), [(22, 350), (32, 350), (26, 388), (44, 336)])
def test_the_words_of_steps_are_reckoned_no_lower_than_drawn_and_hardly_higher(
    widths: Mapping[str, float], size: int, width: int
) -> None:
    library = load_library(shipped(), today=date(2026, 1, 1))
    plans = [plan_walk(vehicle, library.rules) for vehicle in library.vehicles]
    told = [prompt(step, plan.power, "long", ENGLISH) for plan in plans for step in plan.steps]
    texts = {text for each in told for text in (each.title, each.caution, each.switch, each.see)}
    assert len(texts) > MANY
    for text in texts:
        lines, taken = 1, 0.0
        for word in text.split():
            wide = size * sum(widths[letter] for letter in word)
            if taken and taken + size * widths[" "] + wide > width:
                lines, taken = lines + 1, 0.0
            taken += wide + (size * widths[" "] if taken else 0.0)
        reckoned = round(text_px(text, size, width) / text_px("", size, width))
        assert lines <= reckoned <= lines + 1 + lines // 8, text


@pytest.mark.parametrize("scale", [1.0, 1.25, 1.5, 2.0])
def test_words_that_are_scrolled_grow_with_the_text_of_the_phone(scale: float) -> None:
    assert plain_px(scale) >= max(PLAIN, 20 * scale)
    assert title_px("A title", scale, 388) >= title_px("A title", 1.0, 388)


async def test_a_step_with_room_is_told_in_larger_words_than_one_without(depot: App) -> None:
    walk_id = depot.begin(SEMITRAILER, scope="lamps", together=True)
    sizes = {}
    async with depot.page(f"/walk/{walk_id}") as screen:
        while (here := depot.parts.open_walks.walk(walk_id).here) is not None:
            sizes[here.id] = screen.find("words").size
            key = "choice_chocks_away" if here.choices else "ok"
            await screen.until(lambda key=key: screen.has(key))
            await screen.click(key)
            await screen.until(
                lambda here=here: here.id in depot.parts.open_walks.walk(walk_id).answers
            )
            await screen.settle()
    assert sizes["abs_left_side"] > sizes["load_rear"] == PLAIN
    # At least 24 px wherever 120 px were free.
    assert sizes["abs_left_side"] >= 25


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("scale", [1.0, 2.0])
@pytest.mark.parametrize(("width", "height"), [(360, 640), (412, 915), (915, 412)])
async def test_the_words_of_the_small_buttons_of_a_step_are_all_of_one_size_that_fits(
    depot: App,
    widths: Mapping[str, float],
    language: str,
    scale: float,
    width: int,
    height: int,
) -> None:
    depot.parts.store.change_settings({"language": language})
    walk_id = depot.begin(SEMITRAILER, scope="lamps")
    async with depot.page(f"/walk/{walk_id}") as screen:
        screen.page.width, screen.page.height = width, height
        [measure] = [text for text in screen.controls(ft.Text) if text.size == 100]
        await screen.fire(measure, "size_change", {"w": 1.0, "h": 100.0 * scale})
        await screen.fire(screen.page, "resize", {"width": width, "height": height})
        await screen.click("ok")
        for looked_back in (False, True):
            if looked_back:
                await screen.click("back")
            buttons = screen.find("small").controls
            column = width - 24 if width < 840 else (width - 48) / 2
            share_px = (column - 8 * (len(buttons) - 1)) / len(buttons) - 4
            faces = [button.content for button in buttons]
            words = [face.controls[1] for face in faces if isinstance(face, ft.Column)]
            assert len({word.size for word in words}) == 1
            assert len(words) >= len(buttons) - 2
            drawn_px = words[0].size * scale
            assert drawn_px >= SMALL
            for word in words:
                assert drawn_px * sum(widths[each] for each in word.value) <= share_px
            alone = [face for face in faces if isinstance(face, ft.Icon)]
            assert all(face.semantics_label for face in alone)
            if language == "en":
                assert not alone
