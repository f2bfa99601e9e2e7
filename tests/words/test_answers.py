"""What answers, reasons and faults are called."""

from __future__ import annotations

from typing import get_args

from support.english import ENGLISH
from support.walks import step

from walkaround.plan.steps import Item
from walkaround.walk.events import Answer, Reason, Seen
from walkaround.words.answers import answer_text, answer_word, reason_text, seen_text, seen_words


def test_every_answer_reason_and_fault_has_words_of_its_own() -> None:
    answers = [answer_text(answer, ENGLISH) for answer in get_args(Answer)]
    reasons = [reason_text(reason, ENGLISH) for reason in get_args(Reason)]
    faults = [seen_text(seen, ENGLISH) for seen in get_args(Seen)]
    for texts in (answers, reasons, faults):
        assert len(set(texts)) == len(texts)


def test_an_act_is_done_and_whatever_is_checked_is_ok() -> None:
    act, look = step("x", "secure", "act"), step("y", "lamps", "look")
    assert answer_word(act, "ok", ENGLISH) == "Done"
    assert answer_word(look, "ok", ENGLISH) == "OK"
    assert answer_word(act, "defect", ENGLISH) == answer_word(look, "defect", ENGLISH) == "Defect"


def test_what_was_seen_is_told_by_name() -> None:
    lamps = (Item(id="a", name="left tail lamp"), Item(id="b", name="right tail lamp"))
    told = seen_words(
        step("x", "lamps", "lamp", items=lamps), {"a": "dark", "b": "wrong_colour"}, ENGLISH
    )
    assert told == "left tail lamp dark, right tail lamp wrong colour"


def test_a_wheel_end_that_is_worn_is_told_by_its_name() -> None:
    named = Item(id="x", name="axle 1, left end", kind="wheel_end")
    worn = step("linings", "axles", "look", items=(named,))
    assert seen_words(worn, {"x": "worn"}, ENGLISH) == "axle 1, left end thinner than its limit"
    assert (
        seen_words(worn, {"x": "differs"}, ENGLISH)
        == "axle 1, left end not the same as the other end"
    )
