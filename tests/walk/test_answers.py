"""Which answers and faults a step offers."""

from __future__ import annotations

from typing import get_args

import pytest
from support.walks import step

from walkaround.plan.steps import OTHERS, Item, Look
from walkaround.walk.answers import answer_for, faults_for
from walkaround.walk.events import NO_FAULT, Answer, Seen
from walkaround.walk.state import FAULTS


def item(kind: str, required: bool = True, id_: str = "x") -> Item:
    return Item(id=id_, name="the thing", kind=kind, required=required)


ITEMS = [
    item(kind, required)
    for kind in ("tail", "turn", "abs", "reflector", "tape", "wheel_end", "backup")
    for required in (True, False)
] + [item("others", id_=OTHERS)]


@pytest.mark.parametrize("thing", ITEMS, ids=lambda thing: f"{thing.kind}-{thing.required}")
def test_faults_on_offer_are_known_and_each_offered_once(thing: Item) -> None:
    faults = faults_for(thing)
    assert set(faults) <= set(get_args(Seen))
    assert len(faults) == len(set(faults)) >= 2


@pytest.mark.parametrize("kind", ["tail", "turn", "abs", "reflector", "tape", "backup"])
def test_what_is_required_can_be_missing_and_what_is_not_can_be_unfitted(kind: str) -> None:
    assert "missing" in faults_for(item(kind))
    assert "not_fitted" not in faults_for(item(kind))
    assert "not_fitted" in faults_for(item(kind, required=False))
    assert "missing" not in faults_for(item(kind, required=False))


@pytest.mark.parametrize("look", ["steady", "dark"])
def test_a_plate_lamp_on_the_other_wire_may_be_as_built_and_a_tail_lamp_is_a_fault(
    look: Look,
) -> None:
    """SAE J560 in several builders' tables: plate and ID lamps on black or on brown (read)."""
    for kind in ("licence_plate", "identification"):
        assert "built_so" in faults_for(item(kind), look)
    for kind in ("tail", "stop", "turn", "clearance"):
        assert "built_so" not in faults_for(item(kind), look)


def test_a_wheel_end_can_be_worn_or_differ_from_the_other_and_a_lamp_cannot() -> None:
    assert {"worn", "differs"} <= set(faults_for(item("wheel_end")))
    assert not {"worn", "differs"} & set(faults_for(item("tail")))


def test_a_reflector_is_never_dark_and_a_wheel_end_never_flickers() -> None:
    assert not {"dark", "dim", "flickers"} & set(faults_for(item("reflector")))
    assert not {"dark", "dim", "flickers", "not_fitted"} & set(faults_for(item("wheel_end")))
    assert faults_for(item("wheel_end"))[:2] == ("no_movement", "leak")


def test_a_lamp_that_should_be_dark_can_only_be_lit_glow_or_flicker() -> None:
    assert faults_for(item("others", id_=OTHERS)) == ("wrong_lamp", "glows", "flickers")
    assert {"wrong_lamp", "glows"} <= set(faults_for(item("tail"), "dark"))
    assert not {"dark", "dim", "some_out"} & set(faults_for(item("tail"), "dark"))


def test_a_turn_signal_can_flash_at_the_wrong_rate_and_nothing_else_can() -> None:
    rates = {"flashes_fast", "flashes_slow", "steady"}
    assert rates <= set(faults_for(item("turn"), "flashing"))
    assert not rates & set(faults_for(item("tail"), "steady", signal=True))


def test_a_lamp_may_pulse_with_a_turn_signal_only_while_one_flashes() -> None:
    assert "pulses" in faults_for(item("tail"), "steady", signal=True)
    assert "pulses" not in faults_for(item("tail"), "steady")
    assert "flashing" not in faults_for(item("tail"), "steady", signal=True)


@pytest.mark.parametrize(
    ("seen", "answer"),
    [
        ({"a": "dark"}, "defect"),
        ({"a": "built_so"}, "ok"),
        ({"a": "built_so", "b": "not_fitted"}, "ok"),
        ({"a": "built_so", "b": "dark"}, "defect"),
        ({"a": "built_so", "b": "missing"}, "missing"),
        ({"a": "missing"}, "missing"),
        ({"a": "missing", "b": "missing"}, "missing"),
        ({"a": "missing", "b": "dim"}, "defect"),
        ({"a": "not_fitted"}, "not_fitted"),
        ({"a": "not_fitted", "b": "missing"}, "missing"),
        ({"a": "not_fitted", "b": "loose"}, "defect"),
    ],
)
def test_the_worst_of_what_was_seen_is_the_answer(seen: dict[str, Seen], answer: Answer) -> None:
    optional = step(
        "x", "lamps", "lamp", items=(item("tail", False, "a"), item("tail", False, "b"))
    )
    assert answer_for(optional, seen) == answer
    assert (answer in FAULTS) == bool(set(seen.values()) - NO_FAULT)


def test_what_nobody_requires_may_be_unfitted_beside_a_lamp_that_is_required_and_ok() -> None:
    mixed = step("x", "lamps", "lamp", items=(item("tail", True, "a"), item("tail", False, "b")))
    assert answer_for(mixed, {"b": "not_fitted"}) == "ok"
