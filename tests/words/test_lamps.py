"""Lamps are counted in few words."""

from __future__ import annotations

import pytest
from support.english import ENGLISH

from walkaround.base.message import Message, Text, message
from walkaround.plan.steps import Item
from walkaround.words.lamps import counted
from walkaround.words.language import Words

TAIL, STOP = "tail lamp", "stop lamp"


def left(lamp: str) -> Message:
    return message("lamp-on-side", side=message("side-left"), lamp=lamp)


def right(lamp: str) -> Message:
    return message("lamp-on-side", side=message("side-right"), lamp=lamp)


def centre(lamp: str) -> Message:
    return message("lamp-on-side", side=message("side-centre"), lamp=lamp)


def together(*names: Text) -> Message:
    return message("lamp-names", names=names)


def items(*names: Text) -> list[Item]:
    return [Item(id=f"lamp_{at}", name=name) for at, name in enumerate(names)]


@pytest.mark.parametrize(
    ("names", "one_side", "said"),
    [
        ([left(TAIL), right(TAIL)], False, "two tail lamps"),
        ([left(TAIL)], False, "left tail lamp"),
        ([left(TAIL)], True, "tail lamp"),
        (
            [left(TAIL), right(TAIL), "licence-plate lamp"],
            False,
            "two tail lamps and licence-plate lamp",
        ),
        (
            [each("rear identification lamp") for each in (left, centre, right)],
            False,
            "three rear identification lamps",
        ),
        (
            [together(left(STOP), left("rear turn signal"))],
            False,
            "left stop lamp and left rear turn signal",
        ),
        (
            [together(left(TAIL), left(STOP)), together(right(TAIL), right(STOP))],
            False,
            "two tail lamps and stop lamps",
        ),
        (
            [
                message("lamp-over-steady", flashing=each("turn signal"), steady=each(TAIL))
                for each in (left, right)
            ],
            False,
            "two turn signals over steady tail lamps",
        ),
        (
            [right("front side marker lamp"), right("rear side marker lamp")],
            True,
            "front and rear side marker lamps",
        ),
        (
            [
                left("rear side reflector"),
                left("front side reflector"),
                left("side reflective tape"),
            ],
            True,
            "rear and front side reflectors and side reflective tape",
        ),
        ([], False, ""),
    ],
)
def test_lamps_are_counted_in_few_words(names: list[Text], one_side: bool, said: str) -> None:
    assert counted(items(*names), ENGLISH, one_side=one_side) == said


def test_names_of_an_older_plan_are_listed_one_by_one() -> None:
    assert counted(items("left tail lamp", "right tail lamp"), ENGLISH) == (
        "left tail lamp and right tail lamp"
    )


def test_a_language_in_which_lamps_share_no_words_lists_them_whole() -> None:
    plain = Words("en", ["lamps-counted = { $count } x { $lamps }\nlamp-plural = { $lamp }"])
    names = items(right("front side marker lamp"), right("rear side marker lamp"))
    assert counted(names, plain, one_side=True) == (
        "front side marker lamp and rear side marker lamp"
    )
