"""What a checklist file may say, and each check of what its shape cannot show."""

from __future__ import annotations

from datetime import date
from typing import Any, get_args

import pytest
from pydantic import ValidationError

from walkaround.base.toml_model import problems_of
from walkaround.rules.checklist import PARTS, SPOTS, Applies, Checklist, StepKind
from walkaround.rules.checks import SHORT_MAX, checklist_problems
from walkaround.vehicle.model import Vehicle

HOLD = {
    "set_psi": {"supply": 110.0},
    "limit_psi_per_min": 2.0,
    "limit_source": "shop",
    "limit_provenance": "common practice, no source",
}


def step(**changes: Any) -> dict[str, Any]:
    table = {
        "id": "chocks",
        "part": "secure",
        "kind": "act",
        "title": "Chocks",
        "short": "Chock one wheel.",
        "long": "Chock both sides of one wheel.",
        "spot": "left_side",
        "source": "shop",
        "provenance": "common practice, no source",
    }
    return table | changes


def lamp(**changes: Any) -> dict[str, Any]:
    table = {
        "id": "tail",
        "kind": "tail",
        "name": "tail lamp",
        "colour": ["red"],
        "quantity": 2,
        "end": "rear",
        "spread": "pair",
        "what": "Red.",
        "why": "To be seen.",
        "height": "low",
        "source": "table",
        "provenance": "read",
    }
    return table | changes


def table(**changes: Any) -> dict[str, Any]:
    return {"id": "air", "title": "Air", "source": "shop", "provenance": "memory"} | changes


def problems(**changes: Any) -> list[str]:
    checklist = Checklist.model_validate(table(**changes))
    return [str(problem) for problem in checklist_problems(checklist, "c.toml")]


def shape_problems(**changes: Any) -> list[str]:
    with pytest.raises(ValidationError) as caught:
        Checklist.model_validate(table(**changes))
    return [str(problem) for problem in problems_of(caught.value, "c.toml")]


def vehicle(**changes: Any) -> Vehicle:
    plain = {
        "id": "x",
        "kind": "semitrailer",
        "made": date(2011, 4, 1),
        "width_mm": 2591,
        "length_mm": 13716,
        "electrical": {"volts": 24, "connector": "x", "blackout": True},
        "brakes": {"system": "air"},
    }
    return Vehicle.model_validate(plain | changes)


def test_a_sound_checklist_has_no_problems() -> None:
    axle = step(id="axle_{axle}_stroke", per_axle=True, short="Axle {axle}.", kind="look")
    hold = step(id="hold", kind="hold", hold=HOLD)
    assert problems(step=[step(), axle, hold], lamp=[lamp()]) == []


def test_a_file_with_the_plural_that_was_needed_once_is_still_read() -> None:
    assert problems(lamp=[lamp(plural="tail lamps")]) == problems(lamp=[lamp()]) == []


def test_the_words_of_the_walk_are_as_agreed() -> None:
    assert PARTS[:4] == ("secure", "connect", "charge", "lamps")
    assert get_args(StepKind) == (
        "act", "look", "listen", "hold", "measure", "gauges", "chambers", "wait", "lamp",
    )  # fmt: skip
    # Clockwise seen from above, from the front.
    assert SPOTS == ("front", "right_side", "rear", "left_side")


@pytest.mark.parametrize(
    ("applies", "expected"),
    [
        ({}, True),
        ({"kinds": ["semitrailer", "truck"]}, True),
        ({"kinds": ["truck"]}, False),
        ({"volts": 24}, True),
        ({"volts": 12}, False),
        ({"brakes": ["air"]}, True),
        ({"brakes": ["electric"]}, False),
        ({"blackout": True}, True),
        ({"blackout": False}, False),
        ({"rules": "us"}, True),
        ({"rules": "unece"}, False),
        ({"volts": 24, "brakes": ["electric"]}, False),
    ],
)
def test_a_checklist_applies_when_all_that_it_asks_holds(
    applies: dict[str, Any], expected: bool
) -> None:
    assert Applies.model_validate(applies).matches(vehicle()) is expected


