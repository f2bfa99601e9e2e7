"""Lamps are counted in few words, as the eye counts them."""

from __future__ import annotations

import pytest
from support.english import ENGLISH

from walkaround.base.message import Message, message
from walkaround.plan.steps import Item
from walkaround.words.lamps import items_text

TAIL, STOP = "tail", "stop"


def item(said: str | Message, side: str = "", kind: str = "") -> Item:
    return Item.model_validate(
        {"id": "x", "name": "a name", "said": said, "side": side, "kind": kind}
    )


def together(*names: str) -> Message:
    return message("lamp-said-together", names=names)


@pytest.mark.parametrize(
    ("items", "one_side", "said"),
    [
        ([item(TAIL, "left"), item(TAIL, "right")], False, "both tails"),
        ([item(TAIL, "left")], False, "left tail"),
        ([item(TAIL, "left")], True, "tail"),
        (
            [item(TAIL, "left"), item(TAIL, "right"), item("plate lamp")],
            False,
            "both tails, plate lamp",
        ),
        ([item("ID lamp", side) for side in ("left", "centre", "right")], False, "three ID lamps"),
        ([item(together(STOP, "turn"), "left")], False, "left stop and turn lamp"),
        (
            [item(together(TAIL, STOP, "turn"), side) for side in ("left", "right")],
            False,
            "both tail, stop, and turn lamps",
        ),
        (
            [item(message("lamp-said-signal", one=STOP, other="turn"), "right")],
            False,
            "right stop/turn",
        ),
        ([item("side marker", "right") for _ in range(3)], True, "three side markers"),
        (
            [item("upper white tape", side, "tape") for side in ("left", "right")],
            False,
            "upper white tape",
        ),
        ([], False, ""),
    ],
)
def test_lamps_are_counted_in_few_words(items: list[Item], one_side: bool, said: str) -> None:
    assert items_text(items, ENGLISH, one_side=one_side) == said


def test_lamps_of_an_older_plan_are_listed_one_by_one() -> None:
    tails = [
        Item(id=side, name=message("lamp-on-side", side=message(f"side-{side}"), lamp="tail lamp"))
        for side in ("left", "right")
    ]
    assert items_text(tails, ENGLISH) == "left tail lamp, right tail lamp"


def test_lamps_without_a_short_name_are_listed_by_their_names() -> None:
    fog = Item(id="fog", name="rear fog lamp")
    assert items_text([fog, item(TAIL, "left")], ENGLISH) == "rear fog lamp, left tail"
