"""The words of a step fill their room, and no more than it."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from support.app import App

from walkaround.ui.step.fitting import LARGEST, PLAIN, SIZES, text_px, words_size

SEMITRAILER = "sandbag_semitrailer_7"
texts = st.text(alphabet="abc de", max_size=400)


@given(texts, texts, st.integers(0, 20), st.sampled_from([(336.0, 640.0), (388.0, 915.0)]))
def test_words_that_grew_fit_their_room(
    words: str, caution: str, lines: int, page: tuple[float, float]
) -> None:
    width, height = page
    size = words_size(
        words, "A title", [caution], lines=lines, width=width, height=height, taken=380
    )
    assert size in SIZES
    if size > PLAIN:
        below = text_px(words, size, width) + text_px(caution, 20, width) + lines * 16
        assert below < height - 380


@given(texts, texts, st.integers(0, 10))
def test_longer_words_are_never_larger(words: str, more: str, lines: int) -> None:
    def size(of: str) -> int:
        return words_size(of, "A title", [], lines=lines, width=388, height=915, taken=380)

    assert size(words + more) <= size(words)


def test_few_words_on_a_large_phone_are_as_large_as_can_be() -> None:
    few = "Chocks away?"
    assert words_size(few, "Chocks", [], lines=0, width=388, height=915, taken=380) == LARGEST


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
