"""Lamps per class against 49 CFR 393.11 Table 1, typed apart from the rule data.

lamps_393_11.csv holds one vehicle a line with the counts that the table gives it; the two demo
vehicles are listed lamp by lamp. What was read and what is from memory stands in the CSV's head.
"""

from __future__ import annotations

import csv
import re
from collections import Counter
from datetime import date
from pathlib import Path

import pint
import pytest

from walkaround.disk.locations import shipped
from walkaround.lamps.required_lamps import Lamp, lamps_for, lamps_of_rule, reflectors_for
from walkaround.library.load import Library, load_library
from walkaround.vehicle.model import Vehicle, VehicleClass, vehicle_class

TABLE = Path(__file__).with_name("lamps_393_11.csv")


def rows() -> list[dict[str, str]]:
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


@pytest.fixture(scope="module")
def library() -> Library:
    return load_library(shipped(), today=date(2025, 11, 1))


def bare_vehicle(kind: str, width_mm: float, length_mm: float) -> Vehicle:
    """A vehicle with nothing but size, light enough to need no tape, too old for ABS."""
    return Vehicle.model_validate(
        {
            "id": "x",
            "kind": kind,
            "made": date(1990, 1, 1),
            "width_mm": width_mm,
            "length_mm": length_mm,
            "gvwr_kg": 3000,
            "electrical": {"volts": 12, "connector": "sae_j560"},
        }
    )


def told(row: dict[str, str]) -> Vehicle:
    """The vehicle of one line, with the further keys that it names."""
    further: dict[str, object] = {}
    for word in filter(None, row["told"].split(";")):
        key, _, value = word.partition("=")
        if value in ("", "false"):
            further[key] = not value
        else:
            further[key] = value if key == "body" else float(value)
    plain = bare_vehicle(row["kind"], float(row["width_mm"]), float(row["length_mm"]))
    changes = {
        "made": date.fromisoformat(row["made"]),
        "gvwr_kg": float(row["gvwr_kg"]) if row["gvwr_kg"] else None,
        "brakes": {"system": row["brakes"]},
    }
    return Vehicle.model_validate({**plain.model_dump(), **changes, **further})


def counts(vehicle: Vehicle, library: Library) -> dict[str, str]:
    """How many lamps each row gives, as the table writes it."""
    lamps = lamps_for(vehicle, library.checklists) + reflectors_for(vehicle, library.checklists)
    found = Counter((lamp.rule, lamp.required) for lamp in lamps)
    return {rule: f"{count}{'' if required else '?'}" for (rule, required), count in found.items()}


@pytest.mark.parametrize("row", rows(), ids=lambda row: "-".join([*row.values()][:7]))
def test_each_vehicle_has_the_lamps_that_table_1_gives_its_class(
    row: dict[str, str], library: Library
) -> None:
    vehicle = told(row)
    assert vehicle_class(vehicle) == row["class"]
    expected = {item: row[item] for item in list(row)[8:] if row[item] != "0"}
    assert counts(vehicle, library) == expected


def test_every_row_of_the_us_tables_is_met_by_some_vehicle_or_is_for_loads(
    library: Library,
) -> None:
    files = [c for c in library.checklists if c.applies.rules == "us"]
    ids = {rule.id for file in files for rule in file.lamps}
    assert ids - set(rows()[0]) == {"side_marker_load", "reflector_load"}


def test_a_projecting_load_shows_what_table_1_gives_it(library: Library) -> None:
    # 49 CFR 393.11 Table 1, class H: tail and clearance lamps; footnote 10: two red side markers
    # and two red reflectors.
    vehicle = bare_vehicle("semitrailer", 2500, 9000)
    rules = [rule for checklist in library.checklists for rule in checklist.lamps if rule.classes]
    found = [lamps_of_rule(rule, vehicle, "H") for rule in rules]
    assert {rule.id: rule.quantity for rule in found if rule} == {
        "tail": 2,
        "clearance_front": 2,
        "clearance_rear": 2,
        "side_marker_load": 2,
        "reflector_load": 2,
    }


def lamps_by_rule(vehicle: Vehicle, library: Library) -> dict[str, Lamp]:
    lamps = lamps_for(vehicle, library.checklists) + reflectors_for(vehicle, library.checklists)
    return {lamp.rule: lamp for lamp in lamps}


