"""Which rows of a lamp table hold for a vehicle, and where their lamps are set."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from walkaround.base.message import Message
from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import Lamp, lamps_for, lamps_of_rule, reflectors_for
from walkaround.library.load import load_library
from walkaround.rules.checklist import SPOTS, Checklist
from walkaround.rules.lamp_rule import LampRule
from walkaround.vehicle.model import KINDS, Vehicle

SHIPPED = load_library(shipped(), today=date(2025, 11, 1)).checklists


def rule(**changes: Any) -> dict[str, Any]:
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


def checklist(*rules: dict[str, Any], **changes: Any) -> Checklist:
    table = {"id": "c", "title": "c", "source": "c", "provenance": "read", "lamp": list(rules)}
    return Checklist.model_validate(table | changes)


def vehicle(stop_turn: str = "separate", blackout: bool = False, **changes: Any) -> Vehicle:
    table = {
        "id": "x",
        "kind": "semitrailer",
        "made": date(2011, 4, 1),
        "width_mm": 2400,
        "length_mm": 10000,
        "electrical": {
            "volts": 12,
            "connector": "x",
            "stop_turn": stop_turn,
            "blackout": blackout,
        },
    }
    return Vehicle.model_validate(table | changes)


def shipped_lamps(one: Vehicle) -> dict[str, Lamp]:
    return {lamp.id: lamp for lamp in lamps_for(one, SHIPPED)}


def test_a_row_asks_its_lamps_of_the_vehicles_it_holds_for_and_of_no_others() -> None:
    one = LampRule.model_validate(rule(classes=["D"], length_mm={"over": 9999}))
    assert lamps_of_rule(one, vehicle(), "D") is one
    assert lamps_of_rule(one, vehicle(), "F") is None
    assert lamps_of_rule(one, vehicle(length_mm=9999), "D") is None


SHORTER = {"length_mm": {"up_to": 10000}, "source": "note 1", "provenance": "memory"}


def test_a_variant_changes_what_it_names_and_tells_its_source() -> None:
    variant = SHORTER | {"quantity": 1, "spread": "centre", "height": "high"}
    one = LampRule.model_validate(rule(variant=[variant]))
    found = lamps_of_rule(one, vehicle(), "D")
    assert found is not None
    assert (found.quantity, found.spread, found.height, found.what) == (1, "centre", "high", "Red.")
    assert (found.source, found.provenance) == ("table; note 1", "memory")
    assert lamps_of_rule(one, vehicle(length_mm=10001), "D") is one


def test_a_text_that_a_variant_wrote_is_told_by_the_place_of_that_variant() -> None:
    """So a translation of it is found under a path of its own."""
    first, second = SHORTER | {"height": "high"}, SHORTER | {"what": "Amber."}
    rows = [checklist(rule(variant=[first, second]))]
    for length_mm, place in ((10000, "c/tail/variant 2/what"), (10001, "c/tail/what")):
        lamp, _ = lamps_for(vehicle(length_mm=length_mm), rows)
        assert isinstance(lamp.what, Message)
        assert lamp.what.id == place


@pytest.mark.parametrize(
    ("along", "third"), [(0.33, "front"), (0.34, "middle"), (0.66, "middle"), (0.67, "rear")]
)
def test_the_middle_third_of_a_side_begins_and_ends_at_a_third(along: float, third: str) -> None:
    left, _ = lamps_for(vehicle(), [checklist(rule(end="side", along=along))])
    assert left.place == f"left_side_{third}"


# 49 CFR 393.11 Table 1 (read): centres not less than 152 and not more than 305 mm apart.
def test_three_lamps_in_a_row_stand_as_far_apart_as_the_table_allows() -> None:
    row = rule(kind="identification", spread="three", quantity=3)
    left, centre, right = lamps_for(vehicle(), [checklist(row)])
    assert 152 <= right.y_mm - centre.y_mm == centre.y_mm - left.y_mm <= 305
    assert {left.place, centre.place, right.place} == {"rear_centre"}


def test_a_row_on_the_longest_vehicle_is_drawn_with_twenty_lamps_a_side_at_most() -> None:
    row = rule(id="m", kind="side_marker", end="side", gap_mm=3000)
    for length_mm, count in ((57_000, 19), (60_000, 20), (66_000, 20)):
        lamps = lamps_for(vehicle(length_mm=length_mm), [checklist(row)])
        assert len([lamp for lamp in lamps if lamp.y_mm > 0]) == count


def test_a_variant_of_none_takes_the_lamps_away() -> None:
    one = LampRule.model_validate(rule(variant=[SHORTER | {"quantity": 0}]))
    assert lamps_of_rule(one, vehicle(), "D") is None


def test_of_several_variants_each_counts_a_later_one_after_an_earlier_one() -> None:
    first = SHORTER | {"height": "high", "along": 0.2}
    second = SHORTER | {"height": "low", "source": "note 2", "provenance": "read"}
    one = LampRule.model_validate(rule(variant=[first, second]))
    found = lamps_of_rule(one, vehicle(), "D")
    assert found is not None
    assert (found.height, found.along) == ("low", 0.2)
    assert (found.source, found.provenance) == ("table; note 1; note 2", "memory")


def test_a_variant_of_the_file_is_one_of_every_row() -> None:
    rows = checklist(rule(), rule(id="stop", kind="stop"), variant=[SHORTER | {"required": False}])
    lamps = lamps_for(vehicle(), [rows])
    assert {lamp.rule for lamp in lamps} == {"tail", "stop"}
    assert not any(lamp.required for lamp in lamps)
    assert {lamp.source for lamp in lamps} == {"table; note 1"}


@given(length_mm=st.floats(1000, 60_000), rear_mm=st.sampled_from([0.0, 1000.0]))
def test_a_row_along_the_side_keeps_its_gaps_with_no_lamp_too_many(
    length_mm: float, rear_mm: float
) -> None:
    row = rule(id="m", kind="side_marker", end="side", gap_mm=3000, rear_gap_mm=rear_mm)
    lamps = lamps_for(vehicle(length_mm=length_mm), [checklist(row)])
    right = [lamp.x_mm for lamp in lamps if lamp.y_mm > 0]
    gaps = [b - a for a, b in zip([0.0, *right], right, strict=False)]
    assert len(lamps) == 2 * len(right)
    assert max(gaps) <= 3000.001
    assert length_mm - right[-1] <= max(rear_mm, length_mm / 2) + 0.001
    # One fewer would not do.
    assert len(right) == 2 or (length_mm - rear_mm) / (len(right) - 1) > 3000
    assert {lamp.rule for lamp in lamps} == {"m"}


def test_lamps_along_the_side_are_counted_from_the_front() -> None:
    row = rule(id="m", name="side marker", end="side", gap_mm=3000, rear_gap_mm=1000)
    lamps = lamps_for(vehicle(length_mm=7000), [checklist(row)])
    assert [(lamp.id, str(lamp.name), lamp.x_mm) for lamp in lamps] == [
        ("m_1_left", "left first side marker", 3000),
        ("m_1_right", "right first side marker", 3000),
        ("m_2_left", "left second side marker", 6000),
        ("m_2_right", "right second side marker", 6000),
    ]


def test_a_lamp_bears_the_circuit_that_its_rule_names() -> None:
    lamps = lamps_for(vehicle(), [checklist(rule(kind="other", circuit="fog"))])
    assert {lamp.circuit for lamp in lamps} == {"fog"}


def test_one_tail_and_one_stop_lamp_share_a_housing_too() -> None:
    lamps = shipped_lamps(vehicle(kind="converter dolly", towed_singly=True))
    assert lamps["tail"].housing == lamps["stop"].housing == "rear_centre"


def test_a_checklist_for_other_vehicles_adds_no_lamps() -> None:
    others = checklist(rule(), applies={"volts": 24})
    assert lamps_for(vehicle(), [others]) == ()


def test_a_pair_stands_left_and_right_of_the_centreline_right_being_positive() -> None:
    left, right = lamps_for(vehicle(), [checklist(rule(across=0.5))])
    assert (left.id, left.x_mm, left.y_mm) == ("tail_left", 10000, -600)
    assert (right.id, right.x_mm, right.y_mm) == ("tail_right", 10000, 600)
    assert str(left.name) == "left tail lamp"


def test_a_single_lamp_bears_the_name_of_its_rule() -> None:
    [one] = lamps_for(vehicle(), [checklist(rule(id="plate", spread="centre", quantity=1))])
    assert (one.id, str(one.name), one.y_mm, one.place) == ("plate", "tail lamp", 0, "rear_centre")


@pytest.mark.parametrize(
    ("spread", "y_mm", "place", "spot"),
    [
        ("left", -1200, "left_side_rear", "left_side"),
        ("right", 1200, "right_side_rear", "right_side"),
    ],
)
def test_a_lamp_on_one_side_is_seen_from_there(
    spread: str, y_mm: float, place: str, spot: str
) -> None:
    row = rule(end="side", along=0.95, spread=spread, quantity=1)
    [one] = lamps_for(vehicle(), [checklist(row)])
    assert (one.x_mm, one.y_mm, one.place, one.spot) == (9500, y_mm, place, spot)


@pytest.mark.parametrize(("along", "third"), [(0.0, "front"), (0.5, "middle"), (1.0, "rear")])
def test_side_lamps_are_named_by_the_third_they_stand_in(along: float, third: str) -> None:
    left, right = lamps_for(vehicle(), [checklist(rule(end="side", along=along))])
    assert (left.place, right.place) == (f"left_side_{third}", f"right_side_{third}")


def test_of_two_rules_with_one_id_the_first_counts() -> None:
    first, second = checklist(rule(name="first")), checklist(rule(name="second"), id="d")
    assert {str(lamp.name) for lamp in lamps_for(vehicle(), [first, second])} == {
        "left first",
        "right first",
    }


def test_lamps_that_the_law_asks_for_come_first() -> None:
    extra = checklist(rule(id="extra", required=False))
    needed = checklist(rule(), id="d")
    found = [lamp.rule for lamp in lamps_for(vehicle(), [extra, needed])]
    assert found == ["tail", "tail", "extra", "extra"]


def test_reflectors_are_not_among_the_electric_lamps() -> None:
    both = checklist(rule(), rule(id="glass", kind="reflector"), rule(id="tape", kind="tape"))
    assert {lamp.rule for lamp in lamps_for(vehicle(), [both])} == {"tail"}
    assert {lamp.rule for lamp in reflectors_for(vehicle(), [both])} == {"glass", "tape"}


def test_tail_and_stop_share_a_housing_and_a_separate_turn_signal_has_its_own() -> None:
    lamps = shipped_lamps(vehicle())
    assert lamps["tail_left"].housing == lamps["stop_left"].housing == "rear_left"
    assert lamps["turn_rear_left"].housing == "turn_rear_left"


def test_a_combined_turn_signal_is_one_housing_of_three_lamps_in_one_place() -> None:
    lamps = shipped_lamps(vehicle("combined"))
    three = [lamps[id_] for id_ in ("tail_right", "stop_right", "turn_rear_right")]
    assert {lamp.housing for lamp in three} == {"rear_right"}
    assert len({(lamp.x_mm, lamp.y_mm) for lamp in three}) == 1


def test_blackout_marker_and_stop_share_a_housing_and_may_be_left_out() -> None:
    lamps = shipped_lamps(vehicle(blackout=True))
    assert lamps["blackout_marker_left"].housing == lamps["blackout_stop_left"].housing
    assert lamps["blackout_marker_left"].housing != lamps["tail_left"].housing
    assert not lamps["blackout_stop_left"].required
    assert lamps["tail_left"].required


def test_a_power_unit_has_front_blackout_markers_of_their_own() -> None:
    lamps = shipped_lamps(vehicle(blackout=True, kind="truck"))
    assert lamps["blackout_marker_front_left"].housing == "blackout_marker_front_left"
    assert lamps["blackout_drive"].place == "front_left"
    assert not shipped_lamps(vehicle(blackout=True)).keys() & {"blackout_drive"}


SIZES = st.tuples(st.floats(500, 2600), st.floats(1000, 20000))
TOLD = st.fixed_dictionaries(
    {
        key: st.booleans()
        for key in ("boat", "towed_singly", "hides_towing_lamps", "double_faced_turn")
    }
)


@given(
    kind=st.sampled_from(KINDS),
    size=SIZES,
    stop_turn=st.sampled_from(["separate", "combined"]),
    blackout=st.booleans(),
    made=st.dates(date(1960, 1, 1), date(2025, 1, 1)),
    rules=st.sampled_from(["us", "unece"]),
    told=TOLD,
)
def test_whatever_the_vehicle_its_lamps_are_told_apart_and_lie_on_it(
    kind: str,
    size: tuple[float, float],
    stop_turn: str,
    blackout: bool,
    made: date,
    rules: str,
    told: dict[str, bool],
) -> None:
    one = vehicle(
        stop_turn,
        blackout,
        kind=kind,
        width_mm=size[0],
        length_mm=size[1],
        made=made,
        rules=rules,
        brakes={"system": "air"},
        **told,
    )
    lamps = lamps_for(one, SHIPPED) + reflectors_for(one, SHIPPED)
    assert len({lamp.id for lamp in lamps}) == len(lamps)
    assert len({str(lamp.name) for lamp in lamps}) == len(lamps)
    for lamp in lamps:
        assert 0 <= lamp.x_mm <= one.length_mm
        assert abs(lamp.y_mm) <= one.width_mm / 2
        assert lamp.spot in SPOTS
        sides = set(lamp.place.split("_")) & {"left", "right"}
        assert sides in ([{"left"}] if lamp.y_mm < 0 else [{"right"}]) or "centre" in lamp.place


@given(kind=st.sampled_from(KINDS), size=SIZES)
def test_left_and_right_mirror_each_other(kind: str, size: tuple[float, float]) -> None:
    one = vehicle(kind=kind, width_mm=size[0], length_mm=size[1])
    lamps = shipped_lamps(one)
    for id_, lamp in lamps.items():
        if id_.endswith("_left"):
            other = lamps[f"{id_.removesuffix('_left')}_right"]
            assert (other.x_mm, other.y_mm) == (lamp.x_mm, -lamp.y_mm)