@pytest.mark.parametrize(
    ("changes", "key", "said"),
    [
        ({"step": [step(), step()]}, "step chocks", "stands twice"),
        ({"lamp": [lamp(), lamp()]}, "lamp tail", "stands twice"),
        ({"step": [step(per_axle=True)]}, "step chocks", "put {axle} in the id"),
        ({"step": [step(id="a_{axle}")]}, "step a_{axle}.id", "set per_axle = true"),
        ({"step": [step(long="At {axel}.")]}, "step chocks.long", "placeholder {axel}"),
        ({"step": [step(long="At {110 pounds}.")]}, "step chocks.long", "quantity as {110 psi}"),
        ({"step": [step(title="At {")]}, "step chocks.title", "placeholder {"),
        ({"lamp": [lamp(what="On {axle}.")]}, "lamp tail.what", "placeholder {axle}"),
        ({"step": [step(kind="hold")]}, "step chocks.hold", "add the hold table"),
        ({"step": [step(hold=HOLD)]}, "step chocks.hold", "stands in a step of kind act"),
        (
            {"step": [step(kind="hold", hold=HOLD, must=True)]},
            "step chocks.must",
            "an air hold cannot be a must",
        ),
        ({"step": [step(kind="lamp")]}, "step chocks.kind", "not written in files"),
        ({"step": [step(short=" ")]}, "step chocks.short", "is empty"),
        ({"title": ""}, "title", "is empty"),
        ({"lamp": [lamp(why="")]}, "lamp tail.why", "is empty"),
        ({"step": [step(short="x" * 161)]}, "step chocks.short", "has 161 characters"),
        ({"step": [step(brisk="x" * 161)]}, "step chocks.brisk", "has 161 characters"),
        ({"step": [step(brisk="{axle}.")]}, "step chocks.brisk", "nothing fills the placeholder"),
        ({"lamp": [lamp(quantity=3)]}, "lamp tail.quantity", "spread pair places 2"),
        (
            {"lamp": [lamp(end="side", spread="centre", quantity=1)]},
            "lamp tail.spread",
            "which the sides do not have",
        ),
    ],
)
def test_each_fault_of_sense_is_one_sentence_that_names_its_place(
    changes: dict[str, Any], key: str, said: str
) -> None:
    [sentence] = problems(**changes)
    assert sentence.startswith(f"c.toml, {key}: ")
    assert said in sentence


def test_the_longest_short_text_is_still_allowed() -> None:
    assert problems(step=[step(short="x" * SHORT_MAX)]) == []


def test_all_faults_of_sense_are_told_at_once() -> None:
    found = problems(step=[step(kind="hold", must=True), step(short="")], lamp=[lamp(quantity=9)])
    assert len(found) == 5


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        (
            {"titel": "x"},
            "c.toml, titel: there is no such key; perhaps title is meant.",
        ),
        (
            {"step": [step(), step(id="b", shrt="x")]},
            "c.toml, step 2.shrt: there is no such key; perhaps short is meant.",
        ),
        (
            {"step": [step(quiet="yes")]},
            'c.toml, step 1.quiet: is "yes" where true or false is needed; '
            "write true or false without quotes.",
        ),
        (
            {"step": [step(kind="hold", hold=HOLD | {"limit_psi_per_min": 0})]},
            "c.toml, step 1.hold.limit_psi_per_min: is 0; write a number above 0.",
        ),
        (
            {"step": [step(kind="hold", hold=HOLD | {"seconds": -60})]},
            "c.toml, step 1.hold.seconds: is -60; write a number above 0.",
        ),
        (
            {"step": [step(kind="hold", hold=HOLD | {"limit_psi_per_min": "2"})]},
            'c.toml, step 1.hold.limit_psi_per_min: is "2" where a number is needed; '
            "write a number of ordinary size, without quotes.",
        ),
        (
            {"step": [step(spot="reer")]},
            'c.toml, step 1.spot: is "reer", which is not allowed here; perhaps rear is meant.',
        ),
        (
            {"step": [step(id="Chocks 1")]},
            'c.toml, step 1.id: is "Chocks 1" where a plain id is needed; '
            "write small letters, digits and underscores only.",
        ),
        (
            {"lamp": [lamp(along=1.5)]},
            "c.toml, lamp 1.along: is 1.5; write a number not above 1.",
        ),
        (
            {"lamp": [lamp(colour="red")]},
            'c.toml, lamp 1.colour: is "red" where a list is needed; '
            "put the values in [square brackets].",
        ),
        (
            {"applies": 12},
            "c.toml, applies: is 12 where a table is needed; "
            "write it as a [table] or as { key = value }.",
        ),
        (
            {"applies": {"volts": 6}},
            "c.toml, applies.volts: is 6, which is not allowed here; use one of: 12, 24.",
        ),
        (
            {"title": 7},
            "c.toml, title: is 7 where text is needed; put the text in quotes.",
        ),
        (
            {"lamp": [lamp(made_from="soon")]},
            'c.toml, lamp 1.made_from: is "soon" where a date is needed; '
            "write it as year-month-day, such as 2011-04-01.",
        ),
    ],
)
def test_each_fault_of_shape_is_one_sentence_with_its_mend(
    changes: dict[str, Any], sentence: str
) -> None:
    assert shape_problems(**changes) == [sentence]


