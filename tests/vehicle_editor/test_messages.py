"""A vehicle in words: sizes, class, lamps, wiring, and problems as sentences."""

from __future__ import annotations

from datetime import date

import pytest
from support.english import ENGLISH
from support.made_up_vehicles import BLACKOUT_TRAILER, REFERENCE, SEMITRAILER, SHIPPED

from walkaround.base.message import Quantity
from walkaround.base.units import Units
from walkaround.lamps.required_lamps import lamps_for
from walkaround.lamps.wiring import wire
from walkaround.vehicle.model import Vehicle
from walkaround.vehicle_editor.checks import vehicle_problems
from walkaround.vehicle_editor.edit import problems_beside, with_field
from walkaround.vehicle_editor.fields import FIELDS, Field
from walkaround.vehicle_editor.messages import (
    brake_words,
    class_words,
    field_text,
    lamp_counts,
    length_words,
    mass_words,
    month_words,
    plug_words,
    problem_sentence,
    vehicle_summary,
    volume_words,
    wiring_lines,
    year_words,
)


def field_of(key: str) -> Field:
    return next(field for fields in FIELDS.values() for field in fields if field.key == key)


def wiring_of(vehicle: Vehicle) -> list[str]:
    lamps = lamps_for(vehicle, REFERENCE.checklists)
    return list(map(str, wiring_lines(wire(vehicle, lamps, REFERENCE.connectors), lamps)))


# The international foot and pound are exactly 0.3048 m and 0.45359237 kg (agreement of 1959).
@pytest.mark.parametrize(
    ("size", "metric", "in_feet"),
    [
        (length_words(13716), "13.72 m", "45 ft 0 in"),
        (length_words(2591), "2.59 m", "8 ft 6 in"),
        (length_words(3657.4), "3.66 m", "12 ft 0 in"),
        (mass_words(4536), "4,536 kg", "10,000 lb"),
        (mass_words(36287), "36,287 kg", "80,000 lb"),
    ],
)
def test_sizes_are_told_in_the_units_of_their_reader(
    size: Quantity, metric: str, in_feet: str
) -> None:
    assert ENGLISH.shown_in(Units(length="mm")).quantity(size) == metric
    assert ENGLISH.quantity(size) == in_feet


# An inch is exactly 2.54 cm: 60 L are 60,000 / 16.387064 = 3661.4 cubic inches.
def test_volumes_are_told_in_litres_or_in_cubic_inches() -> None:
    told = volume_words(60)
    assert ENGLISH.shown_in(Units(length="mm")).text(told) == "60 L"
    assert ENGLISH.text(told) == "3,660 cu in"
    assert ENGLISH.spoken(ENGLISH.text(told)).endswith("sixty cubic inches")


def test_months_do_not_depend_on_the_language_of_the_machine() -> None:
    assert str(month_words(date(2014, 5, 12))) == "May 2014"


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("kind", "Semitrailer"),
        ("made", "May 2014"),
        ("gvwr_kg", "66,140 lb"),
        ("electrical.connector", "7-pin heavy trailer, primary"),
        ("electrical.second_connector", "None"),
        ("brakes.system", "Air"),
        ("brakes.axles", "2"),
        ("brakes.axles.*.type", "Type 30"),
        ("brakes.axles.*.rated_stroke_in", "3 in"),
        ("brakes.axles.*.spring", "1 and 2"),
        ("brakes.axles.*.lift", "None"),
        ("brakes.reservoir_l", "3,660 cu in and 3,660 cu in"),
        ("brakes.abs", "By date"),
        ("plate", "FR 0714"),
    ],
)
def test_each_field_says_what_the_vehicle_says(key: str, words: str) -> None:
    assert str(field_text(field_of(key), SEMITRAILER, REFERENCE)) == words


def test_what_is_not_known_or_differs_is_told_so() -> None:
    unknown = SEMITRAILER.model_copy(update={"gvwr_kg": None})
    assert str(field_text(field_of("gvwr_kg"), unknown, REFERENCE)) == "Not known"
    differs = with_field(SEMITRAILER, "brakes.axles.*.type", "20", REFERENCE, axle=0)
    told = field_text(field_of("brakes.axles.*.type"), differs, REFERENCE)
    assert str(told) == "Differs from axle to axle"
    empty = SEMITRAILER.brakes.model_copy(update={"reservoir_l": ()})
    without = SEMITRAILER.model_copy(update={"brakes": empty})
    assert str(field_text(field_of("brakes.reservoir_l"), without, REFERENCE)) == "None told"