@pytest.mark.parametrize("rule", ["side_marker_middle", "reflector_side_middle"])
def test_at_exactly_30_ft_the_floor_is_named(rule: str, library: Library) -> None:
    # 393.11 Table 1: over 30 ft; 571.108 Tables I-a and I-b: 30 ft or longer, the floor by (a)(1).
    at = lamps_by_rule(bare_vehicle("semitrailer", 2500, 9144), library)[rule]
    over = lamps_by_rule(bare_vehicle("semitrailer", 2500, 9145), library)[rule]
    assert (at.required, over.required) == (True, True)
    assert "571.108 Tables I-a, I-b, 30 ft or longer" in at.source
    assert "571.108" not in over.source


@pytest.mark.parametrize(("made", "most"), [(date(1979, 2, 28), False), (date(1979, 3, 1), True)])
def test_rear_side_markers_of_trailers_have_a_greatest_height_from_1979_on(
    made: date, most: bool, library: Library
) -> None:
    # 49 CFR 393.11 Table 1, footnote 4: 381 to 1524 mm.
    trailer = bare_vehicle("semitrailer", 2500, 9000).model_copy(update={"made": made})
    truck = bare_vehicle("truck", 2500, 9000).model_copy(update={"made": made})
    assert ("1524 mm" in lamps_by_rule(trailer, library)["side_marker_rear"].height) is most
    assert "1524 mm" not in lamps_by_rule(truck, library)["side_marker_rear"].height


# 49 CFR 393.11(a)(1), (2): which text binds by day and kind (read).
@pytest.mark.parametrize(
    ("kind", "made", "said"),
    [
        ("truck", date(1968, 12, 24), "393.11(a)(1)"),
        ("truck", date(1968, 12, 25), ""),
        ("pole trailer", date(2015, 1, 1), "393.11(a)(2)"),
        ("converter dolly", date(2015, 1, 1), "393.11(a)(2)"),
        ("semitrailer", date(2015, 1, 1), ""),
    ],
)
def test_the_source_says_which_text_binds(
    kind: str, made: date, said: str, library: Library
) -> None:
    vehicle = bare_vehicle(kind, 2500, 9000).model_copy(update={"made": made})
    for lamp in lamps_for(vehicle, library.checklists):
        assert (said in lamp.source) if said else ("393.11(a)" not in lamp.source)


def test_every_reflector_says_that_tape_in_its_place_may_stand_in(library: Library) -> None:
    # 49 CFR 393.11(a)(2)(i)-(ii) (read).
    for lamp in reflectors_for(bare_vehicle("semitrailer", 2500, 12000), library.checklists):
        if lamp.kind == "reflector":
            assert "tape in its place" in str(lamp.what)
            assert "393.11(a)(2)" in lamp.source


@pytest.mark.parametrize(
    ("made", "said"), [(date(1993, 11, 30), "393.13"), (date(1993, 12, 1), "393.11(b)")]
)
def test_tape_names_the_section_that_asks_for_it(made: date, said: str, library: Library) -> None:
    vehicle = bare_vehicle("semitrailer", 2500, 9000)
    heavy = vehicle.model_copy(update={"made": made, "gvwr_kg": 20000})
    tape = [lamp for lamp in reflectors_for(heavy, library.checklists) if lamp.kind == "tape"]
    assert tape
    assert all(said in lamp.source for lamp in tape)
    assert {"made before 1993-12-01" in lamp.source for lamp in tape} == {said == "393.13"}


def test_pole_trailer_lamps_are_on_the_rearmost_support(library: Library) -> None:
    # 49 CFR 393.11 Table 1, footnote 8: amber to the front, red to the rear.
    vehicle = bare_vehicle("pole trailer", 2500, 9000)
    found = lamps_by_rule(vehicle, library)
    for rule, colour in {"clearance_front": "amber", "clearance_rear": "red"}.items():
        assert (found[rule].x_mm > 0.8 * vehicle.length_mm, found[rule].colour) == (True, colour)
        assert "rearmost" in found[rule].source


