"""The words of a step fill their room, and no more than it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.app import App

from walkaround.ui.asked.fitting import PLAIN, plain_px, text_px, title_px

SEMITRAILER = "sandbag_semitrailer_7"
texts = st.text(alphabet="abc de", max_size=400)


@given(texts, texts, st.floats(16, 64), st.floats(150, 600))
def test_more_words_are_never_reckoned_to_take_less(
    words: str, more: str, size: float, width: float
) -> None:
    assert text_px(words + more, size, width) >= text_px(words, size, width)
    assert text_px(words, size + 1, width) >= text_px(words, size, width)


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