def test_a_missing_key_is_named() -> None:
    incomplete = step()
    del incomplete["short"]
    assert shape_problems(step=[incomplete]) == [
        "c.toml, step 1.short: is missing; add the key short."
    ]


def variant(**changes: Any) -> dict[str, Any]:
    return {"facts": ["boat"], "source": "note 1", "provenance": "memory"} | changes


@pytest.mark.parametrize(
    ("changes", "key", "said"),
    [
        ({"quantity": 1}, "variant 1.quantity", "is 1, but spread pair places 2"),
        ({"quantity": 3, "spread": "three", "end": "side"}, "variant 1.spread", "is three"),
        ({"facts": []}, "variant 1", "holds for every vehicle"),
        ({"height": "high"}, "", ""),
        ({"source": " "}, "variant 1.source", "is empty"),
    ],
)
def test_a_variant_makes_a_row_that_can_be_placed_and_has_its_source(
    changes: dict[str, Any], key: str, said: str
) -> None:
    for found, owner in (
        (problems(lamp=[lamp(variant=[variant(**changes)])]), "lamp tail."),
        (problems(lamp=[lamp()], variant=[variant(**changes)]), ""),
    ):
        assert len(found) == bool(key)
        assert all(f"c.toml, {owner}{key}: {said}" in sentence for sentence in found)


def test_a_variant_that_takes_lamps_away_needs_no_place() -> None:
    assert problems(lamp=[lamp(variant=[variant(quantity=0)])]) == []


def test_a_variant_for_every_vehicle_belongs_into_the_row() -> None:
    bare = {"height": "high", "source": "note 1", "provenance": "memory"}
    assert problems(lamp=[lamp(variant=[bare])]) == [
        "c.toml, lamp tail.variant 1: holds for every vehicle; "
        "say for which, or write it into the row."
    ]


def test_only_a_row_for_the_sides_repeats() -> None:
    assert problems(lamp=[lamp(end="side", gap_mm=3000)]) == []
    assert problems(lamp=[lamp(gap_mm=3000)]) == [
        'c.toml, lamp tail.gap_mm: stands in a row for the rear; take it out or set end = "side".'
    ]


def test_a_key_unlike_any_other_is_answered_with_all_that_may_stand_there() -> None:
    [sentence] = shape_problems(applies={"zzz": 1})
    assert sentence.endswith("use one of: blackout, brakes, kinds, rules, volts.")


PSI = {"quantity": "psi", "of": ["primary"]}
TIME = {"quantity": "s", "begin": "At 85 psi", "end": "At 100 psi"}
STROKE = {"quantity": "in", "limits_from": "strokes"}
END = "stroke_{axle}_{side}"


def limit(**changes: Any) -> dict[str, Any]:
    return {"id": "a", "at_most": 3.0, "source": "book", "provenance": "memory"} | changes


def measured(measure: dict[str, Any], *limits: dict[str, Any], **changes: Any) -> dict[str, Any]:
    return step(kind="measure", measure=measure, limit=limits, **changes)


def test_what_is_measured_soundly_has_no_problems() -> None:
    seen = step(id="seen", kind="look")
    wait = step(id="stay", kind="wait", wait={"after": "seen", "seconds": 900})
    sound = [
        measured(PSI, limit(), limit(id="b", at_least=3.0)),
        measured(PSI | {"drop": True}, limit(at_most=20.0), id="drop"),
        measured(PSI, limit(at_most=None, at_least=55.0, or_half_of="drop"), id="half"),
        measured(TIME, limit(), id="time"),
        measured(STROKE, id=END, per_end=True, title="Axle {axle}, {side}: {stroke_limit}"),
        step(id="hold", kind="hold", hold=HOLD, limit=[limit(equal_passes=False)]),
        step(id="gauges", kind="gauges"),
        step(id="pads_{axle}", per_axle=True, long="{chamber}, {lining_limit}, {towed}"),
        seen,
        wait,
    ]
    chosen = {"chocks": "b", "a_step_of_another_file": "c"}
    assert problems(step=sound, chosen=chosen) == []