# 49 CFR 393.11 Table 1, class D over 30 ft; 571.121 S5.2.3.3 for the ABS lamp.
SEMITRAILER_LAMPS = {
    "tail_left": "red",
    "tail_right": "red",
    "stop_left": "red",
    "stop_right": "red",
    "turn_rear_left": "amber or red",
    "turn_rear_right": "amber or red",
    "clearance_front_left": "amber",
    "clearance_front_right": "amber",
    "clearance_rear_left": "red",
    "clearance_rear_right": "red",
    "identification_rear_left": "red",
    "identification_rear_centre": "red",
    "identification_rear_right": "red",
    "side_marker_front_left": "amber",
    "side_marker_front_right": "amber",
    "side_marker_middle_left": "amber",
    "side_marker_middle_right": "amber",
    "side_marker_rear_left": "red",
    "side_marker_rear_right": "red",
    "licence_plate": "white",
    "abs": "yellow",
}
# 49 CFR 393.11 Table 1, class D under 30 ft, made before the ABS rule; blackout lamps from memory.
PUMP_TRAILER_LAMPS = {
    "tail_left": "red",
    "tail_right": "red",
    "stop_left": "red",
    "stop_right": "red",
    "turn_rear_left": "amber or red",
    "turn_rear_right": "amber or red",
    "clearance_front_left": "amber",
    "clearance_front_right": "amber",
    "clearance_rear_left": "red",
    "clearance_rear_right": "red",
    "identification_rear_left": "red",
    "identification_rear_centre": "red",
    "identification_rear_right": "red",
    "side_marker_front_left": "amber",
    "side_marker_front_right": "amber",
    "side_marker_rear_left": "red",
    "side_marker_rear_right": "red",
    "licence_plate": "white",
    "blackout_marker_left": "red",
    "blackout_marker_right": "red",
    "blackout_stop_left": "white or red",
    "blackout_stop_right": "white or red",
}


@pytest.mark.parametrize(
    ("vehicle_id", "expected"),
    [("sandbag_semitrailer_7", SEMITRAILER_LAMPS), ("pump_trailer_3", PUMP_TRAILER_LAMPS)],
)
def test_each_demo_vehicle_has_its_full_list_of_lamps_and_colours(
    vehicle_id: str, expected: dict[str, str], library: Library
) -> None:
    [vehicle] = [vehicle for vehicle in library.vehicles if vehicle.id == vehicle_id]
    lamps = lamps_for(vehicle, library.checklists)
    assert [(lamp.id, lamp.colour) for lamp in lamps] == list(expected.items())


def test_no_tail_or_stop_lamp_may_be_amber(library: Library) -> None:
    # 49 CFR 393.11(c).
    rules = [rule for checklist in library.checklists for rule in checklist.lamps]
    assert {rule.colour for rule in rules if rule.kind in ("tail", "stop")} == {("red",)}


# 49 CFR 571.121 S5.2.3.3 (read): on trailers the left side, near the red side marker; no side is
# named for dollies; lit when power first comes, then out.
def test_the_abs_lamp_is_on_the_left_and_lights_when_power_first_comes(library: Library) -> None:
    for kind, rule in {"semitrailer": "abs", "converter dolly": "abs_dolly"}.items():
        plain = bare_vehicle(kind, 2500, 9000).model_dump()
        vehicle = Vehicle.model_validate(
            {**plain, "made": date(2015, 1, 1), "brakes": {"system": "air"}}
        )
        lamp = lamps_by_rule(vehicle, library)[rule]
        assert (lamp.colour, lamp.spot) == ("yellow", "left_side")
        assert "lights for a few seconds when power first comes and then goes out" in str(lamp.what)
        assert ("names no side" in lamp.source) == (kind == "converter dolly")


def test_identification_lamps_stand_6_to_12_inches_apart(library: Library) -> None:
    # 49 CFR 393.11 Table 1: lamp centres 152 to 305 mm apart.
    lamps = lamps_for(bare_vehicle("bus", 2500, 11000), library.checklists)
    for end in ("front", "rear"):
        left, centre, right = (lamp.y_mm for lamp in lamps if lamp.rule == f"identification_{end}")
        assert 152 <= centre - left <= 305
        assert 152 <= right - centre <= 305