def test_every_field_and_everything_to_choose_has_a_name() -> None:
    for fields in FIELDS.values():
        for field in fields:
            assert ENGLISH.text(field.title)
            for option in getattr(field, "options", ()):
                assert ENGLISH.text(option.word)
            for at in getattr(field, "what", ()):
                assert ENGLISH(f"hurt-{at}")
            for at in getattr(field, "where", ()):
                assert ENGLISH(f"hurt-at-{at}")


def test_a_problem_beside_a_field_speaks_of_the_field_and_has_no_ids() -> None:
    wrong = SEMITRAILER.electrical.model_copy(update={"volts": 24})
    vehicle = SEMITRAILER.model_copy(update={"electrical": wrong, "vin": "1M8GDM9A1KP042788"})
    found = vehicle_problems(vehicle, "", REFERENCE)

    def told(key: str) -> list[str]:
        field = field_of(key)
        return [
            str(problem_sentence(field, problem, REFERENCE))
            for problem in problems_beside(field, found)
        ]

    (volts,) = told("electrical.volts")
    assert volts.startswith("Voltage is 24, but 7-pin heavy trailer, primary is a 12 V connector;")
    (vin,) = told("vin")
    assert vin.startswith("The VIN's check digit, character 9, is 1 where X would fit;")


def test_the_class_is_told_with_what_it_means() -> None:
    """49 CFR 393.11 Table 1: 80 in divides classes D and F, from memory."""
    assert "class D" in str(class_words(SEMITRAILER))
    narrow = SEMITRAILER.model_copy(update={"width_mm": 2000.0})
    assert str(class_words(narrow)).endswith(
        "class F: small semitrailer or full trailer, narrower than 80 in"
    )
    other = SEMITRAILER.model_copy(update={"rules": "unece"})
    assert "UN Regulation No. 48" in str(class_words(other))


def test_both_model_years_of_a_vin_are_told() -> None:
    assert str(year_words("1M8GDM9AXKP042788")) == "Model year by the VIN: 1989 or 2019."
    assert year_words("") is None


@pytest.mark.parametrize("vehicle", SHIPPED.values(), ids=SHIPPED)
def test_every_lamp_is_counted_once_and_fed_once(vehicle: Vehicle) -> None:
    lamps = lamps_for(vehicle, REFERENCE.checklists)

    def total(words: list[str]) -> int:
        return sum(int(word.split(" ")[0]) for word in words)

    assert total([str(count) for count in lamp_counts(lamps)]) == len(lamps)
    fed = [part for line in wiring_of(vehicle) for part in line.split(": ")[1].split(", ")]
    assert total(fed) == len(lamps)


def test_the_wiring_names_contacts_and_those_to_measure_first() -> None:
    assert "Tail lamps (pin 6): 2 tail, 3 identification" in wiring_of(SEMITRAILER)
    blackout = next(line for line in wiring_of(BLACKOUT_TRAILER) if line.startswith("Blackout m"))
    assert blackout == "Blackout markers (pins A, C, and H, measure first): 2 blackout marker"
    assert wiring_of(SHIPPED["depot_tractor_2"])[0].startswith("Clearance and markers: ")


def test_plug_and_brakes_in_one_line_each() -> None:
    plug = "12 V, 7-pin heavy trailer, primary; stop and turn separate; bulbs"
    assert str(plug_words(SEMITRAILER, REFERENCE.connectors)) == plug
    assert str(brake_words(SEMITRAILER)) == "Air brakes, 2 axles, spring brakes on 2, ABS"
    assert str(brake_words(BLACKOUT_TRAILER)).endswith("no spring brakes, no ABS required")
    none = with_field(SEMITRAILER, "brakes.system", "none", REFERENCE)
    assert str(brake_words(with_field(none, "brakes.axles", 1, REFERENCE))) == "No brakes, 1 axle"


def test_a_vehicle_in_a_list_is_told_by_kind_voltage_length_and_plate() -> None:
    assert str(vehicle_summary(SEMITRAILER)) == "Semitrailer, 12 V, 45 ft 0 in long, FR 0714"