@pytest.mark.parametrize(
    ("found", "key", "said"),
    [
        (step(kind="measure"), ".measure", "add the measure table"),
        (step(measure=PSI), ".measure", "stands in a step of kind act"),
        (step(kind="wait"), ".wait", "add the wait table"),
        (measured(PSI, must=True), ".must", "a measured step cannot be a must"),
        (measured(PSI, limit(at_most=None)), ".limit a", "add at_least or at_most"),
        (measured(PSI, limit(at_least=4.0)), ".limit a.at_least", "is 4, above at_most"),
        (
            measured(PSI, limit(at_most=None, at_least=55.0, or_half_of="nowhere")),
            ".limit a.or_half_of",
            "no other step of this file is called nowhere",
        ),
        (measured(PSI, limit(), limit()), ".limit a", "stands twice"),
        (step(limit=[limit()]), ".limit", "stands in a step of kind act"),
        (
            step(kind="hold", hold=HOLD, limit=[limit(at_least=1.0, at_most=None)]),
            ".limit a.at_most",
            "write at_most in psi/min",
        ),
        (
            step(kind="hold", hold=HOLD, limit=[limit(at_most=400.0)]),
            ".limit a.at_most",
            "is 400; write 100 at most",
        ),
        (step(kind="gauges", must=True), ".must", "the step of the gauges cannot be a must"),
        (measured({"quantity": "psi"}), ".measure.of", "name the gauges"),
        (measured({"quantity": "psi", "drop": True}), ".measure.of", "name the gauges"),
        (measured(PSI | {"of": ["primary"] * 2}), ".measure.of", "names a gauge twice"),
        (measured(TIME | {"of": ["primary"]}), ".measure.of", "is read off no gauge"),
        (measured(TIME | {"drop": True}), ".measure.drop", "is no drop of pressure"),
        (measured(TIME | {"end": " "}), ".measure.end", "write what is tapped then"),
        (measured(PSI | {"begin": "Now"}), ".measure.begin", "no time is taken"),
        (measured(PSI | {"limits_from": "strokes"}), ".measure.limits_from", 'quantity = "in"'),
        (measured({"quantity": "in"}), ".measure.limits_from", 'limits_from = "strokes"'),
        (measured(STROKE), ".measure.limits_from", "set per_end = true"),
        (
            measured(STROKE, limit(), id=END, per_end=True),
            ".limit",
            "stands beside limits_from",
        ),
        (measured(STROKE, id="s_{axle}", per_end=True), "", "put {side} in the id"),
        (measured(STROKE, id="s_{side}", per_end=True), "", "put {axle} in the id"),
        (step(long="On the {side}."), ".long", "set per_end = true"),
        (step(id="a_{axle}", per_axle=True, long="The {side}."), ".long", "set per_end = true"),
        (step(long="Limit {stroke_limit}."), ".long", "set per_axle = true"),
    ],
)
def test_each_fault_of_what_is_measured_is_one_sentence_that_names_its_place(
    found: dict[str, Any], key: str, said: str
) -> None:
    [sentence] = problems(step=[found])
    assert sentence.startswith(f"c.toml, step {found['id']}{key}: ")
    assert said in sentence


@pytest.mark.parametrize("after", ["nobody", "stay"])
def test_a_wait_counts_from_another_step_of_its_file(after: str) -> None:
    wait = step(id="stay", kind="wait", wait={"after": after, "seconds": 900})
    [sentence] = problems(step=[step(), wait])
    assert sentence.startswith(
        f"c.toml, step stay.wait.after: no other step of this file is called {after};"
    )


def test_only_a_wait_waits() -> None:
    act = step(id="stay", wait={"after": "chocks", "seconds": 900})
    [sentence] = problems(step=[step(), act])
    assert sentence.startswith("c.toml, step stay.wait: stands in a step of kind act")


def test_what_is_chosen_is_a_limit_of_its_step() -> None:
    [sentence] = problems(step=[measured(PSI, limit())], chosen={"chocks": "b"})
    assert sentence == ("c.toml, chosen.chocks: no limit of that step is called b; use one of: a.")