# 49 CFR 393.11 Table 1, last column but one: least and most, inches and the millimetres beside.
# High-mounted stop lamp: 571.108 Table I-a.
HEIGHTS = {
    "headlamp": ((22, 559), (54, 1372)),
    "turn_front": ((15, 381), (83, 2108)),
    "tail": ((15, 381), (72, 1829)),
    "stop": ((15, 381), (72, 1829)),
    "stop_high": ((34, 864), None),
    "turn_rear": ((15, 381), (83, 2108)),
    "side_marker_front": ((15, 381), None),
    "side_marker_middle": ((15, 381), None),
    "side_marker_rear": ((15, 381), None),
    "parking": ((15, 381), (83, 2108)),
    "reflector_rear": ((15, 381), (60, 1524)),
    "reflector_side_rear": ((15, 381), (60, 1524)),
    "reflector_side_middle": ((15, 381), (60, 1524)),
    "reflector_side_front": ((15, 381), (60, 1524)),
}
AS_HIGH_AS_PRACTICABLE = {"clearance_front", "clearance_rear"}
NEAR_THE_TOP = {"identification_front", "identification_rear"}


def test_each_row_has_the_height_of_table_1(library: Library) -> None:
    [table] = [each for each in library.checklists if each.id == "lamps_us_393_11"]
    height = {rule.id: rule.height for rule in table.lamps}
    for rule, (least, most) in HEIGHTS.items():
        if most is None:
            said = f"not below {least[0]} inches ({least[1]} mm) above the road"
        else:
            said = f"{least[0]} to {most[0]} inches ({least[1]} to {most[1]} mm) above the road"
        assert height[rule].startswith(said), rule
    others = {rule: text for rule, text in height.items() if rule not in HEIGHTS}
    for rule, text in others.items():
        if rule in AS_HIGH_AS_PRACTICABLE:
            assert text.startswith("as high as practicable")
        elif rule in NEAR_THE_TOP:
            assert "as close as practicable to the top" in text
        else:
            assert "no height set" in text, rule


@pytest.mark.parametrize("kind", ["semitrailer", "full trailer", "pole trailer"])
def test_rear_side_markers_of_later_trailers_are_15_to_60_inches_up(
    kind: str, library: Library
) -> None:
    # Footnote 4 for semitrailers and full trailers; the row itself for pole trailers.
    vehicle = bare_vehicle(kind, 2500, 9000)
    height = lamps_by_rule(vehicle, library)["side_marker_rear"].height
    assert height.startswith("15 to 60 inches (381 to 1524 mm) above the road")


# 571.108 S8.2.3.1.1, S8.2.3.2.1: 375 to 1525 mm; S8.2.4.1.2, S8.2.4.1.3: 300 mm, 1525 mm; 571.121
# S5.2.3.3(c): 150 to 600 mm from the side marker, on dollies not below 375 mm, seen from 3 m.
MARKED = {
    "tape_side": ["(375 to 1525 mm)"],
    "tape_rear_low": ["(375 to 1525 mm)"],
    "tape_rear_high": ["as high as practicable"],
    "tape_rear_guard": ["horizontal member of the guard"],
    "tape_tractor_rear": ["(300 mm)", "(1525 mm)"],
    "abs": ["(150 to 600 mm)", "no height set"],
    "abs_dolly": ["(375 mm)", "(3 m)"],
}


def test_tape_and_abs_lamps_are_where_their_paragraphs_say(library: Library) -> None:
    [table] = [each for each in library.checklists if each.id == "lamps_us_abs_tape"]
    height = {rule.id: rule.height for rule in table.lamps}
    assert set(height) == set(MARKED)
    for rule, texts in MARKED.items():
        assert all(text in height[rule] for text in texts), rule


INCHES = re.compile(r"([\d ]+?(?: to [\d ]+)?) (?:inches|feet) \(([\d to]+) (mm|m)\)")


def test_inches_and_millimetres_of_a_height_are_the_same(library: Library) -> None:
    """Converted by pint; the rules round millimetres to 25, or to whole ones."""
    units = pint.get_application_registry()
    heights = [r.height for c in library.checklists if c.applies.rules == "us" for r in c.lamps]
    pairs = [found for height in heights for found in INCHES.findall(height)]
    assert len(pairs) > 15
    for said, metric, unit in pairs:
        for value, beside in zip(said.split(" to "), metric.split(" to "), strict=True):
            name = "foot" if unit == "m" else "inch"
            exact = units.Quantity(float(value), name).to("mm" if unit == "mm" else "m").magnitude
            assert exact == pytest.approx(float(beside), rel=0.02, abs=3)


# Which footnote of Table 1, or which other text, changes a row for a class.
CHANGED_BY = [
    ("G", "clearance_front", "footnote 8"),
    ("G", "clearance_rear", "footnote 8"),
    ("G", "side_marker_rear", "footnote 8"),
    ("G", "reflector_side_rear", "footnote 8"),
    ("G", "reflector_rear", "footnote 6"),
    ("H", "tail", "footnote 10"),
    ("H", "clearance_front", "footnote 9"),
    ("H", "clearance_rear", "footnote 9"),
    ("H", "side_marker_load", "footnote 10"),
    ("H", "reflector_load", "footnote 10"),
]


@pytest.mark.parametrize(("class_", "rule_id", "named"), CHANGED_BY)
def test_a_row_names_the_footnote_that_changes_it_for_a_class(
    class_: VehicleClass, rule_id: str, named: str, library: Library
) -> None:
    vehicle = bare_vehicle("pole trailer", 2500, 9000)
    [rule] = [rule for each in library.checklists for rule in each.lamps if rule.id == rule_id]
    found = lamps_of_rule(rule, vehicle, class_)
    assert found is not None
    assert named in found.source
    others = [other for other in rule.classes if other not in ("G", "H")]
    for other in others:
        elsewhere = lamps_of_rule(rule, bare_vehicle("bus", 2500, 9000), other)
        assert elsewhere is not None
        assert named not in elsewhere.source.removeprefix(rule.source)


# 571.108 Tables I-a and I-b are the floor at exactly 30 ft for each of these classes.
@pytest.mark.parametrize(
    ("kind", "width_mm"),
    [("truck", 2000), ("bus", 2500), ("semitrailer", 2500), ("full trailer", 2000)],
)
@pytest.mark.parametrize("rule", ["side_marker_middle", "reflector_side_middle"])
def test_at_exactly_30_ft_every_class_names_the_floor(
    kind: str, width_mm: float, rule: str, library: Library
) -> None:
    at = lamps_by_rule(bare_vehicle(kind, width_mm, 9144), library)[rule]
    assert "571.108 Tables I-a, I-b" in at.source


# 393.11(a)(1): made before 1968-12-25, every class but E and G.
@pytest.mark.parametrize(
    ("kind", "width_mm"),
    [
        *(("truck", 2000), ("truck", 2500), ("truck tractor", 2500)),
        *(("semitrailer", 2500), ("semitrailer", 2000)),
    ],
)
def test_each_class_made_earlier_names_the_rules_of_its_making(
    kind: str, width_mm: float, library: Library
) -> None:
    vehicle = bare_vehicle(kind, width_mm, 9000).model_copy(update={"made": date(1968, 12, 24)})
    [table] = [each for each in library.checklists if each.id == "lamps_us_393_11"]
    lamps = lamps_for(vehicle, [table])
    assert lamps
    assert all("393.11(a)(1)" in lamp.source for lamp in lamps)


@pytest.mark.parametrize("rule", ["blackout_marker_front", "blackout_drive"])
@pytest.mark.parametrize(
    ("kind", "width_mm", "asked_for"),
    [
        *(("truck", 2500, True), ("truck", 2000, True), ("truck tractor", 2500, True)),
        *(("bus", 2500, True), ("semitrailer", 2500, False), ("full trailer", 2500, False)),
    ],
)
def test_front_blackout_lamps_are_asked_of_power_units_and_no_rule_requires_them(
    rule: str, kind: str, width_mm: float, asked_for: bool, library: Library
) -> None:
    """US Army practice, from memory: they are at the front of what has an engine."""
    vehicle = bare_vehicle(kind, width_mm, 7000)
    electrical = vehicle.electrical.model_copy(
        update={"volts": 24, "connector": "mil_12_us_tactical", "blackout": True}
    )
    found = lamps_by_rule(vehicle.model_copy(update={"electrical": electrical}), library)
    assert (rule in found) == asked_for
    if asked_for:
        assert not found[rule].required
